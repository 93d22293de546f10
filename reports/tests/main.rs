//! Whole reports of made runs, and how often the statistics are right.

mod coverage;
mod ladder;
mod made;
mod pages;
mod published;
mod strengths;
mod sureness;
