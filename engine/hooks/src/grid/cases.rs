//! All cases of one hook, and which of their arguments matter.

use std::collections::BTreeMap;

use ruleshift_game::HookSpec;

/// The answer before and after.
pub(super) type Pair = (i16, i16);

/// Values of one argument, as places in its domain, among which no answer differs.
pub(super) type Group = Vec<usize>;

/// The answers of one hook, for some values of each argument.
pub(super) struct Cases<'a> {
    pub(super) spec: &'a HookSpec,
    before: &'a [i16],
    after: &'a [i16],
    /// For each argument the values looked at, as places in its domain.
    values: Vec<Vec<usize>>,
}

/// Cases that share the groups of their leading arguments.
pub(super) struct Row {
    pub(super) groups: Vec<Group>,
    /// For each column.
    pub(super) pairs: Vec<Pair>,
    /// How many cases it stands for.
    pub(super) cases: usize,
}

impl<'a> Cases<'a> {
    pub(super) fn all(spec: &'a HookSpec, before: &'a [i16], after: &'a [i16]) -> Cases<'a> {
        let values = spec.args.iter().map(|arg| (0..arg.domain.len()).collect()).collect();
        Cases { spec, before, after, values }
    }

    /// Only those values of each argument with which any answer changes.
    pub(super) fn changed_only(&self) -> Cases<'a> {
        let changes = |arg: usize, value: usize| {
            let mut at = self.first();
            at[arg] = value;
            let mut changes = false;
            let others: Vec<usize> = (0..self.values.len()).filter(|&n| n != arg).collect();
            self.sweep(&others, &mut at, &mut |(before, after)| changes |= before != after);
            changes
        };
        let kept = self.values.iter().enumerate().map(|(arg, values)| {
            values.iter().copied().filter(|&value| changes(arg, value)).collect()
        });
        Cases { values: kept.collect(), ..*self }
    }

    /// Arguments that matter: an answer depends on them, or only some of their values are here.
    pub(super) fn axes(&self) -> Vec<usize> {
        let part = |arg: usize| self.values[arg].len() < self.spec.args[arg].domain.len();
        (0..self.values.len()).filter(|&arg| part(arg) || self.groups(arg).len() > 1).collect()
    }

    /// The values of an argument in groups, whatever the others are.
    pub(super) fn groups(&self, arg: usize) -> Vec<Group> {
        let others: Vec<usize> = (0..self.values.len()).filter(|&n| n != arg).collect();
        self.groups_at(arg, &others, &mut self.first())
    }

    /// The rows led by the arguments `leading`, with a column for each group of the head, if any.
    pub(super) fn rows(&self, leading: &[usize], head: Option<(usize, &[Group])>) -> Vec<Row> {
        let mut rows = Vec::new();
        self.add_rows(leading, head, &mut self.first(), &mut Vec::new(), &mut rows);
        let named: Vec<usize> = leading.iter().copied().chain(head.map(|(arg, _)| arg)).collect();
        let others = (0..self.values.len()).filter(|arg| !named.contains(arg));
        let headed = head.map_or(1, |(arg, _)| self.values[arg].len());
        let each = headed * others.map(|arg| self.values[arg].len()).product::<usize>();
        for row in &mut rows {
            row.cases = each * row.groups.iter().map(Vec::len).product::<usize>();
        }
        rows
    }

    fn add_rows(
        &self,
        leading: &[usize],
        head: Option<(usize, &[Group])>,
        at: &mut Vec<usize>,
        groups: &mut Vec<Group>,
        rows: &mut Vec<Row>,
    ) {
        let Some((&arg, rest)) = leading.split_first() else {
            let pairs = match head {
                None => vec![self.pair(at)],
                Some((arg, columns)) => {
                    columns.iter().map(|group| self.pair(&with(at, arg, group[0]))).collect()
                }
            };
            rows.push(Row { groups: groups.clone(), pairs, cases: 0 });
            return;
        };
        // Values that differ elsewhere may agree here, behind the groups chosen so far.
        let free: Vec<usize> = rest.iter().copied().chain(head.map(|(arg, _)| arg)).collect();
        for group in self.groups_at(arg, &free, at) {
            at[arg] = group[0];
            groups.push(group);
            self.add_rows(rest, head, at, groups, rows);
            groups.pop();
        }
    }

    /// The values of an argument in groups that agree whatever the arguments `free` are, the others
    /// being as in `at`.
    fn groups_at(&self, arg: usize, free: &[usize], at: &mut Vec<usize>) -> Vec<Group> {
        let mut groups: Vec<Group> = Vec::new();
        let mut known: BTreeMap<Vec<Pair>, usize> = BTreeMap::new();
        let kept = at[arg];
        for &value in &self.values[arg] {
            at[arg] = value;
            let mut answers = Vec::new();
            self.sweep(free, at, &mut |pair| answers.push(pair));
            let group = *known.entry(answers).or_insert(groups.len());
            if group == groups.len() {
                groups.push(Vec::new());
            }
            groups[group].push(value);
        }
        at[arg] = kept;
        groups
    }

    /// Shows the answers for all values of the arguments `free`, the others being as in `at`.
    fn sweep(&self, free: &[usize], at: &mut Vec<usize>, see: &mut impl FnMut(Pair)) {
        let Some((&arg, rest)) = free.split_first() else { return see(self.pair(at)) };
        let kept = at[arg];
        for &value in &self.values[arg] {
            at[arg] = value;
            self.sweep(rest, at, see);
        }
        at[arg] = kept;
    }

    /// The first case.
    fn first(&self) -> Vec<usize> {
        self.values.iter().map(|values| values.first().copied().unwrap_or(0)).collect()
    }

    fn pair(&self, at: &[usize]) -> Pair {
        let places = self.spec.args.iter().zip(at);
        let cell = places.fold(0, |cell, (arg, &place)| cell * arg.domain.len() + place);
        (self.before[cell], self.after[cell])
    }
}

fn with(at: &[usize], arg: usize, value: usize) -> Vec<usize> {
    let mut at = at.to_vec();
    at[arg] = value;
    at
}
