#!/usr/bin/python3
"""Every page in a real browser: it reaches out to nobody, fits, prints, can be read by all, and its pictures are there.

usage: tests/browser/test_page.py FOLDER     with the pages of tests/browser/make_pages in it
"""
import itertools
import os
import re
import subprocess

import chromium
import looking

PAGES = ("year", "size", "miss", "wild", "sweep")
WIDTHS = (360, 1440)
PICTURES = {
    "year": {"rack", "chance", "fodder", "room", "seasons", "cost", "drymatter"},
    "size": {"rack", "chance", "tradeoff", "frontier", "fodder", "room", "seasons", "cost", "drymatter", "weights"},
    "miss": {"rack", "chance", "tradeoff", "fodder", "room", "seasons", "cost", "drymatter", "weights"},
    "sweep": {"rack", "share-0", "share-1", "effect-0", "effect-1"},
    "wild": {"rack", "chance", "fodder", "room", "seasons", "cost", "drymatter"},
}


class Quiet(looking.Case):
    def test_nothing_leaves_the_page_and_the_console_is_silent(self):
        for name in PAGES:
            with self.subTest(page=name):
                page = self.open(name)
                page.run(looking.UNFOLD)
                own = "file://" + os.path.abspath(looking.FOLDER / (name + ".html"))
                self.assertEqual(set(page.requests), {own})
                self.assertEqual(page.complaints, [])
                policy = page.run("document.querySelector('meta[http-equiv=Content-Security-Policy]').content")
                self.assertIn("default-src 'none'", policy)

    def test_a_page_that_reaches_out_is_caught(self):
        bad = looking.FOLDER / "planted.html"
        bad.write_text("<!DOCTYPE html><title>x</title><img src='http://rack.invalid/a.png'><script>console.error('oh')</script>")
        page = self.open("planted")
        self.assertIn("http://rack.invalid/a.png", page.requests)
        self.assertIn("oh", page.complaints)


class Markup(looking.Case):
    def test_a_scenario_titled_with_markup_shows_as_text(self):
        page, title = self.open("wild"), looking.Result("wild").file.attrs["title"]
        self.assertIn("<script>", title)
        self.assertEqual(page.run("document.title"), title + ": rack report")
        self.assertEqual(page.run("document.querySelector('h1').textContent"), title)
        self.assertEqual(page.run("document.querySelectorAll('script,img,iframe,object,embed,link:not([rel=icon])').length"), 0)
        self.assertEqual(page.run("document.querySelector('main').tagName"), "MAIN")


class Fits(looking.Case):
    def test_no_sideways_scroll_folded_or_open(self):
        for name, width in itertools.product(PAGES, WIDTHS):
            with self.subTest(page=name, width=width):
                page = self.open(name, width=width)
                for state in ("folded", "open"):
                    room = page.run("document.documentElement.clientWidth")
                    self.assertLessEqual(page.run("document.documentElement.scrollWidth"), room, state)
                    page.run(looking.UNFOLD)
                    # What is wider than its box scrolls inside it; nothing else stands beyond the edge.
                    beyond = page.run("[...document.querySelectorAll('body *')].filter(e => !e.closest('.box,pre,svg') && "
                                      f"e.getBoundingClientRect().right > {room} + 0.5).map(e => e.outerHTML.slice(0, 90))")
                    self.assertEqual(beyond, [])

    def test_the_check_of_width_can_fail(self):
        bad = looking.FOLDER / "planted.html"
        bad.write_text("<!DOCTYPE html><title>x</title><div style='width:500px'>wide</div>")
        self.assertGreater(self.open("planted", width=360).run("document.documentElement.scrollWidth"), 360)


class Pictures(looking.Case):
    def test_all_are_there_drawn_and_legible(self):
        for name, width in itertools.product(PAGES, WIDTHS):
            page = self.open(name, width=width)
            pictures = {p["id"]: p for p in page.run(looking.PICTURES)}
            self.assertEqual(PICTURES[name] - set(pictures), set(), name)  # there may be more
            for picture in pictures.values():
                with self.subTest(page=name, width=width, picture=picture["id"]):
                    self.assertGreater(picture["width"], 300)
                    self.assertGreater(picture["height"], 60)
                    self.assertGreaterEqual(len(picture["marks"]), 2)
                    self.assertTrue(picture["title"] and picture["description"])
                    self.inside(picture)
                    self.apart(picture)

    def inside(self, picture):
        for left, top, right, bottom in picture["marks"] + [w[1:5] for w in picture["words"]]:
            self.assertGreater(left, -1.5)
            self.assertGreater(top, -1.5)
            self.assertLess(right, picture["width"] + 1.5)
            self.assertLess(bottom, picture["height"] + 1.5)

    def apart(self, picture):
        """No word stands on another, and none is smaller than can be read."""
        for word in picture["words"]:
            self.assertGreater(word[5], 8.9, word)
        for a, b in itertools.combinations(picture["words"], 2):
            wide = min(a[3], b[3]) - max(a[1], b[1])
            high = min(a[4], b[4]) - max(a[2], b[2])
            self.assertFalse(wide > 1 and high > 3, f"{a[0]!r} and {b[0]!r} overlap")


