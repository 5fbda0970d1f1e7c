#!/usr/bin/python3
"""The plot scripts draw, label from the file, repeat themselves and refuse what they cannot draw. usage: test_plots.py FOLDER"""
import pathlib
import subprocess
import sys
import unittest
import xml.etree.ElementTree as tree

FOLDER = pathlib.Path(sys.argv.pop(1) if len(sys.argv) > 1 else ".").resolve()
SCRIPTS = pathlib.Path(__file__).resolve().parents[2] / "scripts"
# What must stand on the picture: title, units and names, all of them from the file.
WORDS = {"plot_year year": ["Stone barn on a dry hillside: ", "kg", "°C", "Jul"],
         "plot_costs size": ["cost a year [EUR]", "grain", "dry matter [EUR/kg]", "hay"],
         "plot_spread year": ["share of the wanted fodder that was served [%]", "replications", "[EUR]"],
         "plot_designs size": ["8 designs", "recommended", "[EUR]", "share asked for"]}


class Plots(unittest.TestCase):
    def draw(self, script, result, target):
        return subprocess.run([SCRIPTS / script, FOLDER / result, FOLDER / target], capture_output=True, text=True)

    def picture(self, script, result):
        target = FOLDER / (script + ".svg")
        target.unlink(missing_ok=True)
        done = self.draw(script, result + ".h5", target)
        self.assertEqual((done.returncode, done.stdout), (0, ""), done.stderr)
        return target.read_bytes()

    def test_each_draws_from_the_file(self):
        for case, words in WORDS.items():
            with self.subTest(case):
                root = tree.fromstring(self.picture(*case.split()))
                said = " ".join("".join(e.itertext()) for e in root.iter("{http://www.w3.org/2000/svg}text"))
                for word in words:
                    self.assertIn(word, said)
                self.assertGreater(len(list(root.iter("{http://www.w3.org/2000/svg}path"))), 10)

    def test_the_same_file_gives_the_same_picture(self):
        self.assertEqual(self.picture("plot_costs", "year"), self.picture("plot_costs", "year"))

    def test_what_cannot_be_drawn_is_refused_in_a_sentence(self):
        self.assertNotEqual(self.draw("plot_year", "year.toml", "none.svg").returncode, 0)
        self.assertIn("this needs one of size", self.draw("plot_designs", "year.h5", "none.svg").stderr)
        self.assertFalse((FOLDER / "none.svg").exists())


if __name__ == "__main__":
    unittest.main(verbosity=2)
