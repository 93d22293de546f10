//! Whole reports of made runs, and how often the statistics are right.

mod coverage;
mod coverage_grouped;
mod coverage_lengths;
mod coverage_resampled;
mod coverage_summaries;
mod cross;
mod curves;
mod ladder;
mod looks;
mod made;
mod method;
mod pages;
mod published;
mod renderers;
mod strengths;
mod sureness;
mod sweep;
mod tune;
