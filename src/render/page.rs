//! A report as a page: one HTML file that opens from disk, asks nothing of any network, works without its script, and
//! prints. What is drawn in it is text too (SVG).

use crate::picture::Figure;
use crate::picture::draw::Shape;
use crate::picture::draw::svg::{ATTRIBUTES, escaped, file, shapes};
use crate::picture::figure::{Moment, View};
use crate::report::{Block, Fact, Report, Section, Show, Table};
use serde_json::Value;
use std::fmt::Write;

/// A table of more columns is laid out row by row where the screen is narrow.
const NARROW: usize = 4;

const STYLE: &str = include_str!("page.css");
const SCRIPT: &str = include_str!("page.js");

impl Report {
    /// The report as a page. Sections before the first with a title are its head; those of wide text fold.
    pub fn page(&self) -> String {
        let shown = |section: &&Section| section.show != Show::Json;
        let sections: Vec<&Section> = self.sections.iter().filter(shown).collect();
        let begun = sections.iter().position(|s| !s.title.is_empty());
        let (head, body) = sections.split_at(begun.unwrap_or(sections.len()));
        let head: String = head.iter().map(|s| blocks(s)).collect();
        let body: String = body
            .iter()
            .enumerate()
            .map(|(k, s)| section(k, s))
            .collect();
        let script = match body.contains("data-step") {
            true => format!("<script>\n{SCRIPT}</script>\n"),
            false => String::new(),
        };
        let title = text(&self.title);
        let origin = self.head.as_ref().map_or(String::new(), origin);
        format!(
            "<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n\
             <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
             <meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; style-src 'unsafe-inline'; \
             script-src 'unsafe-inline'; img-src data:\">\n<link rel=\"icon\" href=\"data:,\">\n<title>{title}</title>\n\
             <style>\n{STYLE}</style>\n</head>\n<body>\n<header>\n<h1>{title}</h1>\n{head}</header>\n<main>\n{body}</main>\n\
             {origin}{script}</body>\n</html>\n"
        )
    }
}

/// A section under its title, which the style sheet knows it by; what wide text shows folds.
fn section(number: usize, section: &Section) -> String {
    let body = blocks(section);
    let title = text(&section.title);
    match section.show {
        _ if body.is_empty() => body,
        Show::Wide => format!("<details>\n<summary>{title}</summary>\n{body}</details>\n"),
        _ => format!(
            "<section data-title=\"{title}\" aria-labelledby=\"h{number}\">\n\
             <h2 id=\"h{number}\">{title}</h2>\n{body}</section>\n"
        ),
    }
}

fn blocks(section: &Section) -> String {
    section.blocks.iter().map(block).collect()
}

fn block(block: &Block) -> String {
    match block {
        Block::Say(fact) => said(fact),
        Block::Facts(facts) => {
            let read = facts.iter().filter(|f| !f.cell.text.is_empty());
            let rows = read.map(|f| {
                format!(
                    "<dt>{}</dt><dd>{}</dd>\n",
                    text(&f.label),
                    text(&f.cell.text)
                )
            });
            around("dl", "", &rows.collect::<String>())
        }
        Block::List(_, lines) => {
            let lines = lines.iter().filter(|line| !line.text.is_empty());
            let lines = lines.map(|line| format!("<li>{}</li>\n", text(&line.text)));
            around("ul", "", &lines.collect::<String>())
        }
        Block::Table(rows) => table(rows),
        Block::Figure(Figure::Chart { sheet, phone }) => format!(
            "<figure class=\"chart sheet\">{}</figure>\n<figure class=\"chart phone\">{}</figure>\n",
            file(sheet, ""),
            file(phone, "")
        ),
        Block::Figure(Figure::Map { views, moments }) => map(views, moments),
    }
}

/// A paragraph; one that answers yes or no stands out, and one with a label is of the kind that it names.
fn said(fact: &Fact) -> String {
    let kind = match fact.cell.value {
        Value::Bool(true) => "verdict",
        Value::Bool(false) => "verdict no",
        _ => &fact.label,
    };
    match fact.cell.text.as_str() {
        "" => String::new(),
        said => {
            format!("<p class=\"{}\">{}</p>\n", text(kind), text(said)).replace(" class=\"\"", "")
        }
    }
}

