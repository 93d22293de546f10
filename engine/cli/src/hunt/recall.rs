//! What a search has come to, kept after each of its stages: a hunt that was cut off goes on.
//!
//! One line per stage, in order: what each of its styles seemed to gain, as the bits of the number.
//! The search asks for the same styles again, since it draws from its seed alone.

use crate::exit::Failure;

/// The gains of the stages that are over.
pub(crate) struct Recall {
    text: String,
    known: std::vec::IntoIter<Vec<f64>>,
}

impl Recall {
    /// From the text that was kept; from the first line that is none on, nothing is known.
    pub(crate) fn of(text: &str) -> Recall {
        let whole = text.rfind('\n').map_or("", |end| &text[..end]);
        let known: Vec<Vec<f64>> = whole.lines().map_while(read).collect();
        Recall { text: String::new(), known: known.into_iter() }
    }

    /// What so many styles gained in the next stage: known, or else played; and the text that is to
    /// be kept when it was played.
    ///
    /// # Errors
    /// Those of `play`.
    pub(crate) fn next(
        &mut self,
        styles: usize,
        play: impl FnOnce() -> Result<Vec<f64>, Failure>,
    ) -> Result<(Vec<f64>, Option<&str>), Failure> {
        let known = self.known.next().filter(|gains| gains.len() == styles);
        let is_new = known.is_none();
        if is_new {
            self.known = vec![].into_iter();
        }
        let gains = known.map_or_else(play, Ok)?;
        self.text.push_str(&line(&gains));
        Ok((gains, is_new.then_some(&*self.text)))
    }
}

fn line(gains: &[f64]) -> String {
    let words: Vec<String> = gains.iter().map(|gain| format!("{:016x}", gain.to_bits())).collect();
    words.join(" ") + "\n"
}

fn read(line: &str) -> Option<Vec<f64>> {
    let bits = |word: &str| u64::from_str_radix(word, 16).ok().filter(|_| word.len() == 16);
    line.split(' ').map(|word| bits(word).map(f64::from_bits)).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    const ROUNDS: [[f64; 2]; 3] = [[0.1, -0.0], [1.0 / 3.0, 2e-300], [0.5, 0.25]];

    /// The text after `ROUNDS`, when all from number `from` on are played.
    fn played(kept: &str, from: usize) -> String {
        let mut recall = Recall::of(kept);
        let mut text = kept.to_owned();
        for (n, gains) in ROUNDS.iter().enumerate() {
            let mut asked = false;
            let (found, new) = recall
                .next(2, || {
                    asked = true;
                    Ok(gains.to_vec())
                })
                .unwrap_or_else(|e| panic!("{e}"));
            assert_eq!(
                found.iter().map(|g| g.to_bits()).collect::<Vec<_>>(),
                gains.map(f64::to_bits)
            );
            text = new.map_or(text, str::to_owned);
            assert_eq!(asked, n >= from, "stage {n}");
        }
        text
    }

    #[test]
    fn what_is_known_is_not_played_again() {
        let whole = played("", 0);
        let lines: Vec<&str> = whole.lines().collect();
        assert_eq!(lines.len(), 3);
        assert_eq!(played(&whole, 3), whole);
        assert_eq!(played(&format!("{}\n", lines[0]), 1), whole);
    }

    #[test]
    fn a_torn_or_foreign_line_is_played_again_with_all_behind_it() {
        let whole = played("", 0);
        assert_eq!(played(&whole[..whole.len() - 1], 2), whole, "no end of the last line");
        assert_eq!(played(&whole[..40], 1), whole, "half a line");
        let (first, rest) = whole.split_once('\n').unwrap();
        assert_eq!(played(&format!("{first}\nnothing\n{rest}"), 1), whole);
        assert_eq!(played(&format!("{} {first}\n{rest}", &first[..16]), 0), whole, "three styles");
    }
}
