# SPDX-License-Identifier: MIT
"""measure_program.py HATRING: time and memory of whole runs of the program, as JSON. Runs from the top of the source tree.

Imports little: the peak memory of a child that the system reports is never less than that of this script.
"""
import json
import os
import sys
import tempfile
import time

HOT_LAPS = (2, 8, 40, 120)
RUNS = (20, 40, 80, 160)
THREADS = (1, 2)
THREADED_RUNS = 80
REPEATS = 3


def run(program, *arguments, repeats=REPEATS):
    """Least processor and wall time [s] of some repeats, and peak memory [MB]."""
    best = {"cpu": 1e9, "wall": 1e9, "peak": 0}
    for _ in range(repeats):
        with tempfile.TemporaryDirectory() as folder:
            started = time.perf_counter()
            child = os.posix_spawn(program, [program, *map(str, arguments), "--quiet", "--out", folder], os.environ)
            _, status, usage = os.wait4(child, 0)
            wall = time.perf_counter() - started
        if os.waitstatus_to_exitcode(status) not in (0, 1):  # 1: a limit of the demo is exceeded
            sys.exit(f"{program} {' '.join(map(str, arguments))} failed")
        best = {"cpu": min(best["cpu"], usage.ru_utime + usage.ru_stime), "wall": min(best["wall"], wall),
                "peak": max(best["peak"], usage.ru_maxrss / 1e3)}
    return best


def sweep(program, runs, threads):
    return run(program, "sweep", "configs/demo.yaml", "--vary", f"car.mass=range(900 kg, 1100 kg, {runs})", "--no-report",
               "--jobs", threads, repeats=1)


def main():
    program = sys.argv[1]
    print(json.dumps({
        "demo": run(program, "simulate", "configs/demo.yaml"),
        "laps": [{"laps": n, **run(program, "simulate", "configs/demo.yaml", "--set", f"session.1.laps={n}")} for n in HOT_LAPS],
        "runs": [{"runs": n, **sweep(program, n, 1)} for n in RUNS],
        "threads": [{"threads": n, "runs": THREADED_RUNS, **sweep(program, THREADED_RUNS, n)} for n in THREADS]}, indent=1))


if __name__ == "__main__":
    main()
