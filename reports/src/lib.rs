//! Statistics, the report tree and its renderers.
//!
//! [`summarise`] turns the games of a run into its answer, [`build`] turns the answer into a
//! [`Report`], and each renderer turns that into text: [`terminal`], [`markdown`], [`html`].
//! [`json`] prints the answer itself; [`build_vote`] and [`vote_sheet`] make a sheet to vote on. For a
//! ladder, [`rank`] and [`build_ladder`] do the same. All are pure functions: no file, clock or chance.

mod answer;
mod build;
mod columns;
mod cross;
mod format;
mod glossary;
mod handicap;
mod hunt;
mod ladder;
mod looks;
mod method_page;
mod render;
mod report;
#[cfg(test)]
mod sample;
pub mod stats;
mod summarise;
mod sweep;
mod tune;
mod vote;
pub mod watch;
mod words;

pub use build::build;
pub use cross::{build_cross, cross};
pub use glossary::MetricNote;
pub use handicap::{build_handicap, even_out};
pub use hunt::{build_hunt, judge, seeming_gain};
pub use ladder::{LadderGames, LadderRow, Outcome, build_ladder, rank};
pub use looks::{Next, next};
pub use method_page::{METHOD_PAGE, MethodSection};
pub use render::{html, json, markdown, terminal, vote_sheet};
pub use report::{
    Block, Cell, Chart, Column, CoursePanel, ForestMark, ForestRow, HalfNormalMark, Heat, PageLink,
    Plot, Replay, Report, Response, Section, ShareMark, ShareRow, Table, TicketLine,
};
pub use summarise::{summarise, summarise_shifts};
pub use sweep::{build_sweep, sweep};
pub use tune::{build_tune, tune};
pub use vote::build_vote;
