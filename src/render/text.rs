//! A report as text for a terminal: sections apart by an empty line, labels and columns aligned, no line too long.

use super::grid::grid;
use super::wrap::wrapped;
use crate::report::provenance::Provenance;
use crate::report::{Block, Cell, Fact, Report, Section, Show};

/// Text at least so wide shows what is marked as wide.
const WIDE: u16 = 110;
/// Labels without a title above them line up at least here, from section to section.
const LABELS: usize = 10;

impl Report {
    /// The report for people, in lines of at most so many characters; from 110 on with all that is marked as wide, and where
    /// it comes from in its last lines.
    pub fn text(&self, width: u16) -> String {
        let page = Page {
            width: usize::from(width),
            wide: width >= WIDE,
        };
        let sections = self.sections.iter().map(|section| page.section(section));
        let head = self.head.as_ref().filter(|_| page.wide);
        let origin = head.map_or(String::new(), Provenance::line);
        let origin = page.paragraph("", &origin, "  ");
        let written = sections.chain([origin]).filter(|text| !text.is_empty());
        let written: Vec<String> = written.collect();
        written.join("\n")
    }
}

/// What text is written on.
struct Page {
    width: usize,
    wide: bool,
}

impl Page {
    fn shows(&self, show: Show) -> bool {
        show == Show::Always || (show == Show::Wide && self.wide)
    }

    /// A section, each line ended; nothing of one that has nothing to read.
    fn section(&self, section: &Section) -> String {
        if !self.shows(section.show) {
            return String::new();
        }
        let indent = if section.title.is_empty() { "" } else { "  " };
        let blocks = section.blocks.iter().map(|block| self.block(block, indent));
        let body: String = blocks.collect();
        if body.is_empty() || section.title.is_empty() {
            return body;
        }
        self.paragraph("", &section.title, "") + &body
    }

    fn block(&self, block: &Block, indent: &str) -> String {
        match block {
            Block::Say(fact) => self.paragraph("", &fact.cell.text, ""),
            Block::Facts(facts) => self.facts(facts, indent),
            Block::List(_, lines) => {
                let deeper = format!("{indent}  ");
                let line = |cell: &Cell| self.paragraph(indent, &cell.text, &deeper);
                lines.iter().map(line).collect()
            }
            Block::Table(table) => {
                let shown: Vec<usize> = (0..table.heads.len())
                    .filter(|k| self.shows(table.heads[*k].show))
                    .collect();
                grid(table, &shown, self.width)
            }
            #[cfg(feature = "pictures")]
            Block::Figure(_) => String::new(),
        }
    }

    /// Labels in a column, and what stands beside each.
    fn facts(&self, facts: &[Fact], indent: &str) -> String {
        let read = || facts.iter().filter(|f| !f.cell.text.is_empty());
        let least = if indent.is_empty() { LABELS } else { 0 };
        let widest = read().map(|f| f.label.chars().count() + 2).max();
        let column = widest.unwrap_or(0).max(least).min(self.width / 2);
        let hanging = format!("{indent}{:column$}", "");
        let line = |fact: &Fact| {
            let lead = match fact.label.chars().count() {
                long if long + 2 > column => format!("{indent}{}  ", fact.label),
                _ => format!("{indent}{:column$}", fact.label),
            };
            self.paragraph(&lead, &fact.cell.text, &hanging)
        };
        read().map(line).collect()
    }

    fn paragraph(&self, lead: &str, text: &str, indent: &str) -> String {
        match text {
            "" => String::new(),
            text => wrapped(lead, text, self.width, indent) + "\n",
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::Table;

    fn report() -> Report {
        let rows = [("crankshaft nose", 44), ("oil", 51)];
        let table = Table::of("parts", &rows)
            .words("label", "Part", |r| r.0)
            .number("temp_c", "07:30", |r| (r.1, format!("{} °F", r.1)))
            .words("role", "Role", |_| "engine")
            .shown(Show::Wide)
            .json("mass_kg", |_| 1.0);
        Report::new("night", "", None)
            .with(
                Section::new("")
                    .say(["Ready at 07:30, by much more than a line holds.".to_owned()]),
            )
            .with(Section::json([Fact::json("margin_k", 2.0)]))
            .with(Section::new("").facts([
                Fact::text("Engine", "flat-four, 15 g of water in the oil"),
                Fact::text("Cowl", "closed"),
            ]))
            .with(Section::new("").block(table))
            .with(
                Section::new("Cautions")
                    .list("warnings", ["Fire: keep an extinguisher near, always."]),
            )
            .with(
                Section::new("Page")
                    .shown(Show::Page)
                    .say(["a page".to_owned()]),
            )
    }

    #[test]
    fn a_report_is_written_in_aligned_lines_of_the_width_requested() {
        let expected = "\
Ready at 07:30, by much
more than a line holds.

Engine    flat-four, 15 g
          of water in the
          oil
Cowl      closed

Part             07:30
crankshaft nose  44 °F
oil              51 °F

Cautions
  Fire: keep an
    extinguisher near,
    always.
";
        let text = report().text(25);
        assert_eq!(text, expected, "\n{text}");
    }

    #[test]
    fn wide_text_shows_what_is_marked_as_wide() {
        assert!(!report().text(109).contains("Role"));
        let wide = report().text(110);
        assert!(wide.contains("Role") && !wide.contains("a page"), "{wide}");
    }
}
