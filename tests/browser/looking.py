"""What the tests of pages share: the browser, the pages, what stands on them, and the numbers of the result file."""
import math
import os
import pathlib
import re
import sys
import unittest

import h5py

import chromium

FOLDER = pathlib.Path(os.environ.get("RACKWRIGHT_PAGES", "."))
AXE = (pathlib.Path(__file__).parent / "node_modules/axe-core/axe.min.js")

TABLES = """[...document.querySelectorAll('table')].map(t => ({
  caption: t.caption ? t.caption.textContent : '',
  heads: [...t.querySelectorAll('thead th')].map(c => c.textContent),
  lines: [...t.tBodies[0].rows].map(r => [...r.cells].map(c => c.textContent))}))"""

# Each picture: its size on the screen, marks that are painted and visible, and its words with where they stand.
PICTURES = """[...document.querySelectorAll('svg')].map(svg => {
  const own = svg.getBoundingClientRect(), box = e => { const b = e.getBoundingClientRect();
    return [b.left - own.left, b.top - own.top, b.right - own.left, b.bottom - own.top]; };
  const seen = e => { const s = getComputedStyle(e); return s.display !== 'none' && s.visibility === 'visible' &&
    ((s.fill !== 'none' && s.fill !== 'rgba(0, 0, 0, 0)' && +s.fillOpacity > 0) || s.stroke !== 'none'); };
  return {id: svg.querySelector('title').id.replace(/-t$/, ''), width: own.width, height: own.height,
    title: svg.querySelector('title').textContent, description: svg.querySelector('desc').textContent,
    marks: [...svg.querySelectorAll('rect,circle,path')].filter(seen).map(box)
      .filter(b => b[2] - b[0] > 0.2 || b[3] - b[1] > 0.2),
    words: [...svg.querySelectorAll('text')].filter(seen).filter(t => getComputedStyle(t).display !== 'none')
      .map(t => [t.textContent, ...box(t), parseFloat(getComputedStyle(t).fontSize) * own.width / svg.viewBox.baseVal.width])};
})"""

UNFOLD = "document.querySelectorAll('details').forEach(d => d.open = true)"


class Case(unittest.TestCase):
    """One browser a class; pages are closed after each test."""

    @classmethod
    def setUpClass(cls):
        cls.browser = chromium.Browser()

    @classmethod
    def tearDownClass(cls):
        cls.browser.close()

    def open(self, name, **how):
        page = self.browser.open(FOLDER / (name + ".html"), **how)
        self.addCleanup(page.close)
        return page

    def table(self, page, caption):
        """The table of that caption as {first cell: other cells}."""
        found = [t for t in page.run(TABLES) if t["caption"] == caption]
        self.assertEqual(len(found), 1, f"tables with the caption {caption!r}: {len(found)}")
        self.assertTrue(found[0]["lines"], caption)
        return {line[0]: line[1:] for line in found[0]["lines"]}

    def assertShows(self, text, *values):
        """The numbers in a text, in order, are these values as far as their digits go."""
        numbers = re.findall(r"-?\d+(?:\.\d+)?", text)
        self.assertGreaterEqual(len(numbers), len(values), f"{text!r} should show {values}")
        for shown, value in zip(numbers, values):
            decimals = len(shown.split(".")[1]) if "." in shown else 0
            if shown.endswith("0") and decimals == 0 and abs(float(values[0])) >= 10000:  # four digits of the first are shown
                decimals = 3 - math.floor(math.log10(abs(float(values[0]))))
            self.assertAlmostEqual(float(shown), float(value), delta=0.5001 * 10.0 ** -decimals + 1e-9 * abs(value),
                                   msg=f"{text!r} should show {value}")


class Result:
    """A result file as h5py reads it, by no code of the program's."""

    def __init__(self, name):
        self.file = h5py.File(FOLDER / (name + ".h5"), "r")
        self.a_year = 365.0 / float(self.file.attrs["horizon_days"])

    def text(self, path):
        return [t.decode() if isinstance(t, bytes) else t for t in self.file[path][()].reshape(-1)]

    def summary(self, quantity, scale=1.0):
        """mean, low, high of a quantity, scaled."""
        at = self.text("summary/quantity").index(quantity)
        return [scale * float(self.file["summary/" + name][at]) for name in ("mean", "low", "high")]

    def yearly(self, quantity):
        return self.summary(quantity, self.a_year)

    def design(self, quantity, candidate, scale=1.0):
        return [scale * float(self.file["design/" + quantity + end][candidate]) for end in ("", "_low", "_high")]


def main():
    if len(sys.argv) > 1:
        global FOLDER
        FOLDER = pathlib.Path(sys.argv.pop(1))
    unittest.main(module="__main__", verbosity=2)
