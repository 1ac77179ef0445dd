//! Amounts piled up over the hours: what is above zero upward, what is below zero downward.

use crate::picture::draw::Canvas;
use crate::picture::draw::colour::{self, Colour};

/// What lies below zero by less than this share of what is above is no reason for the axis to go there.
const TRACE: f64 = 0.004;

/// Layers with one value for each span between edges.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Stack {
    /// The edges, seconds after the beginning.
    pub edges_s: Vec<f64>,
    /// The layers, from zero outward.
    pub layers: Vec<Layer>,
    /// What they are measured against, drawn as a line of steps over them.
    pub over: Option<Layer>,
}

/// One layer.
#[derive(Debug, Clone, PartialEq)]
pub struct Layer {
    /// Its name in machine output.
    pub key: String,
    /// Its name.
    pub name: String,
    /// Its colour.
    pub colour: Colour,
    /// How much that covers the background, which differs where two layers have one colour.
    pub opacity: f64,
    /// Its values.
    pub values: Vec<f64>,
}

/// A layer piled on those before it: for each span from where to where, above and below zero.
pub struct Piled {
    above: Vec<(f64, f64)>,
    below: Vec<(f64, f64)>,
}

impl Piled {
    /// The middle of its last span.
    pub fn end(&self) -> f64 {
        let side = |spans: &[(f64, f64)]| spans.last().copied().unwrap_or((0.0, 0.0));
        let (above, below) = (side(&self.above), side(&self.below));
        let (from, to) = if above.0 == above.1 { below } else { above };
        (from + to) / 2.0
    }
}

impl Stack {
    /// All layers piled up.
    pub fn piled(&self) -> Vec<Piled> {
        let spans = self.edges_s.len().saturating_sub(1);
        let (mut up, mut down) = (vec![0.0; spans], vec![0.0; spans]);
        let pile = |bases: &mut Vec<f64>, values: &[f64], part: fn(f64) -> f64| {
            let each = bases.iter_mut().zip(values);
            each.map(|(base, value)| {
                let from = *base;
                *base += part(*value);
                (from, *base)
            })
            .collect()
        };
        self.layers
            .iter()
            .map(|layer| Piled {
                above: pile(&mut up, &layer.values, |v| v.max(0.0)),
                below: pile(&mut down, &layer.values, |v| v.min(0.0)),
            })
            .collect()
    }

    /// The lowest and the highest edge of the pile.
    pub fn range(&self) -> (f64, f64) {
        let piled = self.piled();
        let over = self.over.iter().flat_map(|l| l.values.iter().copied());
        let over = over.fold(0.0, f64::max);
        let last = piled.last();
        let low = last.map_or(0.0, |p| p.below.iter().map(|s| s.1).fold(0.0, f64::min));
        let high = last.map_or(over, |p| p.above.iter().map(|s| s.1).fold(over, f64::max));
        // A trace below zero, as of a loss that turned for a moment, is not worth a tick of its own.
        let low = if low > -TRACE * high { 0.0 } else { low };
        (low, high)
    }

    /// Draws it, given where a time and a value stand on the sheet.
    pub fn paint(&self, canvas: &Canvas, x: &dyn Fn(f64) -> f64, y: &dyn Fn(f64) -> f64) {
        for (layer, piled) in self.layers.iter().zip(self.piled()) {
            for spans in [&piled.above, &piled.below] {
                self.outlined(canvas, spans, layer, x, y);
            }
        }
        if let Some(over) = &self.over {
            let spans = self.edges_s.windows(2).zip(&over.values);
            let steps = spans.flat_map(|(s, v)| [(x(s[0]), y(*v)), (x(s[1]), y(*v))]);
            let steps: Vec<_> = steps.collect();
            // Edged with the ground, so that it shows on dark layers too.
            canvas.line(&steps, colour::BACKGROUND, 4.6, &[]);
            canvas.line(&steps, over.colour, 2.0, &[]);
        }
    }

    /// The runs of spans with something in them, each as one polygon under a line of the ground, which parts it from
    /// the next layer.
    fn outlined(
        &self,
        canvas: &Canvas,
        spans: &[(f64, f64)],
        layer: &Layer,
        x: &dyn Fn(f64) -> f64,
        y: &dyn Fn(f64) -> f64,
    ) {
        let mut from = 0;
        while from < spans.len() {
            if spans[from].0 == spans[from].1 {
                from += 1;
                continue;
            }
            let mut to = from;
            while to < spans.len() && spans[to].0 != spans[to].1 {
                to += 1;
            }
            let edge = |k: usize, value: f64| {
                [
                    (x(self.edges_s[k]), y(value)),
                    (x(self.edges_s[k + 1]), y(value)),
                ]
            };
            let outer: Vec<_> = (from..to).flat_map(|k| edge(k, spans[k].1)).collect();
            let inner = (from..to).flat_map(|k| edge(k, spans[k].0));
            let mut corners = outer.clone();
            corners.extend(inner.collect::<Vec<_>>().into_iter().rev());
            canvas.area(&corners, layer.colour, layer.opacity);
            canvas.line(&outer, colour::BACKGROUND, 0.75, &[]);
            from = to;
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn layers_pile_up_from_zero_both_ways() {
        let layer = |values: &[f64]| Layer {
            key: String::new(),
            name: String::new(),
            colour: colour::TEXT,
            opacity: 1.0,
            values: values.to_vec(),
        };
        let stack = Stack {
            edges_s: vec![0.0, 1.0, 2.0],
            over: None,
            layers: vec![layer(&[3.0, -1.0]), layer(&[2.0, 4.0]), layer(&[0.0, -2.0])],
        };
        assert_eq!(stack.range(), (-3.0, 5.0));
        let piled = stack.piled();
        assert_eq!(piled[1].above, [(3.0, 5.0), (0.0, 4.0)]);
        assert_eq!(piled[2].below, [(0.0, 0.0), (-1.0, -3.0)]);
    }
}
