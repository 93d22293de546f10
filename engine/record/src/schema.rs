//! The form of `summary.json`, one for each experiment, as JSON Schema (draft 2020-12): made from the
//! types that are written, their comments for descriptions. `engine/record/schema` holds what comes out.

use schemars::generate::SchemaSettings;
use schemars::transform::RecursiveTransform;
use schemars::{JsonSchema, Schema};
use serde_json::json;

use crate::{
    CrossSummary, HandicapSummary, HuntSummary, LadderSummary, Summary, SweepSummary, TuneSummary,
};

/// The form of the answer of one experiment.
#[derive(Clone, Copy, Debug)]
pub struct SchemaOf {
    /// The command that makes such an answer.
    pub name: &'static str,
    /// What the answer holds, as a phrase.
    pub about: &'static str,
    make: fn(title: String) -> Schema,
}

/// The forms of all answers, by command.
pub const SCHEMAS: [SchemaOf; 7] = [
    of::<Summary>("compare", "every shift, with its interval and its verdict"),
    of::<SweepSummary>("sweep", "the curve of each metric along an option, and where it crosses"),
    of::<CrossSummary>("cross", "what variants do alone and together"),
    of::<TuneSummary>("tune", "which value of an option brings a metric to its target"),
    of::<HandicapSummary>("handicap", "what makes a scenario fair"),
    of::<LadderSummary>("ladder", "which player is stronger, and by how much"),
    of::<HuntSummary>("hunt", "whether a style gains from a variant"),
];

const fn of<T: JsonSchema>(name: &'static str, about: &'static str) -> SchemaOf {
    SchemaOf { name, about, make: form::<T> }
}

impl SchemaOf {
    /// The schema as indented JSON text that ends with a new line.
    pub fn text(&self) -> String {
        let schema = (self.make)(format!("summary.json of ruleshift {}", self.name));
        let text = serde_json::to_string_pretty(&schema).expect("a schema is plain JSON");
        text + "\n"
    }
}

/// The form of what is written of a type.
fn form<T: JsonSchema>(title: String) -> Schema {
    let settings =
        SchemaSettings::draft2020_12().for_serialize().with_transform(RecursiveTransform(tidy));
    let mut schema = settings.into_generator().into_root_schema_for::<T>();
    schema.insert("title".to_owned(), title.into());
    schema
}

/// Nothing is written that is not described; a description is one paragraph.
fn tidy(schema: &mut Schema) {
    if schema.get("properties").is_some() {
        schema.insert("additionalProperties".to_owned(), json!(false));
    }
    let description = schema.get("description").and_then(|text| text.as_str());
    if let Some(description) = description {
        let paragraph = description.split_whitespace().collect::<Vec<_>>().join(" ");
        schema.insert("description".to_owned(), paragraph.into());
    }
}
