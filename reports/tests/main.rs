//! Whole reports of made runs, and how often the statistics are right.

mod coverage;
mod cross;
mod curves;
mod ladder;
mod looks;
mod made;
mod pages;
mod published_c;
mod strengths;
mod sureness;
mod sweep;
mod published_b;
mod tune;