/// An element, or nothing if nothing is in it.
fn around(tag: &str, attributes: &str, inside: &str) -> String {
    match inside {
        "" => String::new(),
        inside => format!("<{tag}{attributes}>\n{inside}</{tag}>\n"),
    }
}

fn table(table: &Table) -> String {
    let shown: Vec<usize> = (0..table.heads.len())
        .filter(|k| table.heads[*k].show != Show::Json)
        .collect();
    let first = shown
        .iter()
        .position(|k| table.heads[*k].words)
        .unwrap_or(0);
    let cell = |place: usize, inside: &str, row: bool| {
        let head = &table.heads[shown[place]];
        let (name, words) = (
            text(&head.text),
            if head.words { " class=\"words\"" } else { "" },
        );
        let inside = text(inside);
        match place == first {
            true if row => format!("<th scope=\"row\">{inside}</th>"),
            true => format!("<th scope=\"col\">{inside}</th>"),
            false => format!("<td{words} data-head=\"{name}\">{inside}</td>"),
        }
    };
    let line = |cells: Vec<&str>, row: bool| {
        let cells = cells
            .iter()
            .enumerate()
            .map(|(k, inside)| cell(k, inside, row));
        format!("<tr>{}</tr>\n", cells.collect::<String>())
    };
    let heads: Vec<&str> = shown
        .iter()
        .map(|k| table.heads[*k].text.as_str())
        .collect();
    let head = match heads.iter().all(|head| head.is_empty()) {
        true => String::new(),
        false => format!("<thead>{}</thead>\n", line(heads, false)),
    };
    let rows = table.rows.iter().map(|row| {
        let cells = shown.iter().map(|k| row[*k].text.as_str()).collect();
        line(cells, true)
    });
    let body = around("tbody", "", &rows.collect::<String>());
    let wide = if shown.len() > NARROW {
        " class=\"wide\""
    } else {
        ""
    };
    match body.is_empty() {
        true => body,
        false => around("table", wide, &(head + &body)),
    }
}

/// The engine at each moment: the departure first, the others after it until the script puts a button for each.
fn map(views: &[View], moments: &[Moment]) -> String {
    let mut html =
        String::from("<svg class=\"away\" aria-hidden=\"true\" focusable=\"false\"><defs>\n");
    let mut define = |id: String, drawn: &[Shape]| {
        let drawn = shapes(drawn);
        let _ = write!(
            html,
            "<g id=\"{id}\" class=\"m\" {ATTRIBUTES}>\n{drawn}</g>\n"
        );
    };
    // What all pictures begin with is held once.
    let first = moments.first().map_or(&[][..], |m| &m.picture.shapes);
    let same = |k: &usize| {
        moments
            .iter()
            .all(|m| m.picture.shapes.get(*k) == first.get(*k))
    };
    let still = (0..first.len()).take_while(same).count();
    define("still".to_owned(), &first[..still]);
    for (k, moment) in moments.iter().enumerate() {
        define(format!("moment{k}"), &moment.picture.shapes[still..]);
    }
    html += "</defs></svg>\n<div class=\"steps\" role=\"group\" aria-label=\"Clock times of the night\" hidden></div>\n\
             <div id=\"stage\" aria-live=\"polite\">\n";
    let figures = |departure: bool| -> String {
        let each = moments.iter().enumerate();
        let these = each.filter(|(_, moment)| moment.departure == departure);
        these.map(|(k, moment)| step(k, moment, views)).collect()
    };
    html + &figures(true)
        + "</div>\n<p class=\"screen quiet\" id=\"keys\" hidden>Left and right arrow keys step through the night.</p>\n\
           <details id=\"others\">\n<summary>The engine at the other times</summary>\n"
        + &figures(false)
        + "</details>\n"
}

