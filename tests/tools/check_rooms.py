# SPDX-License-Identifier: MIT
"""check_rooms.py ROOT: fails where a room includes what it must not know, and prints each place.

An arrow is 'may include': tools -> sim -> models -> (Eigen, the standard library); the rooms of sim in the order
session, network, solve, study, answer, io, each knowing the ones before it. Tests may include anything, and the benchmarks
run on the lap and the car that the tests invent.
"""
import pathlib
import re
import sys

SIM_ROOMS = ["sim/session", "sim/network", "sim/solve", "sim/study", "sim/answer", "sim/io"]
ROOMS = ["models", *SIM_ROOMS, "tools/bench", "tools", "tests"]

# Room -> rooms it may include, itself among them.
KNOWS = {"models": ["models"], "tools": ["models", *SIM_ROOMS, "tools"], "tools/bench": ROOMS}
for index, sim_room in enumerate(SIM_ROOMS):
    KNOWS[sim_room] = ["models", *SIM_ROOMS[: index + 1]]

# Libraries, by the start of the angle-bracket include, and the rooms that know them.
TOOLS = ["tools", "tools/bench"]
SIM_AND_TOOLS = [*SIM_ROOMS, *TOOLS]
LIBRARIES = [
    (r"Eigen/", ["models", *SIM_AND_TOOLS]),
    (r"boost/", SIM_AND_TOOLS),
    (r"fmt/", SIM_AND_TOOLS),
    (r"yaml-cpp/|udunits2\.h|H5|hdf5|pugixml", ["sim/io"]),
    (r"nlohmann/|CLI/|benchmark/|cvode|nvector|sun|arkode", TOOLS),
    (r"[a-z]+/|.*\.h$", ["sim/io", *TOOLS]),  # anything else, the operating system included
]
# Standard headers that stand for threads, files, streams to the world and clocks.
THREADS_FILES = {"thread", "mutex", "shared_mutex", "future", "condition_variable", "atomic", "semaphore", "latch",
                 "barrier", "stop_token", "execution", "fstream", "filesystem", "iostream", "cstdio", "csignal"}
CLOCKS = {"chrono", "ctime"}
OUTSIDE_WORLD = {"models": THREADS_FILES | CLOCKS, **{room: THREADS_FILES for room in SIM_ROOMS[:-1]}}

INCLUDE = re.compile(r'\s*#\s*include\s*(?:"(?P<ours>[^"]+)"|<(?P<theirs>[^>]+)>)')
ENVIRONMENT = re.compile(r"\b(?:secure_)?getenv\b")


def room_of(path):
    """The room a root-relative path lies in, or None."""
    return next((room for room in ROOMS if path.startswith(room + "/")), None)


def complaint(room, line):
    """What is wrong with one line of a file in `room`, or None."""
    code = line.split("//")[0] if "#include" not in line else line
    if room in OUTSIDE_WORLD and ENVIRONMENT.search(code):
        return f"{room} must not read the environment"
    include = INCLUDE.match(line)
    if not include:
        return None
    if ours := include["ours"]:
        target = room_of(ours)
        if target is None:
            return f'"{ours}" is not in a room, or not named from the top of the source tree'
        return None if target in KNOWS[room] else f"{room} must not include {target}"
    theirs = include["theirs"]
    if theirs in OUTSIDE_WORLD.get(room, ()):
        return f"{room} must not include <{theirs}>: no threads, files or environment there, and no clock in models"
    allowed = next((rooms for start, rooms in LIBRARIES if re.match(start, theirs)), None)
    if allowed is not None and room not in allowed:
        return f"{room} must not know <{theirs}>"
    return None


def complaints(root):
    """All complaints about the tree, as 'file:line: message'."""
    found = []
    for top in ("models", "sim", "tools"):
        for path in sorted((root / top).rglob("*.[ch]pp")):
            name = path.relative_to(root).as_posix()
            if "node_modules" in name:
                continue
            room = room_of(name)
            if room is None:
                found.append(f"{name}:1: not in a room")
                continue
            for number, line in enumerate(path.read_text().splitlines(), 1):
                if message := complaint(room, line):
                    found.append(f"{name}:{number}: {message}")
    return found


if __name__ == "__main__":
    result = complaints(pathlib.Path(sys.argv[1]))
    print("\n".join(result))
    sys.exit(bool(result))
