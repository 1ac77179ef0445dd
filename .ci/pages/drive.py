"""Drives report pages in a headless Chromium and says what is wrong with them.

Contrast: WCAG 2.2, success criterion 1.4.3 (AA): 4.5 to 1, or 3 to 1 for large words; relative luminance as defined
there. Words of drawings are held against the pixels behind them.
"""

import argparse
import io
import pathlib
import subprocess
import sys
import tempfile
import time

from PIL import Image
from playwright.sync_api import sync_playwright
from pypdf import PdfReader

LARGEST_B = 600_000
LONGEST_S = 0.300
PAPER_PAGES = 2

# Every word of the page outside drawings: its box, its ink, the paper behind it, its size.
WORDS = """() => {
  const seen = [];
  const walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (walk.nextNode()) {
    const node = walk.currentNode, element = node.parentElement;
    if (!node.data.trim() || element.closest('svg,script,style')) continue;
    const range = document.createRange(); range.selectNodeContents(node);
    const box = range.getBoundingClientRect();
    if (!box.width || !element.checkVisibility()) continue;
    let back = element;
    const clear = e => /^rgba\\(.*, 0\\)$|transparent/.test(getComputedStyle(e).backgroundColor);
    while (back.parentElement && clear(back)) back = back.parentElement;
    const style = getComputedStyle(element), behind = getComputedStyle(back).backgroundColor;
    seen.push({text: node.data.trim().slice(0, 40), ink: style.color, size: parseFloat(style.fontSize),
      bold: parseInt(style.fontWeight) >= 700, paper: clear(back) ? 'rgb(255, 255, 255)' : behind});
  }
  return seen;
}"""

# Every word of the drawings that are shown: where it stands on the page, and its ink.
DRAWN = """() => {
  const seen = [];
  const push = (svg, text) => {
    const ctm = svg.getScreenCTM(), size = parseFloat(text.getAttribute('font-size') || '12');
    const at = new DOMPoint(parseFloat(text.getAttribute('x')),
      parseFloat(text.getAttribute('y')) - 0.36 * size).matrixTransform(ctm);
    const box = svg.getBoundingClientRect();
    if (at.x <= box.left || at.x >= box.right || at.y <= box.top || at.y >= box.bottom) return;
    const anchor = text.getAttribute('text-anchor') || 'start';
    const wide = 0.45 * size * ctm.a * text.textContent.length;
    const shift = anchor === 'middle' ? 0 : anchor === 'end' ? -wide / 2 : wide / 2;
    seen.push({text: text.textContent, ink: getComputedStyle(text).fill, x: at.x + shift + scrollX,
      y: at.y + scrollY, wide: wide / 2, size: size * ctm.a});
  };
  for (const svg of document.querySelectorAll('figure.map svg')) {
    if (!svg.checkVisibility()) continue;
    for (const use of svg.querySelectorAll('use'))
      for (const text of document.querySelectorAll(use.getAttribute('href') + ' text')) push(svg, text);
  }
  return seen;
}"""


# Every word of the charts that are shown: how high its letters are on the screen, and whether it leaves its chart.
CHARTED = """() => {
  const seen = [];
  for (const svg of document.querySelectorAll('figure.chart svg')) {
    if (!svg.checkVisibility()) continue;
    const box = svg.getBoundingClientRect(), scale = svg.getScreenCTM().a;
    for (const text of svg.querySelectorAll('text')) {
      const at = text.getBoundingClientRect();
      seen.push({text: text.textContent.trim(), size: parseFloat(text.getAttribute('font-size')) * scale,
        out: at.left < box.left - 1 || at.right > box.right + 1 || at.top < box.top - 1 || at.bottom > box.bottom + 1});
    }
  }
  return seen;
}"""
# The least that letters of a chart may be high, in pixels of a screen.
LEAST_PX = 9


def luminance(rgb):
    linear = [c / 255 / 12.92 if c / 255 <= 0.04045 else ((c / 255 + 0.055) / 1.055) ** 2.4 for c in rgb]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one, other):
    a, b = sorted((luminance(one), luminance(other)), reverse=True)
    return (a + 0.05) / (b + 0.05)


def rgb(css):
    return [float(n) for n in css[css.index("(") + 1 : css.index(")")].replace(",", " ").split()[:3]]


