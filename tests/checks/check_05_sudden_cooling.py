# SPDX-License-Identifier: MIT
"""Check 5: a plane wall put into cold air."""
import math

import numpy as np
from scipy.optimize import brentq

import checking
from checking import CASES, Check, simulate

HALF, CONDUCTIVITY, DIFFUSIVITY = 0.001, 0.5, 0.5e-6
# The network's convection acts on the middle of the outermost layer, so what the config gives is the coefficient in series with half
# that layer: ten layers, each 1.7^0.1 times the one outside it.
GROWTH = 1.7 ** 0.1
HALF_LAYER = 0.5 * HALF * (GROWTH - 1) / (GROWTH ** 10 - 1)
BARE = 0.88   # of each face; pads and caliper cover the rest, spread evenly over a turning disc
# Biot number: zeta, C of the first term, as the tables have them.
TABLE = {0.05: (0.2218, 1.0082), 0.1: (0.3111, 1.0161), 0.2: (0.4328, 1.0311), 0.5: (0.6533, 1.0701), 1: (0.8603, 1.1191), 2: (1.0769, 1.1785),
         5: (1.3138, 1.2402), 10: (1.4289, 1.2620)}


class SuddenCooling(Check):
    number = 5
    source = "Incropera, table of one-term coefficients (from memory), recomputed"

    def test_sudden_cooling(self):
        """Sudden cooling of a slab, first-term coefficients for Biot 0.1 to 10, Incropera and Heisler (tables from memory)"""
        for biot, (zeta, c) in TABLE.items():
            exact = brentq(lambda z: z * math.tan(z) - biot, 1e-6, math.pi / 2 - 1e-6)
            self.assertAlmostEqual(zeta, exact, delta=1e-4)
            self.assertAlmostEqual(c, 4 * math.sin(exact) / (2 * exact + math.sin(2 * exact)), delta=1e-4)
            coefficient = biot * CONDUCTIVITY / HALF
            if biot >= 0.1:
                coefficient /= 1 + coefficient * HALF_LAYER / CONDUCTIVITY
            result = simulate(CASES / "sudden_cooling.yaml", "fine",
                              **{"physics.convection.constant": f"{coefficient / BARE!r} W/m2/K"})
            mean = (result["front/temperature/ring_mean"] - 293.15) / 200
            fourier = DIFFUSIVITY * result.time / HALF ** 2
            closed = c * math.sin(zeta) / zeta * np.exp(-zeta ** 2 * fourier)
            late = fourier >= 0.2
            off = mean[late] - closed[late]
            worst = off[np.argmax(np.abs(off))]
            self.row(f"Biot {biot}: mean of the wall from Fourier 0.2 on, of the first difference", 0, worst, abs(worst) <= 0.01,
                     f"{worst:+.2%}", "1 %")
            if biot in (0.1, 1, 10):
                self.curve(f"hatring, Biot {biot}", fourier[::6], mean[::6], "points")
                self.curve(f"first term, Biot {biot}", fourier[late], closed[late])
        self.picture("Fourier number", "mean, of the first difference")
        self.remark("Pads and caliper are taken to cover 12 % of each face, so the wall sees 0.88 of the coefficient; the rims, half a per "
                    "cent of the area, are left out of the closed form. Convection acts on the middle of the outermost layer; from Biot 0.1 "
                    "on the test takes half that layer off the coefficient. Without that Biot 1 would be 1.4 % off and Biot 10 4.3 %. A brake "
                    "disc in air has a Biot number of about 0.02, where it makes no difference.")


if __name__ == "__main__":
    checking.main()
