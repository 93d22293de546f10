//! The published forms of `summary.json` are those of the types.
//!
//! `RULESHIFT_BLESS=1 cargo test -p ruleshift-record --test schema` writes them anew.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

use ruleshift_record::SCHEMAS;
use serde_json::Value;

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("schema")
}

#[test]
fn the_published_forms_are_those_of_the_types() {
    for schema in SCHEMAS {
        let file = folder().join(format!("{}.json", schema.name));
        let wanted = schema.text();
        if std::env::var_os("RULESHIFT_BLESS").is_some() {
            fs::write(&file, &wanted).expect("the folder of forms can be written");
        }
        let found = fs::read_to_string(&file).unwrap_or_default().replace("\r\n", "\n");
        let line = found.lines().zip(wanted.lines()).position(|(a, b)| a != b);
        assert!(
            found == wanted,
            "schema/{}.json is out of date from line {:?} on: run this test with RULESHIFT_BLESS=1",
            schema.name,
            line.map(|n| n + 1)
        );
    }
}

#[test]
fn no_form_is_left_of_an_experiment_that_is_gone() {
    let files = fs::read_dir(folder()).expect("there is a folder of forms").flatten();
    let files: BTreeSet<String> =
        files.map(|file| file.file_name().to_string_lossy().into_owned()).collect();
    let wanted = SCHEMAS.iter().map(|schema| format!("{}.json", schema.name));
    assert_eq!(files, wanted.collect());
}

/// Everything below `schema` with a name of its own that is not described, by its path.
fn unsaid(schema: &Value, path: &str, found: &mut Vec<String>) {
    for key in ["properties", "$defs"] {
        for (name, inner) in schema[key].as_object().into_iter().flatten() {
            let path = format!("{path}/{name}");
            if inner["description"].as_str().is_none_or(|words| !words.contains(' ')) {
                found.push(path.clone());
            }
            unsaid(inner, &path, found);
        }
    }
    for inner in schema["oneOf"].as_array().into_iter().flatten() {
        unsaid(inner, path, found);
    }
}

#[test]
fn everything_in_a_form_is_described() {
    for schema in SCHEMAS {
        let form: Value = serde_json::from_str(&schema.text()).expect("a form is JSON");
        assert_eq!(form["$schema"], "https://json-schema.org/draft/2020-12/schema");
        assert_eq!(form["additionalProperties"], false, "{}", schema.name);
        let mut found = Vec::new();
        unsaid(&form, schema.name, &mut found);
        // The tag of an answer says only which of several it is.
        found.retain(|path| path != "tune/TuneAnswer/answer");
        assert!(found.is_empty(), "{found:?}");
    }
}
