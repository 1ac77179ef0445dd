//! What is bolted to what, what touches which air, and what sees what.

use super::part::Spot;
use crate::document::reference::Types;
use crate::document::{Node, Read, Reader, choice, model};
use crate::physics::convection::Facing;
use crate::quantity::{Area, Conductance, FilmCoefficient, Length, Power, TemperatureStep};

model! {
    /// A way for heat between two parts.
    pub struct Joint {
        /// One part, and where on it.
        pub from: (String, Spot), example("(\"sump\", whole)");
        /// The other part, and where on it.
        pub to: (String, Spot), example("(\"case_low\", whole)");
        /// What the joint itself conducts; the way through cut parts comes in series.
        pub contact: Contact, example("total(W_K(4))");
        /// The area of the joint on a part that is cut; the whole end if none is given.
        pub footprint: Option<Area>, above_zero() = None;
    }
}

choice! {
    /// What a joint conducts.
    #[derive(Copy)]
    pub enum Contact {
        /// No resistance of its own: one piece of metal.
        perfect,
        /// This much in total, shared over the cells it covers.
        total(Conductance, above_zero()),
        /// Between the shell and the still oil under or over it, half a layer away: mixes when heated from below.
        oil_floor,
    }
}

model! {
    /// A surface of a part and the air or surroundings it meets.
    pub struct Surface {
        /// The part.
        pub part: String;
        /// Where on it.
        pub at: Spot = Spot::whole;
        /// An air volume, `hangar`, or the name of a surrounding.
        pub meets: String;
        /// Its area.
        pub area: Area, above_zero();
        /// How heat crosses it.
        pub law: FilmLaw, example("air(length: m(0.3), facing: upright)");
    }
}

choice! {
    /// How heat crosses a surface.
    pub enum FilmLaw {
        /// Free convection and the air movement of its volume together.
        air {
            /// Length of the surface along the flow.
            length: Length, above_zero();
            /// Which way it faces.
            facing: Facing;
        },
        /// Fins that only a fraction of the air movement reaches; the free part flows through the fin passage.
        fins {
            /// Length of a fin along the flow.
            length: Length, above_zero();
            /// Fraction of the air movement that reaches between the fins.
            penetration: f64, fraction();
        },
        /// Free convection, wind and radiation to the hangar, under a cover if it has one.
        outdoors {
            /// Length along the wind.
            length: Length, above_zero();
            /// Which way it faces.
            facing: Facing;
            /// Emissivity of the outside.
            emissivity: f64, fraction();
        },
        /// A fixed coefficient.
        fixed(FilmCoefficient, above_zero()),
        /// A coefficient that grows with a power of the temperature difference.
        power {
            /// The coefficient at the difference `at`.
            coefficient: FilmCoefficient, above_zero();
            /// The difference it is given for.
            at: TemperatureStep, above_zero();
            /// The exponent: 0.25 for laminar free convection.
            exponent: f64, limits(0.0, 3.0);
        },
    }
}

model! {
    /// Two surfaces that radiate to each other.
    pub struct RadiationPair {
        /// One part.
        pub from: String;
        /// The other part, `hangar`, or a surrounding.
        pub to: String;
        /// Area of the first.
        pub area: Area, above_zero();
        /// Emissivities of the two.
        pub emissivities: (f64, f64), above_to(0.0, 1.0);
        /// Area of the first over that of the second (0.4 between engine parts and the cowl).
        pub area_ratio: f64, fraction();
    }
}

model! {
    /// Several grey surfaces that see one another.
    pub struct Enclosure {
        /// Each surface: part, `hangar` or surrounding; its area; its emissivity.
        pub surfaces: Vec<(String, Area, f64)>, above_zero();
        /// View factors, a row for each surface, each row summing to one.
        pub view: Vec<Vec<f64>>, fraction();
    }
}

model! {
    /// Watts that are always fed into a part: a given flux on its face.
    pub struct Feed {
        /// The part.
        pub part: String;
        /// Where on it.
        pub at: Spot = Spot::whole;
        /// How much.
        pub power: Power;
    }
}

impl Read for Facing {
    const WANTED: &'static str = "one of a few words";
    const EXAMPLE: &'static str = "upright";
    fn read(node: &Node, reader: &mut Reader) -> Option<Self> {
        let (word, _) = reader.word(node, &["up", "down", "upright"], &[])?;
        Some([Self::Up, Self::Down, Self::Upright][word])
    }
    fn types(types: &mut Types) {
        let words = [
            ("up", "Level, looking up."),
            ("down", "Level, looking down."),
            ("upright", "Upright or bluff."),
        ];
        types.add_words("Facing", "Which way a surface faces.", &words);
    }
}
