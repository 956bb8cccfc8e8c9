# SPDX-License-Identifier: MIT
"""check.py INSTRUCTION_CASES [--update]: counts the instructions of each case with callgrind and holds them against
expected.json; one that has grown by more than a tenth is a failure. Needs valgrind. --update writes the file anew.

Another compiler makes another program: then nothing is counted and the check says 'skipped'.
"""
import json
import pathlib
import re
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor

EXPECTED = pathlib.Path(__file__).with_name("expected.json")
ROOT = EXPECTED.parents[2]
GROWTH = 0.10


def compiler(program):
    """As the compiler wrote it into the program."""
    text = subprocess.run(["readelf", "--string-dump=.comment", program], capture_output=True, text=True, check=True).stdout
    return sorted(set(re.findall(r"\]\s+(.*\S)", text)))


def count(program, case):
    result = subprocess.run(["valgrind", "--tool=callgrind", "--toggle-collect=counted*", "--callgrind-out-file=/dev/null",
                             program, case], capture_output=True, text=True, cwd=ROOT, check=False)
    found = re.search(r"Collected : (\d+)", result.stderr)
    if result.returncode or not found or int(found[1]) == 0:
        sys.exit(f"{case}: nothing counted\n{result.stderr}")
    return int(found[1])


def main():
    program = str(pathlib.Path(sys.argv[1]).resolve())
    expected = json.loads(EXPECTED.read_text()) if EXPECTED.exists() else {}
    update = "--update" in sys.argv
    here = compiler(program)
    if not update and here != expected["compiler"]:
        print(f"skipped: counted with {expected['compiler']}, this is {here}")
        return
    cases = subprocess.run([program], capture_output=True, text=True, check=True).stdout.split()
    with ThreadPoolExecutor(2) as pool:
        counts = dict(zip(cases, pool.map(lambda case: count(program, case), cases)))
    if update:
        EXPECTED.write_text(json.dumps({"compiler": here, "instructions": counts}, indent=1) + "\n")
        return
    grown = []
    for case, got in counts.items():
        change = got / expected["instructions"][case] - 1
        print(f"{case}: {got} instructions, {change:+.1%}")
        if change > GROWTH:
            grown.append(case)
    if grown:
        sys.exit(f"grown by more than {GROWTH:.0%}: {', '.join(grown)}; where that is meant: check.py ... --update")


if __name__ == "__main__":
    main()
