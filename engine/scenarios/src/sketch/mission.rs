//! What each mission asks of a sketch: strength, time and where on the table.

use super::words::Mission;

/// The numbers of one mission. Spans hold their ends.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Frame {
    /// Length in turns.
    pub(crate) turns: [i32; 2],
    /// Sections of the defender.
    pub(crate) defenders: [i32; 2],
    /// Sections of the attacker for each ten of the defender.
    pub(crate) odds: [i32; 2],
    /// Break points in percent, attacker's first.
    pub(crate) break_points: [[i32; 2]; 2],
    /// Columns where the attacker starts.
    pub(crate) start: [i32; 2],
    /// The first column of the defender's ground.
    pub(crate) line: i32,
    /// How far from a place that is worth something the defender may stand, in inches.
    pub(crate) spread: u8,
    /// Chance in percent of a stream, and the columns in which it may run; 0 for never.
    pub(crate) stream: (i32, [i32; 2]),
}

/// The numbers of a mission.
pub(crate) const fn frame(mission: Mission) -> Frame {
    let usual = Frame {
        turns: [10, 12],
        defenders: [3, 5],
        odds: [15, 20],
        break_points: [[32, 35], [35, 38]],
        start: [12, 16],
        line: 36,
        spread: 9,
        stream: (40, [24, 28]),
    };
    match mission {
        Mission::Attack => usual,
        Mission::Meeting => Frame {
            turns: [10, 11],
            defenders: [5, 6],
            odds: [10, 10],
            break_points: [[34, 34], [34, 34]],
            line: 56,
            stream: (0, [0, 0]),
            ..usual
        },
        Mission::Prepared => Frame {
            turns: [13, 13],
            defenders: [3, 4],
            odds: [20, 25],
            break_points: [[32, 34], [36, 40]],
            start: [20, 25],
            line: 48,
            spread: 9,
            stream: (30, [28, 32]),
        },
        Mission::Delay => Frame {
            turns: [11, 13],
            defenders: [3, 4],
            odds: [20, 25],
            break_points: [[32, 34], [38, 42]],
            line: 43,
            spread: 14,
            stream: (100, [34, 37]),
            ..usual
        },
        Mission::Probe => Frame {
            turns: [10, 12],
            defenders: [2, 3],
            odds: [10, 15],
            break_points: [[35, 38], [35, 38]],
            start: [8, 14],
            line: 40,
            spread: 16,
            ..usual
        },
        Mission::Village => {
            Frame { turns: [11, 13], break_points: [[34, 36], [38, 42]], line: 38, ..usual }
        }
    }
}
