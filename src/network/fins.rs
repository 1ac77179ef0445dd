//! The slots between the fins of a cylinder: a slow stream, and the heat it takes from each finned cell.

use super::frame::Frame;
use super::graph::Network;
use crate::laws::{FinCarry, FinCell, FinStream, Law, Term};
use crate::physics::fin;
use crate::scenario::body::FinPassage;

/// Lays down the passage between the fins of one cylinder.
pub fn open(frame: &Frame, net: &mut Network, number: usize, passage: &FinPassage) {
    let [low, high] = [&passage.below, &passage.above].map(|name| frame.pocket(name));
    let mid = |pocket: usize| frame.body.air_volumes[pocket].mid_height.si();
    let length = passage.length.si();
    let (stream, mean) = (frame.fin_stream(number), frame.fin_mean(number));
    let ix = &frame.index;
    let total: f64 = passage.fins.iter().map(|(_, area)| area.si()).sum();
    let film = fin::passage_film_coefficient(passage.fin_gap.si());

    net.auxiliaries.means.push(mean);
    net.laws.means.push(Term::minus_itself(mean));
    for (part, area) in &passage.fins {
        let cut = frame.cut(part);
        for (cell, share) in cut.cells().zip(&cut.shares) {
            let share = share * area.si() / total;
            net.laws.means.push(Term::new(mean, cell, share));
            net.laws.fin_cells.push(
                FinCell {
                    ha_w_per_k: film * total,
                    share,
                }
                .between([stream, ix.pocket(low), ix.pocket(high), cell], [cell]),
            );
        }
    }
    net.auxiliaries.fin_streams.push(stream);
    net.laws.fin_streams.push(
        FinStream {
            kg_per_s_pa: fin::passage_flow_conductance(
                passage.free_area.si(),
                passage.fin_gap.si(),
                length,
            ),
            heights_m: [-0.5 * length - mid(low), 0.5 * length - mid(high)],
            length_m: length,
        }
        .between(
            [
                stream,
                frame.pressure(low),
                frame.pressure(high),
                ix.pocket(low),
                ix.pocket(high),
                ix.hangar(),
                mean,
            ],
            [stream],
        ),
    );
    net.laws.fin_carries.push(
        FinCarry {
            ha_w_per_k: film * total,
        }
        .between(
            [
                stream,
                ix.pocket(low),
                ix.pocket(high),
                ix.vapour(low),
                ix.vapour(high),
                ix.hangar(),
                mean,
            ],
            [
                ix.pocket(low),
                ix.pocket(high),
                ix.vapour(low),
                ix.vapour(high),
                net.mass_row(low),
                net.mass_row(high),
            ],
        ),
    );
}
