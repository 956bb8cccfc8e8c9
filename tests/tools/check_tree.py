# SPDX-License-Identifier: MIT
"""check_tree.py ROOT: fails on a top-level entry that has no place there, and on a source file that is too long."""
import pathlib
import subprocess
import sys

TOP_LEVEL = {"CMakeLists.txt", "README.md", "DEVELOPERS.md", "LICENSE", "sim", "models", "configs", "tests", "tools",
             "docs"}
LONGEST = 400  # lines
SOURCES = {".cpp", ".hpp", ".ts", ".mjs", ".py"}


def project_files(root):
    """Root-relative names of all files that git tracks or would add."""
    # The clone may belong to another user than the one who runs the tests.
    listing = subprocess.run(["git", "-c", "safe.directory=*", "ls-files", "-z", "--cached", "--others",
                              "--exclude-standard"], cwd=root, check=True, capture_output=True, text=True).stdout
    return [name for name in listing.split("\0") if name and (root / name).exists()]


def complaints(root, names):
    found = []
    for top in sorted({name.split("/")[0] for name in names}):
        if top not in TOP_LEVEL and not top.startswith("."):
            found.append(f"{top}: has no place at the top level")
    for name in names:
        if pathlib.Path(name).suffix in SOURCES:
            length = len((root / name).read_text().splitlines())
            if length > LONGEST:
                found.append(f"{name}:{LONGEST}: {length} lines, at most {LONGEST} are allowed")
    return found


if __name__ == "__main__":
    top = pathlib.Path(sys.argv[1])
    result = complaints(top, project_files(top))
    print("\n".join(result))
    sys.exit(bool(result))
