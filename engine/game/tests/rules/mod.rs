//! `RULES.md`, paragraph by paragraph.

mod acting;
mod assault;
mod deck;
mod fire;
mod ground;
mod guns;
mod leaders;
mod markers;
mod numbers;
mod placing;
mod riding;
mod text;
mod turn_end;
mod vehicles;
mod victory;
mod will;
