//! What the program told, and counts held against it.

use std::collections::BTreeMap;

use ruleshift_game::Rules;
use serde_json::Value;

use crate::support::ruleshift;
use crate::support::stage;

/// Rules to try: none, shipped variants as they are typed, or the hooks of a script.
#[derive(Clone, Copy, Debug)]
pub(super) enum Under {
    Base,
    Shipped(&'static str),
    Script(&'static str),
}

impl Under {
    /// The rules, of which no turn-end card ends the turn: every card of a turn is drawn.
    pub(super) fn rules(self) -> Rules {
        let mut rules = match self {
            Under::Base => Rules::base(),
            Under::Shipped(typed) => stage::stack(typed).rules().unwrap(),
            Under::Script(hooks) => stage::rules(hooks),
        };
        rules.change(ruleshift_game::Hook::TurnEnds, |_, _| Ok::<_, ()>(0)).unwrap().unwrap();
        rules
    }

    /// What the program tells of a topic.
    pub(super) fn sheet(self, topic: &str, options: &str) -> Sheet {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("script.rhai");
        let typed = match self {
            Under::Base => "base",
            Under::Shipped(typed) => typed,
            Under::Script(hooks) => {
                let about = "fn about() { #{ title: \"T\", summary: \"S.\" } }";
                std::fs::write(&path, format!("{about}\n{hooks}")).unwrap();
                path.to_str().unwrap()
            }
        };
        let mut args = vec!["odds", typed, "--json", "--topic", topic];
        args.extend(options.split_whitespace());
        let told = ruleshift(args).fine().out;
        let column = if matches!(self, Under::Base) { "base" } else { "stack" };
        Sheet { told: serde_json::from_str(&told).unwrap(), column }
    }
}

/// A topic as the program told it.
pub(super) struct Sheet {
    told: Value,
    column: &'static str,
}

impl Sheet {
    fn cases(&self) -> &[Value] {
        self.told["topics"][0]["cases"].as_array().unwrap()
    }

    #[track_caller]
    fn case(&self, case: &str) -> &Value {
        let found = self.cases().iter().find(|value| value["case"] == case);
        found.unwrap_or_else(|| panic!("no case `{case}` in {:#}", self.told))
    }

    /// A row of a case.
    #[track_caller]
    pub(super) fn row(&self, case: &str, what: &str) -> &Value {
        let rows = self.case(case)["rows"].as_array().unwrap();
        let row = rows.iter().find(|row| row["what"] == what);
        &row.unwrap_or_else(|| panic!("no row `{what}` of `{case}` in {rows:#?}"))[self.column]
    }

    /// The chance, mean or number in a row.
    #[track_caller]
    pub(super) fn value(&self, case: &str, what: &str) -> f64 {
        self.row(case, what)["value"].as_f64().unwrap_or_else(|| panic!("{case}: {what}"))
    }

    /// The chances of the two units of a fight to be taken and to break: rows of the same words.
    pub(super) fn fates(&self, case: &str) -> [[f64; 2]; 2] {
        let rows = self.case(case)["rows"].as_array().unwrap();
        let all = |what: &str| -> Vec<f64> {
            let of = rows.iter().filter(|row| row["what"] == what);
            of.map(|row| row[self.column]["value"].as_f64().unwrap()).collect()
        };
        let (taken, broken) = (all("is taken prisoner"), all("breaks"));
        [[taken[0], broken[0]], [taken[1], broken[1]]]
    }

    /// A distribution of a case.
    #[track_caller]
    pub(super) fn spread(&self, case: &str, of: &str) -> BTreeMap<i32, f64> {
        let spreads = self.case(case)["distributions"].as_array().unwrap();
        let spread = spreads.iter().find(|spread| spread["of"] == of);
        let spread = &spread.unwrap_or_else(|| panic!("no `{of}` of `{case}`"))[self.column];
        let one = |o: &Value| (o["number"].as_i64().unwrap() as i32, o["value"].as_f64().unwrap());
        spread.as_array().unwrap().iter().map(one).collect()
    }
}

/// Counts of numbers that came.
pub(super) type Counts = BTreeMap<i32, u32>;

/// Holds a count of some trials against the chance of each.
#[track_caller]
pub(super) fn hold(what: &str, count: u32, trials: u32, chance: f64) {
    let n = f64::from(trials);
    let off = f64::from(count) - n * chance;
    // Of what cannot come, and of what must, not one case is allowed.
    let error = (n * chance * (1.0 - chance)).max(0.0).sqrt().max(1e-6);
    assert!(
        off.abs() / error < 4.0,
        "{what}: {count} of {trials}, expected {:.1}, {:.1} errors",
        n * chance,
        off / error
    );
}

/// Holds counts against a whole distribution: nothing comes that cannot, and each number comes as
/// often as it should, those expected fewer than five times together.
#[track_caller]
pub(super) fn hold_all(what: &str, counts: &Counts, chances: &BTreeMap<i32, f64>) {
    let trials: u32 = counts.values().sum();
    assert!(trials >= 400, "{what}: only {trials} trials");
    assert!((chances.values().sum::<f64>() - 1.0).abs() < 1e-12, "{what}: {chances:?}");
    let impossible = counts.keys().find(|number| !chances.contains_key(number));
    assert_eq!(impossible, None, "{what}: {counts:?} {chances:?}");
    let (mut rare, mut rare_chance) = (0, 0.0);
    for (number, chance) in chances {
        let count = counts.get(number).copied().unwrap_or(0);
        if chance * f64::from(trials) < 5.0 {
            (rare, rare_chance) = (rare + count, rare_chance + chance);
        } else {
            hold(&format!("{what}: {number}"), count, trials, *chance);
        }
    }
    // A handful expected is no normal number: what is rarer than one case in all may come up to 6
    // times, which chance exceeds (Poisson with mean 1) once in 12,000.
    if rare_chance * f64::from(trials) < 1.0 {
        assert!(rare <= 6, "{what}: {rare} rare numbers, {rare_chance}");
    } else {
        hold(&format!("{what}: rare numbers"), rare, trials, rare_chance.min(1.0));
    }
}
