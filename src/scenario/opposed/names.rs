//! The names of an opposed engine's parts, and what people call them.
//!
//! A crankcase quarter is `case0ul`: station (0 is the nose, then one a cylinder row), upper or lower,
//! left or right. A cylinder part is `cylL1head`: side, row from the front, piece.

/// A side of the engine, seen from the pilot's seat.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Side {
    Left,
    Right,
}

/// Above or below the plane of the cylinders.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Level {
    Upper,
    Lower,
}

/// The pieces a barrel is cut in, from the crankcase outward.
pub(super) const BARREL: [&str; 3] = ["b0", "b1", "b2"];
/// The air volumes of the bay, each with a skin of its own.
pub(super) const POCKETS: [&str; 6] = ["UL", "UR", "FR", "LO", "FL", "RE"];

impl Side {
    /// Left, then right.
    pub(super) const BOTH: [Self; 2] = [Self::Left, Self::Right];

    pub(super) fn other(self) -> Self {
        match self {
            Self::Left => Self::Right,
            Self::Right => Self::Left,
        }
    }
    pub(super) fn word(self) -> &'static str {
        match self {
            Self::Left => "left",
            Self::Right => "right",
        }
    }
    /// The air volume over this side's cylinders.
    pub(super) fn pocket(self) -> &'static str {
        match self {
            Self::Left => "UL",
            Self::Right => "UR",
        }
    }
}

impl Level {
    /// Upper, then lower.
    pub(super) const BOTH: [Self; 2] = [Self::Upper, Self::Lower];

    pub(super) fn word(self) -> &'static str {
        match self {
            Self::Upper => "upper",
            Self::Lower => "lower",
        }
    }
}

/// A crankcase quarter at a station.
pub(super) fn case(station: usize, level: Level, side: Side) -> String {
    format!("case{station}{}{}", &level.word()[..1], &side.word()[..1])
}

/// A piece of a cylinder: `b0`, `b1`, `b2` or `head`.
pub(super) fn cylinder(side: Side, row: usize, piece: &str) -> String {
    format!("cyl{}{row}{piece}", letter(side))
}

/// A piston with its rod.
pub(super) fn piston(side: Side, row: usize) -> String {
    format!("piston{}{row}", letter(side))
}

/// The crankshaft at a station.
pub(super) fn crank(station: usize) -> String {
    format!("crank{station}")
}

/// The skin round an air volume.
pub(super) fn skin(pocket: &str) -> String {
    format!("cowl{pocket}")
}

fn letter(side: Side) -> char {
    match side {
        Side::Left => 'L',
        Side::Right => 'R',
    }
}

/// What people call a row: `front`, `middle`, `rear`, or its number where there are more.
pub(super) fn row_word(row: usize, rows: usize) -> String {
    match (row, rows) {
        (1, 1) => "only".to_owned(),
        (1, _) => "front".to_owned(),
        (2, 3) => "middle".to_owned(),
        (row, rows) if row == rows => "rear".to_owned(),
        (row, _) => format!("row-{row}"),
    }
}

/// What people call a station of the crankcase: `nose`, or the cylinders it stands at.
pub(super) fn station_word(station: usize, rows: usize) -> String {
    match station {
        0 => "nose".to_owned(),
        row => format!("{} cylinders", row_word(row, rows)),
    }
}

/// What people call a cylinder: `left front cylinder`.
pub(super) fn cylinder_word(side: Side, row: usize, rows: usize) -> String {
    format!("{} {} cylinder", side.word(), row_word(row, rows))
}

/// What people call the space of an air volume.
pub(super) fn pocket_word(pocket: &str) -> &'static str {
    match pocket {
        "UL" => "over the left cylinders",
        "UR" => "over the right cylinders",
        "FR" => "behind the nose bowl",
        "LO" => "under the cylinders",
        "FL" => "around the sump",
        _ => "behind the engine",
    }
}
