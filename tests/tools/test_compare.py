# SPDX-License-Identifier: MIT
"""hatring compare, end to end through the binary named by the environment variable HATRING.

test_compare.py            runs everything
test_compare.py Class.name runs one test
"""
import json
import unittest

from cli_case import BAD_INPUT, CONFIGS, DEMO, EXCEEDED, QUICK, RAN, WITHIN, CliTest, hatring

VARIANTS = CONFIGS / "variants"
STEEL, TITANIUM, ONE_PIECE = (VARIANTS / name for name in ("hat_steel.yaml", "hat_titanium.yaml", "one_piece.yaml"))


class CompareTest(CliTest):
    def compared(self, *args):
        result = hatring("compare", *args, cwd=self.folder)
        self.assertIn(result.returncode, RAN, result.stdout + result.stderr)
        return result

    def compared_json(self, *args):
        return json.loads(self.compared(*args, "--json").stdout)

    def variant(self, name, text):
        path = self.folder / name
        path.write_text(text)
        return path

    @staticmethod
    def row(answers, key, axle):
        return next(row for row in answers["rows"] if row["key"] == key and row["axle"] == axle)


class Table(CompareTest):
    def test_every_shipped_variant_runs_with_the_demo(self):
        files = sorted(VARIANTS.glob("*.yaml"))
        self.assertGreaterEqual(len(files), 9)
        for path in files:
            self.assertRegex(path.read_text(), r"^# Shows: ", path.name)
        answers = self.compared_json(DEMO, *files, *QUICK)
        self.assertEqual(len(answers["variants"]), len(files) + 1)
        names = [variant["name"] for variant in answers["variants"]]
        self.assertEqual(len(set(names)), len(names))
        self.assertIn(answers["recommended"], names)
        self.assertNotIn("safe", json.dumps(answers).lower().replace("safety", ""))

    def test_one_object_with_what_simulate_says_of_each(self):
        answers = self.compared_json(DEMO, STEEL, ONE_PIECE, "--no-report", "--mesh", "coarse")
        self.assertEqual(list(self.folder.iterdir()), [])
        alone = self.run_json(DEMO, "--no-report", "--mesh", "coarse")
        first = answers["variants"][0]
        self.assertEqual(first["verdicts"], alone["verdicts"])
        self.assertEqual(first["peaks"], alone["peaks"])
        self.assertEqual(first["masses"], alone["masses"])
        hat = self.row(answers, "hat", "rear")
        self.assertEqual(hat["cells"][0]["value"], alone["peaks"]["rear"]["hat_flange"]["value"])
        self.assertAlmostEqual(hat["cells"][1]["difference"], hat["cells"][1]["value"] - hat["cells"][0]["value"])
        for cell in hat["cells"]:
            self.assertLessEqual(cell["value_low"], cell["value"])
            self.assertLessEqual(cell["value"], cell["value_high"])
        self.assertEqual([c["best"] for c in hat["cells"]], [True, False, False])  # aluminium cools best
        self.assertEqual(hat["cells"][1]["change"], "worse")

    def test_one_piece_weighs_more_and_has_no_joint(self):
        answers = self.compared_json(DEMO, ONE_PIECE, "--no-report", *QUICK)
        for axle in ("front", "rear"):
            for key in ("mass", "rotating", "inertia"):
                two, one = self.row(answers, key, axle)["cells"]
                self.assertGreater(one["value"], two["value"], key)
                self.assertEqual((two["best"], one["best"]), (True, False))
            total = self.row(answers, "mass", axle)["cells"][1]["difference"]
            rotating = self.row(answers, "rotating", axle)["cells"][1]["difference"]
            self.assertAlmostEqual(total, rotating)  # only what turns has changed
            self.assertIsNone(self.row(answers, "outward", axle)["cells"][1]["value"])

    def test_the_same_set_up_shows_no_clear_difference(self):
        twin = self.variant("twin.yaml", "name: twin\n")
        answers = self.compared_json(DEMO, twin, "--no-report", *QUICK)
        for row in answers["rows"]:
            self.assertTrue(row["same"], row["key"])
            self.assertFalse(any(cell["best"] for cell in row["cells"]))
        self.assertIn("no clear difference", answers["sentence"])

    def test_set_applies_to_all_and_cost_is_shown_as_given(self):
        dear = self.variant("dear.yaml", "cost: 300 EUR\n")
        answers = self.compared_json(DEMO, dear, "--no-report", *QUICK, "--set", "cost=200 EUR")
        self.assertEqual([v["cost"]["text"] for v in answers["variants"]], ["200 EUR", "200 EUR"])
        base = self.variant("base.yaml", f"include: {DEMO}\ncost: 100 EUR\n")
        answers = self.compared_json(base, dear, "--no-report", *QUICK, "--allow-include", CONFIGS)
        cells = self.row(answers, "cost", "")["cells"]
        self.assertEqual([c["text"] for c in cells], ["100 EUR", "300 EUR"])
        self.assertEqual(cells[1]["difference"], 200)

    def test_text_fits_eighty_columns_and_marks_without_colour(self):
        text = self.compared(DEMO, STEEL, TITANIUM, ONE_PIECE, VARIANTS / "ducts.yaml", *QUICK).stdout
        self.assertLessEqual(max(map(len, text.splitlines()[:-1])), 80, text)
        self.assertNotIn("\x1b", text)
        self.assertIn("*", text)
        self.assertIn("In brackets: difference from A", text)
        us = self.compared(DEMO, STEEL, "--units", "us", *QUICK).stdout
        self.assertIn("rear hat flange, F", us)
        self.assertIn("front rotating mass, lb", us)

    def test_sorting(self):
        files = (TITANIUM, STEEL, ONE_PIECE)
        answers = self.compared_json(DEMO, *files, "--no-report", "--mesh", "coarse", "--sort", "rear.hat")
        cells = self.row(answers, "hat", "rear")["cells"]
        values = [cells[i]["value"] for i in answers["order"]]
        self.assertEqual(answers["order"][0], 0)
        self.assertEqual(values[1:], sorted(values[1:]))
        self.assertNotEqual(answers["order"], [0, 1, 2, 3])
        self.assertIn("rear.hat", hatring("compare", "--help").stdout)
        self.assertIn("unknown key 'hatt'", self.refused("compare", DEMO, STEEL, "--sort", "hatt"))

    def test_deterministic(self):
        one, other = (self.compared_json(DEMO, STEEL, "--no-report", *QUICK) for _ in range(2))
        for answers in (one, other):
            answers.pop("timing")
            for variant in answers["variants"]:
                variant.pop("timing")
        self.assertEqual(one, other)


