# SPDX-License-Identifier: MIT
"""Shared by the outside checks: runs the binaries, keeps what was compared.

check_NN_x.py             runs its checks
check_NN_x.py Class.test  runs one; CMake makes a ctest of each, named by its docstring.

The environment names the binaries, HATRING and EXPORT_NETWORK, and, if wanted, HATRING_RESULTS: the folder that receives
one small JSON file a check, which tools/validation makes into docs/validation.md.
"""
import json
import math
import os
import pathlib
import subprocess
import tempfile
import unittest

import h5py

CASES = pathlib.Path(__file__).resolve().parent / "cases"
CONFIGS = CASES.parents[2] / "configs"


class Result:
    """A result file in memory; `result["front/temperature/ring_mean"]`."""

    def __init__(self, path):
        self.data = {}
        with h5py.File(path) as file:
            file.visititems(lambda name, item: self.data.__setitem__(name, item[()])
                            if isinstance(item, h5py.Dataset) else None)

    def __getitem__(self, name):
        return self.data[name]

    @property
    def time(self):
        return self.data["time"]


def options(settings):
    return ["--allow-include", CONFIGS] + [word for key, value in settings.items() for word in ("--set", f"{key}={value}")]


def run(program, *args):
    result = subprocess.run([os.environ[program], *map(str, args)], capture_output=True, text=True, timeout=240, check=False)
    if result.returncode not in (0, 1) or (program != "HATRING" and result.returncode):
        raise AssertionError(f"{program} {args}: exit code {result.returncode}\n{result.stderr}")
    return result.stdout


def simulate(case, mesh="standard", **settings):
    """One session through the command; `**{"air.wind": "2 m/s"}` sets keys."""
    with tempfile.TemporaryDirectory() as folder:
        run("HATRING", "simulate", case, "--mesh", mesh, "--no-report", "--quiet", "--out", folder, *options(settings))
        return Result(pathlib.Path(folder) / "result.h5")


def answers(case, mesh="standard", **settings):
    """The --json answers of one session."""
    with tempfile.TemporaryDirectory() as folder:
        return json.loads(run("HATRING", "simulate", case, "--mesh", mesh, "--no-report", "--json", "--out", folder,
                              *options(settings)))


def exported(case, axle="front", mesh="standard", interval=1.0, speeds=()):
    """The network of one wheel, its load and our solution, as plain data."""
    return json.loads(run("EXPORT_NETWORK", case, CONFIGS, axle, mesh, interval, *speeds))


def plain(value):
    """A number that prints the same everywhere."""
    return float(f"{value:.6g}") if math.isfinite(value) else None


class Check(unittest.TestCase):
    """One check: `self.compare` keeps a row of the results table and fails the test where the row is out of tolerance."""
    number = 0
    source = ""

    def setUp(self):
        self.rows, self.curves, self.remarks = [], [], []

    def compare(self, what, expected, got, tolerance, unit="", relative=True):
        """Error is relative to `expected`, or absolute with relative=False."""
        error = (got - expected) / expected if relative else got - expected
        self.row(what, plain(expected), got, abs(error) <= tolerance, f"{error:+.2%}" if relative else f"{error:+.3g} {unit}",
                 f"{tolerance:.3g} {unit}" if not relative else f"{100 * tolerance:.3g} %", unit)

    def within(self, what, low, high, got, unit=""):
        self.row(what, f"{low:.4g} to {high:.4g}", got, low <= got <= high, "inside" if low <= got <= high else "outside", "", unit)

    def row(self, what, expected, got, good, error, tolerance, unit=""):
        """Any other comparison; `good` says whether it holds."""
        self.rows.append({"what": what, "expected": expected, "got": plain(got), "error": error, "tolerance": tolerance,
                          "unit": unit, "good": bool(good)})

    def remark(self, text):
        """Printed under the check's rows."""
        self.remarks.append(text)

    def curve(self, label, x, y, style="line"):
        self.curves.append({"label": label, "x": [plain(v) for v in x], "y": [plain(v) for v in y], "style": style})

    def picture(self, x_label, y_label, x_log=False):
        self.axes = {"x": x_label, "y": y_label, "x_log": x_log}

    def tearDown(self):
        folder = os.environ.get("HATRING_RESULTS")
        if folder and self.rows:
            name = f"{self.number:02d}_{self._testMethodName.removeprefix('test_')}"
            result = {"id": name, "number": self.number, "title": " ".join(self._testMethodDoc.split()), "source": self.source,
                      "rows": self.rows, "remarks": self.remarks, "curves": self.curves, "axes": getattr(self, "axes", None)}
            pathlib.Path(folder, name + ".json").write_text(json.dumps(result, indent=1) + "\n")
        wrong = [row for row in self.rows if not row["good"]]
        self.assertEqual(wrong, [], self._testMethodDoc)
        self.assertTrue(self.rows, "nothing was compared")


main = unittest.main
