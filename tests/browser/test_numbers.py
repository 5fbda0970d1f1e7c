#!/usr/bin/python3
"""The numbers on the page are those of the result file, which h5py reads beside the browser.

usage: tests/browser/test_numbers.py FOLDER     with the pages of tests/browser/make_pages in it
"""
import itertools
import re

import looking

COSTS = {"rack and equipment": "cost_capital", "grain": "cost_grain", "water": "cost_water", "electricity": "cost_power",
         "the keeper's work": "cost_labour", "reserve feed": "cost_reserve", "disposal of spoiled mats": "cost_disposal", "in all": "cost_total"}
TROUBLES = {"mats lost to mould": "spoiled_mould", "mats lost to souring": "spoiled_sour", "pump failures": "pump_failures",
            "power cuts": "power_cuts", "clogged emitters": "clogs", "rounds the keeper missed": "missed_rounds",
            "electricity of the heater": "energy_heater"}
BANDS = {"fodder": ("Fodder wanted and fodder served, day by day", ("wanted", "served")),
         "room": ("Temperature of the room, day by day", ("room_mean", "outdoor_mean"))}


class Year(looking.Case):
    page_name = "year"

    def setUp(self):
        self.page, self.file = self.open(self.page_name), looking.Result(self.page_name)

    def test_chance(self):
        table = self.table(self.page, "chance of meeting the target")
        mean, low, high = self.file.summary("success", 100)
        self.assertShows(table["years played"][0], self.file.file.attrs["replications_completed"])
        self.assertShows(table["share that meets the target"][0], mean)
        self.assertShows(table["95 % interval, from"][0], low)
        self.assertShows(table["95 % interval, to"][0], high)
        self.assertShows(table["share asked for"][0], 100 * self.file.file["target/years"][()])

    def test_cost_by_part(self):
        table = self.table(self.page, "cost a year, by part")
        total = self.file.yearly("cost_total")[0]
        for label, quantity in COSTS.items():
            mean, low, high = self.file.yearly(quantity)
            self.assertShows(table[label][0], mean)
            self.assertTrue(table[label][0].endswith(" EUR"))
            if table[label][1]:
                self.assertShows(table[label][1], low, high)
            if label != "in all" and 0 < mean / total < 0.005:
                self.assertEqual(table[label][2], "less than 1 %")
            elif label != "in all":
                self.assertShows(table[label][2], 100 * mean / total)
        self.assertAlmostEqual(sum(self.file.yearly(q)[0] for n, q in COSTS.items() if n != "in all"), total, delta=1e-6 * total)

    def test_price_of_dry_matter(self):
        table = self.table(self.page, "cost of dry matter")
        self.assertShows(table["fodder from this rack"][0], *self.file.summary("cost_per_kg_dry_matter"))
        self.assertShows(table["the same grain, fed dry"][0], self.file.summary("dry_grain_per_kg_dry_matter")[0])
        self.assertShows(table["hay"][0], self.file.file["scenario/hay_cost_per_kg_dry_matter"][()])

    def seasons(self):
        return self.file.text("summary/season"), self.file.file["summary/short_season"], self.file.yearly("short_days")[0]

    def test_seasons_and_troubles(self):
        table, (names, shares, days) = self.table(self.page, "short days by season, a year"), self.seasons()
        for season, share in zip(names, shares):
            self.assertShows(table[season][0], share * days)
            self.assertShows(table[season][1], 100 * share)
        table = self.table(self.page, "Heat, cold, mould and breakdowns in a year")
        for label, quantity in TROUBLES.items():
            self.assertShows(table[label][0], self.file.yearly(quantity)[0])
        self.assertShows(table["hottest hour in the room"][0], self.file.summary("room_max")[0])

    def test_every_day_of_the_bands(self):
        for caption, names in BANDS.values():
            table = self.table(self.page, caption)
            self.assertEqual(len(table), 365)
            for at, name in enumerate(names):
                values = self.file.file["daily/" + name][:]
                for day, cells in enumerate(table.values()):
                    for q in range(5):
                        self.assertShows(cells[5 * at + q], values[day, q])

    def test_bands_are_drawn_where_their_numbers_are(self):
        for picture, (_, names) in BANDS.items():
            for at, name in enumerate(names):
                points = self.page.run(f"""[...document.getElementById('{picture}-t').parentNode
                    .querySelectorAll('path[class^=mid-]')].map(p => p.getAttribute('d'))[{at}]""")
                heights = [float(p.split(",")[1]) for p in points.strip("M").split()]
                self.on_a_line(self.file.file["daily/" + name][:, 2], heights)

    def test_bars_are_as_long_as_their_numbers(self):
        bars = self.page.run("[...document.querySelectorAll('#money .bar-wanted')].map(b => +b.getAttribute('width'))")
        costs = sorted((self.file.yearly(q)[0] for n, q in COSTS.items() if n != "in all"), reverse=True)
        for length, cost in zip(bars, costs):
            if cost > 0.005 * costs[0]:
                self.assertAlmostEqual(length / bars[0], cost / costs[0], delta=1e-4)

    def on_a_line(self, values, heights):
        """Heights on the paper fall with the values, all by one rule, to a twentieth of a point."""
        self.assertEqual(len(values), len(heights))
        low, high = min(range(len(values)), key=values.__getitem__), max(range(len(values)), key=values.__getitem__)
        self.assertGreater(heights[low], heights[high])
        slope = (heights[high] - heights[low]) / (values[high] - values[low])
        for value, height in zip(values, heights):
            self.assertAlmostEqual(height, heights[low] + slope * (value - values[low]), delta=0.16)


