# SPDX-License-Identifier: MIT
"""`hatring trace` end to end, through the binary named by the environment variable HATRING."""
import json
import re
import shutil
import unittest

import yaml

from cli_case import CONFIGS, CliTest, RAN, WITHIN, hatring

LOG = CONFIGS / "logs" / "tern_hollow.csv"
CAR = CONFIGS / "cars" / "light_track_car.yaml"


class TraceTest(CliTest):
    def trace(self, *args):
        result = hatring("trace", *args, cwd=self.folder)
        self.assertEqual(result.returncode, WITHIN, result.stdout + result.stderr)
        self.assertEqual(result.stderr, "")
        return result.stdout

    def answer(self, *args):
        return json.loads(self.trace(*args, "--json"))

    def log(self, name="log.csv", change=lambda text: text):
        """The shipped log with something changed, in this test's folder."""
        path = self.folder / name
        path.write_text(change(LOG.read_text()))
        return path


class Text(TraceTest):
    def test_every_guess_has_its_reason_and_bad_rows_are_named(self):
        text = self.trace(LOG)
        for phrase in ("speed unit: mph", "time unit: ms", "the header says so", "median time of 2 complete laps",
                       "--unit speed=UNIT", "line 313-315: speed 0 between", "line 703: 9 cells instead of 8",
                       "line 503: its position", "line 903: the same time", "is taken off", "smooth enough",
                       "<- this one", "BRAKING", "written: tern_hollow-trace.yaml"):
            self.assertIn(phrase, re.sub(r"\n\s+", " ", text))

    def test_fits_a_terminal(self):
        for args in ((), ("--units", "us"), ("--car", CAR), ("--mass", "2500 lb", "--units", "us"), ("--whole",)):
            with self.subTest(args=args):
                text = self.trace(LOG, *args)
                self.assertEqual([line for line in text.splitlines() if len(line) > 80], [])
                self.assertNotIn("\x1b", text)

    def test_units(self):
        self.assertRegex(self.trace(LOG, "--units", "us", "--mass", "2000 lb"), r"\d mph +\d+ mph +\d+ BTU")
        self.assertRegex(self.trace(LOG, "--mass", "900 kg"), r"\d km/h +\d+ km/h +\d+ kJ")
        self.assertRegex(self.trace(LOG), r"\d kJ/kg +\d+ W/kg")

    def test_quiet(self):
        self.assertEqual(self.trace(LOG, "--quiet", "--out", "some/where/lap.yaml"), "")
        self.assertLessEqual({"lap.yaml"}, {p.name for p in (self.folder / "some" / "where").iterdir()})
        self.trace(LOG, "--quiet", "--no-report", "--out", "alone/lap.yaml")
        self.assertEqual([p.name for p in (self.folder / "alone").iterdir()], ["lap.yaml"])


class Json(TraceTest):
    def test_one_object_with_everything(self):
        answer = self.answer(LOG, "--car", CAR)
        self.assertLessEqual({"source", "rows", "columns", "guesses", "faults", "laps", "lap", "trace", "brakings",
                              "energy_of", "energy", "written"}, answer.keys())
        for guess in answer["guesses"]:
            self.assertEqual(guess.keys(), {"what", "choice", "reason", "option", "doubtful"})
            self.assertNotEqual(guess["reason"], "", guess)
        self.assertEqual([lap["complete"] for lap in answer["laps"]], [False, True, True, False])
        self.assertEqual(sorted(fault["line"] for fault in answer["faults"]), [313, 314, 315, 503, 703, 903])
        self.assertTrue(answer["trace"]["has_brake"] and answer["trace"]["has_grade"])

    def test_brakings_add_up(self):
        answer = self.answer(LOG, "--car", CAR)
        self.assertEqual(answer["energy_of"], "car")
        self.assertGreaterEqual(len(answer["brakings"]), 6)
        self.assertAlmostEqual(sum(b["energy"] for b in answer["brakings"]) / answer["energy"], 1)
        for b in answer["brakings"]:
            self.assertGreater(b["entry_speed"], b["exit_speed"])
            self.assertAlmostEqual(b["mean_power"] * b["duration"] / b["energy"], 1)
            self.assertGreater(b["peak_power"], b["mean_power"])
            mean_speed = b["length"] / b["duration"]
            self.assertTrue(b["exit_speed"] < mean_speed < b["entry_speed"])

    def test_without_a_car_the_energy_is_that_of_the_speeds(self):
        each = self.answer(LOG)
        whole = self.answer(LOG, "--mass", "1000 kg")
        self.assertEqual((each["energy_of"], whole["energy_of"]), ("kilogram", "mass"))
        self.assertAlmostEqual(whole["energy"] / each["energy"], 1000, delta=1e-6)
        kinetic = sum((b["entry_speed"] ** 2 - b["exit_speed"] ** 2) / 2 for b in each["brakings"])
        self.assertAlmostEqual(each["energy"] / kinetic, 1, delta=0.02)


