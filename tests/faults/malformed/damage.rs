//! Sound bytes made unsound, as a slip of the hand, of a disk or of another program makes them.

use ruleshift_game::luck::game_seed;

/// Draws of one damaged input: the same for the same key.
pub(super) struct Draws {
    seed: u64,
    drawn: u32,
}

impl Draws {
    pub(super) fn new(seed: u64, input: u32) -> Draws {
        Draws { seed: game_seed(seed, 0, input), drawn: 0 }
    }

    /// A number from 0, below `limit`; 0 where there is none.
    pub(super) fn below(&mut self, limit: usize) -> usize {
        self.drawn += 1;
        (game_seed(self.seed, 0, self.drawn) % limit.max(1) as u64) as usize
    }

    fn of<'a, T: ?Sized>(&mut self, all: &[&'a T]) -> &'a T {
        all[self.below(all.len())]
    }

    /// A part of `length` bytes: where it begins and ends.
    fn part(&mut self, length: usize) -> (usize, usize) {
        let from = self.below(length + 1);
        let most = (length - from).min([4, 40, 4_000][self.below(3)]);
        (from, from + self.below(most + 1))
    }
}

type Damage = fn(&mut Vec<u8>, &mut Draws);

/// What can be done to an input. What leaves its form sound stands twice: it gets further.
const DAMAGES: [Damage; 13] = [
    |bytes, draws| flip(bytes, draws),
    remove,
    double,
    cut,
    number,
    number,
    number,
    swap,
    swap,
    swap,
    nest,
    garble,
    empty,
];

/// `sound` with one to three kinds of damage.
pub(super) fn damaged(sound: &[u8], draws: &mut Draws) -> Vec<u8> {
    let mut bytes = sound.to_vec();
    for _ in 0..=draws.below(3) {
        DAMAGES[draws.below(DAMAGES.len())](&mut bytes, draws);
    }
    bytes
}

fn flip(bytes: &mut [u8], draws: &mut Draws) {
    for _ in 0..=draws.below(8) {
        let at = draws.below(bytes.len());
        let bit = draws.below(8);
        bytes.iter_mut().skip(at).take(1).for_each(|byte| *byte ^= 1 << bit);
    }
}

fn remove(bytes: &mut Vec<u8>, draws: &mut Draws) {
    let (from, to) = draws.part(bytes.len());
    bytes.drain(from..to);
}

fn double(bytes: &mut Vec<u8>, draws: &mut Draws) {
    let (from, to) = draws.part(bytes.len());
    let part = bytes[from..to].to_vec();
    bytes.splice(to..to, part);
}

fn cut(bytes: &mut Vec<u8>, draws: &mut Draws) {
    bytes.truncate(draws.below(bytes.len() + 1));
}

/// Numbers that are too large or too small for something, or none.
const NUMBERS: [&str; 12] = [
    "-1",
    "0",
    "255",
    "256",
    "65536",
    "4294967295",
    "-9223372036854775808",
    "18446744073709551616",
    "1e308",
    "-0.0",
    "NaN",
    "0x7fffffffffffffff",
];

fn number(bytes: &mut Vec<u8>, draws: &mut Draws) {
    let (from, to) = run(bytes, draws, |byte| byte.is_ascii_digit());
    bytes.splice(from..to, draws.of(&NUMBERS).bytes());
}

/// Two words change places.
fn swap(bytes: &mut Vec<u8>, draws: &mut Draws) {
    let word = |byte: u8| byte.is_ascii_alphanumeric() || byte == b'_' || byte == b'-';
    let mut runs = [run(bytes, draws, word), run(bytes, draws, word)];
    runs.sort_unstable();
    let [(from, to), (later, end)] = runs;
    if to <= later {
        let (first, second) = (bytes[from..to].to_vec(), bytes[later..end].to_vec());
        bytes.splice(later..end, first);
        bytes.splice(from..to, second);
    }
}

/// One of the runs of such bytes: where it begins and ends; nowhere if there is none.
fn run(bytes: &[u8], draws: &mut Draws, such: impl Fn(u8) -> bool) -> (usize, usize) {
    let begins = |at: usize| such(bytes[at]) && (at == 0 || !such(bytes[at - 1]));
    let starts: Vec<usize> = (0..bytes.len()).filter(|&at| begins(at)).collect();
    let Some(&from) = starts.get(draws.below(starts.len())) else { return (0, 0) };
    let length = bytes[from..].iter().take_while(|&&byte| such(byte)).count();
    (from, from + length)
}

/// More brackets within each other than anyone closes, or than anyone reads.
fn nest(bytes: &mut Vec<u8>, draws: &mut Draws) {
    let at = draws.below(bytes.len() + 1);
    let times = [3, 200, 20_000][draws.below(3)];
    let (open, close) =
        [("(", ")"), ("[", "]"), ("{", "}"), ("-", ""), ("Some(", ")"), ("#{a:", "}")]
            [draws.below(6)];
    let closed = draws.below(2) * times;
    bytes.splice(at..at, (open.repeat(times) + close.repeat(closed).as_str()).into_bytes());
}

/// Bytes that are no text, or that nobody sees.
fn garble(bytes: &mut Vec<u8>, draws: &mut Draws) {
    let at = draws.below(bytes.len() + 1);
    let odd: [&[u8]; 6] = [
        b"\xff\xfe",
        b"\xc3",
        b"\0",
        b"\xed\xa0\x80",
        "\u{feff}".as_bytes(),
        "é\u{202e}ß".as_bytes(),
    ];
    bytes.splice(at..at, draws.of(&odd).iter().copied());
}

fn empty(bytes: &mut Vec<u8>, draws: &mut Draws) {
    *bytes = draws.of(&["", "\n", "()", "\"", "\u{feff}"]).as_bytes().to_vec();
}
