//! Any built-in model, mutilated anyhow, ends in a located message and never in a panic.

use coldsoak::files::fault::FileError;
use coldsoak::files::library::MODELS;
use proptest::prelude::*;
use proptest::test_runner::FileFailurePersistence;

/// A piece of vandalism: where, and what with.
#[derive(Debug, Clone)]
enum Blow {
    Cut(usize, usize),
    Flip(usize, u8),
    Insert(usize, Vec<u8>),
}

fn blow() -> impl Strategy<Value = Blow> {
    let anywhere = 0..200_000_usize;
    let marks = prop::sample::select(b"()[]{}\",:-#/'\\rN0 \n\xff\xc3".to_vec());
    prop_oneof![
        (anywhere.clone(), 1..60_usize).prop_map(|(at, n)| Blow::Cut(at, n)),
        (anywhere.clone(), 1..=255_u8).prop_map(|(at, mask)| Blow::Flip(at, mask)),
        (anywhere, prop::collection::vec(marks, 1..4))
            .prop_map(|(at, what)| Blow::Insert(at, what)),
    ]
}

fn struck(mut bytes: Vec<u8>, blows: &[Blow]) -> Vec<u8> {
    for blow in blows {
        let length = bytes.len().max(1);
        match blow {
            Blow::Cut(at, n) => {
                let at = (at % length).min(bytes.len());
                let end = (at + n).min(bytes.len());
                bytes.drain(at..end);
            }
            Blow::Flip(at, mask) => {
                if let Some(byte) = bytes.get_mut(at % length) {
                    *byte ^= mask;
                }
            }
            Blow::Insert(at, what) => {
                let at = (at % length).min(bytes.len());
                bytes.splice(at..at, what.iter().copied());
            }
        }
    }
    bytes
}

proptest! {
    #![proptest_config(ProptestConfig {
        failure_persistence: Some(Box::new(FileFailurePersistence::WithSource("regressions"))),
        ..ProptestConfig::with_cases(400)
    })]

    #[test]
    fn a_mutilated_model_is_sound_or_told(
        which in 0..MODELS.len(),
        blows in prop::collection::vec(blow(), 1..5),
    ) {
        let (_, name, text) = MODELS[which];
        let ending = if text.starts_with("time_utc") || text.starts_with('#') { "csv" } else { "ron" };
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join(format!("own.{ending}"));
        std::fs::write(&path, struck(text.as_bytes().to_vec(), &blows)).unwrap();
        match coldsoak::files::validate::validate(&path, None, coldsoak::files::sources::Outside::Refused, &mut Vec::new()) {
            Ok(_) => {}
            Err(FileError::Read { .. }) => prop_assert!(false, "{name}: a file that is there was not read"),
            Err(FileError::Faults(faults)) => {
                prop_assert!(!faults.is_empty(), "{name}: refused without a word");
                for fault in faults {
                    prop_assert!(!fault.message.is_empty());
                    prop_assert!(fault.to_string().contains("own."), "{fault}");
                }
            }
        }
    }
}
