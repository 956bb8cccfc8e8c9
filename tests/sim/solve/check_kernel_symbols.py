#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""check_kernel_symbols.py NM OBJECT...   A kernel may offer its own functions and nothing that the linker could share.

A template that is instantiated in an object for a wide instruction set becomes a weak symbol, and the linker may take
that copy for the whole program: then an older machine stops with an illegal instruction.
"""
import subprocess
import sys


def offered(nm, path):
    for line in subprocess.run([nm, path], check=True, capture_output=True, text=True).stdout.splitlines():
        kind, name = line.split()[-2:]
        if kind not in "tTdDrRbBUa":
            yield f"{kind} {name} could be shared with other code"
        elif kind == "T" and "kernel" not in name:
            yield f"{kind} {name} is not a function of the kernel's"


if len(sys.argv) < 3:
    sys.exit("no object to look at")
wrong = [f"{path}: {problem}" for path in sys.argv[2:] for problem in offered(sys.argv[1], path)]
print("\n".join(wrong) or f"{len(sys.argv) - 2} kernels keep to themselves")
sys.exit(bool(wrong))
