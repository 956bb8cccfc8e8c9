# SPDX-License-Identifier: MIT
"""hatring sweep by two processes of mpirun on one machine, through the binary named by the environment variable HATRING.

Exits with 77 where the build has no MPI (HATRING_MPI is not 1) or the machine has no mpirun.
"""
import json
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile

from cli_case import DEMO, RAN, hatring

SWEEP = (DEMO, "--mesh", "lump", "--set", "session.1.laps=1", "--set", "session.3.park=1 min",
         "--vary", "car.mass=uniform(850 kg, 1000 kg)", "--runs", "21", "--json")


def main():
    if os.environ.get("HATRING_MPI") != "1" or shutil.which("mpirun") is None:
        print("skipped: built without HATRING_MPI, or no mpirun here")
        return 77
    with tempfile.TemporaryDirectory() as folder:
        env = {"SOURCE_DATE_EPOCH": "0"}
        one = hatring("sweep", *SWEEP, "--out", "one", cwd=folder, **env)
        assert one.returncode in RAN, one.stderr
        two = subprocess.run(["mpirun", "--allow-run-as-root", "--oversubscribe", "-np", "2", os.environ["HATRING"], "sweep",
                              *map(str, SWEEP), "--out", "two"], cwd=folder, env={**os.environ, **env}, capture_output=True,
                             text=True, timeout=240, check=False)
        assert two.returncode == one.returncode, two.stdout + two.stderr
        answers = json.loads(two.stdout)
        assert (answers["done"], answers["fresh"]) == (21, 21), answers
        files = [pathlib.Path(folder, name, "sweep.h5").read_bytes() for name in ("one", "two")]
        assert files[0] == files[1], "two processes make another file than one"
        failed = subprocess.run(["mpirun", "--allow-run-as-root", "--oversubscribe", "-np", "2", os.environ["HATRING"], "sweep",
                                 str(DEMO), "--out", "three"], cwd=folder, capture_output=True, text=True, timeout=60, check=False)
        assert failed.returncode != 0 and "nothing is varied" in failed.stderr, failed.stderr
    return 0


if __name__ == "__main__":
    sys.exit(main())
