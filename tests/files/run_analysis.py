#!/usr/bin/python3
"""Runs the analyses of docs/analysis.md as they stand and checks what they print with numbers of its own.

usage: run_analysis.py PROGRAM FOLDER     with year.h5 and size.h5 in the folder
"""
import os
import pathlib
import re
import subprocess
import sys
import tempfile
import unittest

import h5py
import numpy as np

PAGE = pathlib.Path(__file__).resolve().parents[2] / "docs/analysis.md"
RUNNERS = {"python": ["/usr/bin/python3", "-"], "r": ["Rscript", "-"], "bash": ["bash", "-euo", "pipefail", "-s"]}
PROGRAM, FOLDER = (pathlib.Path(word).resolve() for word in sys.argv[1:3])
del sys.argv[1:3]


class Analyses(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.blocks = dict(re.findall(r"^```(\w+)\n(.*?)^```$", PAGE.read_text(), re.M | re.S))
        cls.place = tempfile.TemporaryDirectory()
        (pathlib.Path(cls.place.name) / "runs.h5").symlink_to(FOLDER / "year.h5")
        (pathlib.Path(cls.place.name) / "size.h5").symlink_to(FOLDER / "size.h5")
        cls.runs, cls.size = h5py.File(FOLDER / "year.h5"), h5py.File(FOLDER / "size.h5")

    @classmethod
    def tearDownClass(cls):
        cls.place.cleanup()

    def said(self, language):
        path = f"{PROGRAM.parent}:{os.environ['PATH']}"
        done = subprocess.run(RUNNERS[language], input=self.blocks[language], cwd=self.place.name, text=True,
                              capture_output=True, env={**os.environ, "PATH": path, "PYTHONWARNINGS": "ignore"})
        self.assertEqual((done.returncode, done.stderr), (0, ""), done.stdout)
        return done.stdout

    def test_all_are_run(self):
        self.assertEqual(set(self.blocks), set(RUNNERS))

    def test_python(self):
        said = self.said("python")
        short, hot = self.runs["replication/short_days_year"][:], self.runs["replication/room_max"][:]
        order = np.argsort(hot, kind="stable")
        for lot, line in enumerate(said.splitlines()[2:7]):
            years = order[lot * len(order) // 5:(lot + 1) * len(order) // 5]
            shown = [float(n) for n in line.split()]
            self.assertEqual(int(shown[0]), lot)
            self.assertAlmostEqual(shown[1], hot[years].mean(), delta=0.051)
            self.assertAlmostEqual(shown[2], short[years].mean(), delta=0.051)
        self.assertRegex(said, r"most is lacking in month \d+: \d+ kg")

    def test_r(self):
        said = self.said("r")
        played = self.size["design/replications"][:] > 0
        self.assertIn(f"{played.sum()} designs were played", said)
        # The full grid is balanced, so the effect of a choice is the difference of means.
        values = self.size["design/value"].asstr()[:]
        cost, keys = self.size["design/cost_year"][:], list(self.size["design/choice"].asstr()[:])
        if played.all():
            k = keys.index("line.trays_per_batch")
            effect = cost[values[:, k] == "5"].mean() - cost[values[:, k] == "4"].mean()
            shown = [float(n) for n in re.findall(r"-?\d+\.\d", said.split("line.trays_per_batch5")[1])]
            self.assertTrue(min(abs(n - effect) for n in shown) < 0.051, (effect, said))

    def test_command_line(self):
        said = self.said("bash")
        days = np.sort(self.runs["replication/short_days"][:])
        median, high = days[(len(days) + 1) // 2 - 1], days[int(np.ceil(0.9 * len(days))) - 1]
        self.assertIn(f"median {median} nine in ten at most {high}", said)
        keys, chosen = self.size["design/choice"].asstr()[:], int(self.size["design/chosen"][()])
        self.assertIn(" ".join(f"{k}={v}" for k, v in zip(keys, self.size["design/value"].asstr()[chosen])), said)
        self.assertEqual(int(said.splitlines()[-1]), (self.size["design/verdict"].asstr()[:] == "fails").sum())


if __name__ == "__main__":
    unittest.main(verbosity=2)