class Page:
    """One page in the browser, and what is wrong with it."""

    def __init__(self, browser, path):
        self.path, self.faults = path, []
        self.context = browser.new_context(viewport={"width": 1100, "height": 900})
        self.page = self.context.new_page()
        self.url = path.resolve().as_uri()
        self.page.on("console", lambda m: self.fault(f"console: {m.text}") if m.type in ("error", "warning") else None)
        self.page.on("pageerror", lambda e: self.fault(f"script: {e}"))
        self.page.on("request", self.request)
        self.page.goto(self.url)

    def fault(self, what):
        self.faults.append(what)

    def request(self, request):
        if request.url != self.url and not request.url.startswith("data:"):
            self.fault(f"a request leaves the page: {request.url}")

    def stepped(self):
        """Whether it is the page of a night, which steps through it; that of a comparison does not."""
        return self.page.locator("figure.map").count() > 0

    def shown(self):
        steps = self.page.eval_on_selector_all(
            "figure[data-step]", "all => all.filter(f => f.checkVisibility()).map(f => f.dataset.step)"
        )
        if len(steps) != 1:
            self.fault(f"{len(steps)} moments are shown at once: {steps}")
        return int(steps[0]) if steps else -1

    def picture(self):
        return self.page.locator("figure[data-step]:visible").first.screenshot()

    def steps(self):
        buttons = self.page.locator(".steps button")
        count = buttons.count()
        if count < 2:
            return self.fault(f"only {count} clock times to step through")
        if not self.page.locator("figure[data-departure]").is_visible():
            self.fault("the departure is not what is shown first")
        pictures = set()
        for k in range(count):
            buttons.nth(k).click()
            if self.shown() != k:
                self.fault(f"button {k} shows moment {self.shown()}")
            if buttons.nth(k).get_attribute("aria-current") != "true":
                self.fault(f"button {k} does not say that it is the one")
            pictures.add(self.picture())
            self.drawn_contrast(f"moment {k}")
        if len(pictures) != count:
            self.fault(f"{count} clock times show only {len(pictures)} different pictures")
        self.page.keyboard.press("ArrowLeft")
        if self.shown() != count - 2:
            self.fault("the left arrow does not go back")
        self.page.keyboard.press("ArrowRight")
        if self.shown() != count - 1:
            self.fault("the right arrow does not go on")
        self.page.keyboard.press("ArrowRight")
        if self.shown() != count - 1:
            self.fault("the right arrow leaves the last moment")
        buttons.nth(0).focus()
        self.page.keyboard.press("Tab")
        focus = self.page.evaluate("getComputedStyle(document.activeElement).outlineStyle")
        if focus in ("none", ""):
            self.fault("the focus of the keyboard cannot be seen")
        self.page.keyboard.press("Enter")
        if self.shown() != 1:
            self.fault("Enter on a button does not show its moment")

    def contrast(self):
        self.page.evaluate("document.querySelectorAll('details').forEach(d => d.open = true)")
        for word in self.page.evaluate(WORDS):
            large = word["size"] >= 24 or (word["bold"] and word["size"] >= 18.66)
            found = contrast(rgb(word["ink"]), rgb(word["paper"]))
            if found < (3 if large else 4.5):
                self.fault(f"contrast {found:.2f}: \"{word['text']}\"")

    def drawn_contrast(self, where):
        words = self.page.evaluate(DRAWN)
        if not words:
            return self.fault(f"{where}: the drawing has no words")
        style = self.page.add_style_tag(content="g.m text {fill-opacity:0!important}")
        picture = Image.open(io.BytesIO(self.page.screenshot(full_page=True))).convert("RGB")
        style.evaluate("s => s.remove()")
        for word in words:
            for dx in (-1, -0.5, 0, 0.5, 1):
                at = (round(word["x"] + dx * word["wide"] * 0.8), round(word["y"]))
                if not (0 <= at[0] < picture.width and 0 <= at[1] < picture.height):
                    continue
                found = contrast(rgb(word["ink"]), picture.getpixel(at))
                if found < 4.5:
                    self.fault(f"{where}: contrast {found:.2f} of \"{word['text']}\" in the drawing at {at}")
                    break

    def landmarks(self):
        for what in ("header", "main", "footer", "h1", "html[lang]", "title"):
            if self.page.locator(what).count() == 0:
                self.fault(f"there is no {what}")
        titles = self.page.locator("figure.chart svg > title").count()
        if titles != self.page.locator("figure.chart").count() or not titles:
            self.fault("a chart says nothing to those who do not see it")
        unnamed = self.page.eval_on_selector_all(
            "svg:not([aria-hidden=true])",
            "all => all.filter(s => s.getAttribute('role') !== 'img' || !(s.getAttribute('aria-label')"
            " || s.getAttribute('aria-labelledby') || s.querySelector('title'))).length",
        )
        if unnamed:
            self.fault(f"{unnamed} pictures say nothing to those who do not see them")
        ids = self.page.evaluate("[...document.querySelectorAll('[id]')].map(e => e.id)")
        if len(ids) != len(set(ids)):
            self.fault("an id is used twice")

    def narrow(self):
        self.page.set_viewport_size({"width": 380, "height": 800})
        wide = self.page.evaluate("document.documentElement.scrollWidth")
        if wide > 380:
            self.fault(f"at a width of 380 it scrolls sideways: {wide}")
        self.charts("at a width of 380")
        small = [w for w in self.page.evaluate(DRAWN) if w["size"] < 8]
        if small:
            self.fault(f"at a width of 380 \"{small[0]['text']}\" is {small[0]['size']:.1f} pixels high")
        self.page.set_viewport_size({"width": 1100, "height": 900})

    def charts(self, where):
        words = self.page.evaluate(CHARTED)
        if not words:
            self.fault(f"{where} no chart has words")
        for word in words:
            if word["size"] < LEAST_PX:
                self.fault(f"{where} \"{word['text']}\" in a chart is {word['size']:.1f} pixels high")
            if word["out"]:
                self.fault(f"{where} \"{word['text']}\" leaves its chart")

    def paper(self):
        with tempfile.NamedTemporaryFile(suffix=".pdf") as pdf:
            self.page.pdf(path=pdf.name, prefer_css_page_size=True, print_background=True)
            sheets = PdfReader(pdf.name).pages
            least = PAPER_PAGES if self.stepped() else 1
            if not least <= len(sheets) <= PAPER_PAGES:
                self.fault(f"it prints to {len(sheets)} pages, not {least} to {PAPER_PAGES}")
            printed = "".join(sheet.extract_text() for sheet in sheets)
        printed = "".join(printed.split())
        for must in ("Card for the hangar wall", "Cautions", "Where this page comes from", "SHA-256"):
            if "".join(must.split()) not in printed:
                self.fault(f"\"{must}\" is not printed")

    def without_script(self, browser):
        context = browser.new_context(java_script_enabled=False)
        page = context.new_page()
        page.goto(self.url)
        if not page.locator("figure[data-departure]").is_visible():
            self.fault("without a script the departure is not shown")
        others = page.locator("#others figure[data-step]").count()
        all_of_them = page.locator("figure[data-step]").count()
        if others != all_of_them - 1:
            self.fault(f"without a script {others} of {all_of_them - 1} other moments can be reached")
        context.close()

    def size(self):
        size = self.path.stat().st_size
        if size > LARGEST_B:
            self.fault(f"it is {size} bytes, {LARGEST_B} at most")
        return size