class YearOfSize(Year):
    """The design that size recommends, as it plays."""
    page_name = "size"

    def test_headline_is_of_the_years_on_the_page(self):
        lead = self.page.run("document.querySelector('.lead').textContent")
        years = self.file.file.attrs["replications_completed"]
        said = re.search(r"in ([0-9.]+) % of the (\d+) years it was played and costs (\d+) EUR a year", lead)
        self.assertIsNotNone(said, lead)
        self.assertEqual(int(said[2]), years)
        self.assertShows(said[1], self.file.summary("success", 100)[0])
        self.assertShows(said[3], self.file.yearly("cost_total")[0])

    def test_how_sure_stands_under_the_headline(self):
        under = self.page.run("document.querySelector('.lead').nextElementSibling.textContent")
        self.assertTrue(under.startswith("How sure: "), under)
        at = self.file.text("doubt/quantity").index("success")
        self.assertShows(re.search(r"leaves open.*? and (\d.*?) of years", under)[1], 100 * self.file.file["doubt/both_mean"][at])

    def test_luck_is_that_of_the_search(self):
        chosen = int(self.file.file["design/chosen"][()])
        played = int(self.file.file["design/replications"][chosen])
        self.assertEqual(self.file.file["replication/replication"].size, max(played, 200))
        if played >= 200:
            self.assertAlmostEqual(self.file.design("cost_year", chosen)[0], self.file.yearly("cost_total")[0], delta=1e-6)
            self.assertAlmostEqual(self.file.design("success", chosen)[0], self.file.summary("success")[0], delta=1e-12)


class Size(looking.Case):
    def setUp(self):
        self.page, self.file = self.open("size"), looking.Result("size")
        self.chosen = int(self.file.file["design/chosen"][()])
        self.assertGreaterEqual(self.chosen, 0)

    def test_every_design(self):
        table = self.table(self.page, "all designs, nearest to the choice first")
        self.assertEqual(len(table), self.file.file["design/candidate"].size)
        verdicts, keys = self.file.text("design/verdict"), self.file.text("design/choice")
        settings = self.file.text("design/value")
        self.assertEqual(next(iter(table)), str(self.chosen))
        for name, (cost, years, success, verdict, fill, short, *values) in table.items():
            c = int(name)
            self.assertShows(years, self.file.file["design/replications"][c])
            self.assertTrue(verdict.startswith(verdicts[c] + ": "))
            self.assertEqual(values, settings[c * len(keys):(c + 1) * len(keys)])
            if self.file.file["design/replications"][c] == 0:
                continue
            self.assertShows(cost, *self.file.design("cost_year", c))
            self.assertShows(success, *self.file.design("success", c, 100))
            self.assertShows(fill, *self.file.design("fill_rate", c, 100))
            self.assertShows(short, *self.file.design("short_days", c))

    def test_the_answer_is_the_chosen_design(self):
        lead = self.page.run("document.querySelector('.lead').textContent")
        keys = self.file.text("design/choice")
        chosen = dict(zip(keys, self.file.text("design/value")[self.chosen * len(keys):]))
        self.assertIn(f"tiers of {chosen['rack.trays_per_tier']} trays", lead)
        self.assertIn(f"with {chosen['line.trays_per_batch']} trays", lead)
        self.assertTrue(lead.startswith("Build "))
        self.assertIn(chosen["line.sowing_density"].replace("m2", "m²"), lead)

    def test_dots_stand_where_their_numbers_are(self):
        dots = self.page.run("""[...document.getElementById('tradeoff-t').parentNode.querySelectorAll('circle:not(.ring)')]
            .map(c => [+c.getAttribute('cx'), +c.getAttribute('cy'), c.querySelector('title').textContent])""")
        places = {int(tip.split("design ")[1].split(":")[0]): (x, y) for x, y, tip in dots if "design " in tip}
        played = [c for c in range(self.file.file["design/candidate"].size) if self.file.file["design/replications"][c] > 0]
        self.assertEqual(sorted(places), played)
        for a, b in itertools.combinations(played, 2):
            costs = [self.file.design("cost_year", c)[0] for c in (a, b)]
            if abs(costs[0] - costs[1]) > 1:
                self.assertEqual(costs[0] < costs[1], places[a][0] < places[b][0])