class Against(TraceTest):
    def test_another_lap_of_the_log(self):
        answer = self.answer(LOG, "--against-lap", "1")
        against = answer["against"]
        times = {lap["number"]: lap["time"] for lap in answer["laps"]}
        self.assertAlmostEqual(against["lost"], times[2] - times[1], delta=0.02)
        self.assertEqual(len(against["brakings"]), len(answer["brakings"]))
        for pair, mine in zip(against["brakings"], answer["brakings"]):
            self.assertAlmostEqual(pair["this"]["distance"], mine["distance"])
            self.assertAlmostEqual(pair["this"]["slowest"], mine["slowest"])
            self.assertLess(abs(pair["this"]["distance"] - pair["other"]["distance"]), 30)
        self.assertLess(abs(sum(pair["lost"] for pair in against["brakings"]) - against["lost"]), 0.1)

    def test_a_trace_file_is_the_lap_it_was_written_from(self):
        self.trace(LOG, "--quiet", "--lap", "1", "--out", "one.yaml")
        one, two = (self.answer(LOG, *args)["against"] for args in (("--against", "one.yaml"), ("--against-lap", "1")))
        self.assertAlmostEqual(one["lost"], two["lost"], delta=0.02)
        same = self.answer(LOG, "--lap", "1", "--against", "one.yaml")["against"]
        self.assertAlmostEqual(same["lost"], 0, delta=0.02)
        text = self.trace(LOG, "--against", "one.yaml", "--units", "us")
        self.assertIn("AGAINST one.yaml", text)
        self.assertRegex(text, r"\d ft earlier")
        self.assertEqual([line for line in text.splitlines() if len(line) > 80], [])

    def test_style_of_each_braking(self):
        for b in self.answer(LOG)["brakings"]:
            self.assertLessEqual(b["slowest"], b["exit_speed"] + 1e-6)
            self.assertGreater(b["slowest_at"], b["distance"])
            mean = (b["entry_speed"] - b["exit_speed"]) / b["duration"]
            self.assertAlmostEqual(b["rounding"], 1 - mean / b["hardest"])

    def test_what_cannot_be_compared(self):
        (self.folder / "other.yaml").write_text("car: {}\n")
        for args, phrase in ((["--against", "other.yaml"], "expected a speed trace"), (["--against", "no.csv"], "no.csv"),
                             (["--against-lap", "77"], "laps here"),
                             (["--against", CONFIGS / "demo.yaml"], "expected a speed trace"),
                             (["--against-lap", "0"], "two laps of one track")):
            with self.subTest(args=args):
                self.assertIn(phrase, self.refused("trace", LOG, *args))


