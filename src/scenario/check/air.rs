//! Air volumes, the openings between and out of them, and the air inside the engine: their names.

use super::super::body::{Body, FinPassage};
use super::super::moisture::CrankcaseGas;
use super::super::part::Shape;
use super::names::{Names, spot_fits};
use super::problem::Problems;

/// Checks the bay's air and the engine's.
pub(super) fn check(body: &Body, names: &Names, problems: &mut Problems) {
    for (i, passage) in body.openings.iter().enumerate() {
        let path = format!("engine.openings[{i}].between");
        let (a, b) = &passage.between;
        pair(a, b, &path, names, problems);
    }
    for (i, exchange) in body.mixing_openings.iter().enumerate() {
        let path = format!("engine.mixing_openings[{i}]");
        pair(&exchange.below, &exchange.above, &path, names, problems);
    }
    for (i, gap) in body.cowl_leaks.iter().enumerate() {
        names.pocket(
            &gap.pocket,
            &format!("engine.cowl_leaks[{i}].pocket"),
            problems,
        );
    }
    for (i, passage) in body.fin_passages.iter().enumerate() {
        let path = format!("engine.fin_passages[{i}]");
        fin_passage(passage, &path, names, problems);
    }
    if let Some(room) = &body.crankcase_gas {
        gas_room(room, names, problems);
    }
}

fn pair(a: &str, b: &str, path: &str, names: &Names, problems: &mut Problems) {
    let both = names.pocket(a, path, problems) & names.pocket(b, path, problems);
    if both && a == b {
        problems
            .tell(path, format!("the air volume `{a}` opens into itself"))
            .word(a);
    }
}

fn fin_passage(passage: &FinPassage, path: &str, names: &Names, problems: &mut Problems) {
    pair(&passage.below, &passage.above, path, names, problems);
    if passage.fins.is_empty() {
        problems.tell(
            format!("{path}.fins"),
            "a fin passage needs at least one finned part",
        );
    }
    for (name, _) in &passage.fins {
        names.part(name, &format!("{path}.fins"), problems);
    }
}

fn gas_room(room: &CrankcaseGas, names: &Names, problems: &mut Problems) {
    let path = "engine.crankcase_gas";
    names.pocket(&room.breather, &format!("{path}.breather"), problems);
    for (i, wall) in room.walls.iter().enumerate() {
        let path = format!("{path}.walls[{i}]");
        if let Some(part) = names.part(&wall.part, &format!("{path}.part"), problems) {
            spot_fits(part, wall.at, &format!("{path}.at"), problems);
        }
    }
    if let Some(oil) = &room.oil
        && let Some(part) = names.part(&oil.part, &format!("{path}.oil.part"), problems)
        && !matches!(part.shape, Shape::stack { .. })
    {
        problems
            .tell(
                format!("{path}.oil.part"),
                format!("`{}` is no oil stack, so it has no oil surface", oil.part),
            )
            .word(&oil.part)
            .help("give that part the shape `stack(area: .., depth: .., layers: 4)`");
    }
}
