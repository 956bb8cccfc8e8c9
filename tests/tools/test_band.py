# SPDX-License-Identifier: MIT
"""The full band, end to end through the binary named by the environment variable HATRING."""
import json
import os
import pathlib
import subprocess
import tempfile
import unittest

HERE = pathlib.Path(__file__).resolve().parent
DEMO = HERE.parents[1] / "configs" / "demo.yaml"
QUICK = ("--mesh", "lump", "--set", "session.1.laps=2", "--set", "session.3.park=1 min")


class Band(unittest.TestCase):
    def run_it(self, *args, good=(0, 1)):
        with tempfile.TemporaryDirectory() as folder:
            result = subprocess.run([os.environ["HATRING"], "simulate", DEMO, "--out", folder, *QUICK, *args],
                                    capture_output=True, text=True, timeout=240, check=False)
            self.assertIn(result.returncode, good, result.stdout + result.stderr)
            page = pathlib.Path(folder) / "report.html"
            self.page = page.read_text(encoding="utf-8") if page.exists() else ""
            return result

    def run_json(self, *args):
        answers = json.loads(self.run_it("--band", "--band-runs", "40", "--json", "--no-report", *args).stdout)
        del answers["timing"]
        return answers

    def test_the_numbers_go_together(self):
        result = self.run_it("--band", "--band-runs", "40", "--json", "--no-report")
        self.assertEqual(result.stderr, "")
        answers = json.loads(result.stdout)
        full = answers["full_band"]
        self.assertEqual(full["runs"], 4 * (len(full["inputs"]) + 2))
        self.assertEqual(sorted(full["order"]), list(range(len(full["inputs"]))))
        # Nothing is known about the fluid's age: it is judged wet.
        self.assertEqual([i["key"] for i in full["inputs"]],
                         ["convection", "joint", "heat_split", "emissivity", "front_share", "mass"])
        for part in (p for i in full["inputs"] for p in i["parts"]):
            self.assertLess(part["low"], part["likely"])
            self.assertLess(part["likely"], part["high"])
        for v in answers["verdicts"]:
            d = v["doubt"]
            self.assertLessEqual(d["low"], d["likely"])
            self.assertLessEqual(d["likely"], d["high"])
            self.assertLessEqual(v["value_low"], v["value"])
            self.assertGreaterEqual(v["value_high"], v["value"])
            self.assertEqual(d["inputs"], sorted(d["inputs"], key=lambda w: -w["total"]))
            self.assertIn("full band", v["sure"])
        peak = answers["peaks"]["front"]["ring_mean"]
        self.assertLess(peak["value_low"], peak["value_likely"])
        self.assertLess(peak["value_likely"], peak["value_high"])

    def test_the_number_of_threads_changes_nothing(self):
        self.assertEqual(self.run_json("--jobs", "1"), self.run_json("--jobs", "3"))

    def test_what_is_known_or_pinned_is_not_varied(self):
        keys = lambda answers: [i["key"] for i in answers["full_band"]["inputs"]]
        self.assertNotIn("mass", keys(self.run_json("--known", "mass")))
        self.assertNotIn("convection", keys(self.run_json("--set", "physics.convection={constant: 30 W/m2/K}")))
        self.assertIn("fluid_age", keys(self.run_json("--set", "brakes.front.fluid.age=2 year")))

    def test_terminal_and_page(self):
        text = self.run_it("--band", "--band-runs", "40").stdout
        self.assertEqual([line for line in text.splitlines() if len(line) > 80 and "written" not in line], [])
        for phrase in ("full band", "hangs on", "What would narrow it most", "convection", "32 runs"):
            self.assertIn(phrase, " ".join(text.split()))
        if self.page:
            self.assertIn('"full_band"', self.page)
        self.assertNotIn("full band", self.run_it("--no-report").stdout)

    def test_options_that_do_not_go_together(self):
        for args in (("--band", "--no-band"), ("--band-runs", "40"), ("--band", "--known", "luck"),
                     ("--band", "--band-runs", "3")):
            result = self.run_it(*args, good=(2,))
            self.assertEqual(result.stdout, "")
            self.assertNotEqual(result.stderr, "")

    def test_compare_in_common_random_numbers(self):
        steel = DEMO.parent / "variants" / "hat_steel.yaml"

        def compare(*args):
            with tempfile.TemporaryDirectory() as folder:
                result = subprocess.run([os.environ["HATRING"], "compare", DEMO, steel, "--out", folder, *QUICK,
                                         "--no-report", *args], capture_output=True, text=True, timeout=240, check=False)
                self.assertIn(result.returncode, (0, 1), result.stderr)
                return result.stdout

        answers = json.loads(compare("--band", "--band-runs", "16", "--json"))
        rows = {(row["axle"], row["key"]): row["cells"][1] for row in answers["rows"]}
        # The steel hat is the hotter one on any day: heat stays in it.
        self.assertEqual(rows["front", "hat"]["same_sign"], 1)
        self.assertTrue(all(0 <= cell.get("same_sign", 0) <= 1 for cell in rows.values()))
        self.assertIn("B against A", compare("--band", "--band-runs", "16"))
        self.assertNotIn("same_sign", compare("--json"))


if __name__ == "__main__":
    unittest.main()