class ReadByAll(looking.Case):
    def audit(self, page):
        page.run(looking.UNFOLD)
        # A year of days is more of the same: ten lines of each table are looked at.
        page.run("document.querySelectorAll('tbody').forEach(b => { while (b.rows.length > 10) b.rows[10].remove(); })")
        page.run(looking.AXE.read_text() + ";0")
        return page.run("axe.run().then(r => ({passed: r.passes.length, violations: r.violations.map("
                        "v => v.id + ': ' + v.nodes[0].html.slice(0, 200))}))")

    def test_the_audit_finds_no_violation(self):
        for name, width, dark in [("year", 1440, False), ("year", 360, True), ("size", 1440, True), ("size", 360, False),
                                  ("miss", 1440, False),
                                  ("sweep", 1440, True)]:
            with self.subTest(page=name, width=width, dark=dark):
                found = self.audit(self.open(name, width=width, dark=dark))
                self.assertEqual(found["violations"], [])
                self.assertGreater(found["passed"], 30)

    def test_a_page_with_faults_is_caught(self):
        bad = looking.FOLDER / "planted.html"
        bad.write_text("<!DOCTYPE html><title>x</title><p style='color:#aaa;background:#fff'>pale<img src='data:,'>")
        found = " ".join(self.audit(self.open("planted"))["violations"])
        for fault in ("color-contrast", "image-alt", "html-has-lang"):
            self.assertIn(fault, found)

    def test_dark_is_dark(self):
        def paper(dark):
            colour = self.open("year", dark=dark).run("getComputedStyle(document.body).backgroundColor")
            return sum(int(c) for c in re.findall(r"\d+", colour)[:3])
        self.assertGreater(paper(False), 3 * 220)
        self.assertLess(paper(True), 3 * 50)

    def test_the_keyboard_reaches_and_opens(self):
        page = self.open("year")

        def press(key, code, text=""):
            for kind in ("keyDown", "keyUp"):
                page.ask("Input.dispatchKeyEvent", type=kind, key=key, code=key, windowsVirtualKeyCode=code,
                         **({"text": text} if kind == "keyDown" and text else {}))
        links = page.run("document.querySelectorAll('nav a').length")
        for _ in range(links + 1):
            press("Tab", 9)
        self.assertEqual(page.run("document.activeElement.tagName"), "SUMMARY")
        self.assertNotEqual(page.run("getComputedStyle(document.activeElement).outlineStyle"), "none")
        press("Enter", 13, "\r")
        self.assertTrue(page.run("document.activeElement.parentElement.open"))
        press("Tab", 9)
        self.assertEqual(page.run("document.activeElement.getAttribute('role')"), "region")


class Prints(looking.Case):
    def test_on_a4_and_letter(self):
        for name, (paper, wide, high) in itertools.product(
                ("year", "size"), (("A4", 595.3, 841.9), ("Letter", 612.0, 792.0))):
            with self.subTest(page=name, paper=paper):
                page = self.open(name, dark=True)  # paper is white whatever the screen was
                target = looking.FOLDER / f"{name}-{paper}.pdf"
                page.pdf(target, wide / 72, high / 72)
                words = subprocess.run(["pdftotext", "-bbox", target, "-"], capture_output=True, text=True, check=True).stdout
                sheets = re.findall(r'<page width="([\d.]+)" height="([\d.]+)"', words)
                self.assertTrue(3 <= len(sheets) <= 14, len(sheets))
                for w, h in sheets:
                    self.assertAlmostEqual(float(w), wide, delta=1)
                    self.assertAlmostEqual(float(h), high, delta=1)
                places = [[float(n) for n in p] for p in
                          re.findall(r'xMin="([\d.]+)" yMin="([\d.]+)" xMax="([\d.]+)" yMax="([\d.]+)"', words)]
                self.assertGreater(len(places), 500)
                for left, top, right, bottom in places:
                    self.assertTrue(left > 30 and right < wide - 30 and top > 30 and bottom < high - 30,
                                    (left, top, right, bottom))
                self.headings(page, target)

    def headings(self, page, target):
        text = subprocess.run(["pdftotext", "-layout", target, "-"], capture_output=True, text=True, check=True).stdout
        flat = " ".join(text.split())
        for heading in page.run("[...document.querySelectorAll('h1,h2')].map(h => h.textContent)"):
            self.assertIn(heading, flat)
        lead = page.run("document.querySelector('.lead').textContent")
        self.assertIn(" ".join(lead.split()), flat)


class Screenshots(looking.Case):
    def test_are_taken_to_be_looked_at(self):
        for name, width, dark in (("year", 360, False), ("year", 1440, True), ("size", 360, True), ("size", 1440, False)):
            target = looking.FOLDER / f"{name}-{width}-{'dark' if dark else 'light'}.png"
            self.open(name, width=width, dark=dark).screenshot(target)
            self.assertGreater(target.stat().st_size, 20_000)


if __name__ == "__main__":
    looking.main()
