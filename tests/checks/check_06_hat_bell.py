# SPDX-License-Identifier: MIT
"""Check 6: the bell of a hat as a fin between two ends."""
import math

import numpy as np

import checking
from checking import CASES, Check, simulate

# cases/hat_bell.yaml over the demo's front rotor.
CONDUCTIVITY, COEFFICIENT, RADIUS, WALL, DEPTH, FACE, FLANGE = 60, 40, 0.076, 0.004, 0.090, 0.0065, 0.007
FLANGE_RADIUS, BORE = 0.174 / 2 + 1.25 * 0.008, 0.033
LENGTH = DEPTH - FACE


class HatBell(Check):
    number = 6
    source = "Incropera, fin between two known ends (from memory); solved anew"

    def test_hat_bell(self):
        """Steady profile of the hat's bell as a fin between flange and face, Incropera (from memory; solved anew)"""
        area = math.pi * (2 * RADIUS - WALL) * WALL
        # Air outside, and half as much inside, over the whole depth of the hat.
        wetted = 1.5 * 2 * math.pi * RADIUS * DEPTH / LENGTH
        m = math.sqrt(COEFFICIENT * wetted / (CONDUCTIVITY * area))
        # From the middle of the flange, and from the middle of the face, to the ends of the wall.
        to_flange = math.log(0.5 * (RADIUS + FLANGE_RADIUS) / RADIUS) / (2 * math.pi * FLANGE * CONDUCTIVITY)
        to_face = math.log(RADIUS / (0.5 * (RADIUS + BORE))) / (2 * math.pi * FACE * CONDUCTIVITY)
        ka = CONDUCTIVITY * area * m
        for mesh, tolerance in (("standard", 0.03), ("fine", 0.01)):
            result = simulate(CASES / "hat_bell.yaml", mesh)
            part = {name: result[f"front/temperature/{name}"] - 293.15 for name in ("hat_flange", "hat_bell", "hat_face")}
            self.assertLess(abs(part["hat_bell"][-1] - part["hat_bell"][-30]), 1e-3, "not steady")
            flange, face = part["hat_flange"][-1], part["hat_face"][-1]
            # theta = A cosh(m x) + B sinh(m x); each end passes on what its resistance lets through.
            c, s = math.cosh(m * LENGTH), math.sinh(m * LENGTH)
            a, b = np.linalg.solve([[1 / to_flange, -ka], [c / to_face + ka * s, s / to_face + ka * c]],
                                   [flange / to_flange, face / to_face])
            mean = (a * s + b * (c - 1)) / (m * LENGTH)
            self.compare(f"mean of the bell above air, flange at {flange:.0f} K, face at {face:.0f} K, {mesh} mesh", mean,
                         part["hat_bell"][-1], tolerance, "K")
        x = np.linspace(0, LENGTH, 60)
        self.curve("fin between the two ends", 1000 * x, a * np.cosh(m * x) + b * np.sinh(m * x))
        self.curve("hatring, mean of the bell", (500 * LENGTH,), (part["hat_bell"][-1],), "points")
        self.curve("mean of the fin", (0, 1000 * LENGTH), (mean, mean))
        self.picture("along the bell, from the flange [mm]", "above air [K]")
        straight = (flange + face) / 2
        self.remark(f"m L = {m * LENGTH:.2f}: without the air a straight profile would have a mean of {straight:.0f} K. Ends are taken from the run.")


if __name__ == "__main__":
    checking.main()
