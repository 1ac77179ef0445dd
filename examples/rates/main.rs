//! The balance of a night as a function for other programs: states in, rates of change out.
//!
//! `cargo run --example rates -- NIGHT [unheated]` computes the built-in night (without its heaters), writes one line of JSON to standard output (what
//! each state is and begins with, when the night has corners, what switches the heaters, and what coldsoak itself
//! found), and then answers questions in binary, little-endian, until its standard input ends:
//!
//! | request | answer |
//! |---|---|
//! | `r`, time (f64, s), states (n f64) | rates of the states (n f64, per second) |
//! | `j`, time, states | their slopes (n x n f64, row by row) |
//! | `s`, heater (u8), on (u8) | nothing; the heater is switched |
//!
//! Air pressures are found again at each request. `.ci/reference/integrate.py` hands the rates to general-purpose
//! integrators and compares what they find.

mod reduced;

use coldsoak::balance::Balance;
use coldsoak::files::night::load_builtin;
use coldsoak::network::{Network, assemble};
use coldsoak::night::{Night, run};
use coldsoak::scenario::check::check;
use serde_json::{Value, json};
use std::error::Error;
use std::io::{Read, Write};

fn main() -> Result<(), Box<dyn Error>> {
    let name = std::env::args()
        .nth(1)
        .ok_or("name a built-in night: cargo run --example rates -- demo")?;
    let mut scenario = load_builtin(&name).map_err(|e| e.to_string())?.scenario;
    match std::env::args().nth(2).as_deref() {
        None => {}
        Some("unheated") => scenario.heaters.clear(),
        Some(other) => {
            return Err(format!("{other:?} is not known here; a night may be unheated").into());
        }
    }
    let night = run(&scenario)?;
    let checked = check(&scenario).map_err(|_| "a night that was computed is refused")?;
    let net = assemble(&checked);
    let mut out = std::io::stdout().lock();
    writeln!(out, "{}", described(&net, &night))?;
    out.flush()?;
    answer(&net, &mut std::io::stdin().lock(), &mut out)
}

/// The night and what was found, for the line of JSON.
fn described(net: &Network, night: &Night) -> Value {
    let states = net.index.states();
    let trace = &night.trace;
    let samples: Vec<&[f64]> = (0..trace.len())
        .map(|k| &trace.sample(k)[..states])
        .collect();
    let kinks: Vec<f64> = net
        .inputs
        .iter()
        .flat_map(|curve| curve.kinks().iter().copied())
        .collect();
    let heaters: Vec<Value> = net
        .heaters
        .iter()
        .map(|h| {
            let thermostat = h
                .thermostat
                .as_ref()
                .map(|s| json!({ "columns": s.columns, "lo_c": s.lo_c, "hi_c": s.hi_c }));
            json!({ "spans_s": h.spans, "thermostat": thermostat })
        })
        .collect();
    let parts: Vec<Value> = night
        .findings
        .parts
        .iter()
        .map(|p| {
            let cells = trace.legend.cells.iter().filter(|c| c.part == p.part);
            let columns: Vec<usize> = cells.map(|c| c.column).collect();
            let reached = &p.reached;
            json!({ "part": p.part, "columns": columns, "hold_h": reached.hold.hours(),
                "first_h": reached.first.hours() })
        })
        .collect();
    json!({
        "columns": trace.legend.columns[..states],
        "initial": net.initial,
        "end_s": net.end_s,
        "kinks_s": kinks,
        "heaters": heaters,
        "threshold_c": night.findings.threshold.threshold_c,
        "parts": parts,
        "steps": night.effort.steps,
        "times_s": trace.times_s,
        "samples": samples,
        "switchings": trace.switchings,
    })
}

/// Answers questions until there are no more.
fn answer(
    net: &Network,
    asked: &mut impl Read,
    out: &mut impl Write,
) -> Result<(), Box<dyn Error>> {
    let n = net.index.states();
    let mut balance = Balance::new(net);
    let mut question = [0_u8; 1];
    while asked.read(&mut question)? == 1 {
        if question[0] == b's' {
            let mut which = [0_u8; 2];
            asked.read_exact(&mut which)?;
            balance.switch(which[0].into(), which[1] != 0);
            continue;
        }
        let mut bytes = vec![0_u8; 8 * (n + 1)];
        asked.read_exact(&mut bytes)?;
        let numbers: Vec<f64> = bytes
            .chunks_exact(8)
            .map(|b| f64::from_le_bytes(b.try_into().unwrap_or_default()))
            .collect();
        let rates = balance.rates(numbers[0], &numbers[1..])?[..n].to_vec();
        let found = match question[0] {
            b'r' => rates
                .iter()
                .zip(&net.capacities)
                .map(|(r, c)| r / c)
                .collect(),
            b'j' => {
                reduced::slopes(net, &mut balance).ok_or("the auxiliary unknowns do not follow")?
            }
            other => return Err(format!("no request has byte {other}").into()),
        };
        let found: Vec<u8> = found.iter().flat_map(|v: &f64| v.to_le_bytes()).collect();
        out.write_all(&found)?;
        out.flush()?;
    }
    Ok(())
}
