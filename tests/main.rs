//! The test suite of the whole project: everything that needs more than one crate.
//!
//! - `check`: what `ruleshift check` finds beyond faults, `explain`, `new script`
//! - `chances`: the estimated chance to win against who won
//! - `columns`: what is printed for readers fits eighty columns
//! - `compare`: what `ruleshift compare` writes and prints
//! - `odds`: exact chances the program tells, against games of the engine
//! - `experiments`: sweeps, crossed variants, tunings, comparisons that stop early
//! - `plans`: plans played again, plans by hand
//! - `null`: a rule that changes nothing shifts nothing, to the bit
//! - `determinism`: the same run twice, on any number of threads; tickets come back
//! - `golden`: digests of fixed games; blessed with `RULESHIFT_BLESS=1`
//! - `handicap`: support that the name of a scenario adds
//! - `faults`: everything that can be typed or written wrongly, and what is said about it
//! - `deck`: cards drawn against exact chances
//! - `diverge`: where two games part, which hook made them, games to be watched
//! - `doctrines`: each computer player has a character of its own
//! - `dice`: dice against exact chances
//! - `field`: fire, spotting, forces and fairness against the trade; prints the calibration table
//! - `players`: no player knows what its side cannot see
//! - `hunt`: what a search for a style that abuses a rule finds, and what it leaves alone
//! - `hooks`: every hook is asked, and its example changes a game
//! - `metrics`: the table of metrics as it is listed, the timing table as it is written
//! - `pairing`: the same luck in both arms is worth games
//! - `queries`: tables of games as DuckDB and pyarrow read them
//! - `rates`: how often answers about real games are wrong, and found as promised
//! - `style`: who plays, what is forbidden to whom, what behaviours are worth
//! - `sketch`: drawn scenarios, a thousand of them played
//! - `readme`: the commands of the pages for readers run as they stand
//! - `renders`: the same numbers on the terminal, in Markdown, on the page and as data
//! - `schemas`: what every experiment writes has the published form
//! - `shards`: one plan played in parts is the same run, whatever happens to the parts
//! - `tidy`: layout, arrows between crates, sizes, words that must not appear, what comes from outside
//! - `variants`: what the shipped house rules do; writes the measured tables of their page
//! - `why`: decisions told with what the players made of their choices

mod chances;
mod check;
mod columns;
mod compare;
mod deck;
mod determinism;
mod dice;
mod diverge;
mod doctrines;
mod experiments;
mod faults;
mod field;
mod golden;
mod handicap;
mod hooks;
mod hunt;
mod ladder;
mod metrics;
mod null;
mod odds;
mod offers;
mod pairing;
mod planner;
mod plans;
mod players;
mod queries;
mod rates;
mod readme;
mod renders;
mod schemas;
mod secrets;
mod shards;
mod sketch;
mod style;
mod support;
mod tidy;
mod variants;
mod why;
