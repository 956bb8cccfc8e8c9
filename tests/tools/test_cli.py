# SPDX-License-Identifier: MIT
"""End to end through the binary named by the environment variable HATRING.

test_cli.py            runs everything
test_cli.py Class.name runs one test
test_cli.py --list     prints the names, one a line (CMake makes a ctest of each)
"""
import json
import re
import shutil
import subprocess
import sys
import unittest

from cli_case import (CONFIGS, DEMO, EXCEEDED, FAILURE, HERE, JSON_KEYS, QUICK, RAN, WITHIN, CliTest, datasets,
                      hatring, runnable_configs, shown_on_terminal)


class Demo(CliTest):
    """The demo as it ships."""

    def test_result_file_is_as_documented(self):
        self.run_well(DEMO, "--out", "out", "--no-report")
        self.assertEqual([p.name for p in (self.folder / "out").iterdir()], ["result.h5"])
        check = subprocess.run([sys.executable, HERE / "check_result.py", self.folder / "out" / "result.h5"],
                               capture_output=True, text=True, check=False)
        self.assertEqual(check.returncode, 0, check.stdout + check.stderr)

    def test_writes_report_and_result_beside_the_caller(self):
        self.run_well(DEMO)
        folder = self.folder / "demo-result"
        self.assertEqual(sorted(p.name for p in folder.iterdir()), ["report.html", "result.h5"])
        page = (folder / "report.html").read_text()
        self.assertIn("</html>", page)
        self.assertNotRegex(page, r"""(?:src|href)=["']?(?:https?:)?//""")
        run = json.loads(re.search(r'<script[^>]*id="?run"?[^>]*>(.*?)</script>', page, re.S)[1])
        self.assertEqual(run["geometry"]["front"]["ring"]["outer_diameter"], 0.306)
        self.assertEqual(run["geometry"]["rear"]["joint"]["kind"], "rigid")
        peak = run["peaks"]["front"]["ring_mean"]
        self.assertTrue(peak["value_low"] < peak["value"] < peak["value_high"])
        for verdict in run["verdicts"]:
            if "used" not in verdict:
                continue
            self.assertEqual(verdict["used"] > 1, verdict["margin"] < 0, verdict)
            self.assertGreaterEqual(verdict["used"], verdict.get("used_low", verdict["used"]) - 1e-9)
            self.assertLessEqual(verdict["used"], verdict.get("used_high", verdict["used"]) + 1e-9)

    def test_json_answers(self):
        answers = self.run_json(DEMO, "--no-report")
        self.assertLessEqual(JSON_KEYS, answers.keys())
        for verdict in answers["verdicts"]:
            self.assertLessEqual({"part", "what", "level", "value", "limit", "margin", "unit", "time", "lap", "distance"},
                                 verdict.keys())
            self.assertNotIn("safe", json.dumps(verdict).lower().replace("safety", ""))
        for axle in ("front", "rear"):
            ring = answers["peaks"][axle]["ring_mean"]
            self.assertLessEqual({"value", "time", "lap"}, ring.keys())
            self.assertTrue(350 < ring["value"] < 1300, ring)  # [K]: brakes on a track get warm and do not melt
            balance = answers["balance"][axle]
            left = balance["friction"] - sum(balance[k] for k in
                                             ("stored", "convection", "radiation", "to_wheel", "residual"))
            self.assertLess(abs(left), 1e-6 * balance["friction"])
            self.assertLess(abs(balance["residual"]), 1e-3 * balance["friction"])

    def test_exit_code_says_whether_a_limit_is_exceeded(self):
        result = self.run_well(DEMO, "--json", "--no-report")
        levels = {verdict["level"] for verdict in json.loads(result.stdout)["verdicts"]}
        self.assertEqual(result.returncode == EXCEEDED, "over the limit" in levels)