fn step(k: usize, moment: &Moment, views: &[View]) -> String {
    let (clock, name) = (text(&moment.clock), text(&moment.name));
    let departure = if moment.departure {
        " data-departure"
    } else {
        ""
    };
    let pieces = views.iter().enumerate().map(|(v, view)| {
        let (left, top) = (view.from.0.round(), view.from.1.round());
        let (wide, high) = (view.to.0.round() - left, view.to.1.round() - top);
        format!(
            "<svg viewBox=\"{left} {top} {wide} {high}\" width=\"{wide}\" height=\"{high}\" role=\"img\" \
             aria-labelledby=\"t{k}-{v} d{k}\"><title id=\"t{k}-{v}\">{} at {clock}</title><use href=\"#still\"/><use href=\"#moment{k}\"/></svg>\n",
            text(&view.title)
        )
    });
    let pieces: String = pieces.collect();
    let comma = if name.is_empty() { "" } else { ", " };
    format!(
        "<figure class=\"map\" data-step=\"{k}\" data-clock=\"{clock}\" data-name=\"{name}\"{departure}>\n\
         <div class=\"views n{}\">\n{pieces}</div>\n\
         <figcaption id=\"d{k}\"><b>{clock}</b>{comma}{name}. {}</figcaption>\n</figure>\n",
        views.len(),
        text(&moment.picture.description)
    )
}

/// The version, the command, and each file with its hash.
fn origin(from: &crate::report::provenance::Provenance) -> String {
    let inputs = from.inputs.iter().map(|input| {
        format!(
            "<tr><th scope=\"row\">{}</th><td>{}</td></tr>\n",
            text(&input.name),
            text(&input.sha256)
        )
    });
    format!(
        "<footer>\n<h2>Where this page comes from</h2>\n<p>coldsoak {}, <code>{}</code></p>\n\
         <table class=\"hash\">\n<thead><tr><th scope=\"col\">input</th><td>SHA-256</td></tr></thead>\n\
         <tbody>\n{}</tbody>\n</table>\n</footer>\n",
        text(from.version),
        escaped(&from.typed()),
        inputs.collect::<String>()
    )
}

/// A text with what means something in HTML escaped, a true minus before numbers, as drawings have it, and no line end
/// before a degree or percent sign.
fn text(text: &str) -> String {
    let mut shown = String::with_capacity(text.len());
    let mut before = ' ';
    let mut letters = text.chars().peekable();
    while let Some(letter) = letters.next() {
        let number = letters.peek().is_some_and(char::is_ascii_digit);
        let begins = before.is_whitespace() || before == '(';
        shown.push(if letter == '-' && number && begins {
            '\u{2212}'
        } else {
            letter
        });
        before = letter;
    }
    escaped(&shown.replace(" °", "\u{a0}°").replace(" %", "\u{a0}%"))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_hyphen_is_a_minus_only_before_a_number_of_its_own() {
        assert_eq!(text("at -14.3 °C"), "at \u{2212}14.3\u{a0}°C");
        for kept in ["15W-50", "2026-01-12", "a - b", "flat-four-5l9"] {
            assert_eq!(text(kept), kept);
        }
    }

    #[test]
    fn every_text_is_escaped_and_nothing_is_shown_that_only_programs_read() {
        let rows = ["<i>choice</i>"];
        let table = Table::of("choices", &rows)
            .words("name", "<b>", |r| *r)
            .number("kwh", "kWh", |_| (1.5, "-1.5 kWh"))
            .json("secret", |_| "unseen");
        let report = Report::new("demo", "<title>", None)
            .with(Section::new("").block(Block::Say(Fact::new(
                "ready",
                "",
                false,
                "Not \"ready\"",
            ))))
            .with(Section::json([Fact::json("margin_k", 12345.0)]))
            .with(
                Section::new("A & B")
                    .facts([Fact::text("1 < 2", "3 > 2")])
                    .block(table),
            )
            .with(
                Section::new("More")
                    .shown(Show::Wide)
                    .list("warnings", ["<script>"]),
            );
        let page = report.page();
        for part in [
            "<title>&lt;title&gt;</title>",
            "<header>\n<h1>&lt;title&gt;</h1>\n<p class=\"verdict no\">Not &quot;ready&quot;</p>\n</header>",
            "<section data-title=\"A &amp; B\" aria-labelledby=\"h0\">\n<h2 id=\"h0\">A &amp; B</h2>",
            "<dt>1 &lt; 2</dt><dd>3 &gt; 2</dd>",
            "<th scope=\"row\">&lt;i&gt;choice&lt;/i&gt;</th><td data-head=\"kWh\">\u{2212}1.5 kWh</td>",
            "<details>\n<summary>More</summary>\n<ul>\n<li>&lt;script&gt;</li>",
        ] {
            assert!(page.contains(part), "{part} in {page}");
        }
        for hidden in ["12345", "unseen", "secret", "<script>"] {
            assert!(!page.contains(hidden), "{hidden}");
        }
    }
}
