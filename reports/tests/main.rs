//! Whole reports of made runs, and how often the statistics are right.

mod coverage;
mod ladder;
mod looks;
mod made;
mod pages;
mod published_b;
mod strengths;
mod sureness;
mod tune;