class Session(TraceTest):
    def test_simulate_takes_the_trace_as_it_is(self):
        shutil.copytree(CONFIGS, self.folder, dirs_exist_ok=True)
        lap = self.answer(LOG, "--car", CAR, "--out", "lap.yaml")
        (self.folder / "day.yaml").write_text("include: demo.yaml\nsession:\n  - {laps: 2, trace: lap.yaml}\n")
        result = hatring("simulate", "day.yaml", "--mesh", "lump", "--no-report", "--json", cwd=self.folder)
        self.assertIn(result.returncode, RAN, result.stderr)
        balance = json.loads(result.stdout)["balance"]
        # `balance` is that of one wheel of each axle; the demo has no hotter side.
        heat = 2 * sum(balance[axle]["friction"] for axle in ("front", "rear"))
        self.assertAlmostEqual(heat / (2 * lap["energy"]), 1, delta=0.01)

    def test_the_lap_of_the_log_has_the_heat_of_the_track_it_was_made_from(self):
        shutil.copytree(CONFIGS, self.folder, dirs_exist_ok=True)
        self.trace(LOG, "--quiet", "--out", "lap.yaml")
        heats = []
        for trace in ("lap.yaml", "tracks/tern_hollow.yaml"):
            (self.folder / "day.yaml").write_text(f"include: demo.yaml\nsession:\n  - {{laps: 2, trace: {trace}}}\n")
            result = hatring("simulate", "day.yaml", "--mesh", "lump", "--no-report", "--json", cwd=self.folder)
            balance = json.loads(result.stdout)["balance"]
            heats.append(sum(balance[axle]["friction"] for axle in ("front", "rear")))
        self.assertAlmostEqual(heats[0] / heats[1], 1, delta=0.03)

    def test_the_file_opens_with_the_guesses(self):
        self.trace(LOG, "--quiet")
        text = (self.folder / "tern_hollow-trace.yaml").read_text()
        head = text[:text.index("\ntrace:")]
        self.assertTrue(all(line.startswith("#") for line in head.splitlines()))
        self.assertIn("speed unit: mph", head)


class Overrides(TraceTest):
    def test_told_values_are_used_and_marked(self):
        answer = self.answer(LOG, "--unit", "speed=km/h", "--unit", "time=s", "--column", "brake=none", "--laps", "none",
                             "--separator", "comma", "--decimal", "point")
        told = {g["what"]: g for g in answer["guesses"]}
        self.assertEqual(told["speed unit"]["choice"], "km/h")
        for what in ("speed unit", "time unit", "brake", "laps", "separator", "decimal mark"):
            self.assertTrue(told[what]["reason"].startswith("as told"), told[what])
        self.assertIsNone(answer["lap"])
        self.assertFalse(answer["trace"]["has_brake"])

    def test_lap_and_start_line(self):
        self.assertEqual(self.answer(LOG, "--lap", "1")["lap"], 1)
        self.assertIsNone(self.answer(LOG, "--whole")["lap"])
        row = LOG.read_text().splitlines()[600].split(",")
        line = self.answer(LOG, "--start-line", f"{row[3]},{row[4]}")
        self.assertGreaterEqual(len(line["laps"]), 3)

    def test_mislabelled_speed_is_put_right_and_marked(self):
        path = self.log(change=lambda text: text.replace("Speed (MPH)", "Speed (m/s)").replace(
            "Latitude,Longitude", "a,b"))
        answer = self.answer(path)
        unit = next(g for g in answer["guesses"] if g["what"] == "speed unit")
        self.assertIn(unit["choice"], ("km/h", "mph"))
        self.assertTrue(unit["doubtful"])
        self.assertIn("the header says m/s", unit["reason"])


class Refusals(TraceTest):
    def test_bad_input_and_usage(self):
        text = self.folder / "letter.csv"
        text.write_text("dear sir\nno numbers\n")
        session = self.folder / "bad_car.yaml"
        session.write_text("cart: {}\n")
        for args, phrase in (
                (["not-there.csv"], "not-there.csv"),
                ([text], "--separator"),
                ([LOG, "--column", "speed=Pace"], "Speed (MPH)"),
                ([LOG, "--column", "velocity=Speed"], "one of time, distance, speed"),
                ([LOG, "--unit", "speed=kg"], "--unit speed=kg"),
                ([LOG, "--lap", "77"], "laps here"),
                ([LOG, "--lap", "1", "--whole"], "--whole"),
                ([LOG, "--laps", "often"], "often"),
                ([LOG, "--start-line", "here"], "latitude,longitude"),
                ([LOG, "--start-line", "10,10"], "fastest place"),
                ([LOG, "--mass", "900"], "900 kg"),
                ([LOG, "--mass", "-3 kg"], "more than 0 kg"),
                ([LOG, "--car", session], "car"),
                ([], "log")):
            with self.subTest(args=args):
                self.assertIn(phrase, self.refused("trace", *args))

    def test_an_earlier_trace_stays_when_the_log_is_refused(self):
        (self.folder / "lap.yaml").write_text("mine")
        (self.folder / "letter.csv").write_text("dear sir\n")
        self.refused("trace", "letter.csv", "--out", "lap.yaml")
        self.assertEqual((self.folder / "lap.yaml").read_text(), "mine")


if __name__ == "__main__":
    unittest.main()
