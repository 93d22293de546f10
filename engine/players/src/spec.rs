//! The text form of a player: `NAME` or `NAME:OPTION=VALUE:OPTION=VALUE`.

use std::fmt;
use std::str::FromStr;

/// A player as a user types it, not looked up yet.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PlayerSpec {
    /// Name of a player, or path of a doctrine's file.
    pub name: String,
    /// Options with their values, in the order in which they were typed.
    pub options: Vec<(String, String)>,
}

impl PlayerSpec {
    /// The player of that name, as it is without options.
    pub fn plain(name: &str) -> PlayerSpec {
        PlayerSpec { name: name.to_owned(), options: vec![] }
    }

    /// The same player with one more word in an option that holds a list.
    #[must_use]
    pub fn with(mut self, option: &str, word: &str) -> PlayerSpec {
        match self.options.iter_mut().find(|(name, _)| name == option) {
            Some((_, value)) => {
                value.push(',');
                value.push_str(word);
            }
            None => self.options.push((option.to_owned(), word.to_owned())),
        }
        self
    }
}

impl FromStr for PlayerSpec {
    type Err = String;

    fn from_str(text: &str) -> Result<PlayerSpec, String> {
        let mut parts = text.split(':');
        let mut name = parts.next().unwrap_or_default().to_owned();
        let mut options: Vec<(String, String)> = Vec::new();
        for part in parts {
            match part.split_once('=') {
                Some((option, value)) if !value.is_empty() && is_word(option) => {
                    options.push((option.to_owned(), value.to_owned()));
                }
                // A drive or a folder may have a colon in its name.
                None if options.is_empty() => name = format!("{name}:{part}"),
                _ => {
                    return Err(format!(
                        "`{part}` in the player `{text}` is no option: write `:OPTION=VALUE`, as in `planner:playouts=128`"
                    ));
                }
            }
        }
        let twice = options
            .iter()
            .enumerate()
            .find(|(n, (option, _))| options[..*n].iter().any(|(other, _)| other == option));
        match (name.is_empty(), twice) {
            (true, _) => Err(format!("the player `{text}` has no name")),
            (_, Some((_, (option, _)))) => {
                Err(format!("the player `{text}` has the option `{option}` twice"))
            }
            _ => Ok(PlayerSpec { name, options }),
        }
    }
}

impl fmt::Display for PlayerSpec {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.name)?;
        self.options.iter().try_for_each(|(option, value)| write!(f, ":{option}={value}"))
    }
}

fn is_word(text: &str) -> bool {
    !text.is_empty() && text.bytes().all(|b| b.is_ascii_lowercase())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_player_comes_back_from_its_text() {
        for text in
            ["steady", "planner:playouts=64:turns=2", "./my.ron:without=rally,assault", "C:/my.ron"]
        {
            assert_eq!(
                text.parse::<PlayerSpec>().map(|spec| spec.to_string()).as_deref(),
                Ok(text)
            );
        }
        let spec: PlayerSpec = "C:/my.ron:turns=1".parse().unwrap();
        assert_eq!((spec.name.as_str(), spec.options.len()), ("C:/my.ron", 1));
    }

    #[test]
    fn a_list_grows_by_a_word() {
        let spec = PlayerSpec::plain("bold").with("without", "rally").with("without", "orders");
        assert_eq!(spec.to_string(), "bold:without=rally,orders");
    }

    #[test]
    fn what_is_no_player_is_refused() {
        let fault = |text: &str| text.parse::<PlayerSpec>().unwrap_err();
        assert!(fault(":turns=1").contains("has no name"));
        assert!(
            fault("planner:turns=1:2").contains("`2`")
                && fault("planner:turns=").contains("no option")
        );
        assert!(fault("planner:turns=1:turns=2").contains("`turns` twice"));
    }
}
