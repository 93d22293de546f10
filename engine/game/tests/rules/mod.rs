//! `RULES.md`, paragraph by paragraph.

mod acting;
mod assault;
mod deck;
mod fire;
mod ground;
mod leaders;
mod markers;
mod placing;
mod text;
mod turn_end;
mod victory;
mod will;
