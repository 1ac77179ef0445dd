//! Which keys a file states, so that what it leaves to defaults can be told.

use serde::de::{
    Deserialize, Deserializer, EnumAccess, Error, IgnoredAny, MapAccess, SeqAccess, VariantAccess,
    Visitor,
};
use std::collections::BTreeSet;
use std::fmt;

/// The paths of the keys that stand in a text, such as `covers.inlet_plug`; none if it is no RON.
pub fn stated(text: &str) -> BTreeSet<String> {
    let options =
        ron::Options::default().with_default_extension(ron::extensions::Extensions::IMPLICIT_SOME);
    options
        .from_str::<Keys>(text)
        .map(|keys| keys.0)
        .unwrap_or_default()
}

/// The paths below a value.
struct Keys(BTreeSet<String>);

impl<'de> Deserialize<'de> for Keys {
    fn deserialize<D: Deserializer<'de>>(reader: D) -> Result<Self, D::Error> {
        reader.deserialize_any(Reader)
    }
}

struct Reader;

/// A value without keys below it.
macro_rules! leaf {
    ($($name:ident: $type:ty),+) => {
        $(fn $name<E: Error>(self, _: $type) -> Result<Keys, E> { Ok(Keys(BTreeSet::new())) })+
    };
}

impl<'de> Visitor<'de> for Reader {
    type Value = Keys;
    fn expecting(&self, f: &mut fmt::Formatter) -> fmt::Result {
        f.write_str("any value")
    }
    leaf!(visit_bool: bool, visit_i64: i64, visit_u64: u64, visit_f64: f64, visit_str: &str);
    fn visit_unit<E: Error>(self) -> Result<Keys, E> {
        Ok(Keys(BTreeSet::new()))
    }
    fn visit_none<E: Error>(self) -> Result<Keys, E> {
        Ok(Keys(BTreeSet::new()))
    }
    fn visit_some<D: Deserializer<'de>>(self, inner: D) -> Result<Keys, D::Error> {
        Keys::deserialize(inner)
    }
    fn visit_newtype_struct<D: Deserializer<'de>>(self, inner: D) -> Result<Keys, D::Error> {
        Keys::deserialize(inner)
    }
    fn visit_seq<A: SeqAccess<'de>>(self, mut items: A) -> Result<Keys, A::Error> {
        while items.next_element::<IgnoredAny>()?.is_some() {}
        Ok(Keys(BTreeSet::new()))
    }
    fn visit_enum<A: EnumAccess<'de>>(self, variant: A) -> Result<Keys, A::Error> {
        let (_, inner) = variant.variant::<IgnoredAny>()?;
        inner.newtype_variant::<Keys>()
    }
    fn visit_map<A: MapAccess<'de>>(self, mut entries: A) -> Result<Keys, A::Error> {
        let mut paths = BTreeSet::new();
        while let Some((key, below)) = entries.next_entry::<String, Keys>()? {
            for path in below.0 {
                paths.insert(format!("{key}.{path}"));
            }
            paths.insert(key);
        }
        Ok(Keys(paths))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_are_found_under_keys_and_variants() {
        let text = "(title: \"x\", // hangar: no\n covers: (inlet_plug: 0.9), weather: steady(outdoors: degC(-3)), \
                    heaters: [(heater: \"y\", place: at(\"top\"))], start: (warmth: cold_soaked))";
        let found = stated(text);
        for path in [
            "title",
            "covers",
            "covers.inlet_plug",
            "weather.outdoors",
            "start.warmth",
            "heaters",
        ] {
            assert!(found.contains(path), "{path}: {found:?}");
        }
        assert!(!found.contains("hangar") && !found.contains("covers.outlet_plug"));
    }

    #[test]
    fn every_built_in_night_states_its_clock() {
        for (kind, name, text) in super::super::library::MODELS {
            if *kind == super::super::library::Kind::Night {
                assert!(stated(text).contains("clock.departure"), "{name}");
            }
        }
    }
}
