# SPDX-License-Identifier: MIT
"""Processes that are killed at any moment leave the old results or the new ones, each file whole.

test_kills.py [Class.name]; HATRING names the binary, KILLS how many are killed (200) of `simulate`, and of `sweep`.
"""
import fcntl
import json
import os
import random
import shutil
import signal
import subprocess
import time
import unittest

from faults import DEMO, FIXED, HATRING, NEW, OLD, FaultTest
import h5py
import test_sweep

KILLS = int(os.environ.get("KILLS", "200"))


def killed(command, folder, delay, number):
    """Starts the command, sends the signal after `delay` seconds. Returns the exit code; below 0: the signal."""
    process = subprocess.Popen(command, env=FIXED, cwd=folder, stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL,
                               stderr=subprocess.DEVNULL)
    try:
        return process.wait(timeout=delay)
    except subprocess.TimeoutExpired:
        process.send_signal(number)
        return process.wait(timeout=60)


class Kills(FaultTest):
    def test_killed_at_any_moment(self):
        begin = time.monotonic()
        self.simulate(NEW, self.out)
        whole_run = time.monotonic() - begin
        chance = random.Random(1)  # the moments differ by the machine's load anyway
        ended = {"killed": 0, "finished": 0}
        for i in range(KILLS):
            # Half of them near the end, where files are written.
            delay = whole_run * (chance.random() if i % 2 else chance.uniform(0.6, 1.1))
            number = (signal.SIGKILL, signal.SIGINT, signal.SIGTERM)[i % 3]
            code = killed(self.command((OLD, NEW)[i % 2], self.out), self.folder, delay, number)
            self.assertIn(code, (0, 1, -number))
            ended["killed" if code < 0 else "finished"] += 1
            self.assert_whole(left_overs=True)
        print(f"{KILLS} runs of {whole_run:.2f} s: {ended['killed']} killed, {ended['finished']} had finished")
        self.assertGreater(ended["killed"], KILLS // 4)

    def test_the_next_run_is_as_if_nothing_had_happened(self):
        killed(self.command(NEW, self.out), self.folder, 0.02, signal.SIGKILL)
        (self.out / ".result.h5.1-0.part").write_bytes(self.new["result.h5"][:1000])
        self.assertIn(self.simulate(NEW, self.out).returncode, (0, 1))
        self.assert_whole()
        self.assertEqual((self.out / "result.h5").read_bytes(), self.new["result.h5"])

    def test_what_another_process_is_writing_stays(self):
        mine, others = self.out / ".result.h5.1-0.part", self.out / ".other.h5.1-0.part"
        others.write_text("not of this file")
        with open(mine, "w") as file:
            fcntl.flock(file, fcntl.LOCK_EX)
            self.assertIn(self.simulate(NEW, self.out).returncode, (0, 1))
            self.assertTrue(mine.exists())
        self.assertIn(self.simulate(NEW, self.out).returncode, (0, 1))
        self.assertFalse(mine.exists())
        self.assertTrue(others.exists())


class Sweeps(test_sweep.SweepTest):
    """A sweep that is killed again and again: the next one goes on, loses nothing, runs nothing twice."""
    RUNS = 60
    SWEEP = (*map(str, test_sweep.Same.SWEEP[:-1]), str(RUNS))
    SIGNALS = (signal.SIGKILL, signal.SIGINT, signal.SIGKILL, signal.SIGTERM)

    def command(self, out, *more):
        return [HATRING, "sweep", *self.SWEEP, "--out", str(self.folder / out), *more]

    def finish(self, out):
        """Runs it to its end. Returns what --json prints."""
        result = subprocess.run(self.command(out, "--json"), env=FIXED, cwd=self.folder, capture_output=True,
                                stdin=subprocess.DEVNULL, text=True, timeout=240, check=False)
        self.assertIn(result.returncode, (0, 1), result.stderr)
        return json.loads(result.stdout)

    def records(self, out):
        """Records of the table of runs that are there, by row."""
        table = self.folder / out / "sweep.runs"
        data = table.read_bytes()[test_sweep.HEAD:] if table.exists() else b""
        rows = {row: data[row * self.size:(row + 1) * self.size] for row in range(len(data) // self.size)}
        return {row: record for row, record in rows.items() if any(record)}

    def assert_file_is_whole(self, out):
        """No file yet, or one of all runs in which those that are done have their values."""
        path = self.folder / out / "sweep.h5"
        if not path.exists():
            return
        with h5py.File(path) as file, h5py.File(self.folder / "one" / "sweep.h5") as whole:
            self.assertEqual(list(file["run"][()]), list(range(1, self.RUNS + 1)))
            done = file["status"][()] == 1
            for column in ("measure/front/face", "measure/rear/hat", "measure/verdict", "limit/front/hat"):
                self.assertEqual(file[column][done].tobytes(), whole[column][done].tobytes(), column)

    def test_killed_at_any_moment_and_gone_on(self):
        begin = time.monotonic()
        self.assertEqual(self.finish("one")["fresh"], self.RUNS)
        whole_run = time.monotonic() - begin
        self.size = ((self.folder / "one" / "sweep.runs").stat().st_size - test_sweep.HEAD) // self.RUNS
        chance = random.Random(2)
        ended = {"killed": 0, "stopped": 0, "finished": 0}
        known = {}
        for i in range(KILLS):
            # Half of them near the end, where the file is written.
            left = whole_run * (1 - len(known) / self.RUNS)
            delay = chance.uniform(0, whole_run / 4) if i % 2 else left * chance.uniform(0.8, 1.2) + 0.01
            number = self.SIGNALS[i // 2 % len(self.SIGNALS)]
            code = killed(self.command("out"), self.folder, delay, number)
            self.assertIn(code, (0, 1, -number, test_sweep.INTERRUPTED))
            before, known = known, self.records("out")
            for row, record in before.items():
                self.assertEqual(known.get(row), record, "a run that was done must stay")
            self.assert_file_is_whole("out")
            ended["killed" if code < 0 else "stopped" if code == test_sweep.INTERRUPTED else "finished"] += 1
            if code in (0, 1) or i == KILLS - 1:
                self.assert_ends_as_if_nothing_had_happened(len(known))
                known = {}
        print(f"{KILLS} sweeps of {whole_run:.2f} s: {ended}")
        self.assertGreater(ended["killed"] + ended["stopped"], KILLS // 3)

    def assert_ends_as_if_nothing_had_happened(self, known):
        self.assertEqual(self.finish("out")["fresh"], self.RUNS - known, "nothing is run twice")
        self.assertEqual(self.bytes("out/sweep.h5"), self.bytes("one/sweep.h5"))
        self.assertEqual(sorted(path.name for path in (self.folder / "out").iterdir()), ["sweep.h5", "sweep.runs"])
        shutil.rmtree(self.folder / "out")


if __name__ == "__main__":
    unittest.main()
