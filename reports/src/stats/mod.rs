//! The statistics behind every number of a report, one question per file.
//!
//! Distribution functions come from `statrs`; formulas are the published ones named at the head of
//! each file. A question that the data cannot answer yields `None`.

mod band;
mod bootstrap;
mod bradley_terry;
mod cholesky;
mod clopper_pearson;
mod clustered;
mod contrast;
mod control;
mod crossing;
mod curve;
mod draws;
mod edge;
mod effects;
mod estimate;
mod factorial;
mod fdr;
mod fixed_width;
mod further;
mod heterogeneity;
mod histogram;
mod holm;
mod isotonic;
mod joint;
mod landmark;
mod log_rank;
mod logistic;
mod mcnemar;
mod moments;
mod monitor;
mod newcombe;
mod pairs;
mod power;
mod quadrature;
mod reduction;
mod restricted_mean;
mod saving;
mod sequential;
mod share;
mod skewness;
mod spending;
mod stratified;
mod survival;
mod tuning;
mod unseen;
mod verdict;
mod walk;
mod wilson;
mod win_graph;

pub use band::{DRAWS, NormalDraws, band_confidence};
pub use bootstrap::{Correction, Resampled, Resampling, bootstrap};
pub use bradley_terry::{LogOdds, NoStrengths, Pairing, SideTerm, Strengths, chance, strengths};
pub use clopper_pearson::clopper_pearson;
pub use clustered::Played;
pub use contrast::contrast;
pub use control::{Controlled, ControlledStratum, controlled_mean, loss_factor};
pub use crossing::{Crossing, Possible, band_crossing, fieller};
pub use curve::{Curve, LackOfFit, Link, curve};
pub use draws::Draws;
pub use edge::{Contest, Edge, edge};
pub use effects::{RandomEffects, random_effects};
pub use estimate::{Estimate, Interval};
pub use factorial::{half_normal_places, yates};
pub use fdr::{benjamini_hochberg, benjamini_yekutieli};
pub use fixed_width::{FLOOR, Width, needed_for_width, width_step};
pub use further::{
    POWER, further_games, pairs_for_equivalence, pairs_for_rate_shift, pairs_for_shift,
};
pub use heterogeneity::{Heterogeneity, heterogeneity};
pub use histogram::{Histogram, histogram};
pub use holm::holm;
pub use isotonic::{antitonic, isotonic};
pub use joint::{Joint, joint};
pub use landmark::{Landmark, LandmarkShift, grouped_landmark_shifts, landmark_shifts};
pub(crate) use log_rank::log_rank_counted;
pub use log_rank::{LogRank, log_rank};
pub use logistic::{Logistic, log_odds, logistic, rate};
pub use mcnemar::mcnemar_mid_p;
pub use moments::Moments;
pub use monitor::{Decided, Monitor, Seen};
pub use newcombe::{PairTable, unpaired_interval};
pub use pairs::CountedPairs;
pub use power::{
    games_for_rates, pairs_for_t, pairs_to_settle, rates_power, t_power, with_continuity,
};
pub use reduction::{Reduction, reduction, strata_ratio};
pub(crate) use restricted_mean::restricted_mean_shift_of;
pub use restricted_mean::{Normal, restricted_mean_shift};
pub use saving::variance_ratio;
pub use sequential::{Bounds, Sides, bounds, exits};
pub use share::{Share, share};
pub use skewness::{skew_equivalence_p, skewness_of_mean};
pub use spending::Spending;
pub use stratified::stratified_mean;
pub(crate) use survival::{Counted, by_length};
pub use survival::{Length, OpenInterval, Step, Survival};
pub use tuning::{Tried, TuneFound, TuneStep, TuneTask, Tuning};
pub use unseen::unseen_share;
pub use verdict::{Evidence, verdict};
pub use wilson::wilson;

use statrs::distribution::{ContinuousCDF, Normal as NormalDistribution};

/// Confidence of every interval that a report prints.
pub const CONFIDENCE: f64 = 0.95;

/// The level of every test: of Holm's method over a family, and of each equivalence test.
pub const LEVEL: f64 = 0.05;

/// The quantile of the standard normal distribution at `p`, which lies inside (0, 1).
fn normal_quantile(p: f64) -> f64 {
    NormalDistribution::standard().inverse_cdf(p.clamp(f64::MIN_POSITIVE, 1.0 - f64::EPSILON))
}

/// The share of the standard normal distribution below `z`.
fn normal_share(z: f64) -> f64 {
    NormalDistribution::standard().cdf(z)
}

/// The chance that a standard normal number exceeds `z`.
fn normal_tail(z: f64) -> f64 {
    NormalDistribution::standard().sf(z)
}
