# SPDX-License-Identifier: MIT
"""hatring sweep, end to end through the binary named by the environment variable HATRING.

test_sweep.py            runs everything
test_sweep.py Class.name runs one test
"""
import json
import os
import pty
import signal
import subprocess
import time
import unittest

import h5py
import numpy

import schema_check
from cli_case import BAD_INPUT, CONFIGS, DEMO, EXCEEDED, RAN, WITHIN, CliTest, datasets, hatring

LUMP = ("--mesh", "lump", "--set", "session.1.laps=1", "--set", "session.3.park=1 min")
DUCT = ("--vary", "brakes.front.cooling.duct_area=0 cm2, 30 cm2, 60 cm2")
HAT = ("--vary", f"variant=none, {CONFIGS / 'variants' / 'hat_steel.yaml'}")
MASS = ("--vary", "car.mass=uniform(850 kg, 1000 kg)")
STAMP = {"SOURCE_DATE_EPOCH": "0"}
INTERRUPTED = 130
HEAD = 1024  # bytes of the table of runs before its records (tests/faults/test_kills.py reads it too)


class SweepTest(CliTest):
    def swept(self, *args, out="a", codes=RAN):
        result = hatring("sweep", *args, "--out", self.folder / out, "--json", cwd=self.folder, **STAMP)
        self.assertIn(result.returncode, codes, result.stdout + result.stderr)
        return json.loads(result.stdout)

    def fault(self, *args, **env):
        result = hatring("sweep", *args, cwd=self.folder, **env)
        self.assertEqual(result.returncode, BAD_INPUT, result.stdout + result.stderr)
        self.assertEqual(result.stdout, "")
        return result.stderr

    def bytes(self, name):
        return (self.folder / name).read_bytes()


