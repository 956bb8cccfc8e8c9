# SPDX-License-Identifier: MIT
"""What the end-to-end tests share: the binary named by the environment variable HATRING, and a folder for each test."""
import json
import os
import pathlib
import pty
import re
import subprocess
import tempfile
import unittest

HERE = pathlib.Path(__file__).resolve().parent
CONFIGS = HERE.parents[1] / "configs"
DEMO = CONFIGS / "demo.yaml"
WITHIN, EXCEEDED, BAD_INPUT, FAILURE = 0, 1, 2, 3
RAN = (WITHIN, EXCEEDED)
JSON_KEYS = {"verdicts", "peaks", "joint", "pedal", "fluid", "balance", "timing"}
# A run that is over quickly, for what does not depend on the physics.
QUICK = ("--mesh", "lump", "--no-report", "--set", "session.1.laps=1", "--set", "session.3.park=1 min")


def hatring(*args, cwd=None, **env):
    """Runs the binary with no terminal."""
    return subprocess.run([os.environ["HATRING"], *map(str, args)], cwd=cwd, env={**os.environ, **env},
                          stdin=subprocess.DEVNULL, capture_output=True, text=True, timeout=240, check=False)


def shown_on_terminal(*args, cwd=None, **env):
    """Runs the binary on a terminal. Returns its exit code and the bytes that it showed."""
    main, terminal = pty.openpty()
    process = subprocess.Popen([os.environ["HATRING"], *map(str, args)], cwd=cwd,
                               env={**os.environ, "TERM": "xterm", **env}, stdin=subprocess.DEVNULL, stdout=terminal,
                               stderr=terminal)
    os.close(terminal)
    shown = b""
    try:
        while chunk := os.read(main, 65536):
            shown += chunk
    except OSError:  # the other end is closed
        pass
    os.close(main)
    return process.wait(timeout=60), shown


def runnable_configs():
    """Files under configs/ that hold a session."""
    return sorted(path for path in CONFIGS.rglob("*.yaml") if re.search(r"^session:", path.read_text(), re.MULTILINE))


def datasets(path):
    """Every dataset of a result file by name, without what says when and how fast it was made."""
    import h5py
    found = {}

    def visit(name, item):
        if isinstance(item, h5py.Dataset) and "timing" not in name:
            found[name] = item[()]

    with h5py.File(path) as file:
        file.visititems(visit)
    return found


class CliTest(unittest.TestCase):
    def setUp(self):
        folder = tempfile.TemporaryDirectory()
        self.addCleanup(folder.cleanup)
        self.folder = pathlib.Path(folder.name)

    def run_well(self, *args, **env):
        """A simulate run in this test's folder that must end with exit code 0 or 1."""
        result = hatring("simulate", *args, cwd=self.folder, **env)
        self.assertIn(result.returncode, RAN, result.stdout + result.stderr)
        return result

    def run_json(self, *args):
        result = self.run_well(*args, "--json")
        return json.loads(result.stdout)

    def refused(self, *args, code=BAD_INPUT):
        """A run that must end with exit code 2 or `code`, say why on stderr alone and leave nothing behind."""
        before = sorted(self.folder.rglob("*"))
        result = hatring(*args, cwd=self.folder)
        self.assertEqual(result.returncode, code, result.stdout + result.stderr)
        self.assertEqual(result.stdout, "")
        self.assertNotEqual(result.stderr, "")
        self.assertEqual(sorted(self.folder.rglob("*")), before)
        return result.stderr

    def assert_same_datasets(self, one, other, without=()):
        import numpy
        first, second = datasets(one), datasets(other)
        self.assertEqual(first.keys(), second.keys())
        self.assertGreater(len(first), 20)
        for name, values in first.items():
            if name not in without:
                numpy.testing.assert_array_equal(values, second[name], err_msg=name)
