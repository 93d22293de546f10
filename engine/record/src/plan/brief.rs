//! Things of a plan that may be written as a name alone: `"steady"` for `Player(name: "steady")`.

use std::fmt;
use std::marker::PhantomData;

use serde::de::value::MapAccessDeserializer;
use serde::de::{Deserializer, Error, MapAccess, Visitor};

/// What may be written as a name alone.
pub(super) trait Brief<'de>: Sized {
    /// What it is, for a message.
    const WHAT: &'static str;

    /// The thing of that name, about which nothing else is said.
    fn named(name: &str) -> Self;

    /// The thing as it is written out.
    fn whole<D: Deserializer<'de>>(from: D) -> Result<Self, D::Error>;
}

/// Reads a thing, written out or as a name alone.
pub(super) fn read<'de, T: Brief<'de>, D: Deserializer<'de>>(from: D) -> Result<T, D::Error> {
    from.deserialize_any(Reader(PhantomData))
}

struct Reader<T>(PhantomData<T>);

impl<'de, T: Brief<'de>> Visitor<'de> for Reader<T> {
    type Value = T;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "the name of {}, or {0} written out", T::WHAT)
    }

    fn visit_str<E: Error>(self, name: &str) -> Result<T, E> {
        Ok(T::named(name))
    }

    fn visit_map<A: MapAccess<'de>>(self, map: A) -> Result<T, A::Error> {
        T::whole(MapAccessDeserializer::new(map))
    }
}

/// Lets types of the parent module be written as a name alone.
macro_rules! brief {
    ($($type:ident $what:literal { $($field:ident),* };)*) => {$(
        impl<'de> $crate::plan::brief::Brief<'de> for $type {
            const WHAT: &'static str = $what;

            fn named(name: &str) -> Self {
                $type { name: name.to_owned(), $($field: Default::default()),* }
            }

            fn whole<D: serde::Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
                $type::deserialize(from)
            }
        }

        impl<'de> serde::Deserialize<'de> for $type {
            fn deserialize<D: serde::Deserializer<'de>>(from: D) -> Result<Self, D::Error> {
                $crate::plan::brief::read(from)
            }
        }

        impl serde::Serialize for $type {
            fn serialize<S: serde::Serializer>(&self, to: S) -> Result<S::Ok, S::Error> {
                $type::serialize(self, to)
            }
        }
    )*};
}

pub(super) use brief;
