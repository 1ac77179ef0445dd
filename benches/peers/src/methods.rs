//! The methods that are held against each other, and the settings each is run at.

use crate::carried::{Carried, carry};
use crate::cvode::{Cvode, Solver};
use crate::ida::Ida;
use crate::open::Open;
use crate::problem::{Field, Hold};
use crate::rust_peer::{self, Method as Rust};
use crate::{ours, slopes::Slopes};
use coldsoak::network::Network;

/// One of them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Method {
    /// coldsoak's own march.
    Ours,
    /// The same, nights abreast.
    Abreast,
    /// CVODE with this solver, the air this much looser.
    Cvode(Solver, f64),
    /// IDA with KLU, the air this much looser.
    Ida(f64),
    /// diffsol.
    Diffsol(Rust),
}

/// How much looser the air is held in the loosened variants.
const LOOSE: f64 = 30.0;

/// All that run at about a hundred states.
pub const ALL: [Method; 9] = [
    Method::Ours,
    Method::Cvode(Solver::Klu, 1.0),
    Method::Cvode(Solver::Klu, LOOSE),
    Method::Cvode(Solver::Dense, 1.0),
    Method::Ida(1.0),
    Method::Ida(LOOSE),
    Method::Diffsol(Rust::Bdf),
    Method::Diffsol(Rust::TrBdf2),
    Method::Diffsol(Rust::Esdirk34),
];

impl Method {
    /// Its name in tables.
    pub fn name(self) -> String {
        let air = |air: f64| {
            if air > 1.0 {
                format!(", air x{air}")
            } else {
                String::new()
            }
        };
        match self {
            Self::Ours => "coldsoak".into(),
            Self::Abreast => "coldsoak abreast".into(),
            Self::Cvode(Solver::Klu, loose) => format!("CVODE KLU{}", air(loose)),
            Self::Cvode(Solver::Dense, loose) => format!("CVODE dense{}", air(loose)),
            Self::Ida(loose) => format!("IDA KLU{}", air(loose)),
            Self::Diffsol(Rust::Bdf) => "diffsol BDF".into(),
            Self::Diffsol(Rust::TrBdf2) => "diffsol TR-BDF2".into(),
            Self::Diffsol(Rust::Esdirk34) => "diffsol ESDIRK34".into(),
        }
    }

    /// Whether its tolerances are coldsoak's.
    pub fn is_ours(self) -> bool {
        matches!(self, Self::Ours | Self::Abreast)
    }

    /// Whether it needs the slopes of the states alone.
    pub fn knows_states_only(self) -> bool {
        matches!(self, Self::Cvode(..) | Self::Diffsol(_))
    }

    /// Carries nights, each with its slopes if it needs them, at a tolerance: coldsoak's own, or of the peers' kind.
    pub fn integrate(
        self,
        nets: &[Network],
        slopes: &[Option<Slopes>],
        tolerance: f64,
    ) -> Result<Vec<Carried>, String> {
        if self == Self::Abreast {
            return ours::abreast(nets, tolerance);
        }
        let each = nets.iter().zip(slopes);
        each.map(|(net, slopes)| self.one(net, slopes.as_ref(), tolerance))
            .collect()
    }

    fn one(
        self,
        net: &Network,
        slopes: Option<&Slopes>,
        tolerance: f64,
    ) -> Result<Carried, String> {
        let slopes = || slopes.ok_or("slopes of the states alone were not prepared");
        let field = || Ok::<_, String>(Field::new(net, slopes()?.clone()));
        match self {
            Self::Ours | Self::Abreast => ours::integrate(net, tolerance),
            Self::Cvode(solver, air) => {
                carry(net, Cvode::new(field()?, Hold { tolerance, air }, solver))
            }
            Self::Ida(air) => carry(net, Ida::new(Open::new(net), Hold { tolerance, air })),
            Self::Diffsol(method) => rust_peer::integrate(
                net,
                field()?,
                Hold {
                    tolerance,
                    air: 1.0,
                },
                method,
            ),
        }
    }
}
