//! Tickets: one line of text that reproduces one game exactly.
//!
//! `rs1~SCENARIO@DIGEST~STACK~ATTACKER@DIGEST~DEFENDER@DIGEST~SEED~DIGEST`, where the number after
//! `rs` is the version of the engine's rules and STACK is `base` or `NAME@DIGEST+NAME@DIGEST`. The
//! digests of the players may be left out. The seed and the last digest (of the event stream) are
//! 16 hexadecimal digits. A byte of a name that has a meaning here, or to a shell, is written `%XX`.

use std::fmt;

use crate::{PlayerRef, VariantRef};

/// Everything that identifies one game.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ticket {
    /// Version of the engine's rules.
    pub rules: u32,
    /// Scenario name or path.
    pub scenario: String,
    /// Digest of the scenario's content, 8 hexadecimal digits.
    pub scenario_digest: String,
    /// The variants in order; none for the base rules.
    pub stack: Vec<VariantRef>,
    /// The attacker's player.
    pub attacker: PlayerRef,
    /// The defender's player.
    pub defender: PlayerRef,
    /// Seed of the game's luck.
    pub seed: u64,
    /// Digest of the game's event stream.
    pub digest: u64,
}

impl Ticket {
    /// The rule stack as it is typed: `base`, or the variants joined with `+`.
    pub fn stack_spec(&self) -> String {
        if self.stack.is_empty() {
            return "base".to_owned();
        }
        self.stack.iter().map(|v| v.name.as_str()).collect::<Vec<_>>().join("+")
    }
}

/// Why a text is not a ticket.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct TicketError(String);

impl fmt::Display for TicketError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl std::error::Error for TicketError {}

impl fmt::Display for Ticket {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "rs{}~{}@{}~", self.rules, escape(&self.scenario), self.scenario_digest)?;
        if self.stack.is_empty() {
            f.write_str("base")?;
        }
        for (n, variant) in self.stack.iter().enumerate() {
            let joint = if n == 0 { "" } else { "+" };
            write!(f, "{joint}{}@{}", escape(&variant.name), variant.digest)?;
        }
        for player in [&self.attacker, &self.defender] {
            let joint = if player.digest.is_empty() { "" } else { "@" };
            write!(f, "~{}{joint}{}", escape(&player.name), player.digest)?;
        }
        write!(f, "~{:016x}~{:016x}", self.seed, self.digest)
    }
}

impl std::str::FromStr for Ticket {
    type Err = TicketError;

    fn from_str(text: &str) -> Result<Self, TicketError> {
        let parts: Vec<&str> = text.trim().split('~').collect();
        let [rules, scenario, stack, attacker, defender, seed, digest] = parts[..] else {
            return Err(TicketError(format!(
                "a ticket has 7 parts joined with `~`, this text has {}",
                parts.len()
            )));
        };
        let rules = rules.strip_prefix("rs").and_then(|n| n.parse().ok()).ok_or_else(|| {
            TicketError(format!("a ticket starts with `rs` and a number, not with `{rules}`"))
        })?;
        let scenario = named(scenario, "scenario")?;
        let stack = match stack {
            "base" => vec![],
            _ => stack.split('+').map(|part| named(part, "variant")).collect::<Result<_, _>>()?,
        };
        Ok(Ticket {
            rules,
            scenario: scenario.name,
            scenario_digest: scenario.digest,
            stack,
            attacker: player(attacker, "attacker")?,
            defender: player(defender, "defender")?,
            seed: hex(seed, "seed")?,
            digest: hex(digest, "digest of the events")?,
        })
    }
}

/// `NAME@DIGEST`, as used for scenarios and variants.
fn named(text: &str, what: &str) -> Result<VariantRef, TicketError> {
    let (name, digest) = text
        .split_once('@')
        .ok_or_else(|| TicketError(format!("the {what} `{text}` lacks its `@` and digest")))?;
    if digest.len() != 8 || !digest.bytes().all(|b| b.is_ascii_hexdigit()) {
        return Err(TicketError(format!(
            "the digest of the {what} is 8 hexadecimal digits, not `{digest}`"
        )));
    }
    Ok(VariantRef { name: unescape(name)?, digest: digest.to_owned() })
}

