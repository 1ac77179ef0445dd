//! The sections of a page, before and after those that every output of a report has.

use super::{basis, budget, card};
use crate::night::Night;
use crate::picture::Figure;
use crate::picture::chart::chance::chances;
use crate::picture::chart::comparison::{choices, coldest_parts};
use crate::picture::chart::{self, ChartView, of_night as night_chart};
use crate::report::cautions::in_full;
use crate::report::model::{Block, Fact, Report, Section};
use crate::report::provenance::Provenance;
use crate::report::recommend::headline;
use crate::report::when::headline as when_headline;
use crate::report::{Show, inputs};
use crate::study::compare::Comparison;
use crate::study::when::{Thermometer, When};

/// The report of a night with what its page shows besides, before its last section, the cautions; `rule` is the rule of its
/// thermometer, if that was computed.
pub fn of_night(
    mut report: Report,
    night: &Night,
    rule: Option<&Thermometer>,
    from: &Provenance,
) -> Report {
    let chart = Figure::chart(night, "Temperatures through the night", |view| {
        night_chart(chart::Show::Temperature, &night.trace, view)
    });
    let lead = first_words(&report);
    let cautions = report.sections.pop();
    report.sections.extend([
        figure("The night by the hours", chart),
        card::section(night, None, rule, lead),
        figure("The engine through the night", Figure::map(night)),
        budget::section(night, None),
        basis::section(night, from),
    ]);
    report.sections.extend(cautions);
    report.sections.push(in_full());
    report
}

/// The report of an answer to when to switch on, with what its page shows besides.
pub fn of_when(report: Report, when: &When, from: &Provenance) -> Report {
    let headline = when_headline(when);
    let chart = Figure::chart(&when.night, &report.title, |view| {
        let headline = headline.as_str();
        chances(when, &ChartView { headline, ..*view })
    });
    let mut report = of_night(report, &when.night, when.thermometer.as_ref(), from);
    let below = report.sections.iter().position(|s| s.show == Show::Page);
    let place = below.unwrap_or(report.sections.len());
    report
        .sections
        .insert(place, figure("The chance by the switch-on time", chart));
    report
}

/// The report of a comparison with what its page shows besides; `engine` is what the engine's file is called.
pub fn of_comparison(
    mut report: Report,
    comparison: &Comparison,
    engine: &str,
    from: &Provenance,
) -> Report {
    let recommended = comparison.recommended().zip(comparison.advised());
    let Some(((name, _), chosen)) = recommended else {
        report.sections.push(in_full());
        return report;
    };
    let headline = headline(comparison).unwrap_or_default();
    let choices = choices(comparison);
    let chart = Figure::chart(chosen, &report.title, |view| {
        let headline = headline.as_str();
        coldest_parts(&choices, &ChartView { headline, ..*view })
    });
    let inputs = Section::new("As computed")
        .shown(Show::Page)
        .facts(inputs::facts(chosen, engine));
    let ready = comparison.is_reached();
    let mut sections = report.sections.iter_mut();
    let says = |s: &&mut Section| matches!(s.blocks.first(), Some(Block::Say(_)));
    if let Some(section) = sections.find(says) {
        let blocks = std::mem::take(&mut section.blocks).into_iter();
        section.blocks = blocks.flat_map(|block| apart(block, ready)).collect();
    }
    let lead = first_words(&report);
    let cautions = report.sections.pop();
    report.sections.extend([
        figure("The choices by the hours", chart),
        card::section(chosen, Some(name), None, lead),
        inputs,
        budget::section(chosen, Some(name)),
        basis::section(chosen, from),
    ]);
    report.sections.extend(cautions);
    report.sections.push(in_full());
    report
}

/// The answer of a report, as its first paragraph has it.
fn first_words(report: &Report) -> Option<String> {
    let blocks = report.sections.iter().flat_map(|section| &section.blocks);
    let mut said = blocks.filter_map(|block| match block {
        Block::Say(fact) if !fact.cell.text.is_empty() => Some(fact.cell.text.clone()),
        _ => None,
    });
    said.next()
}

/// A paragraph with its first sentence, the answer, apart, so that it stands out.
fn apart(block: Block, ready: bool) -> Vec<Block> {
    let Block::Say(fact) = &block else {
        return vec![block];
    };
    // The first sentences, to the interval of the chance, stand out; a name may hold a full stop.
    let text = &fact.cell.text;
    let end = text
        .find(" %). ")
        .map_or(text.len(), |at| at + " %).".len());
    let (first, more) = (text[..end].to_owned(), text[end..].trim_start());
    let answer = Fact::new("", "", ready, first);
    vec![Block::Say(answer), Block::Say(Fact::text("", more))]
}

fn figure(title: &str, figure: Figure) -> Section {
    Section::new(title).shown(Show::Page).block(figure)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::files::night::load_named_from;
    use crate::files::sources::Outside;
    use crate::night::run;
    use crate::report;
    use crate::scenario::document::Scenario;
    use crate::study::case::Case;
    use crate::study::compare::{CompareOptions, compare};

    /// The largest page, bytes.
    const LARGEST: usize = 600_000;

    fn scenario(name: &str) -> Scenario {
        load_named_from(name, Outside::Refused).unwrap().scenario
    }

    #[test]
    fn a_page_is_small_asks_nothing_of_a_network_and_runs_no_script_of_a_file() {
        for name in ["demo", "radial-underneath", "block-cooling"] {
            let mut scenario = scenario(name);
            scenario.title = "<script>alert(1)</script>".to_owned();
            let night = run(&scenario).unwrap();
            let typed = ["night", "</script><b>"].map(str::to_owned);
            let from = Provenance::new(typed.to_vec(), Vec::new());
            let report = report::night::report(&night, None, "an <engine>", &from);
            let page = of_night(report, &night, None, &from).page();
            assert!(page.len() <= LARGEST, "{name}: {} bytes", page.len());
            for address in ["http://", "https://", "//cdn"] {
                // Names of XML are no addresses that anything is fetched from.
                let page = page.replace("http://www.w3.org/2000/svg", "");
                assert!(!page.contains(address), "{name}: {address}");
            }
            assert_eq!(page.matches("<script>").count(), 1, "{name}");
            assert!(page.contains("&lt;script&gt;alert(1)"), "{name}");
            assert!(page.contains("an &lt;engine&gt;"), "{name}");
        }
    }

    /// Names of choices and a title of a file are escaped too; a chart for a sheet and one for a telephone.
    #[test]
    fn a_page_of_choices_is_small_escaped_and_has_the_card_of_what_is_advised() {
        let choices = ["small-engine-top", "block-cooling"]
            .map(|name| Case::whole(format!("<i>{name}</i>"), &scenario(name)));
        let options = CompareOptions {
            count: None,
            ..CompareOptions::default()
        };
        let compared = compare(&scenario("demo"), &choices, options, &[], &|_| ()).unwrap();
        let from = Provenance::new(vec!["compare".to_owned()], Vec::new());
        let report = report::compare::report("<title>", &compared, &from);
        let page = of_comparison(report, &compared, "an <engine>", &from).page();
        assert!(page.len() <= LARGEST, "{} bytes", page.len());
        assert!(!page.contains("<i>") && !page.contains("<script"));
        let (advised, _) = compared.recommended().unwrap();
        assert_eq!(advised, "<i>small-engine-top</i>");
        let card = "Card for the hangar wall: &lt;i&gt;small-engine-top&lt;/i&gt;";
        assert!(page.contains(card), "no {card}");
        assert_eq!(page.matches("<svg").count(), 2);
    }
}
