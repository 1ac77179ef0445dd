//! A value of any type at all, to stand in for one that could not be read. It is never computed with.

use serde::de::value::{MapDeserializer, StrDeserializer};
use serde::de::{
    self, DeserializeSeed, Deserializer, EnumAccess, IntoDeserializer, VariantAccess, Visitor,
};
use std::marker::PhantomData;

/// Gives whatever is asked for: one, no, an empty list, every field, the first of several choices.
pub(super) struct Placeholder<E>(PhantomData<E>);

/// A text that serves as a name, and as a time of day.
const TEXT: &str = "00:00";

impl<E> Placeholder<E> {
    pub(super) fn new() -> Self {
        Self(PhantomData)
    }
}

impl<'de, E: de::Error> IntoDeserializer<'de, E> for Placeholder<E> {
    type Deserializer = Self;
    fn into_deserializer(self) -> Self {
        self
    }
}

macro_rules! gives {
    ($($ask:ident => $visit:ident($value:expr);)+) => {
        $(fn $ask<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, E> {
            visitor.$visit($value)
        })+
    };
}

impl<'de, E: de::Error> Deserializer<'de> for Placeholder<E> {
    type Error = E;

    gives! {
        deserialize_any => visit_f64(1.0);
        deserialize_f32 => visit_f64(1.0);
        deserialize_f64 => visit_f64(1.0);
        deserialize_bool => visit_bool(false);
        deserialize_i8 => visit_u64(1);
        deserialize_i16 => visit_u64(1);
        deserialize_i32 => visit_u64(1);
        deserialize_i64 => visit_u64(1);
        deserialize_u8 => visit_u64(1);
        deserialize_u16 => visit_u64(1);
        deserialize_u32 => visit_u64(1);
        deserialize_u64 => visit_u64(1);
        deserialize_char => visit_char('0');
        deserialize_str => visit_str(TEXT);
        deserialize_string => visit_str(TEXT);
        deserialize_identifier => visit_str(TEXT);
        deserialize_bytes => visit_bytes(b"");
        deserialize_byte_buf => visit_bytes(b"");
    }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, E> {
        visitor.visit_none()
    }
    fn deserialize_unit<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, E> {
        visitor.visit_unit()
    }
    fn deserialize_ignored_any<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, E> {
        visitor.visit_unit()
    }
    fn deserialize_unit_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        visitor: V,
    ) -> Result<V::Value, E> {
        visitor.visit_unit()
    }
    fn deserialize_newtype_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        visitor: V,
    ) -> Result<V::Value, E> {
        visitor.visit_newtype_struct(self)
    }
    fn deserialize_seq<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, E> {
        self.deserialize_tuple(0, visitor)
    }
    fn deserialize_tuple<V: Visitor<'de>>(self, len: usize, visitor: V) -> Result<V::Value, E> {
        let items = (0..len).map(|_| Self::new());
        visitor.visit_seq(de::value::SeqDeserializer::new(items))
    }
    fn deserialize_tuple_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        len: usize,
        visitor: V,
    ) -> Result<V::Value, E> {
        self.deserialize_tuple(len, visitor)
    }
    fn deserialize_map<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, E> {
        self.deserialize_struct("", &[], visitor)
    }
    fn deserialize_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        fields: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, E> {
        let fields = fields.iter().map(|field| (*field, Self::new()));
        visitor.visit_map(MapDeserializer::new(fields))
    }
    fn deserialize_enum<V: Visitor<'de>>(
        self,
        _: &'static str,
        variants: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, E> {
        visitor.visit_enum(First(variants.first().copied().unwrap_or(""), self))
    }
}

/// The first of several choices.
struct First<E>(&'static str, Placeholder<E>);

impl<'de, E: de::Error> EnumAccess<'de> for First<E> {
    type Error = E;
    type Variant = Placeholder<E>;
    fn variant_seed<S: DeserializeSeed<'de>>(
        self,
        seed: S,
    ) -> Result<(S::Value, Self::Variant), E> {
        Ok((seed.deserialize(StrDeserializer::new(self.0))?, self.1))
    }
}

impl<'de, E: de::Error> VariantAccess<'de> for Placeholder<E> {
    type Error = E;
    fn unit_variant(self) -> Result<(), E> {
        Ok(())
    }
    fn newtype_variant_seed<S: DeserializeSeed<'de>>(self, seed: S) -> Result<S::Value, E> {
        seed.deserialize(self)
    }
    fn tuple_variant<V: Visitor<'de>>(self, len: usize, visitor: V) -> Result<V::Value, E> {
        self.deserialize_tuple(len, visitor)
    }
    fn struct_variant<V: Visitor<'de>>(
        self,
        fields: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, E> {
        self.deserialize_struct("", fields, visitor)
    }
}
