# SPDX-License-Identifier: MIT
"""Processes that are killed at any moment leave the old results or the new ones, each file whole.

test_kills.py [Class.name]; HATRING names the binary, KILLS how many are killed (200). Commands that write as they go
(a sweep) have a test of their own kind: subclass FaultTest and kill them with killed().
"""
import os
import random
import signal
import subprocess
import time
import unittest

from faults import FIXED, NEW, OLD, FaultTest

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
        self.assertIn(self.simulate(NEW, self.out).returncode, (0, 1))
        self.assert_whole(left_overs=True)
        self.assertEqual((self.out / "result.h5").read_bytes(), self.new["result.h5"])


if __name__ == "__main__":
    unittest.main()