class Weights(looking.Case):
    """Which assumptions matter most."""

    def setUp(self):
        self.page, self.file = self.open("size"), looking.Result("size")

    def moved(self, path, i, scale):
        return [scale * float(self.file.file[f"assumption/{path}{end}"][i]) for end in ("", "_low", "_high")]

    def same_values(self, shown, written):
        """The page has four digits and its own sign for square metres; of several grains or groups the values stand apart by commas."""
        shown, written = shown.split(", "), written.replace("m2", "m²").split(", ")
        self.assertEqual(len(shown), len(written))
        for one, other in zip(shown, written):
            (digits, unit), (exact, unit_written) = (re.fullmatch(r"([-+]?[.0-9]*(?:e[-+]?[0-9]+)?)(.*)", text).groups() for text in (one, other))
            self.assertEqual(unit, unit_written)
            if exact:
                self.assertAlmostEqual(float(digits), float(exact), delta=5.1e-4 * abs(float(exact)))
            else:
                self.assertEqual(digits, exact)

    def test_every_number_of_the_table(self):
        table, keys = self.table(self.page, "every assumed number, half and twice"), self.file.text("assumption/key")
        self.assertEqual(list(table), keys)
        self.assertGreater(len(keys), 30)
        shown = 0
        for i, (key, cells) in enumerate(table.items()):
            for at, side in ((1, "less"), (4, "more")):
                self.same_values(cells[at], self.file.text("assumption/" + side)[i])
                for cell, path, scale in ((cells[at + 1], "_fill_rate", 100), (cells[at + 2], "_cost_year", 1)):
                    values = self.moved(side + path, i, scale)
                    if cell == "none":
                        self.assertEqual(values[1:], [0.0, 0.0])
                    else:
                        text = cell.replace("+", "")
                        if "(" not in text:  # an interval that rounds to its middle is not shown
                            self.assertShows(text, *values[:1])
                            self.assertLess(max(abs(v - values[0]) for v in values), 1e-3)
                        else:
                            self.assertShows(text, *values)
                        shown += 1
        self.assertGreater(shown, 60)

    def test_bars_are_as_long_as_their_numbers_strongest_first(self):
        bars = self.page.run("""[...document.getElementById('weights-t').parentNode.querySelectorAll('rect')]
            .filter(b => b.querySelector('title')).map(b => +b.getAttribute('width'))""")
        moves = [abs(self.moved(side + "_fill_rate", i, 100)[0]) for i in range(8) for side in ("less", "more")]
        self.assertEqual(len(bars), 16)
        strongest = [max(moves[2 * i:2 * i + 2]) for i in range(8)]
        self.assertEqual(strongest, sorted(strongest, reverse=True))
        for length, move in zip(bars, moves):
            self.assertAlmostEqual(length / max(bars), move / max(moves), delta=2e-3 if move / max(moves) > 0.01 else 0.02)


class Miss(looking.Case):
    def test_a_nearest_miss_is_told_as_one_in_us_units(self):
        page, file = self.open("miss"), looking.Result("miss")
        self.assertEqual(int(file.file["design/chosen"][()]), -1)
        lead = page.run("document.querySelector('.lead').textContent")
        self.assertTrue(lead.startswith("None of the designs"), lead)
        text = page.run("document.body.innerText")
        self.assertIn("USD", text)
        self.assertIn("lb", text)
        self.assertNotIn("NaN", text)


class Sweep(looking.Case):
    def setUp(self):
        self.page, self.file = self.open("sweep"), looking.Result("sweep")

    def test_points_and_what_each_key_does(self):
        of = lambda name: self.file.file["sweep/" + name][...]
        met = of("target_met")[()] > 0
        table = self.table(self.page, "the cheapest points that meet the target" if met else "the points that come nearest to the target")
        self.assertEqual(len(table), len(of("leader")))
        for i, line in enumerate(table.values()):
            for text, name, scale in zip(line[1:], ("cost_year", "success", "fill_rate", "short_days"), (1, 100, 100, 1)):
                self.assertShows(text, scale * of("leader_" + name)[i])
        labels, shown = self.file.text("sweep/effect_label"), 0
        for k, key in enumerate(self.file.text("sweep/key")):
            table = self.table(self.page, f"what {key} does")
            for e in (e for e in range(len(labels)) if of("effect_key")[e] == k and of("effect_points")[e] > 0):
                for text, name, scale in zip(table[labels[e]], ("fill_rate", "cost_year", "success", "points"), (100, 1, 100, 1)):
                    self.assertShows(text, scale * of("effect_" + name)[e])
                    shown += 1
        self.assertGreater(shown, 20)

    def test_bars_of_the_indices(self):
        total = self.file.file["sweep/total"][...]
        for o in range(total.shape[1]):
            bars = self.page.run(f"""[...document.getElementById('share-{o}-t').parentNode.querySelectorAll('.bar-served')]
                .map(b => +b.getAttribute('width'))""")
            self.assertEqual(len(bars), len(total))
            for length, share in zip(bars, total[:, o]):
                if share > 0.01:
                    self.assertAlmostEqual(length / max(bars), share / max(total[:, o]), delta=1e-3)


if __name__ == "__main__":
    looking.main()