class Result(SweepTest):
    def test_a_run_is_what_simulate_says_of_the_same_values(self):
        answers = self.swept(DEMO, *LUMP, *DUCT, *HAT)
        self.assertEqual((answers["runs"], answers["done"], answers["failed"], answers["fresh"]), (6, 6, 0, 6))
        with h5py.File(self.folder / "a" / "sweep.h5") as file:
            self.assertEqual(list(file["run"][()]), [1, 2, 3, 4, 5, 6])
            self.assertEqual([text.decode() for text in file["parameter/variant"]], ["none", "hat_steel"] * 3)
            numpy.testing.assert_allclose(file["parameter/brakes.front.cooling.duct_area"],
                                          [0, 0, 0.003, 0.003, 0.006, 0.006], atol=1e-12)
            self.assertEqual(file["label/brakes.front.cooling.duct_area"][4].decode(), "60 cm2")
            face, hat = file["measure/front/face"][()], file["measure/rear/hat"][()]
            self.assertEqual(file["measure/front/face"].attrs["units"], "K")
            self.assertEqual(file["status"].attrs["flag_meanings"], "not_run done failed")
            self.assertEqual(file["measure/front/face"].dims[0][0].name, "/run")
            levels = {name: file[f"limit/{name}"][()] for name in ("front/ring_face", "rear/hat")}
        alone = self.run_json(DEMO, *LUMP, "--no-band", "--no-report", "--set", "brakes.front.cooling.duct_area=60 cm2")
        peaks = alone["peaks"]
        # Runs of a sweep are solved side by side: the same within the solver's tolerance.
        self.assertAlmostEqual(face[4], max(peaks["front"][f"ring_face_{side}"]["value"] for side in ("outboard", "inboard")),
                               delta=0.1)
        self.assertAlmostEqual(hat[4], peaks["rear"]["hat_flange"]["value"], delta=0.1)
        words = ["within limits", "near the limit", "over the limit", "not judged"]
        for verdict in alone["verdicts"]:
            name = f"{verdict['axle']}/{verdict['key']}"
            if name in levels:
                self.assertEqual(words[levels[name][4]], verdict["level"])

    def test_summary_is_that_of_the_columns(self):
        answers = self.swept(DEMO, *LUMP, *MASS, "--runs", "20", "--sort", "front.face")
        with h5py.File(self.folder / "a" / "sweep.h5") as file:
            face, mass = file["measure/front/face"][()], file["parameter/car.mass"][()]
            levels = file["measure/verdict"][()]
        row = next(m for m in answers["measures"] if (m["key"], m["axle"]) == ("face", "front"))
        self.assertEqual((row["lowest"], row["highest"]), (face.min(), face.max()))
        self.assertAlmostEqual(row["median"], numpy.median(face), places=9)
        self.assertAlmostEqual(row["most"], numpy.quantile(face, 0.95), places=9)
        self.assertEqual(answers["sorted_by"], "front.face")
        best = answers["best"][0]
        self.assertEqual(best["run"], int(face.argmin()) + 1)
        self.assertEqual(best["settings"]["car.mass"], mass[face.argmin()])
        schema_check.check(self, answers, json.loads((CONFIGS.parent / "docs" / "sweep.schema.json").read_text()))
        # A Latin hypercube: one mass in each twentieth.
        self.assertEqual(sorted(numpy.floor((mass - 850) / 7.5)), list(range(20)))
        self.assertEqual(answers["levels"]["over"], int((levels == 2).sum()))

    def test_the_terminal_says_how_many_and_which_is_best(self):
        result = hatring("sweep", DEMO, *LUMP, *DUCT, "--out", "a", cwd=self.folder)
        self.assertIn(result.returncode, RAN)
        for words in ("3 runs", "within limits", "95 %", "Best by", "duct_area 60 cm2", "can be wrong"):
            self.assertIn(words, result.stdout)
        self.assertNotIn("safe ", result.stdout.lower().replace("safety", ""))
        self.assertEqual(result.stderr, "")
        result = hatring("sweep", DEMO, *LUMP, *DUCT, "--out", "b", "--set", "limits.hat=40 degC", cwd=self.folder)
        self.assertIn("No run keeps all its limits. Least bad by", result.stdout)
        self.assertNotIn("Best", result.stdout)

    def test_a_terminal_sees_how_far_it_is(self):
        main, terminal = pty.openpty()
        process = subprocess.Popen([os.environ["HATRING"], "sweep", str(DEMO), *LUMP, *MASS, "--runs", "40", "--json"],
                                   cwd=self.folder, stdout=subprocess.PIPE, stderr=terminal)
        os.close(terminal)
        process.communicate(timeout=200)
        shown = os.read(main, 65536).decode()
        os.close(main)
        self.assertIn("40 of 40 runs", shown)

    def test_exit_code_tells_whether_any_run_is_within_limits(self):
        self.swept(DEMO, *LUMP, *DUCT, "--set", "limits.ring_face=60 degC", out="hot", codes=(EXCEEDED,))
        self.swept(DEMO, *LUMP, *DUCT, out="mild", codes=(WITHIN,))

    def test_every_shipped_plan_runs_and_every_verdict_has_a_column(self):
        plans = sorted((CONFIGS / "sweeps").glob("*.yaml"))
        self.assertTrue(plans)
        for path in plans:
            answers = self.swept(DEMO, path, *LUMP, out=path.stem)
            self.assertEqual(answers["failed"], 0, answers["failures"])
        for name in ("demo_hydraulic", "duties/bedding", "days/push_cool_push"):
            answers = self.swept(CONFIGS / f"{name}.yaml", "--mesh", "lump", "--vary", "air.temperature=10 degC, 30 degC",
                                 out="x/" + name)
            self.assertEqual(answers["failed"], 0, answers["failures"])

    def test_a_run_that_cannot_be_done_is_kept_with_its_reason(self):
        sweep = (DEMO, *LUMP, "--vary", "brakes.front.pads.area=52 cm2, 80 cm2",
                 "--vary", "brakes.front.rotor.ring.swept_inner_diameter=210 mm, 290 mm")
        answers = self.swept(*sweep)
        self.assertEqual((answers["done"], answers["failed"]), (3, 1))
        self.assertIn("swept", answers["failures"][0]["reason"])
        with h5py.File(self.folder / "a" / "sweep.h5") as file:
            self.assertEqual(list(file["status"][()]), [1, 1, 1, 2])
            self.assertIn("brakes.front.pads.area: found", file["reason"][3].decode())
            self.assertTrue(numpy.isnan(file["measure/front/face"][3]))
            self.assertEqual(file["limit/front/hat"][3], 4)
        self.assertEqual(self.swept(*sweep)["fresh"], 0)

    def test_when_none_can_be_done_the_reason_is_told(self):
        stands = "{time: {unit: s, values: [0, 10, 15, 30]}, speed: {unit: km/h, values: [90, 0, 0, 90]}}"
        result = hatring("sweep", DEMO, "--set", f"session=[{{laps: 1, trace: {stands}}}]",
                         "--vary", "session.0.driver_pace=0.8, 0.9", "--out", "a", cwd=self.folder)
        self.assertEqual(result.returncode, BAD_INPUT, result.stdout + result.stderr)
        self.assertIn("none of the runs could be done: ", result.stderr)


