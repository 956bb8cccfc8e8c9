# SPDX-License-Identifier: MIT
"""hatring cooldown end to end, through the binary named by the environment variable HATRING."""
import json
import os
import pathlib
import re
import subprocess
import tempfile
import unittest
import xml.dom.minidom

import schema_check

HERE = pathlib.Path(__file__).resolve().parent
ROOT = HERE.parents[1]
DEMO = ROOT / "configs" / "demo.yaml"
WITHIN, EXCEEDED, BAD_INPUT = 0, 1, 2
# Few plans on the coarsest network.
QUICK = ("--mesh", "lump", "--set", "session.1.laps=2", "--set", "cooldown.laps=[0, 0.5, 1]",
         "--set", "cooldown.pace=0.65", "--set", "cooldown.roll=[0 min, 3 min]", "--set", "cooldown.most_laps=3")
# Nothing can be passed.
EASY = tuple(word for key, value in (
    ("ring_face", "1900 degC"), ("ring_mean", "1900 degC"), ("hat", "1400 degC"), ("pad", "1400 degC"),
    ("caliper", "900 degC"), ("fastener", "1400 degC"), ("pad_print", "1400 degC"), ("face_rate", "90000 K/s"),
    ("cooling_rate", "90000 K/s"), ("shock", "10"), ("joint_stress", "10"), ("preload_left", "0"),
    ("hat_strength", "0"), ("fade", "1"), ("pedal_growth", "5"), ("hot_share", "1")) for word in ("--set", f"limits.{key}={value}")) + (
        "--set", "brakes.front.fluid.judge=dry", "--set", "brakes.rear.fluid.judge=dry", "--set", "brakes.rear.rotor.joint={kind: one_piece}")


