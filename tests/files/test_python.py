#!/usr/bin/python3
"""Result files in h5py and xarray: coordinates, units, names, dates, numbers. usage: test_python.py FOLDER"""
import pathlib
import subprocess
import sys
import unittest
import warnings

import h5py
import netCDF4  # before warnings count: the module itself warns about numpy
import numpy as np
import xarray

FOLDER = pathlib.Path(sys.argv.pop(1) if len(sys.argv) > 1 else ".")
FILES = ("year", "size")
GROUPS = {"year": ("target", "summary", "daily", "replication", "series"),
          "size": ("target", "summary", "daily", "replication", "design")}


def text(value):
    return value.decode() if isinstance(value, bytes) else str(value)


class H5py(unittest.TestCase):
    def each(self):
        """Every dataset of every file, by path."""
        for name in FILES:
            with h5py.File(FOLDER / (name + ".h5")) as file:
                found = []
                file.visititems(lambda path, item: found.append((path, item)) if isinstance(item, h5py.Dataset) else None)
                self.assertGreater(len(found), 100)
                for path, dataset in found:
                    yield f"{name}: {path}", dataset

    def test_every_number_has_unit_and_name_and_every_axis_its_scale(self):
        for path, dataset in self.each():
            self.assertTrue(text(dataset.attrs["long_name"]).strip(), path)
            if dataset.dtype.kind in "if":
                self.assertTrue(text(dataset.attrs["units"]).strip(), path)
            for axis in range(0 if h5py.h5ds.is_scale(dataset.id) else dataset.ndim):
                self.assertEqual(len(dataset.dims[axis]), 1, path)
                scale = dataset.dims[axis][0]
                self.assertEqual(scale.shape, (dataset.shape[axis],), path)
                self.assertEqual(scale.parent, dataset.parent, path)

    def test_numbers_are_finite_and_texts_are_utf8(self):
        for path, dataset in self.each():
            if dataset.dtype.kind in "if":
                self.assertTrue(np.isfinite(dataset[()]).all(), path)
            else:
                for value in np.atleast_1d(dataset.asstr()[()]).ravel():
                    self.assertIsInstance(value, str, path)

    def test_what_the_replications_say_is_what_the_summary_says(self):
        for name in FILES:
            with h5py.File(FOLDER / (name + ".h5")) as file:
                self.assertEqual(int(file.attrs["replications_completed"]), file["replication/replication"].size)
                quantities = [text(q) for q in file["summary/quantity"][:]]
                for column in ("fill_rate", "short_days", "cost_total", "grain_used", "room_max"):
                    values = file["replication/" + column][:].astype(float)
                    at = quantities.index(column)
                    self.assertAlmostEqual(values.mean(), file["summary/mean"][at], delta=1e-9 * abs(values).max() + 1e-12)
                    self.assertAlmostEqual(values.std(ddof=1), file["summary/sd"][at], delta=1e-6 * abs(values).max() + 1e-12)
                    self.assertEqual(values.min(), file["summary/least"][at])
                    self.assertEqual(values.max(), file["summary/most"][at])
                days = file["daily/served_mean"][:].sum()
                self.assertAlmostEqual(days, file["replication/served"][:].mean(), delta=1e-4 * days)


class Xarray(unittest.TestCase):
    def open(self, name, group):
        with warnings.catch_warnings():
            warnings.simplefilter("error")
            data = xarray.open_dataset(FOLDER / (name + ".h5"), group=group)
        self.addCleanup(data.close)
        return data

    def test_every_group_opens_with_coordinates_units_and_names(self):
        for name in FILES:
            for group in GROUPS[name]:
                with self.subTest(file=name, group=group):
                    data = self.open(name, group)
                    for dimension in data.dims:
                        self.assertIn(dimension, data.coords)
                    for variable in data.data_vars.values():
                        self.assertIn("long_name", variable.attrs)
                        # xarray turns units of time into its own types; all others stay.
                        if variable.dtype.kind in "if":
                            self.assertIn("units", variable.attrs)

    def test_days_are_dates_and_bands_go_by_quantile(self):
        for name in FILES:
            daily = self.open(name, "daily")
            self.assertEqual(str(daily.day.values[0])[:10], "2026-03-01")
            self.assertEqual(str(daily.day.values[364])[:10], "2027-02-28")
            middle = daily.served.sel(quantile=0.5)
            self.assertEqual(middle.dims, ("day",))
            self.assertTrue((daily.served.sel(quantile=0.05) <= daily.served.sel(quantile=0.95)).all())
            july = daily.room_mean_mean.groupby("day.month").mean()
            self.assertGreater(float(july.sel(month=7)), float(july.sel(month=1)))

    def test_a_table_of_replications_is_a_data_frame(self):
        frame = self.open("year", "replication").to_dataframe()
        self.assertEqual(len(frame), 60)
        self.assertEqual(frame.index.name, "replication")
        self.assertTrue((frame.served <= frame.wanted + 1e-9).all())

    def test_designs_by_number(self):
        design = self.open("size", "design")
        chosen = design.sel(candidate=int(design.chosen))
        self.assertEqual(str(chosen.verdict.values), "chosen")
        self.assertEqual(set(map(str, design.choice.values)),
                         {"rack.trays_per_tier", "line.trays_per_batch", "line.sowing_density"})
        self.assertTrue(float(chosen.success_low) <= float(chosen.success) <= float(chosen.success_high))

    def test_one_number_of_the_summary_by_name(self):
        summary = self.open("year", "summary")
        fill = float(summary["mean"].sel(quantity="fill_rate"))
        self.assertTrue(0.5 < fill <= 1.0)


class Dump(unittest.TestCase):
    def said(self, *words):
        done = subprocess.run([str(w) for w in words], capture_output=True, text=True)
        self.assertEqual(done.returncode, 0, done.stderr)
        self.assertEqual(done.stderr, "")
        return done.stdout

    def test_ncdump_reads_header_and_numbers(self):
        for name in FILES:
            head = self.said("ncdump", "-h", FOLDER / (name + ".h5"))
            for line in ("double served(day, quantile) ;", 'day:units = "days since 2026-03-01" ;', "group: replication",
                         'served:units = "kg" ;', ':Conventions = "CF-1.8" ;', "string quantity(quantity) ;"):
                self.assertIn(line, head)
            self.assertNotIn("phony_dim", head)
        data = self.said("ncdump", "-v", "/design/cost_year", FOLDER / "size.h5")
        numbers = data.rsplit("cost_year = ", 1)[1].split(";")[0].replace("\n", " ")
        with h5py.File(FOLDER / "size.h5") as file:
            np.testing.assert_allclose([float(n) for n in numbers.split(",")], file["design/cost_year"][:], rtol=1e-12)

    def test_h5dump_reads_all(self):
        for name in FILES:
            self.assertIn("served", self.said("h5dump", "-H", FOLDER / (name + ".h5")))


if __name__ == "__main__":
    unittest.main(verbosity=2)
