//! The insides of lists, maps, fields and choices, each watched at its own path.

use super::notes::Notes;
use super::placeholder::Placeholder;
use super::watch::{Watch, Watched};
use serde::de::value::StrDeserializer;
use serde::de::{
    self, DeserializeSeed, Deserializer, EnumAccess, MapAccess, SeqAccess, VariantAccess, Visitor,
};
use std::fmt;

macro_rules! passes {
    ($($visit:ident($type:ty);)+) => {
        $(fn $visit<E: de::Error>(self, value: $type) -> Result<V::Value, E> {
            self.inner.$visit(value)
        })+
    };
}

impl<'de, V: Visitor<'de>> Visitor<'de> for Watch<'_, V> {
    type Value = V::Value;

    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.inner.expecting(f)
    }
    passes! {
        visit_bool(bool);
        visit_i8(i8);
        visit_i16(i16);
        visit_i32(i32);
        visit_i64(i64);
        visit_u8(u8);
        visit_u16(u16);
        visit_u32(u32);
        visit_u64(u64);
        visit_f32(f32);
        visit_f64(f64);
        visit_char(char);
        visit_str(&str);
        visit_borrowed_str(&'de str);
        visit_string(String);
        visit_bytes(&[u8]);
        visit_byte_buf(Vec<u8>);
    }
    fn visit_none<E: de::Error>(self) -> Result<V::Value, E> {
        self.inner.visit_none()
    }
    fn visit_unit<E: de::Error>(self) -> Result<V::Value, E> {
        self.inner.visit_unit()
    }
    fn visit_some<D: Deserializer<'de>>(self, inner: D) -> Result<V::Value, D::Error> {
        let Self {
            inner: visitor,
            path,
            notes,
        } = self;
        visitor.visit_some(Watched::at(inner, path, notes))
    }
    fn visit_newtype_struct<D: Deserializer<'de>>(self, inner: D) -> Result<V::Value, D::Error> {
        let Self {
            inner: visitor,
            path,
            notes,
        } = self;
        visitor.visit_newtype_struct(Watched::at(inner, path, notes))
    }
    fn visit_seq<A: SeqAccess<'de>>(self, inner: A) -> Result<V::Value, A::Error> {
        let Self {
            inner: visitor,
            path,
            notes,
        } = self;
        visitor.visit_seq(Items {
            inner,
            path,
            notes,
            next: 0,
        })
    }
    fn visit_map<A: MapAccess<'de>>(self, inner: A) -> Result<V::Value, A::Error> {
        let Self {
            inner: visitor,
            path,
            notes,
        } = self;
        // Fields that are missing come after those that are there.
        let own = |field: &String| match path.is_empty() {
            true => (!field.contains(['.', '['])).then(|| field.clone()),
            false => field
                .strip_prefix(&path)
                .and_then(|rest| rest.strip_prefix('.'))
                .filter(|rest| !rest.contains(['.', '[']))
                .map(str::to_owned),
        };
        let missing = notes.supplied.iter().filter_map(own).collect();
        visitor.visit_map(Fields {
            inner,
            path,
            notes,
            key: None,
            missing,
        })
    }
    fn visit_enum<A: EnumAccess<'de>>(self, inner: A) -> Result<V::Value, A::Error> {
        let Self {
            inner: visitor,
            path,
            notes,
        } = self;
        visitor.visit_enum(Watch { inner, path, notes })
    }
}

impl<'de, S: DeserializeSeed<'de>> DeserializeSeed<'de> for Watch<'_, S> {
    type Value = S::Value;
    fn deserialize<D: Deserializer<'de>>(self, inner: D) -> Result<S::Value, D::Error> {
        let Self {
            inner: seed,
            path,
            notes,
        } = self;
        let done = seed.deserialize(Watched::at(inner, path.clone(), notes));
        // What a type makes of a value that was read well may still be refused.
        done.inspect_err(|_| notes.fail(&path))
    }
}

struct Items<'n, A> {
    inner: A,
    path: String,
    notes: &'n Notes,
    next: usize,
}

impl<'de, A: SeqAccess<'de>> SeqAccess<'de> for Items<'_, A> {
    type Error = A::Error;
    fn next_element_seed<S: DeserializeSeed<'de>>(
        &mut self,
        seed: S,
    ) -> Result<Option<S::Value>, A::Error> {
        let path = format!("{}[{}]", self.path, self.next);
        self.next += 1;
        self.inner.next_element_seed(Watch {
            inner: seed,
            path,
            notes: self.notes,
        })
    }
}