class Output(CliTest):
    def test_no_escape_codes_in_a_pipe(self):
        result = self.run_well(DEMO, *QUICK)
        self.assertNotIn("\x1b", result.stdout + result.stderr)
        self.assertNotIn("\r", result.stdout + result.stderr)

    def test_no_colour_on_a_terminal_when_asked(self):
        code, shown = shown_on_terminal("simulate", DEMO, *QUICK, cwd=self.folder, NO_COLOR="1")
        self.assertIn(code, RAN)
        self.assertNotEqual(shown, b"")
        self.assertNotRegex(shown, rb"\x1b\[[0-9;]*m")

    def test_json_is_alone_on_stdout(self):
        result = self.run_well(DEMO, *QUICK, "--json")
        self.assertIsInstance(json.loads(result.stdout), dict)
        self.assertNotIn("NaN", result.stdout)

    def test_quiet(self):
        self.assertEqual(self.run_well(DEMO, *QUICK, "--quiet").stdout, "")

    def test_units_on_the_terminal(self):
        si = self.run_well(DEMO, *QUICK).stdout
        us = self.run_well(DEMO, *QUICK, "--units", "us").stdout
        self.assertRegex(si, r"\d °?C\b")
        self.assertNotRegex(si, r"\d °?F\b")
        self.assertRegex(us, r"\d °?F\b")
        self.assertNotRegex(us, r"\d °?C\b")

    def test_json_is_si_whatever_the_units(self):
        runs = [self.run_json(DEMO, *QUICK, "--units", units) for units in ("si", "us")]
        self.assertEqual(runs[0]["peaks"], runs[1]["peaks"])

    def test_summary_carries_the_caution(self):
        self.assertIn("estimate", self.run_well(DEMO, *QUICK).stdout)

    def test_the_answer_fits_one_screen_and_all_is_at_hand(self):
        for units in ("si", "us"):
            short, whole = (self.run_well(DEMO, "--mesh", "lump", "--no-report", "--units", units, *more).stdout
                            for more in ((), ("--all",)))
            lines = short.splitlines()
            self.assertLessEqual(len(lines), 50)
            self.assertLessEqual(max(map(len, lines[:-1])), 80)  # the last names the files
            self.assertLessEqual(max(map(len, whole.splitlines()[:-1])), 80)
            left_out = re.search(r"Left out: (?:(\d+) more rows near their limit, )?(\d+) within limits", short)
            rows = [len(re.findall(r"^\[.\] ", text, re.MULTILINE)) for text in (short, whole)]
            self.assertEqual(rows[0] + sum(int(n or 0) for n in left_out.groups()), rows[1])
            self.assertIn("--all", short)
            self.assertNotIn("Left out", whole)
            for phrase in ("joint: ring minus hat", "heat, one wheel", "pedal, highest"):
                self.assertIn(phrase, whole)

    def test_a_puddle_is_told_without_asking(self):
        text = self.run_well(DEMO, *QUICK, "--set", "wet_patches=[{from: 0 m, to: 50 m}]").stdout
        self.assertIn("caution, front face at a wet patch", text)

    def test_the_strip_of_a_lap_ends_short_of_its_limit_or_passes_it(self):
        text = self.run_well(DEMO, "--mesh", "lump", "--no-report", "--set", "limits.ring_mean=550 degC").stdout
        strips = re.findall(r"^(?:out|lap) .{6,10} +\d+-(\d+) *\[(.{12})\]", text, re.MULTILINE)
        self.assertEqual(len(strips), 9)
        for highest, strip in strips:
            self.assertEqual("#" in strip, int(highest) > 550, text)
            self.assertEqual(":" in strip, int(highest) <= 550, text)


class Repeat(CliTest):
    def test_same_config_same_datasets(self):
        for out in ("one", "two"):
            self.run_well(DEMO, "--mesh", "coarse", "--no-report", "--out", out)
        self.assert_same_datasets(self.folder / "one" / "result.h5", self.folder / "two" / "result.h5")

    def test_a_result_holds_all_that_repeats_it(self):
        self.run_well(DEMO, *QUICK, "--out", "one")
        text = datasets(self.folder / "one" / "result.h5")["config"]
        (self.folder / "again.yaml").write_bytes(text)
        self.run_well("again.yaml", "--no-report", "--out", "two")
        self.assert_same_datasets(self.folder / "one" / "result.h5", self.folder / "two" / "result.h5", without=["config"])

    def test_created_honours_source_date_epoch(self):
        import h5py
        self.run_well(DEMO, *QUICK, "--out", "out", SOURCE_DATE_EPOCH="86400")
        with h5py.File(self.folder / "out" / "result.h5") as file:
            created = file.attrs["created"]
        self.assertTrue(str(created if isinstance(created, str) else created.decode()).startswith("1970-01-02"), created)

    def test_an_earlier_result_is_replaced(self):
        self.run_well(DEMO, *QUICK, "--out", "out")
        self.run_well(DEMO, *QUICK, "--out", "out", "--set", "air.temperature=40 degC")
        self.assertIn(b"40 degC", datasets(self.folder / "out" / "result.h5")["config"])
        self.assertEqual([p.name for p in (self.folder / "out").iterdir()], ["result.h5"])