def rendering_s(coldsoak):
    """Seconds that writing the report adds to a night: the least of some runs each."""

    def least(*more):
        times = []
        for _ in range(5):
            begun = time.perf_counter()
            subprocess.run([coldsoak, "night", "demo", "--quiet", *more], check=True, stdout=subprocess.DEVNULL)
            times.append(time.perf_counter() - begun)
        return min(times)

    with tempfile.TemporaryDirectory() as room:
        page = str(pathlib.Path(room) / "page.html")
        open(page, "w").close()
        return least("--report", page, "--force") - least()


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("--browser", required=True)
    parser.add_argument("--render", help="a coldsoak whose rendering is timed")
    parser.add_argument("pages", nargs="+", type=pathlib.Path)
    said = parser.parse_args()
    wrong = 0
    with sync_playwright() as play:
        browser = play.chromium.launch(
            executable_path=said.browser, args=["--no-sandbox", "--disable-dev-shm-usage"]
        )
        for path in said.pages:
            page = Page(browser, path)
            page.landmarks()
            if page.stepped():
                page.steps()
            page.charts("on a wide screen")
            page.contrast()
            page.narrow()
            page.paper()
            if page.stepped():
                page.without_script(browser)
            size = page.size()
            page.context.close()
            print(f"{path.name}: {size} bytes, {'ok' if not page.faults else 'FAULTS'}", flush=True)
            for fault in page.faults:
                print(f"  {fault}", flush=True)
            wrong += len(page.faults)
        browser.close()
    if said.render:
        took = rendering_s(said.render)
        print(f"rendering the report takes {1000 * took:.0f} ms, {1000 * LONGEST_S:.0f} at most")
        wrong += took > LONGEST_S
    sys.exit(1 if wrong else 0)


if __name__ == "__main__":
    main()