class Same(SweepTest):
    """The same runs give the same file, byte for byte, however they are made."""
    SWEEP = (DEMO, *LUMP, *HAT, *MASS, "--runs", "30")

    def test_one_job_or_two(self):
        self.swept(*self.SWEEP, "--jobs", "1", out="one")
        self.swept(*self.SWEEP, "--jobs", "2", out="two")
        self.assertEqual(self.bytes("one/sweep.h5"), self.bytes("two/sweep.h5"))

    def test_shards_put_together(self):
        self.swept(*self.SWEEP, out="one")
        for i in (3, 1, 2):
            self.swept(*self.SWEEP, "--shard", f"{i}/3", out="shards" if i < 3 else "other")
        answers = self.swept("--merge", "other", "shards", out="merged")
        self.assertEqual((answers["runs"], answers["done"], answers["fresh"]), (30, 30, 0))
        self.assertEqual(self.bytes("merged/sweep.h5"), self.bytes("one/sweep.h5"))
        whole, merged = datasets(self.folder / "one/sweep.h5"), datasets(self.folder / "merged/sweep.h5")
        self.assertEqual(whole.keys(), merged.keys())
        os.remove(self.folder / "other/sweep-3-of-3.runs")
        self.assertIn("given twice", self.fault("--merge", "other", "shards", "other"))
        self.assertIn("shard 3 of 3 is missing", self.fault("--merge", "shards"))
        self.assertIn("holds no file of a shard", self.fault("--merge", "merged"))
        self.assertIn("expected the result file of a sweep", self.fault("--merge", "shards/sweep-1-of-3.runs"))
        self.swept(*self.SWEEP, "--seed", "2", "--shard", "3/3", out="foreign")
        self.assertIn("the design differs", self.fault("--merge", "shards", "foreign"))

    def test_a_damaged_record_is_done_again(self):
        self.swept(*self.SWEEP, out="one")
        whole = self.bytes("one/sweep.h5")
        table = self.folder / "one/sweep.runs"
        data = bytearray(table.read_bytes())
        data[HEAD + 100] ^= 1
        table.write_bytes(data[:-10])  # the first one changed, the last one cut short
        self.assertEqual(self.swept(*self.SWEEP, out="one")["fresh"], 2)
        self.assertEqual(self.bytes("one/sweep.h5"), whole)

    def test_control_c_ends_politely_and_the_same_command_goes_on(self):
        sweep = (*self.SWEEP[:-1], "400")
        process = subprocess.Popen([os.environ["HATRING"], "sweep", *map(str, sweep), "--out", "a"], cwd=self.folder,
                                   env={**os.environ, **STAMP}, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
        table = self.folder / "a" / "sweep.runs"
        while not table.exists() or table.stat().st_size < 5000:
            time.sleep(0.01)
        process.send_signal(signal.SIGINT)
        out, err = process.communicate(timeout=200)
        self.assertEqual(process.returncode, INTERRUPTED, out + err)
        self.assertIn("goes on from here", err)
        with h5py.File(self.folder / "a" / "sweep.h5") as file:
            done = int((file["status"][()] == 1).sum())
        self.assertTrue(0 < done < 400)
        self.assertEqual(self.swept(*sweep)["fresh"], 400 - done)


class BadInput(SweepTest):
    def test_a_folder_keeps_to_one_sweep(self):
        self.swept(DEMO, *LUMP, *DUCT)
        for extra, word in (("--set", "car.mass=800 kg"), "config"), (("--vary", "air.temperature=5 degC"), "design"), \
                (("--shard", "1/1", "--vary", "car.mass=1 t"), "design"):
            message = self.fault(DEMO, *LUMP, *DUCT, *extra, "--out", "a")
            self.assertIn("another sweep", message)
            self.assertIn(word, message)
            self.assertIn("--out", message)

    def test_two_processes_do_not_share_a_folder(self):
        sweep = (DEMO, *LUMP, *MASS, "--runs", "4000", "--out", "a")
        first = subprocess.Popen([os.environ["HATRING"], "sweep", *map(str, sweep)], cwd=self.folder)
        try:
            while not (self.folder / "a" / "sweep.runs").exists() or \
                    (self.folder / "a" / "sweep.runs").stat().st_size < 5000:
                time.sleep(0.01)
            self.assertIn("another process", self.fault(*sweep))
        finally:
            first.kill()
            first.wait()

    def test_what_cannot_be_swept(self):
        for args, word in [
                ((DEMO,), "nothing is varied"),
                ((DEMO, "--vary", "car.mas=900 kg"), "did you mean `mass`"),
                ((DEMO, "--vary", "car.mass=uniform(900, 1000)"), "did you mean `900 kg`"),
                ((DEMO, *DUCT, "--runs", "7", "--design", "factorial"), "leave the number of runs out"),
                ((DEMO, *MASS, "--design", "factorial"), "values or a range"),
                ((DEMO, *MASS, "--vary", "car.drag_area, car.mass=1, 2"), "varied by `car.mass` already"),
                ((DEMO, *MASS, "--design", "random"), "--design"),
                ((DEMO, *DUCT, "--shard", "4/3"), "i from 1 to n"),
                ((DEMO, *DUCT, "--shard", "4/9"), "none of the 3 runs"),
                ((DEMO, *DUCT, "--sort", "speed"), "unknown key"),
                ((DEMO, "--merge", "a"), "--merge"),
                ((), "SESSION.yaml"),
                (("--merge", "nowhere"), "nowhere"),
                ((DEMO, CONFIGS / "variants" / "ducts.yaml"), "one top key `sweep:`"),
        ]:
            with self.subTest(args=args):
                self.assertIn(word, self.fault(*args, "--out", "b"))


if __name__ == "__main__":
    unittest.main()