/// `NAME@DIGEST`, or the name alone, as tickets had it once.
fn player(text: &str, what: &str) -> Result<PlayerRef, TicketError> {
    if !text.contains('@') {
        return Ok(PlayerRef { name: unescape(text)?, digest: String::new() });
    }
    let VariantRef { name, digest } = named(text, what)?;
    Ok(PlayerRef { name, digest })
}

fn hex(text: &str, what: &str) -> Result<u64, TicketError> {
    match u64::from_str_radix(text, 16) {
        Ok(value) if text.len() == 16 => Ok(value),
        _ => Err(TicketError(format!("the {what} is 16 hexadecimal digits, not `{text}`"))),
    }
}

fn escape(name: &str) -> String {
    let plain = |b: u8| b.is_ascii_alphanumeric() || b"-_./:=,".contains(&b);
    let byte = |b: u8| if plain(b) { (b as char).to_string() } else { format!("%{b:02X}") };
    name.bytes().map(byte).collect()
}

fn unescape(text: &str) -> Result<String, TicketError> {
    let fault =
        || TicketError(format!("`{text}` holds a `%` that two hexadecimal digits must follow"));
    let mut bytes = Vec::with_capacity(text.len());
    let mut rest = text.bytes();
    while let Some(byte) = rest.next() {
        if byte != b'%' {
            bytes.push(byte);
            continue;
        }
        let digit = |b: Option<u8>| b.and_then(|b| (b as char).to_digit(16)).ok_or_else(fault);
        bytes.push((digit(rest.next())? * 16 + digit(rest.next())?) as u8);
    }
    String::from_utf8(bytes).map_err(|_| fault())
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn variant() -> impl Strategy<Value = VariantRef> {
        ("\\PC{1,20}", "[0-9a-f]{8}").prop_map(|(name, digest)| VariantRef { name, digest })
    }

    fn player() -> impl Strategy<Value = PlayerRef> {
        ("\\PC{1,12}", "([0-9a-f]{8})?").prop_map(|(name, digest)| PlayerRef { name, digest })
    }

    proptest! {
        #[test]
        fn a_ticket_comes_back_from_its_text(
            (rules, seed, digest) in any::<(u32, u64, u64)>(),
            scenario in variant(),
            stack in prop::collection::vec(variant(), 0..3),
            (attacker, defender) in (player(), player()),
        ) {
            let ticket = Ticket {
                rules, seed, digest, stack, attacker, defender,
                scenario: scenario.name, scenario_digest: scenario.digest,
            };
            let text = ticket.to_string();
            prop_assert!(text.bytes().all(|b| b.is_ascii_graphic()), "one word for a shell: {}", text);
            prop_assert_eq!(text.parse::<Ticket>(), Ok(ticket));
        }

        #[test]
        fn no_text_makes_the_reader_panic(text in "\\PC{0,80}") {
            let _ = text.parse::<Ticket>();
        }
    }

    #[test]
    fn a_damaged_ticket_is_refused_with_the_part_named() {
        let good = "rs1~a@00000000~base~steady~bold~0000000000000001~0000000000000002";
        assert!(good.parse::<Ticket>().is_ok());
        let fault = |from: &str, to: &str| {
            good.replace(from, to).parse::<Ticket>().unwrap_err().to_string()
        };
        assert!(fault("rs1", "xx").contains("starts with `rs`"));
        assert!(fault("@00000000", "").contains("lacks its `@`"));
        assert!(fault("~bold", "").contains("has 6"));
        assert!(fault("0000000000000001", "1").contains("seed is 16"));
        assert!(fault("steady", "st%zz").contains("two hexadecimal digits"));
    }
}
