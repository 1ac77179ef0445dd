//! Inputs that cannot be kept as text: too long, binary, no file at all.

use super::{hold, refusal};
use std::fs;
use std::io::Write;
use tempfile::tempdir;

const NIGHT: &str = include_str!("inputs/with-sound.ron");

/// Each with its name, and the bytes of `own.ron`.
fn spoilt() -> Vec<(&'static str, Vec<u8>)> {
    let utf16: Vec<u8> = [0xfeff_u16]
        .into_iter()
        .chain(NIGHT.encode_utf16())
        .flat_map(u16::to_le_bytes)
        .collect();
    let windows = NIGHT.replace("hangar:", "hanger:").replace('\n', "\r\n");
    let marked = format!("\u{feff}{}", NIGHT.replace("hangar:", "hanger:"));
    let mac = NIGHT.replace("hangar:", "hanger:").replace('\n', "\r");
    vec![
        ("made-utf-16", utf16),
        ("made-windows-lines", windows.into_bytes()),
        ("made-byte-order-mark", marked.into_bytes()),
        ("made-old-mac-lines", mac.into_bytes()),
        ("made-binary", (0..=255).cycle().take(4096).collect()),
        ("made-zeros", vec![0; 4096]),
        (
            "made-deep-brackets",
            format!("(title: {}{})", "[".repeat(5000), "]".repeat(5000)).into_bytes(),
        ),
        (
            "made-deep-open",
            format!("(title: {}", "(".repeat(100_000)).into_bytes(),
        ),
        ("made-latin-1", b"(title: \"caf\xe9\")".to_vec()),
        ("made-nothing", Vec::new()),
        ("made-blank", b" \n\t\n".to_vec()),
        ("made-comment-only", b"// a night, one day\n".to_vec()),
        (
            "made-cut-in-half",
            NIGHT.as_bytes()[..NIGHT.len() / 2].to_vec(),
        ),
    ]
}

#[test]
fn bytes_that_are_no_model_file_are_told() {
    let mut wrong = Vec::new();
    for (name, bytes) in spoilt() {
        let folder = tempdir().unwrap();
        fs::write(folder.path().join("own.ron"), bytes).unwrap();
        hold(
            name,
            &refusal(folder.path(), &["check", "own.ron"]),
            &mut wrong,
        );
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n\n"));
}

#[test]
fn a_hundred_megabytes_of_one_line_are_refused_without_reading_them() {
    let folder = tempdir().unwrap();
    let mut file = fs::File::create(folder.path().join("own.ron")).unwrap();
    let piece = vec![b'('; 1 << 20];
    for _ in 0..100 {
        file.write_all(&piece).unwrap();
    }
    drop(file);
    let mut wrong = Vec::new();
    let started = std::time::Instant::now();
    hold(
        "made-long-line",
        &refusal(folder.path(), &["check", "own.ron"]),
        &mut wrong,
    );
    assert!(started.elapsed().as_secs() < 10, "{:?}", started.elapsed());
    assert!(wrong.is_empty(), "{}", wrong.join("\n\n"));
}

#[test]
fn what_is_no_file_is_told() {
    let mut wrong = Vec::new();
    let folder = tempdir().unwrap();
    fs::create_dir(folder.path().join("own.ron")).unwrap();
    for (name, words) in [
        ("made-folder", &["check", "own.ron"][..]),
        ("made-folder-as-night", &["night", "own.ron"]),
        ("made-absent", &["check", "nowhere.ron"]),
        ("made-absent-night", &["night", "nowhere.ron"]),
        ("made-absent-comparison", &["compare", "nowhere.ron"]),
        ("made-no-such-night", &["night", "dmo"]),
        ("made-no-such-comparison", &["compare", "dem"]),
    ] {
        hold(name, &refusal(folder.path(), words), &mut wrong);
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n\n"));
}
