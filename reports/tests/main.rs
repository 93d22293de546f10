//! Whole reports of made runs, and how often the statistics are right.

mod coverage;
mod coverage_lengths;
mod coverage_resampled;
mod coverage_summaries;
mod ladder;
mod made;
mod pages;
mod published;
mod strengths;
mod sureness;
