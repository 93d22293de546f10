//! `RULES.md`, paragraph by paragraph.

mod acting;
mod assault;
mod batteries;
mod deck;
mod fire;
mod ground;
mod guns;
mod hidden;
mod leaders;
mod markers;
mod numbers;
mod options;
mod placing;
mod riding;
mod text;
mod turn_end;
mod vehicles;
mod victory;
mod will;
mod works;
