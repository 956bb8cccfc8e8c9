# SPDX-License-Identifier: MIT
"""The same input gives the same bytes: files and --json, whatever the folder, time zone and language of the machine."""
import json
import os
import subprocess
import unittest

from faults import DEMO, HATRING, CliTest

CONFIGS = DEMO.parent
VARIANT = CONFIGS / "variants" / "hat_steel.yaml"
LUMP = ("--mesh", "lump")
PLACES = ({"TZ": "UTC", "LC_ALL": "C"},
          {"TZ": "Asia/Kathmandu", "LC_ALL": "C.UTF-8", "LANG": "de_DE.UTF-8", "MALLOC_PERTURB_": "85"})


def without_timing(value):
    if isinstance(value, dict):
        return {key: without_timing(inner) for key, inner in value.items() if key != "timing"}
    return [without_timing(inner) for inner in value] if isinstance(value, list) else value


class Repeats(CliTest):
    def assert_repeats(self, command, *arguments, out="out"):
        """Runs it in two folders of unlike names, under two environments."""
        said, written = [], []
        for place, environment in enumerate(PLACES):
            folder = self.folder / ("a" * (1 + 40 * place))
            folder.mkdir()
            result = subprocess.run([HATRING, command, *map(str, arguments), "--json", "--out", out], cwd=folder,
                                    env={**os.environ, **environment, "SOURCE_DATE_EPOCH": "86400"}, text=True,
                                    check=False, stdin=subprocess.DEVNULL, capture_output=True, timeout=240)
            self.assertIn(result.returncode, (0, 1), result.stderr)
            said.append(json.dumps(without_timing(json.loads(result.stdout))))
            written.append({p.relative_to(folder): p.read_bytes() for p in folder.rglob("*") if p.is_file()})
        self.assertEqual(*said)
        self.assertEqual(written[0].keys(), written[1].keys())
        for name, content in written[0].items():
            self.assertEqual(content, written[1][name], f"{name} differs")
        return set(map(str, written[0]))

    def test_simulate(self):
        self.assertEqual(self.assert_repeats("simulate", DEMO), {"out/result.h5", "out/report.html"})

    def test_compare(self):
        self.assertIn("out/report.html", self.assert_repeats("compare", DEMO, VARIANT, "--results", *LUMP))

    def test_cooldown(self):
        self.assert_repeats("cooldown", DEMO, *LUMP)

    def test_explain(self):
        self.assert_repeats("explain", DEMO)

    def test_trace(self):
        log = CONFIGS / "logs" / "tern_hollow.csv"
        self.assertEqual(self.assert_repeats("trace", log, out="out.yaml"), {"out.yaml", "out.html"})

    def test_lap(self):
        track, car = CONFIGS / "tracks" / "sedge_bank.yaml", CONFIGS / "cars" / "light_track_car.yaml"
        self.assertEqual(self.assert_repeats("lap", track, car, out="out.yaml"), {"out.yaml"})


if __name__ == "__main__":
    unittest.main()
