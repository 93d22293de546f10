//! Rule stacks as they are typed: `two-turn-end-cards:cards=3+no-late-fire`.

use std::fmt;
use std::str::FromStr;

use crate::options::Overrides;

/// A rule stack as it is typed.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct StackSpec {
    /// The variants in order; none for `base`.
    pub variants: Vec<VariantSpec>,
}

/// One variant as it is typed.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct VariantSpec {
    /// Shipped name or path.
    pub name: String,
    /// Values given to options.
    pub overrides: Overrides,
}

/// Why a text is no rule stack.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct SpecError(String);

impl fmt::Display for SpecError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl std::error::Error for SpecError {}

impl FromStr for StackSpec {
    type Err = SpecError;

    fn from_str(text: &str) -> Result<Self, SpecError> {
        if text.trim() == "base" {
            return Ok(StackSpec::default());
        }
        let parts = text.split('+').map(str::trim);
        let variants = parts.map(|part| variant(part, text)).collect::<Result<_, _>>()?;
        Ok(StackSpec { variants })
    }
}

fn variant(part: &str, whole: &str) -> Result<VariantSpec, SpecError> {
    // A colon in a path, as after the letter of a drive, is followed by no option.
    let (name, options) = match part.rsplit_once(':') {
        Some((name, options)) if !options.contains(['/', '\\']) => (name, Some(options)),
        _ => (part, None),
    };
    if name.is_empty() {
        return Err(SpecError(format!(
            "`{whole}` lacks the name of a variant: write `name` or `name+other`"
        )));
    }
    let mut overrides = Overrides::none();
    for option in options.into_iter().flat_map(|options| options.split(',')) {
        let (key, value) = value(option, name)?;
        if overrides.0.insert(key.clone(), value).is_some() {
            return Err(SpecError(format!("option `{key}` of `{name}` is given twice")));
        }
    }
    Ok(VariantSpec { name: name.to_owned(), overrides })
}

fn value(option: &str, name: &str) -> Result<(String, i64), SpecError> {
    let Some((key, value)) = option.split_once('=').filter(|(key, _)| !key.is_empty()) else {
        return Err(SpecError(format!(
            "`{option}` is no option of `{name}`: write `{name}:option=3`"
        )));
    };
    let number = value.parse().map_err(|_| {
        SpecError(format!("option `{key}` of `{name}` needs a whole number, not `{value}`"))
    })?;
    Ok((key.to_owned(), number))
}

impl fmt::Display for VariantSpec {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.name)?;
        for (n, (name, value)) in self.overrides.0.iter().enumerate() {
            write!(f, "{}{name}={value}", if n == 0 { ':' } else { ',' })?;
        }
        Ok(())
    }
}

impl fmt::Display for StackSpec {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.variants.is_empty() {
            return f.write_str("base");
        }
        for (n, variant) in self.variants.iter().enumerate() {
            write!(f, "{}{variant}", if n == 0 { "" } else { "+" })?;
        }
        Ok(())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn error(text: &str) -> String {
        text.parse::<StackSpec>().unwrap_err().to_string()
    }

    #[test]
    fn a_stack_is_read_and_written_alike() {
        for text in ["base", "a", "a+b", "a:x=3", "a:x=3,y=-2+b", "dir/a.rhai:x=1", "C:/a.rhai"] {
            assert_eq!(text.parse::<StackSpec>().map(|spec| spec.to_string()), Ok(text.into()));
        }
        let spec: StackSpec = "a:x=3,y=-2+b".parse().unwrap();
        assert_eq!(spec.variants[0].overrides, Overrides::from([("x", 3), ("y", -2)]));
        assert_eq!(spec.variants[1].name, "b");
    }

    #[test]
    fn blanks_around_names_do_not_count() {
        for (text, meant) in
            [("a + b.rhai", "a+b.rhai"), (" a:x=3 +b ", "a:x=3+b"), (" base", "base")]
        {
            assert_eq!(text.parse::<StackSpec>().map(|spec| spec.to_string()), Ok(meant.into()));
        }
        assert!(error("a + ").contains("lacks the name of a variant"));
    }

    #[test]
    fn an_error_says_what_to_type() {
        assert_eq!(error("a:x"), "`x` is no option of `a`: write `a:option=3`");
        assert_eq!(error("a:x=many"), "option `x` of `a` needs a whole number, not `many`");
        assert_eq!(error("a:x=1,x=2"), "option `x` of `a` is given twice");
        assert_eq!(
            error("a++b"),
            "`a++b` lacks the name of a variant: write `name` or `name+other`"
        );
        assert_eq!(error(""), "`` lacks the name of a variant: write `name` or `name+other`");
    }
}