class CooldownTest(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.folder = pathlib.Path(folder.name)

    def run_it(self, *args, session=DEMO):
        return subprocess.run([os.environ["HATRING"], "cooldown", str(session), *map(str, args)], cwd=self.folder,
                              stdin=subprocess.DEVNULL, capture_output=True, text=True, timeout=240, check=False)

    def run_json(self, *args):
        result = self.run_it("--json", "--no-report", *args)
        self.assertIn(result.returncode, (WITHIN, EXCEEDED), result.stderr)
        return json.loads(result.stdout), result.returncode

    def refused(self, *args, session=DEMO):
        result = self.run_it(*args, session=session)
        self.assertEqual(result.returncode, BAD_INPUT, result.stdout + result.stderr)
        self.assertEqual(result.stdout, "")
        self.assertEqual([p for p in self.folder.iterdir() if p.is_dir()], [])
        return result.stderr

    def test_plans_and_choice(self):
        found, code = self.run_json(*QUICK, *EASY)
        self.assertEqual(code, WITHIN)
        self.assertEqual(len(found["plans"]), (1 + 2) * 2 * 2)
        park_now = found["plans"][found["park_now"]]
        self.assertEqual((park_now["laps"], park_now["roll"], park_now["fan"]), (0, 0, False))
        self.assertEqual(found["chosen"], found["park_now"])
        self.assertTrue(all(plan["cost"] > 0 for plan in found["plans"]))
        self.assertEqual(found["hot_laps"]["driving"], {"laps": 3, "limit": None})
        self.assertTrue(all(v["time"] >= 0 for v in found["verdicts"]))

    def test_cheapest_plan_that_holds(self):
        easy, _ = self.run_json(*QUICK, *EASY)
        rest = [plan["front"]["at_rest"] - 273.15 for plan in easy["plans"]]
        limit = (max(rest) + min(rest)) / 2
        found, code = self.run_json(*QUICK, *EASY, "--set", f"limits.pad_print={limit} degC")
        self.assertEqual(code, WITHIN)
        chosen = found["plans"][found["chosen"]]
        self.assertTrue(chosen["holds"])
        self.assertFalse(found["plans"][0]["holds"])
        self.assertEqual(chosen["cost"], min(plan["cost"] for plan in found["plans"] if plan["holds"]))
        self.assertIn(chosen["name"], found["sentence"])
        self.assertIn("Parking at once would take the front ring at rest", found["sentence"])
        self.assertIn(found["chosen"], found["unbeaten"])

    def test_a_plan_that_fails_in_little_cooling_is_near_the_limit(self):
        found, code = self.run_json("--mesh", "lump", "--set", "session.1.laps=1", "--set", "limits.pad_print=390 degC")
        self.assertEqual(code, WITHIN)
        self.assertIn("holds every limit of the cool-down, but not surely", found["sentence"])
        self.assertEqual(found["level"], "near the limit")
        self.assertEqual(found["plans"][found["chosen"]]["tightest"]["level"], "within limits")

    def test_no_plan_holds(self):
        found, code = self.run_json(*QUICK, *EASY, "--set", "limits.pad_print=40 degC")
        self.assertEqual(code, EXCEEDED)
        self.assertIn("None of the plans holds every limit; the least bad is", found["sentence"])
        self.assertEqual({v["key"] for v in found["lost_by_all"]}, {"pad_print"})
        left = [plan["left"] for plan in found["plans"]]
        self.assertEqual(max(left), left[found["chosen"]])
        text = self.run_it(*QUICK, *EASY, "--set", "limits.pad_print=40 degC", "--no-report").stdout
        self.assertNotIn("[>]", text)
        self.assertNotIn("chosen", text)
        self.assertIn("[~]", text)
        self.assertIn("least bad", text)

    def test_terminal_files_and_units(self):
        result = self.run_it(*QUICK, *EASY, "--units", "us")
        self.assertEqual(result.returncode, WITHIN, result.stderr)
        self.assertRegex(result.stdout, r"\d F\b")
        self.assertLessEqual(max(map(len, result.stdout.splitlines()[:-1])), 80)
        self.assertIn("This is an estimate", result.stdout)
        self.assertNotIn(" safe ", result.stdout)
        out = self.folder / "demo-cooldown"
        xml.dom.minidom.parse(str(out / "cooldown.svg"))
        if (out / "report.html").exists():
            page = (out / "report.html").read_text()
            run = json.loads(re.search(r'<script type="application/json" id="run">(.*?)</script', page, re.S)[1])
            self.assertEqual(run["kind"], "cooldown")
            self.assertEqual(len(run["series"]["time"]), len(run["series"]["front"]["temperature"]["fluid"]))

    def test_quiet_and_repeatable(self):
        texts = []
        for _ in range(2):
            result = self.run_it(*QUICK, "--quiet", "--no-report")
            self.assertEqual(result.stdout, "")
            self.assertFalse((self.folder / "demo-cooldown" / "report.html").exists())
            texts.append((self.folder / "demo-cooldown" / "cooldown.svg").read_text())
        self.assertEqual(*texts)

    def test_without_hot_laps(self):
        message = self.refused("--set", "session=[{hold: 20 s, speed: 90 km/h, heat: 20 kW}, {park: 60 s}]")
        self.assertIn("no hot laps", message)
        self.assertIn("laps: 8", message)

    def test_hot_laps_without_a_trace(self):
        message = self.refused("--set", "session=[{laps: 2}, {park: 20 min}]")
        self.assertIn("trace", message)

    def test_bad_plans(self):
        for value, told in (("cooldown.laps=[0, 0.3]", "multiple of 0.5"), ("cooldown.laps=[]", "expected 1 to 20"),
                            ("cooldown.roll=[3]", "unit"), ("cooldown.pace=2", "1"), ("cooldown.lap=1", "laps"),
                            ("cooldown.soak=5 min", "30 min")):
            self.assertIn(told, self.refused("--set", value), value)

    def test_no_cooldown_trace_takes_that_of_the_hot_laps(self):
        found, _ = self.run_json(*QUICK, "--set",
                                 f"session=[{{laps: 2, trace: {ROOT / 'configs' / 'tracks' / 'tern_hollow.yaml'}}}]")
        self.assertEqual(len(found["plans"]), (1 + 2) * 2 * 2)


if __name__ == "__main__":
    unittest.main()
