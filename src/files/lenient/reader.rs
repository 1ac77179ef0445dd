//! The reader, watched: it keeps the path of what is read, and steps over what is excused.

use super::notes::Expected;
use super::placeholder::Placeholder;
use super::watch::{Watch, Watched};
use serde::Deserialize;
use serde::de::{Deserializer, IgnoredAny, Visitor};

/// One way of asking the reader: note what is expected, let a placeholder answer where the value is cut
/// out, and tell the path where the answer is none.
macro_rules! asks {
    ($($ask:ident($($arg:ident: $type:ty),*) $expected:expr;)+) => {
        $(fn $ask<V: Visitor<'de>>(self, $($arg: $type,)* visitor: V) -> Result<V::Value, D::Error> {
            let Self { inner, path, notes } = self;
            let expected: Option<Expected> = $expected;
            if let Some(expected) = expected {
                notes.expect(&path, expected);
            }
            if notes.excuses(&path) {
                IgnoredAny::deserialize(inner)?;
                return Placeholder::new().$ask($($arg,)* visitor);
            }
            let watch = Watch { inner: visitor, path: path.clone(), notes };
            inner.$ask($($arg,)* watch).inspect_err(|_| notes.fail(&path))
        })+
    };
}

impl<'de, D: Deserializer<'de>> Deserializer<'de> for Watched<'_, D> {
    type Error = D::Error;

    asks! {
        deserialize_any() None;
        deserialize_bool() Some(Expected::YesNo);
        deserialize_i8() Some(Expected::Whole);
        deserialize_i16() Some(Expected::Whole);
        deserialize_i32() Some(Expected::Whole);
        deserialize_i64() Some(Expected::Whole);
        deserialize_u8() Some(Expected::Whole);
        deserialize_u16() Some(Expected::Whole);
        deserialize_u32() Some(Expected::Whole);
        deserialize_u64() Some(Expected::Whole);
        deserialize_f32() Some(Expected::Number);
        deserialize_f64() Some(Expected::Number);
        deserialize_char() Some(Expected::Text);
        deserialize_str() Some(Expected::Text);
        deserialize_string() Some(Expected::Text);
        deserialize_bytes() None;
        deserialize_byte_buf() None;
        deserialize_option() None;
        deserialize_unit() None;
        deserialize_unit_struct(name: &'static str) None;
        deserialize_newtype_struct(name: &'static str) None;
        deserialize_seq() Some(Expected::List);
        deserialize_tuple(len: usize) Some(Expected::Tuple(len));
        deserialize_tuple_struct(name: &'static str, len: usize) Some(Expected::Tuple(len));
        deserialize_map() Some(Expected::Map);
        deserialize_struct(name: &'static str, fields: &'static [&'static str]) Some(Expected::Fields);
        deserialize_enum(name: &'static str, variants: &'static [&'static str])
            Some(Expected::OneOf(name, variants));
        deserialize_identifier() None;
        deserialize_ignored_any() None;
    }
}
