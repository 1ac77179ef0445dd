//! `model!` and `choice!`: one definition gives the type, its reading, its limits, its usual range and its line of
//! the reference.

/// The keys of a group, from its fields.
macro_rules! keys {
    ($($(#[doc = $doc:literal])* $field:ident : $ty:ty $(, $rule:ident ( $($arg:tt)* ))* $(= $default:expr)? ;)*) => {
        &[$({
            const RULE: $crate::document::Rule = $crate::document::Rule::ANY$(.$rule($($arg)*))*;
            $crate::document::Key {
                name: stringify!($field),
                doc: concat!("", $($doc),*),
                of: stringify!($ty),
                wanted: <$ty as $crate::document::Read>::WANTED,
                example: RULE.example_or(<$ty as $crate::document::Read>::EXAMPLE),
                default: $crate::document::macros::default_text!($($default)?),
                rule: RULE,
            }
        }),*]
    };
}

macro_rules! default_text {
    () => {
        None
    };
    ($default:expr) => {
        Some(stringify!($default))
    };
}

/// The value of a field: needed, or with its default.
macro_rules! field {
    ($fields:ident, $key:expr, $reader:ident,) => {
        $fields.need($key, $reader)
    };
    ($fields:ident, $key:expr, $reader:ident, $default:expr) => {
        $fields.or($key, $reader, || $default)
    };
}

/// A group of keys in round brackets: `model! { /// Doc. pub struct Name { /// Doc. pub key: Type, limits(0.0, 1.0) = 0.5; } }`.
/// With `: Default` after the name, the defaults of its keys make its own. `@[serde(..)]` before a key is for its writing.
macro_rules! model {
    ($(#[$($meta:tt)*])* $vis:vis struct $name:ident : Default { $($body:tt)* }) => {
        $crate::document::macros::model! { $(#[$($meta)*])* $vis struct $name { $($body)* } }
        $crate::document::macros::defaults! { $name $($body)* }
    };
    ($(#[$($meta:tt)*])* $vis:vis struct $name:ident {
        $($(#[doc = $doc:literal])* $(@[$attr:meta])? $fvis:vis $field:ident : $ty:ty $(, $rule:ident ( $($arg:tt)* ))* $(= $default:expr)? ;)*
    }) => {
        $(#[$($meta)*])*
        #[derive(Debug, Clone, PartialEq, serde::Serialize)]
        $vis struct $name { $($(#[doc = $doc])* $(#[$attr])? $fvis $field: $ty,)* }

        impl $name {
            /// Its keys.
            pub const KEYS: &'static [$crate::document::Key] = $crate::document::macros::keys! {
                $($(#[doc = $doc])* $field : $ty $(, $rule ( $($arg)* ))* $(= $default)? ;)*
            };
        }

        impl $crate::document::Read for $name {
            const WANTED: &'static str = "a group of keys in round brackets";
            const EXAMPLE: &'static str = "(key: value)";
            fn read(
                node: &$crate::document::Node,
                reader: &mut $crate::document::Reader,
            ) -> Option<Self> {
                let fields = reader.fields(node, stringify!($name), Self::KEYS)?;
                let mut keys = Self::KEYS.iter();
                $(let $field: Option<$ty> =
                    $crate::document::macros::field!(fields, keys.next()?, reader, $($default)?);)*
                Some(Self { $($field: $field?),* })
            }
            fn walk(&self, walk: &mut $crate::document::RuleCheck) {
                let mut keys = Self::KEYS.iter();
                $(if let Some(key) = keys.next() {
                    walk.key(key, |walk| $crate::document::Read::walk(&self.$field, walk));
                })*
            }
            fn types(types: &mut $crate::document::reference::Types) {
                let definition = $crate::document::reference::Definition {
                    doc: $crate::document::macros::doc_text!($([$($meta)*])*).to_owned(),
                    keys: Self::KEYS,
                    words: Vec::new(),
                };
                let inner: &[fn(&mut $crate::document::reference::Types)] =
                    &[$(<$ty as $crate::document::Read>::types),*];
                types.add(stringify!($name), definition, inner);
            }
        }
    };
}

macro_rules! defaults {
    ($name:ident $($(#[doc = $doc:literal])* $(@[$attr:meta])? $fvis:vis $field:ident : $ty:ty $(, $rule:ident ( $($arg:tt)* ))* = $default:expr ;)*) => {
        impl Default for $name {
            fn default() -> Self {
                Self { $($field: $default),* }
            }
        }
    };
}

/// One of a few words, each alone, with a value in brackets, or with keys in brackets:
/// `choice! { /// Doc. pub enum Name { /// Doc. always, /// Doc. from(ClockTime), /// Doc. steady { /// Doc. key: Type; } } }`.
macro_rules! choice {
    ($(#[$($meta:tt)*])* $vis:vis enum $name:ident {
        $(
            $(#[$($vmeta:tt)*])* $word:ident
            $(( $inner:ty $(, $irule:ident ( $($iarg:tt)* ))* ))?
            $({ $($(#[doc = $doc:literal])* $field:ident : $ty:ty $(, $rule:ident ( $($arg:tt)* ))* $(= $default:expr)? ;)* })?
        ),* $(,)?
    }) => {
        $(#[$($meta)*])*
        #[derive(Debug, Clone, PartialEq, serde::Serialize)]
        #[allow(non_camel_case_types)]
        $vis enum $name {
            $($(#[$($vmeta)*])* $word $(($inner))? $({ $($(#[doc = $doc])* $field: $ty),* })?),*
        }

        impl $name {
            /// Its words.
            pub const WORDS: &'static [&'static str] = &[$(stringify!($word)),*];
            /// Those with one value in brackets, and what that is.
            const HOLDERS: &'static [(&'static str, &'static str)] =
                &[$($((stringify!($word), <$inner as $crate::document::Read>::WANTED),)?)*];
        }

        impl $crate::document::Read for $name {
            const WANTED: &'static str = "one of a few words";
            const EXAMPLE: &'static str = $crate::document::macros::first_word!($($word $(($inner))? $({ $($field)* })? ,)*);
            fn read(
                node: &$crate::document::Node,
                reader: &mut $crate::document::Reader,
            ) -> Option<Self> {
                let (word, inner) = reader.word(node, Self::WORDS, Self::HOLDERS)?;
                let mut words = 0..;
                $(if words.next() == Some(word) {
                    return $crate::document::macros::variant!(
                        inner, node, reader, $word
                        $(( $inner $(, $irule ( $($iarg)* ))* ))?
                        $({ $($(#[doc = $doc])* $field : $ty $(, $rule ( $($arg)* ))* $(= $default)? ;)* })?
                    );
                })*
                None
            }
            #[allow(unused_variables)]
            fn walk(&self, walk: &mut $crate::document::RuleCheck) {
                let _ = &walk;
                match self {
                    $($crate::document::macros::pattern!($word $(( $inner ))? $({ $($field)* })?; inner) => {
                        $crate::document::macros::walked!(
                            walk, inner, $word
                            $(( $inner $(, $irule ( $($iarg)* ))* ))?
                            $({ $($(#[doc = $doc])* $field : $ty $(, $rule ( $($arg)* ))* $(= $default)? ;)* })?
                        );
                    })*
                }
            }
            fn types(types: &mut $crate::document::reference::Types) {
                let definition = $crate::document::reference::Definition {
                    doc: $crate::document::macros::doc_text!($([$($meta)*])*).to_owned(),
                    keys: &[],
                    words: vec![$($crate::document::macros::described!(
                        [$([$($vmeta)*])*] $word
                        $(( $inner $(, $irule ( $($iarg)* ))* ))?
                        $({ $($(#[doc = $doc])* $field : $ty $(, $rule ( $($arg)* ))* $(= $default)? ;)* })?
                    )),*],
                };
                let inner: &[fn(&mut $crate::document::reference::Types)] = &[
                    $($(<$inner as $crate::document::Read>::types,)? $($(<$ty as $crate::document::Read>::types,)*)?)*
                ];
                types.add(stringify!($name), definition, inner);
            }
        }
    };
}

/// The doc comments among attributes.
macro_rules! doc_text {
    () => {
        ""
    };
    ([doc = $doc:literal] $($rest:tt)*) => {
        concat!($doc, $crate::document::macros::doc_text!($($rest)*))
    };
    ([$($other:tt)*] $($rest:tt)*) => {
        $crate::document::macros::doc_text!($($rest)*)
    };
}

/// A word as the reference has it.
macro_rules! described {
    ([$($meta:tt)*] $word:ident $(( $inner:ty $(, $irule:ident ( $($iarg:tt)* ))* ))?
        $({ $($(#[doc = $doc:literal])* $field:ident : $ty:ty $(, $rule:ident ( $($arg:tt)* ))* $(= $default:expr)? ;)* })?) => {{
        static VALUE: &[$crate::document::Key] =
            $crate::document::macros::keys! { $($word : $inner $(, $irule ( $($iarg)* ))* ;)? };
        static KEYS: &[$crate::document::Key] = $crate::document::macros::keys! {
            $($($(#[doc = $doc])* $field : $ty $(, $rule ( $($arg)* ))* $(= $default)? ;)*)?
        };
        $crate::document::reference::Word {
            name: stringify!($word),
            doc: $crate::document::macros::doc_text!($($meta)*),
            value: VALUE.first(),
            keys: KEYS,
        }
    }};
}

macro_rules! first_word {
    ($word:ident , $($rest:tt)*) => {
        stringify!($word)
    };
    ($word:ident ($inner:ty) , $($rest:tt)*) => {
        concat!(stringify!($word), "(...)")
    };
    ($word:ident { $($field:ident)* } , $($rest:tt)*) => {
        concat!(stringify!($word), "(key: value)")
    };
}

macro_rules! pattern {
    ($word:ident; $as:ident) => {
        Self::$word
    };
    ($word:ident ($inner:ty); $as:ident) => {
        Self::$word($as)
    };
    ($word:ident { $($field:ident)* }; $as:ident) => {
        Self::$word { $($field),* }
    };
}

macro_rules! variant {
    ($found:ident, $node:ident, $reader:ident, $word:ident) => {
        match $found {
            None => Some(Self::$word),
            Some(_) => {
                let wanted = concat!("`", stringify!($word), "` alone");
                $reader.wanted($node, wanted, Some(stringify!($word).to_owned()))
            }
        }
    };
    ($found:ident, $node:ident, $reader:ident, $word:ident ( $inner:ty $(, $rule:ident ( $($arg:tt)* ))* )) => {{
        static KEYS: &[$crate::document::Key] = $crate::document::macros::keys! { $word : $inner $(, $rule ( $($arg)* ))* ; };
        $reader.inner::<$inner>(&KEYS[0], $node, $found.as_deref()).map(Self::$word)
    }};
    ($found:ident, $node:ident, $reader:ident, $word:ident {
        $($(#[doc = $doc:literal])* $field:ident : $ty:ty $(, $rule:ident ( $($arg:tt)* ))* $(= $default:expr)? ;)*
    }) => {{
        static KEYS: &[$crate::document::Key] = $crate::document::macros::keys! {
            $($(#[doc = $doc])* $field : $ty $(, $rule ( $($arg)* ))* $(= $default)? ;)*
        };
        let fields = $reader.fields($found.as_deref().unwrap_or($node), stringify!($word), KEYS)?;
        let mut keys = KEYS.iter();
        $(let $field: Option<$ty> =
            $crate::document::macros::field!(fields, keys.next()?, $reader, $($default)?);)*
        Some(Self::$word { $($field: $field?),* })
    }};
}

macro_rules! walked {
    ($walk:ident, $inner:ident, $word:ident) => {};
    ($walk:ident, $value:ident, $word:ident ( $inner:ty $(, $rule:ident ( $($arg:tt)* ))* )) => {
        static KEYS: &[$crate::document::Key] = $crate::document::macros::keys! { $word : $inner $(, $rule ( $($arg)* ))* ; };
        $walk.held(&KEYS[0], |walk| $crate::document::Read::walk($value, walk));
    };
    ($walk:ident, $inner:ident, $word:ident {
        $($(#[doc = $doc:literal])* $field:ident : $ty:ty $(, $rule:ident ( $($arg:tt)* ))* $(= $default:expr)? ;)*
    }) => {
        static KEYS: &[$crate::document::Key] = $crate::document::macros::keys! {
            $($(#[doc = $doc])* $field : $ty $(, $rule ( $($arg)* ))* $(= $default)? ;)*
        };
        let mut keys = KEYS.iter();
        $(if let Some(key) = keys.next() {
            $walk.key(key, |walk| $crate::document::Read::walk($field, walk));
        })*
    };
}

pub(crate) use {
    choice, default_text, defaults, described, doc_text, field, first_word, keys, model, pattern,
    variant, walked,
};
