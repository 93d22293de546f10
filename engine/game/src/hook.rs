//! What a value hook is: its name, its arguments and their ranges, the range of its answer.

/// The values one argument or one answer may take.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Domain {
    /// Whole numbers from the first to the last, both included.
    Int(i32, i32),
    /// True or false.
    Flag,
    /// One of a closed list; the names are constants of scripts.
    Named(&'static [&'static str]),
}

impl Domain {
    /// The smallest value.
    pub const fn lowest(self) -> i32 {
        match self {
            Domain::Int(low, _) => low,
            Domain::Flag | Domain::Named(_) => 0,
        }
    }

    /// How many values there are.
    pub const fn len(self) -> usize {
        match self {
            Domain::Int(low, high) => (high - low + 1) as usize,
            Domain::Flag => 2,
            Domain::Named(names) => names.len(),
        }
    }

    /// Whether there are no values; never so in the manifest.
    pub const fn is_empty(self) -> bool {
        self.len() == 0
    }

    /// Whether `value` is one of them.
    pub const fn contains(self, value: i32) -> bool {
        value >= self.lowest() && (value - self.lowest()) < self.len() as i32
    }

    /// One value as a script would write it: `3`, `true`, `VETERAN`.
    pub fn show(self, value: i32) -> String {
        match self {
            Domain::Int(..) => value.to_string(),
            Domain::Flag => (value != 0).to_string(),
            Domain::Named(names) => usize::try_from(value)
                .ok()
                .and_then(|n| names.get(n))
                .map_or_else(|| value.to_string(), |name| (*name).to_owned()),
        }
    }

    /// The values in words: `1 to 6`, `true or false`, `GREEN, REGULAR or VETERAN`.
    pub fn describe(self) -> String {
        match self {
            Domain::Int(low, high) if low == high => low.to_string(),
            Domain::Int(low, high) => format!("{low} to {high}"),
            Domain::Flag => "true or false".to_owned(),
            Domain::Named([all @ .., last]) if !all.is_empty() => {
                format!("{} or {last}", all.join(", "))
            }
            Domain::Named(names) => names.join(", "),
        }
    }
}

/// One argument of a hook.
#[derive(Clone, Copy, Debug)]
pub struct Arg {
    /// Name, as in the signature scripts write.
    pub name: &'static str,
    /// The values the engine may pass.
    pub domain: Domain,
    /// What it is, with its unit.
    pub about: &'static str,
}

/// One value hook.
#[derive(Clone, Copy, Debug)]
pub struct HookSpec {
    /// Name of the function a script defines.
    pub name: &'static str,
    /// Arguments after `now`.
    pub args: &'static [Arg],
    /// The values it may answer.
    pub result: Domain,
    /// What the answer is, with its unit.
    pub about: &'static str,
    /// The base rule in one line.
    pub base_rule: &'static str,
    /// The paragraph of RULES.md it belongs to.
    pub paragraph: &'static str,
    /// The base rule as a function of the arguments.
    pub base: fn(&[i32]) -> i32,
}

impl HookSpec {
    /// How many argument tuples there are.
    pub const fn cells(&self) -> usize {
        let mut cells = 1;
        let mut n = 0;
        while n < self.args.len() {
            cells *= self.args[n].domain.len();
            n += 1;
        }
        cells
    }

    /// The arguments of cell number `cell`, the last argument varying fastest.
    pub fn arguments(&self, mut cell: usize) -> Vec<i32> {
        let mut values = vec![0; self.args.len()];
        for (value, arg) in values.iter_mut().zip(self.args).rev() {
            *value = arg.domain.lowest() + (cell % arg.domain.len()) as i32;
            cell /= arg.domain.len();
        }
        values
    }

    /// The signature a script writes: `marker_actions(now)`.
    pub fn signature(&self) -> String {
        let args: String = self.args.iter().map(|a| format!(", {}", a.name)).collect();
        format!("{}(now{args})", self.name)
    }
}
