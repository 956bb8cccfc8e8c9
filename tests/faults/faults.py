# SPDX-License-Identifier: MIT
"""What the fault tests share: a folder that holds the results of one run, which must stay whole whatever happens."""
import os
import pathlib
import subprocess
import sys

sys.path.insert(0, str(pathlib.Path(__file__).resolve().parents[1] / "tools"))
from cli_case import CliTest, DEMO  # noqa: E402  (the path above leads there)

HATRING = os.environ["HATRING"]
# Files with the same bytes whenever the same thing is run.
FIXED = {**os.environ, "SOURCE_DATE_EPOCH": "86400"}
OLD = ("--mesh", "lump", "--no-band", "--quiet")
NEW = (*OLD, "--set", "air.temperature=40 degC")


def contents(folder):
    """Bytes of every file by name."""
    return {path.name: path.read_bytes() for path in folder.iterdir()}


class FaultTest(CliTest):
    """`self.out` holds a run of OLD; `self.old` and `self.new` are the files that OLD and NEW make."""

    def setUp(self):
        super().setUp()
        self.out = self.folder / "out"
        twin = self.folder / "twin"
        self.simulate(NEW, twin)
        self.simulate(OLD, self.out)
        self.new, self.old = contents(twin), contents(self.out)
        self.assertEqual(self.old.keys(), self.new.keys())
        self.assertNotEqual(self.old["result.h5"], self.new["result.h5"])

    def command(self, options, out):
        return [HATRING, "simulate", str(DEMO), *options, "--out", str(out)]

    def simulate(self, options, out, before=(), **popen):
        """A run that ends by itself, in a shell of its own kind where `before` says so."""
        return subprocess.run([*before, *self.command(options, out)], env=FIXED, cwd=self.folder, capture_output=True,
                              stdin=subprocess.DEVNULL, text=True, timeout=240, check=False, **popen)

    def assert_whole(self, left_overs=False):
        """Each file is the old or the new one, to the byte. Left-overs of a killed process have a name of their own,
        and go with the next run."""
        found = contents(self.out)
        for name, content in found.items():
            if left_overs and name.startswith(".") and name.endswith(".part"):
                continue
            self.assertIn(name, self.old, f"left behind: {sorted(found)}")
            self.assertIn(content, (self.old[name], self.new[name]), f"{name} is neither the old nor the new one")
        self.assertLessEqual(self.old.keys(), found.keys())

    def assert_refused(self, result, *words):
        """It could not write, said why, and all is as it was."""
        self.assertEqual(result.returncode, 3, result.stderr)
        for word in words:
            self.assertIn(word, result.stderr)
        self.assertEqual(contents(self.out), self.old)