class Docs(CompareTest):
    def test_the_worked_example_says_what_the_program_says(self):
        page = (CONFIGS.parent / "docs" / "how-to" / "which-hat.md").read_text()
        files = [VARIANTS / f"hat_{name}.yaml" for name in ("7075_t6", "steel", "titanium", "steel_hot_bolts")]
        answers = self.compared_json(DEMO, *files, "--no-report", "--set", "session.1.laps=4")
        self.assertIn(answers["sentence"], " ".join(page.split()))
        first, alloy, steel = (cell["value"] for cell in self.row(answers, "hat", "rear")["cells"][:3])
        self.assertIn(f"({alloy - 273.15:.0f} against {first - 273.15:.0f} degC)", page)
        self.assertIn(f"({steel - 273.15:.0f} degC)", page)
        growth = self.row(answers, "outward", "rear")["cells"]
        self.assertIn(f"outgrows it by {growth[3]['value'] * 1e3:.2f} mm where {growth[0]['value'] * 1e3:.2f} mm", page)
        gain = self.row(answers, "rotating", "rear")["cells"][2]["difference"]
        self.assertIn(f"gains {gain:.2f} kg at the rear", " ".join(page.split()))
        self.assertEqual(self.row(answers, "fluid", "rear")["cells"][2]["change"], "no clear difference")


class Files(CompareTest):
    def test_report_alone_unless_results_are_asked_for(self):
        run = (DEMO, STEEL, ONE_PIECE, "--out", "out", "--mesh", "lump")
        self.compared(*run)
        self.assertEqual([p.name for p in (self.folder / "out").iterdir()], ["report.html"])
        self.compared(*run, "--results", "--quiet")
        found = sorted(str(p.relative_to(self.folder / "out")) for p in (self.folder / "out").rglob("*.h5"))
        self.assertEqual(found, ["demo-eight-hot-laps-of-Tern-Hollow/result.h5", "one-piece-discs/result.h5",
                                 "steel-hats/result.h5"])

    def test_page_of_six_set_ups_is_small(self):
        files = sorted(VARIANTS.glob("hat_*.yaml"))[:4] + [ONE_PIECE]
        self.compared(DEMO, *files, "--out", "out", "--quiet")
        page = self.folder / "out" / "report.html"
        self.assertLess(page.stat().st_size, 1_500_000)
        self.assertIn('"kind":"compare"', page.read_text())


class ExitAndErrors(CompareTest):
    def test_exit_tells_whether_any_is_within(self):
        cold = self.variant("cold.yaml", "limits: {fluid_margin: 0 K, hat: 900 degC, pad: 1500 degC}\n")
        limits = ("--set", "limits.ring_mean=60 degC")
        self.assertEqual(self.compared(DEMO, cold, "--no-report", *QUICK, *limits).returncode, EXCEEDED)
        good = self.variant("good.yaml", "limits: {ring_mean: 1500 degC, ring_face: 1500 degC}\n")
        bad = self.variant("session.yaml", f"include: {DEMO}\nlimits: {{ring_mean: 60 degC}}\n")
        result = self.compared(bad, good, "--no-report", *QUICK, "--allow-include", CONFIGS)
        self.assertEqual(result.returncode, WITHIN, result.stdout)
        self.assertIn("Take good: it alone is", result.stdout)

    def test_mistakes_stand_at_their_file_and_line(self):
        wrong = self.variant("wrong.yaml", "name: w\nbrakes:\n  front: {rotor: {hat: {materiel: steel_4130}}}\n")
        message = self.refused("compare", DEMO, STEEL, wrong)
        self.assertIn("wrong.yaml:3:", message)
        self.assertIn("did you mean `material`?", message)

    def test_usage(self):
        self.assertEqual(hatring("compare", DEMO, cwd=self.folder).returncode, BAD_INPUT)
        self.assertIn("both named", self.refused("compare", DEMO, STEEL, STEEL))
        self.assertIn("found a session in a variant", self.refused("compare", DEMO, DEMO))
        other = self.variant("coarse_output.yaml", "output: {interval: 1 s}\n")
        self.assertIn("other times", self.refused("compare", DEMO, other))


if __name__ == "__main__":
    unittest.main()
