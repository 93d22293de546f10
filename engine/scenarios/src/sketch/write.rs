//! A scenario as a file, laid out as the shipped ones are.

use std::fmt::Write;

use serde::Serialize;

use crate::form::{
    BatteryForm, FeatureForm, GroupForm, ObjectiveForm, PieceForm, Point, PointsForm, ScenarioForm,
    SideForm, StartForm, UnitForm,
};

/// The text of a scenario file that begins with these lines of comment.
pub(crate) fn write(form: &ScenarioForm, comment: &[String]) -> String {
    let mut text = String::new();
    for line in comment {
        let _ = writeln!(text, "// {line}");
    }
    let (title, about) = (quoted(&form.title), quoted(&form.about));
    let _ = writeln!(
        text,
        "Scenario(\n    title: {title},\n    about: {about},\n    turns: {},",
        form.turns
    );
    block(&mut text, 1, "terrain", form.terrain.iter().map(piece));
    block(&mut text, 1, "objectives", form.objectives.iter().map(objective));
    side(&mut text, "attacker", &form.attacker);
    side(&mut text, "defender", &form.defender);
    text.push_str(")\n");
    text
}

/// A list with a line for each of its values; nothing when there are none.
fn block(text: &mut String, depth: usize, name: &str, lines: impl Iterator<Item = String>) {
    let indent = "    ".repeat(depth);
    let lines: Vec<String> = lines.map(|line| format!("{indent}    {line},\n")).collect();
    if !lines.is_empty() {
        let _ = write!(text, "{indent}{name}: [\n{}{indent}],\n", lines.concat());
    }
}

fn side(text: &mut String, name: &str, form: &SideForm) {
    let _ = writeln!(text, "    {name}: (\n        name: {},", quoted(&form.name));
    let _ = writeln!(text, "        break_point: {},", form.break_point);
    if form.dummies > 0 {
        let _ = writeln!(text, "        dummies: {},", form.dummies);
    }
    if form.points != 0 {
        let _ = writeln!(text, "        points: {},", form.points);
    }
    let _ = writeln!(text, "        spots: {},", points(&form.spots));
    block(text, 2, "features", form.features.iter().map(feature));
    block(text, 2, "groups", form.groups.iter().map(group));
    block(text, 2, "batteries", form.batteries.iter().map(battery));
    text.push_str("    ),\n");
}

fn piece(form: &PieceForm) -> String {
    let mut fields = vec![format!("kind: {}", word(&form.kind))];
    if !form.area.is_empty() {
        fields.push(format!("area: {}", points(&form.area)));
    }
    if !form.line.is_empty() {
        fields.push(format!("line: {}", points(&form.line)));
    }
    if form.width != 1 {
        fields.push(format!("width: {}", form.width));
    }
    joined(&fields)
}

fn objective(form: &ObjectiveForm) -> String {
    let mut fields = vec![format!("name: {}", quoted(&form.name)), format!("at: {:?}", form.at)];
    let worth = [("each_turn", form.each_turn), ("at_end", form.at_end), ("leaving", form.leaving)];
    for (name, worth) in worth.into_iter().filter(|(_, worth)| *worth != PointsForm::default()) {
        fields
            .push(format!("{name}: (attacker: {}, defender: {})", worth.attacker, worth.defender));
    }
    fields.extend(form.holder.map(|holder| format!("holder: {}", word(&holder))));
    joined(&fields)
}

fn feature(form: &FeatureForm) -> String {
    joined(&[format!("name: {}", quoted(&form.name)), format!("at: {:?}", form.at)])
}

fn group(form: &GroupForm) -> String {
    let mut fields = vec![format!("name: {}", quoted(&form.name))];
    fields.extend(form.list.as_ref().map(|list| format!("list: {}", quoted(list))));
    fields.extend(form.quality.map(|quality| format!("quality: {}", word(&quality))));
    if !form.without.is_empty() {
        let names: Vec<String> = form.without.iter().map(|name| quoted(name)).collect();
        fields.push(format!("without: [{}]", names.join(", ")));
    }
    match &form.start {
        StartForm::Spot => {}
        StartForm::Feature => fields.push("start: feature".to_owned()),
        StartForm::Reserve { turn, entries } => {
            fields.push(format!("start: reserve(turn: {turn}, entries: {})", points(entries)));
        }
    }
    if !form.units.is_empty() {
        let units: Vec<String> = form.units.iter().map(unit).collect();
        fields.push(format!("units: [{}]", units.join(", ")));
    }
    joined(&fields)
}

fn unit(form: &UnitForm) -> String {
    let mut fields = vec![];
    fields.extend(form.vehicle.as_ref().map(|vehicle| format!("vehicle: {}", quoted(vehicle))));
    fields.extend(form.kind.map(|kind| format!("kind: {}", word(&kind))));
    fields.extend(form.gun.as_ref().map(|gun| format!("gun: {}", quoted(gun))));
    if !form.name.is_empty() {
        fields.push(format!("name: {}", quoted(&form.name)));
    }
    fields.extend(form.quality.map(|quality| format!("quality: {}", word(&quality))));
    fields.extend(form.men.map(|men| format!("men: {men}")));
    if form.grade > 0 {
        fields.push(format!("grade: {}", form.grade));
    }
    if form.count != 1 {
        fields.push(format!("count: {}", form.count));
    }
    joined(&fields)
}

fn battery(form: &BatteryForm) -> String {
    let mut fields = vec![
        format!("name: {}", quoted(&form.name)),
        format!("response: {}", form.response),
        format!("missions: {}", form.missions),
    ];
    if form.smoke {
        fields.push("smoke: true".to_owned());
    }
    if !form.registered.is_empty() {
        fields.push(format!("registered: {}", points(&form.registered)));
    }
    joined(&fields)
}

fn joined(fields: &[String]) -> String {
    format!("({})", fields.join(", "))
}

fn points(points: &[Point]) -> String {
    format!("{points:?}")
}

/// A value of a closed list as files write it.
fn word(value: &impl Serialize) -> String {
    ron::to_string(value).expect("a name is plain data")
}

fn quoted(text: &str) -> String {
    ron::to_string(text).expect("a text is plain data")
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::shipped::SHIPPED;
    use crate::text::read;

    #[test]
    fn every_shipped_scenario_comes_back_from_what_is_written() {
        for (name, text) in SHIPPED {
            let form: ScenarioForm = read(text).unwrap();
            let written = write(&form, &["Written again.".to_owned()]);
            assert_eq!(read::<ScenarioForm>(&written).as_ref(), Ok(&form), "{name}");
        }
    }

    /// Nothing is left out that a shipped file happens not to say.
    #[test]
    fn rare_fields_come_back_too() {
        let (_, text) = SHIPPED[1];
        let rare = text
            .replacen("dummies: 1", "dummies: 1, points: -3", 1)
            .replacen(
                "(name: \"Red platoon\"",
                "(name: \"Red \\\"A\\\"\", quality: green, start: feature",
                1,
            )
            .replacen("men: 10", "men: 10, quality: veteran", 1);
        let form: ScenarioForm = read(&rare).unwrap();
        assert_eq!(read::<ScenarioForm>(&write(&form, &[])).as_ref(), Ok(&form));
    }
}
