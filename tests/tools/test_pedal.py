# SPDX-License-Identifier: MIT
"""Pads, pedal, bias, fluid and bedding, end to end through the binary named by the environment variable HATRING."""
import json
import os
import pathlib
import re
import subprocess
import sys
import tempfile
import unittest

HERE = pathlib.Path(__file__).resolve().parent
CONFIGS = HERE.parents[1] / "configs"
PADS = ("street", "fast_road", "club_race", "endurance")
QUICK = ("--mesh", "lump", "--no-report")


class Pedal(unittest.TestCase):
    def run_it(self, session, *args, good=(0, 1)):
        with tempfile.TemporaryDirectory() as folder:
            result = subprocess.run([os.environ["HATRING"], "simulate", str(session), "--out", folder, *QUICK, *args],
                                    capture_output=True, text=True, timeout=240, check=False)
            self.assertIn(result.returncode, good, result.stdout + result.stderr)
            if 2 not in good:
                check = subprocess.run([sys.executable, HERE / "check_result.py", pathlib.Path(folder) / "result.h5"],
                                       capture_output=True, text=True, check=False)
                self.assertEqual(check.returncode, 0, check.stdout + check.stderr)
            return result

    def answers(self, session, *settings):
        words = [word for s in settings for word in ("--set", s)]
        return json.loads(self.run_it(session, "--json", *words).stdout)

    def with_pads(self, name):
        """The demo on these front pads."""
        with tempfile.TemporaryDirectory() as folder:
            session = pathlib.Path(folder) / "s.yaml"
            session.write_text(f"include: {CONFIGS}/demo.yaml\nbrakes: {{front: {{pads: {{include: {CONFIGS}/pads/{name}.yaml}}}}}}\n")
            result = self.run_it(session, "--json", "--allow-include", str(CONFIGS))
            return json.loads(result.stdout)

    def test_the_four_compounds_differ_as_their_names_say(self):
        runs = {name: self.with_pads(name) for name in PADS}
        fade = {name: runs[name]["pedal"]["front"]["fade"] for name in PADS}
        self.assertGreater(fade["street"], fade["fast_road"])
        self.assertGreater(fade["fast_road"], fade["endurance"])
        cold = {name: runs[name]["pads"]["front"]["below_window"] for name in PADS}
        self.assertLessEqual(cold["street"], cold["endurance"])
        worn = {name: runs[name]["pads"]["front"]["worn"] for name in PADS}
        self.assertGreater(worn["street"], worn["endurance"])
        self.assertTrue(next(s for s in runs["street"]["symptoms"] if s["pedal"].startswith("hard and dead"))["seen"])
        self.assertTrue(any(v["key"] == "fade" and v["level"] == "over the limit" for v in runs["street"]["verdicts"]))

    def test_every_compound_says_that_it_is_invented(self):
        for path in (CONFIGS / "pads").glob("*.yaml"):
            self.assertIn("INVENTED", path.read_text().splitlines()[0], path)

    def test_corners_laps_and_reach(self):
        pedal = self.answers(CONFIGS / "demo.yaml")["pedal"]
        self.assertTrue(pedal["car"]["effort_known"])
        self.assertEqual(pedal["car"]["unreachable"], 0)
        hot = [c for c in pedal["corners"] if re.fullmatch(r"lap \d+", c["place"]["span"])]
        first = [c for c in hot if c["place"]["lap"] == 2]
        self.assertTrue(all(c["front"]["growth"] is None for c in first))
        self.assertTrue(all(c["front"]["growth"] is not None for c in hot if c["place"]["lap"] > 2))
        self.assertEqual({c["limited_by"] for c in hot}, {"tyres"})
        self.assertGreater(pedal["laps"][-3]["growth"], 0)
        weak = self.answers(CONFIGS / "demo.yaml", "brakes.hydraulic.largest_effort=50 N")
        self.assertGreater(weak["pedal"]["car"]["unreachable"], 0)
        self.assertGreater(weak["pedal"]["car"]["longer"], 0)
        self.assertEqual(weak["level"], "over the limit")
        self.assertTrue(any("not reachable" in v["advice"] for v in weak["verdicts"]))

    def test_bias_by_hydraulics_settles_and_wanders(self):
        balance = self.answers(CONFIGS / "demo_hydraulic.yaml")["brake_balance"]
        self.assertEqual(balance["law"], "hydraulic")
        self.assertTrue(balance["settled"])
        self.assertLessEqual(balance["runs"], 4)
        self.assertLess(balance["change"], 1e-3)
        self.assertGreater(balance["highest"] - balance["lowest"], 0.005)

    def test_fluid_by_age_lies_between_dry_and_wet(self):
        fluid = self.answers(CONFIGS / "demo.yaml", "brakes.front.fluid.age=6 month")["fluid"]["front"]
        self.assertEqual(fluid["basis"], "aged")
        self.assertTrue(fluid["boiling_wet"] < fluid["boiling_judged"] < fluid["boiling_dry"])
        self.assertTrue(fluid["after_parking"])
        self.assertIn("age", self.run_it(CONFIGS / "demo.yaml", "--set", "brakes.front.fluid.judge=aged", good=(2,)).stderr)

    def test_bedding_plan_stop_by_stop(self):
        answers = self.answers(CONFIGS / "duties" / "bedding.yaml")
        stops = answers["bedding"]["front"]["stops"]
        self.assertEqual([s["group"] for s in stops], [1] * 10 + [2] * 6)
        self.assertEqual(answers["bedding"]["front"]["reached"], sum(s["reaches_band"] for s in stops))
        self.assertTrue(any(v["key"] == "bedding" for v in answers["verdicts"]))
        text = self.run_it(CONFIGS / "duties" / "bedding.yaml").stdout
        self.assertIn("stops reach the band", text)

    def test_the_terminal_speaks_of_the_pedal_in_both_unit_systems(self):
        for units, word in (("si", " bar"), ("us", " psi")):
            text = self.run_it(CONFIGS / "demo.yaml", "--units", units, "--all").stdout
            self.assertIn("pedal, highest", text)
            self.assertIn(word, text)
            self.assertNotIn(" safe ", text)

    def test_newtons_need_the_pedal(self):
        text = self.run_it(CONFIGS / "demo.yaml", "--set", "brakes.hydraulic.pedal_ratio=null", "--all").stdout
        self.assertIn("pedal_ratio", text)
        self.assertIn(" bar", text)
        self.assertNotRegex(text, r"\d N\b")

    def test_a_valve_without_the_hydraulic_share_is_told(self):
        told = self.answers(CONFIGS / "demo.yaml", "brakes.hydraulic.valve_pressure=25 bar")
        self.assertEqual(told["brake_balance"]["law"], "fixed")
        self.assertTrue(any("front_share" in w for w in told["warnings"]))

    def test_bad_tables_are_refused(self):
        for setting, phrase in (
                ("brakes.front.pads.pressure_factor={pressure: {unit: bar, values: [10, 20]}, values: [1, 0.4]}", "brake less"),
                ("brakes.front.pads.speed_factor={speed: [1, 2], values: [1, 1]}", "unit"),
                ("brakes.front.pads.speed_factor={speed: {unit: m/s, values: [1, 2]}, values: [1]}", "as many"),
                ("brakes.front.pads.bedding={band_low: 500 degC, band_high: 400 degC}", "band_low"),
                ("brakes.hydraulic.pedal_ratio=0.2", "pedal_ratio")):
            with self.subTest(setting=setting):
                self.assertIn(phrase, self.run_it(CONFIGS / "demo.yaml", "--set", setting, good=(2,)).stderr)


if __name__ == "__main__":
    unittest.main()
