//! How many games until an interval is narrow enough?
//!
//! The sequential rule of Chow & Robbins (1965), Annals of Mathematical Statistics 36:457-462: stop
//! at the first look at which the interval reaches no farther than wanted. It holds its confidence
//! in the limit of narrow intervals; with few games it stops too early, when the spread happens to
//! look small (Law & Kelton 2000, Simulation Modeling and Analysis, section 9.4.1; from memory). So
//! the first look comes at [`FLOOR`] games, and the next where the spread seen foresees the end,
//! but not before a tenth more nor after twice the games: few looks, and few games too many.
//! Simulated in `reports/tests/looks.rs`: between 94 and 96 of 100 intervals hold the truth.

/// Games before the first look.
pub const FLOOR: u32 = 200;

/// What a look at a width says.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Width {
    /// The interval is narrow enough.
    Reached,
    /// Play on to that many games in all, then look again.
    Play(u32),
    /// No more games are allowed; about so many in all would do.
    Capped(f64),
}

/// Games in all that would make an interval reach `wanted` to either side, when one of `done` games
/// reaches `reach`: as the square of the ratio (Chow & Robbins 1965). `None` unless what is wanted
/// is above zero.
pub fn needed_for_width(done: u32, reach: f64, wanted: f64) -> Option<f64> {
    (wanted > 0.0).then(|| f64::from(done) * (reach / wanted).powi(2))
}

/// What to do after `done` games of at most `cap`, when the interval reaches `reach` to either side
/// and `wanted` is enough (Chow & Robbins 1965). An interval that has no width when no game
/// differs, such as Student's, is believed at the floor: for rates give that of Wilson or of
/// Newcombe.
pub fn width_step(done: u32, reach: f64, wanted: f64, cap: u32) -> Width {
    if done < FLOOR.min(cap) {
        return Width::Play(FLOOR.min(cap));
    }
    if reach <= wanted {
        return Width::Reached;
    }
    let needed = needed_for_width(done, reach, wanted).unwrap_or(f64::INFINITY);
    if done >= cap {
        return Width::Capped(needed);
    }
    let (least, most) = (done.saturating_add(done.div_ceil(10)), done.saturating_mul(2));
    // A float beyond the range becomes the largest count.
    Width::Play((needed.ceil() as u32).clamp(least, most).min(cap))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn half_the_width_takes_four_times_the_games() {
        assert_eq!(needed_for_width(500, 0.04, 0.02), Some(2000.0));
        assert_eq!(needed_for_width(500, 0.04, 0.0), None);
    }

    #[test]
    fn the_next_look_is_where_the_end_is_foreseen() {
        assert_eq!(width_step(1000, 0.05, 0.04, 9000), Width::Play(1563));
        assert_eq!(width_step(1000, 0.0401, 0.04, 9000), Width::Play(1100));
        assert_eq!(width_step(1000, 0.4, 0.04, 9000), Width::Play(2000));
        assert_eq!(width_step(1000, 0.4, 0.04, 1500), Width::Play(1500));
        assert_eq!(width_step(1000, 0.04, 0.04, 9000), Width::Reached);
        assert_eq!(width_step(9000, 0.08, 0.04, 9000), Width::Capped(36_000.0));
    }

    #[test]
    fn a_narrow_interval_of_few_games_is_not_believed() {
        assert_eq!(width_step(0, f64::INFINITY, 0.04, 9000), Width::Play(FLOOR));
        assert_eq!(width_step(FLOOR - 1, 0.0, 0.04, 9000), Width::Play(FLOOR));
        assert_eq!(width_step(50, 0.0, 0.04, 50), Width::Reached);
        assert_eq!(width_step(1000, 0.4, 0.0, 9000), Width::Play(2000));
        assert_eq!(width_step(u32::MAX - 1, f64::INFINITY, 0.1, u32::MAX), Width::Play(u32::MAX));
    }
}
