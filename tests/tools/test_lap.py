# SPDX-License-Identifier: MIT
"""`hatring lap` end to end, through the binary named by the environment variable HATRING."""
import json
import unittest

import yaml

from cli_case import BAD_INPUT, CONFIGS, CliTest, DEMO, WITHIN, hatring

TRACK = CONFIGS / "tracks" / "sedge_bank.yaml"


class Lap(CliTest):
    def lap(self, *args):
        result = hatring("lap", TRACK, DEMO, *args, cwd=self.folder)
        self.assertEqual(result.returncode, WITHIN, result.stdout + result.stderr)
        self.assertEqual(result.stderr, "")
        return result.stdout

    def lap_json(self, *args):
        return json.loads(self.lap("--json", *args))

    def test_writes_a_trace_that_simulate_takes_as_it_is(self):
        self.lap("--out", "lap.yaml", "--quiet")
        trace = yaml.safe_load((self.folder / "lap.yaml").read_text())["trace"]
        self.assertEqual({len(trace[key]["values"]) for key in ("distance", "speed", "grade")},
                         {len(trace["distance"]["values"])})
        self.assertEqual(trace["speed"]["values"][0], trace["speed"]["values"][-1])
        (self.folder / "session.yaml").write_text(
            f"include: {DEMO}\nsession:\n  - {{laps: 2, trace: lap.yaml}}\n  - {{laps: 1, trace: lap.yaml, driver_pace: 0.8}}\n")
        result = hatring("simulate", "session.yaml", "--allow-include", CONFIGS, "--mesh", "lump", "--no-report", "--json",
                         cwd=self.folder)
        self.assertIn(result.returncode, (0, 1), result.stderr)
        self.assertGreater(json.loads(result.stdout)["balance"]["front"]["friction"], 1e5)

    def test_says_time_speeds_brakings_and_what_was_written(self):
        text = self.lap()
        for phrase in ("Sedge Bank", "top speed", "km/h", "slowest in the corners", "kJ", "kW", "car.braking_share", "estimate",
                       "written: sedge_bank-trace.yaml"):
            self.assertIn(phrase, text)
        self.assertTrue((self.folder / "sedge_bank-trace.yaml").exists())
        us = self.lap("--units", "us")
        self.assertIn("mph", us)
        self.assertNotIn("km/h", us)
        self.assertEqual(self.lap("--quiet"), "")

    def test_json_adds_up(self):
        lap = self.lap_json()
        self.assertAlmostEqual(lap["braking_energy"], sum(b["energy"] for b in lap["brakings"]), places=3)
        self.assertGreaterEqual(len(lap["corners"]), 5)
        for braking in lap["brakings"]:
            self.assertGreater(braking["entry_speed"], braking["exit_speed"])
        self.assertLess(max(b["entry_speed"] for b in lap["brakings"]), lap["top_speed"] + 0.1)

    def test_less_pace_or_grip_is_a_slower_lap_with_less_heat(self):
        full, slow, wet = (self.lap_json(*args) for args in ((), ("--pace", "0.8"), ("--wet",)))
        for other in (slow, wet):
            self.assertGreater(other["time"], full["time"] + 1)
            self.assertLess(other["braking_energy"], full["braking_energy"])
        self.assertEqual(self.lap_json("--grip", "0.65")["time"], wet["time"])

    def test_set_reaches_track_and_car(self):
        full = self.lap_json()
        self.assertGreater(self.lap_json("--set", "track.segments.0.straight=500 m")["length"], full["length"] + 200)
        self.assertLess(self.lap_json("--set", "car.power=200 kW")["time"], full["time"])

    def test_same_input_same_file(self):
        self.lap("--out", "one.yaml", "--quiet")
        self.lap("--out", "two.yaml", "--quiet")
        self.assertEqual((self.folder / "one.yaml").read_bytes(), (self.folder / "two.yaml").read_bytes())

    def test_bad_input_leaves_nothing_behind(self):
        self.assertIn("not-there.yaml", self.refused("lap", "not-there.yaml", DEMO))
        self.assertIn("car.power", self.refused("lap", TRACK, DEMO, "--set", "car.power="))
        self.assertIn("track", self.refused("lap", DEMO, DEMO))
        for args in (("--pace", "0"), ("--pace", "1.2"), ("--wet", "--grip", "0.8")):
            self.refused("lap", TRACK, DEMO, *args)

    def test_the_input_is_not_overwritten(self):
        (self.folder / "track.yaml").write_text(TRACK.read_text())
        result = hatring("lap", "track.yaml", DEMO, "--out", "track.yaml", cwd=self.folder)
        self.assertEqual(result.returncode, BAD_INPUT)
        self.assertIn("overwrite", result.stderr)
        self.assertEqual((self.folder / "track.yaml").read_text(), TRACK.read_text())

    def test_files_the_wrong_way_round_get_the_right_command(self):
        text = self.refused("lap", DEMO, TRACK)
        self.assertIn("a session where the track is expected", text)
        self.assertIn(f"hatring lap {TRACK} {DEMO}", text)
        trace = CONFIGS / "tracks" / "tern_hollow.yaml"
        self.assertIn("found a speed trace, expected a track", self.refused("lap", trace, DEMO))

    def test_a_hill_climb_begins_at_rest(self):
        (self.folder / "hill.yaml").write_text("track:\n  closed: off\n  segments:\n    - {straight: 200 m, grade: 6 %}\n"
                                               "    - {corner: left, radius: 15 m, angle: 150 deg}\n    - {straight: 300 m}\n")
        result = hatring("lap", "hill.yaml", DEMO, "--json", "--out", "up.yaml", cwd=self.folder)
        self.assertEqual(result.returncode, WITHIN, result.stderr)
        self.assertEqual(len(json.loads(result.stdout)["brakings"]), 1)
        self.assertEqual(len(json.loads(result.stdout)["corners"]), 1)
        self.assertEqual(yaml.safe_load((self.folder / "up.yaml").read_text())["trace"]["speed"]["values"][0], 0)
        (self.folder / "open.yaml").write_text((self.folder / "hill.yaml").read_text().replace("closed: off", "name: x"))
        self.assertIn("closed: off", self.refused("lap", "open.yaml", DEMO))


if __name__ == "__main__":
    unittest.main()