struct Fields<'n, A> {
    inner: A,
    path: String,
    notes: &'n Notes,
    /// The key just read; none while a missing field is supplied.
    key: Option<String>,
    missing: Vec<String>,
}

impl<'de, A: MapAccess<'de>> MapAccess<'de> for Fields<'_, A> {
    type Error = A::Error;
    fn next_key_seed<S: DeserializeSeed<'de>>(
        &mut self,
        seed: S,
    ) -> Result<Option<S::Value>, A::Error> {
        let mut key = String::new();
        // The seed is kept back until it is known whether there is another key.
        let mut seed = Some(seed);
        let read = self.inner.next_key_seed(Caught {
            seed: &mut seed,
            key: &mut key,
        })?;
        match (read, seed) {
            (Some(value), _) => {
                self.key = Some(key);
                Ok(Some(value))
            }
            (None, Some(seed)) => {
                self.key = None;
                match self.missing.last() {
                    Some(field) => seed.deserialize(StrDeserializer::new(field)).map(Some),
                    None => Ok(None),
                }
            }
            (None, None) => Ok(None),
        }
    }
    fn next_value_seed<S: DeserializeSeed<'de>>(&mut self, seed: S) -> Result<S::Value, A::Error> {
        let Some(key) = self.key.take() else {
            self.missing.pop();
            return seed.deserialize(Placeholder::new());
        };
        let dot = if self.path.is_empty() { "" } else { "." };
        let path = format!("{}{dot}{key}", self.path);
        self.inner.next_value_seed(Watch {
            inner: seed,
            path,
            notes: self.notes,
        })
    }
}

/// A key that is read, and written down on the way.
struct Caught<'k, S> {
    seed: &'k mut Option<S>,
    key: &'k mut String,
}

impl<'de, S: DeserializeSeed<'de>> DeserializeSeed<'de> for Caught<'_, S> {
    type Value = S::Value;
    fn deserialize<D: Deserializer<'de>>(self, inner: D) -> Result<S::Value, D::Error> {
        use serde::de::Error;
        let word = inner.deserialize_any(Word)?;
        let seed = self
            .seed
            .take()
            .ok_or_else(|| D::Error::custom("a key is read twice"))?;
        self.key.clone_from(&word);
        seed.deserialize(StrDeserializer::new(&word))
    }
}

struct Word;

impl Visitor<'_> for Word {
    type Value = String;
    fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("a key")
    }
    fn visit_str<E: de::Error>(self, word: &str) -> Result<String, E> {
        Ok(word.to_owned())
    }
}

impl<'de, 'n, A: EnumAccess<'de>> EnumAccess<'de> for Watch<'n, A> {
    type Error = A::Error;
    type Variant = Watch<'n, A::Variant>;
    fn variant_seed<S: DeserializeSeed<'de>>(
        self,
        seed: S,
    ) -> Result<(S::Value, Self::Variant), A::Error> {
        let Self { inner, path, notes } = self;
        let (value, inner) = inner.variant_seed(seed)?;
        Ok((value, Watch { inner, path, notes }))
    }
}

impl<'de, A: VariantAccess<'de>> VariantAccess<'de> for Watch<'_, A> {
    type Error = A::Error;
    fn unit_variant(self) -> Result<(), A::Error> {
        self.inner.unit_variant()
    }
    fn newtype_variant_seed<S: DeserializeSeed<'de>>(self, seed: S) -> Result<S::Value, A::Error> {
        let Self { inner, path, notes } = self;
        inner.newtype_variant_seed(Watch {
            inner: seed,
            path,
            notes,
        })
    }
    fn tuple_variant<V: Visitor<'de>>(self, len: usize, visitor: V) -> Result<V::Value, A::Error> {
        let Self { inner, path, notes } = self;
        inner.tuple_variant(
            len,
            Watch {
                inner: visitor,
                path,
                notes,
            },
        )
    }
    fn struct_variant<V: Visitor<'de>>(
        self,
        fields: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, A::Error> {
        let Self { inner, path, notes } = self;
        inner.struct_variant(
            fields,
            Watch {
                inner: visitor,
                path,
                notes,
            },
        )
    }
}