class Options(CliTest):
    def test_set_changes_the_run(self):
        cold, hot = (self.run_json(DEMO, *QUICK, "--set", f"air.temperature={t} degC") for t in (0, 40))
        self.assertGreater(hot["peaks"]["front"]["ring_mean"]["value"], cold["peaks"]["front"]["ring_mean"]["value"] + 5)

    def test_a_lowered_limit_is_exceeded(self):
        result = self.run_well(DEMO, *QUICK, "--set", "limits.ring_face=60 degC")
        self.assertEqual(result.returncode, EXCEEDED, result.stdout)

    def test_a_parked_car_is_within_its_limits(self):
        session = self.folder / "parked.yaml"
        shutil.copytree(CONFIGS, self.folder, dirs_exist_ok=True)
        session.write_text("include: demo.yaml\nsession:\n  - {park: 2 min}\n")
        result = self.run_well(session, "--mesh", "lump", "--no-report")
        self.assertEqual(result.returncode, WITHIN, result.stdout)

    def test_meshes(self):
        for mesh in ("lump", "coarse", "standard"):
            with self.subTest(mesh=mesh):
                self.run_well(DEMO, "--no-report", "--mesh", mesh, *QUICK[3:])


class Usage(CliTest):
    def test_an_unknown_command_gets_the_list_and_the_nearest(self):
        for args, phrases in (([], ("expected a command", "simulate, compare", "trace, lap")),
                              (["frobnicate"], ("no command `frobnicate`", "simulate, compare", "trace, lap")),
                              (["simulte", DEMO], ("did you mean `simulate`?",))):
            text = self.refused(*args)
            for phrase in phrases:
                self.assertIn(phrase, text)

    def test_help(self):
        for args in (["--help"], ["simulate", "--help"]):
            with self.subTest(args=args):
                result = hatring(*args)
                self.assertEqual(result.returncode, 0, result.stderr)
                self.assertIn("hatring", result.stdout)

    def test_help_carries_the_cautions(self):
        text = hatring("--help").stdout
        for word in ("estimate", "inspect", "qualified"):
            self.assertIn(word, text.lower())

    def test_version(self):
        self.assertRegex(hatring("--version").stdout, r"\d+\.\d+\.\d+")

    def test_usage_errors(self):
        for args in (["simulate", DEMO, "--no-such-option"], ["no-such-command"], [], ["simulate"],
                     ["simulate", DEMO, "--mesh", "huge"], ["simulate", DEMO, "--units", "imperial"]):
            with self.subTest(args=args):
                self.refused(*args)

    def test_a_folder_that_cannot_be_written_is_named(self):
        (self.folder / "taken").write_text("a file")
        for out in ("taken", "taken/below", "/proc/below"):
            for command in (["simulate", DEMO], ["compare", DEMO, CONFIGS / "variants" / "hat_steel.yaml"],
                            ["cooldown", DEMO], ["explain", DEMO],
                            ["sweep", DEMO, "--vary", "car.mass=900 kg, 1000 kg"]):
                with self.subTest(out=out, command=command[0]):
                    text = self.refused(*command, "--mesh", "lump", "--out", out, code=FAILURE)
                    self.assertIn(f"{out}: cannot be written", text)
                    self.assertIn("name another with --out", text)
        text = self.refused("trace", CONFIGS / "logs" / "tern_hollow.csv", "--out", "taken/lap.yaml", code=FAILURE)
        self.assertIn("taken: cannot be written", text)

    def test_each_command_has_a_folder_of_its_own(self):
        for command in ("simulate", "compare", "cooldown", "explain"):
            text = hatring(command, "--help").stdout
            self.assertIn(f"./STEM-{'result' if command == 'simulate' else command}", text)

    def test_a_missing_file_is_named(self):
        self.assertIn("not-there.yaml", self.refused("simulate", "not-there.yaml"))

    def test_set_errors_name_the_option(self):
        for assignment, phrase in (("car.masss=1 kg", "mass"), ("car.mass=heavy", "car.mass"), ("car.mass", "key.path=value")):
            with self.subTest(assignment=assignment):
                text = self.refused("simulate", DEMO, "--set", assignment)
                self.assertIn("--set", text)
                self.assertIn(phrase, text)


