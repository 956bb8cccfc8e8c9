# SPDX-License-Identifier: MIT
"""Disks that are full, folders that may not be written, files that vanish: an error that names the file.

test_disk.py [Class.name]; HATRING names the binary. What this machine does not allow is skipped.
"""
import functools
import os
import resource
import shutil
import subprocess
import unittest

from faults import DEMO, FIXED, HATRING, NEW, OLD, FaultTest

NOBODY = 65534
SWEEP = (HATRING, "sweep", str(DEMO), "--mesh", "lump", "--vary", "car.mass=range(800 kg, 900 kg, 4)", "--quiet")


class DiskFull(FaultTest):
    def test_limit_on_the_size_of_files(self):
        for size in (0, 1, 4096, len(self.new["result.h5"]) - 1):
            limit = functools.partial(resource.setrlimit, resource.RLIMIT_FSIZE, (size, size))
            result = self.simulate(NEW, self.out, preexec_fn=limit)
            self.assert_refused(result, str(self.out / "result.h5"), "File too large")

    def test_limit_on_the_size_of_the_file_of_a_sweep(self):
        subprocess.run([*SWEEP, "--out", "whole"], env=FIXED, cwd=self.folder, check=False)
        whole = (self.folder / "whole" / "sweep.h5").read_bytes()
        self.assertLess((self.folder / "whole" / "sweep.runs").stat().st_size, len(whole) // 2)
        for size in (*range(len(whole) // 10, len(whole), len(whole) // 10), len(whole) - 1):
            limit = functools.partial(resource.setrlimit, resource.RLIMIT_FSIZE, (size, size))
            result = subprocess.run([*SWEEP, "--out", "out2"], env=FIXED, cwd=self.folder, preexec_fn=limit, text=True,
                                    capture_output=True, stdin=subprocess.DEVNULL, check=False)
            found = sorted(path.name for path in (self.folder / "out2").iterdir())
            self.assertEqual((result.returncode, found), (3, ["sweep.runs"]), result.stderr)
            self.assertRegex(result.stderr, "^hatring: error: out2/sweep.h5: not written: .*File too large\n$")
        subprocess.run([*SWEEP, "--out", "out2"], env=FIXED, cwd=self.folder, check=False)
        self.assertEqual((self.folder / "out2" / "sweep.h5").read_bytes(), whole)

    def test_a_small_disk(self):
        disk = self.folder / "disk"
        disk.mkdir()
        mount = subprocess.run(["mount", "-t", "tmpfs", "-o", "size=64k", "tmpfs", disk], capture_output=True,
                               text=True, check=False)
        if mount.returncode != 0:
            self.skipTest(f"no tmpfs may be mounted here: {mount.stderr.strip()}")
        self.addCleanup(subprocess.run, ["umount", disk], check=True)
        result = self.simulate(NEW, disk)
        self.assert_refused(result, "No space left on device", str(disk / "result.h5"))
        self.assertEqual(list(disk.iterdir()), [])
        result = subprocess.run([*SWEEP, "--out", disk], env=FIXED, cwd=self.folder, text=True, capture_output=True,
                                stdin=subprocess.DEVNULL, check=False)
        self.assertEqual(result.returncode, 3, result.stderr)
        self.assertRegex(result.stderr, "^hatring: error: .*/sweep.h5: not written: .*No space left on device\n$")
        self.assertEqual([path.name for path in disk.iterdir()], ["sweep.runs"])

    def test_standard_output_does_not_take_it(self):
        commands = {"help": ["--help"], "text": ["simulate", DEMO, *OLD[:3], "--out", self.out],
                    "json": ["simulate", DEMO, *OLD[:3], "--json", "--out", self.out], "explain": ["explain", DEMO]}
        for name, arguments in commands.items():
            with self.subTest(name), open("/dev/full", "w") as full:
                result = subprocess.run([HATRING, *map(str, arguments)], env=FIXED, cwd=self.folder, stdout=full,
                                        stderr=subprocess.PIPE, text=True, check=False)
                self.assertEqual(result.returncode, 3)
                self.assertRegex(result.stderr, "cannot write")


class Folders(FaultTest):
    def setUp(self):
        super().setUp()
        self.folder.chmod(0o755)
        self.user = {"user": NOBODY, "group": NOBODY, "extra_groups": []} if os.geteuid() == 0 else {}
        probe = subprocess.run(["test", "-x", HATRING, "-a", "-r", DEMO], check=False, **self.user)
        if probe.returncode != 0:
            self.skipTest("an unprivileged user cannot reach the program here")

    def as_nobody(self, out):
        return self.simulate(NEW, out, **self.user)

    def test_read_only_folder(self):
        self.out.chmod(0o555)
        self.addCleanup(self.out.chmod, 0o755)
        self.assert_refused(self.as_nobody(self.out), str(self.out), "Permission denied")

    def test_folder_that_cannot_be_made(self):
        closed = self.folder / "closed"
        closed.mkdir(mode=0o555)
        self.assert_refused(self.as_nobody(closed / "new"), str(closed / "new"), "Permission denied")
        self.assertEqual(list(closed.iterdir()), [])

    def test_unreadable_session(self):
        secret = self.folder / "secret.yaml"
        secret.write_text(f"include: {DEMO}\n")
        secret.chmod(0o000)
        result = subprocess.run([HATRING, "simulate", secret], capture_output=True, text=True, cwd="/", check=False,
                                **self.user)
        self.assertEqual(result.returncode, 2)
        self.assertIn("secret.yaml", result.stderr)

    def test_something_else_stands_in_the_way(self):
        plain = self.folder / "plain"
        plain.write_text("mine")
        for out in (plain, plain / "below"):
            self.assert_refused(self.simulate(NEW, out), str(plain))
        self.assertEqual(plain.read_text(), "mine")
        blocked = self.folder / "blocked"
        (blocked / "result.h5" / "inside").mkdir(parents=True)
        self.assert_refused(self.simulate(NEW, blocked), str(blocked / "result.h5"))
        self.assertEqual([p.name for p in blocked.iterdir()], ["result.h5"])

    def test_a_link_for_a_result(self):
        """The file that the link names is left alone; the link is replaced."""
        precious = self.folder / "precious"
        precious.write_text("mine")
        (self.out / "result.h5").unlink()
        (self.out / "result.h5").symlink_to(precious)
        self.assertIn(self.simulate(NEW, self.out).returncode, (0, 1))
        self.assertEqual(precious.read_text(), "mine")
        self.assertEqual((self.out / "result.h5").read_bytes(), self.new["result.h5"])


class Vanishing(FaultTest):
    def copy(self):
        """The demo with all its parts, in a folder of its own."""
        return shutil.copytree(DEMO.parent, self.folder / "configs") / "demo.yaml"

    def test_a_part_is_gone(self):
        session = self.copy()
        (session.parent / "pads" / "club_race.yaml").unlink()
        message = self.refused("simulate", session)
        self.assertIn("demo.yaml", message)
        self.assertIn("club_race.yaml", message)

    def test_inputs_and_folder_vanish_while_it_runs(self):
        """Whatever the moment: a result that is whole, or an error; never a crash."""
        for step in range(20):
            session = self.copy()
            out = self.folder / f"gone-{step}"
            process = subprocess.Popen([HATRING, "simulate", session, "--quiet", "--out", out], env=FIXED, text=True,
                                       stdin=subprocess.DEVNULL, stderr=subprocess.PIPE)
            try:
                process.wait(timeout=0.01 * step)
            except subprocess.TimeoutExpired:
                pass
            shutil.rmtree(session.parent)
            shutil.rmtree(out, ignore_errors=True)
            message = process.communicate(timeout=240)[1]
            self.assertIn(process.returncode, (0, 1, 2, 3), message)
            self.assertEqual(process.returncode in (2, 3), message != "")


class FailingCalls(FaultTest):
    """The system refuses the n-th call of a kind, for every n that a run makes while it writes."""

    def injected(self, call, error, nth):
        trace = self.folder / "trace"
        strace = ["strace", "-E", "ASAN_OPTIONS=detect_leaks=0", "-f", "-qq", "-o", str(trace), "-e", f"trace={call}",
                  "-e", f"inject={call}:error={error}:when={nth}"]
        result = self.simulate(NEW, self.out, before=strace)
        return result, "INJECTED" in trace.read_text()

    def every(self, call, error):
        if shutil.which("strace") is None:
            self.skipTest("no strace on this machine")
        for nth in range(1, 1000):
            result, reached = self.injected(call, error, nth)
            if "ptrace" in result.stderr:
                self.skipTest("strace is not allowed here")
            if not reached:
                return nth
            self.assertEqual(result.returncode, 3, f"{call} {nth}: {result.stderr}")
            self.assertRegex(result.stderr, r"/(result\.h5|report\.html): ")
            self.assert_whole()
        return self.fail("no end of it")

    def test_write(self):
        self.assertGreater(self.every("write", "ENOSPC"), 1)

    def test_rename(self):
        self.assertGreater(self.every("rename", "EACCES"), 2)


if __name__ == "__main__":
    unittest.main()