# Name: lines below `include: demo.yaml`, where the complaint points, and what it must say.
BAD_CONFIGS = {
    "unknown key": ("car: {masss: 1140 kg}", "2:7", "did you mean `mass`?"),
    "bare number": ("car: {mass: 1140}", "2:13", "`1140 kg`"),
    "wrong kind of unit": ("car:\n  mass: 3 m", "3:9", "car.mass"),
    "out of range": ("brakes:\n  front_share: 1.5", "3:16", "brakes.front_share"),
    "unknown word": ("brakes: {front: {fluid: {kind: dot6}}}", "2:32", "dot3"),
    "unknown material": ("brakes: {front: {rotor: {ring: {material: cheese}}}}", "2:43", "cheese"),
    "no trace": ("session:\n  - {laps: 3, trace: tracks/no_such_track.yaml}", "3:22", "no_such_track.yaml"),
    "not YAML": ("car: {mass: [", "3:1", "error:"),
    "wet patch off the lap": ("wet_patches: [{from: 20 km, to: 20010 m}]", "2:33", "no more than the 29"),
    "wet patch that is rain": ("wet_patches: [{from: 100 m, to: 900 m}]", "2:33", "`grip: wet`"),
    "ring inside out": ("brakes: {front: {rotor: {ring: {inner_diameter: 320 mm}}}}", "2:49", "inside out"),
}


class BadConfig(CliTest):
    def complaint(self, text):
        shutil.copytree(CONFIGS, self.folder, dirs_exist_ok=True)
        (self.folder / "bad.yaml").write_text("include: demo.yaml\n" + text + "\n")
        return self.refused("simulate", "bad.yaml")

    def test_all_errors_at_once(self):
        text = self.complaint("car: {mass: 3 m, cg_height: 2 kg}\nair: {wind: windy}")
        for place in ("bad.yaml:2:13: error: car.mass", "bad.yaml:2:29: error: car.cg_height", "bad.yaml:3:13: error: air.wind"):
            self.assertIn(place, text)

    def test_excerpt_and_caret(self):
        lines = self.complaint("car: {mass: 1140}").splitlines()
        excerpt = next(i for i, line in enumerate(lines) if line.endswith("car: {mass: 1140}"))
        self.assertEqual(lines[excerpt + 1].rindex("^"), lines[excerpt].rindex("1140"))

    def test_a_bare_list_in_a_trace(self):
        self.assertIn("km/h", self.complaint("session:\n  - {laps: 1, trace: {time: {unit: s, values: [0, 1, 2]}, speed: [10, 20, 10]}}"))


def add_bad_config(name, text, place, phrase):
    def test(self):
        complaint = self.complaint(text)
        self.assertRegex(complaint, rf"(?m)^bad\.yaml:{place}: error: ")
        self.assertIn(phrase, complaint)

    setattr(BadConfig, "test_" + name.replace(" ", "_"), test)


class ShippedConfig(CliTest):
    """Every file under configs/ with a session runs and gives all results."""

    def test_the_demo_is_among_them(self):
        self.assertIn(DEMO, runnable_configs())


def add_shipped_config(path):
    def test(self):
        answers = self.run_json(path, "--no-report", "--out", "out")
        self.assertLessEqual(JSON_KEYS, answers.keys())
        self.assertNotEqual(answers["verdicts"], [])
        self.assertGreater(len(datasets(self.folder / "out" / "result.h5")), 20)

    setattr(ShippedConfig, "test_" + re.sub(r"\W", "_", path.relative_to(CONFIGS).with_suffix("").as_posix()), test)


for bad_name, bad_entry in BAD_CONFIGS.items():
    add_bad_config(bad_name, *bad_entry)
for shipped in runnable_configs():
    add_shipped_config(shipped)


if __name__ == "__main__":
    if sys.argv[1:] == ["--list"]:
        for suite in unittest.defaultTestLoader.loadTestsFromModule(sys.modules["__main__"]):
            for case in suite:
                print(case.id().removeprefix("__main__."))
    else:
        unittest.main()
