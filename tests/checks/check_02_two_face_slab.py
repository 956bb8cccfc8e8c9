# SPDX-License-Identifier: MIT
"""Check 2: a slab heated on both faces by a flux that falls linearly to nothing."""
import numpy as np
from scipy.integrate import quad

import checking
from checking import CASES, Check, exported, simulate

CONDUCTIVITY, DENSITY, HEAT, HALF, FLUX, STOP = 50, 7200, 500, 0.010, 2e6, 5.0
# Time, face, middle: made beforehand from the same series by another hand.
TABLE = ((0.5, 111.012, 0.657), (1.0, 145.796, 8.963), (2.5, 180.616, 62.651), (4.0, 172.414, 109.186), (5.0, 151.591, 127.787))
PEAK, PEAK_TIME = 181.474, 2.85


def rise(t, x):
    """Fourier's series for a constant flux, and Duhamel's integral for its fall. x from the mid-plane."""
    diffusivity = CONDUCTIVITY / (DENSITY * HEAT)
    n = np.arange(1, 400)
    rate = n ** 2 * np.pi ** 2 * diffusivity / HALF ** 2
    shape = (-1.0) ** n / n ** 2 * np.cos(n * np.pi * x / HALF)

    def constant(s):
        return FLUX * HALF / CONDUCTIVITY * (diffusivity * s / HALF ** 2 + x ** 2 / (2 * HALF ** 2) - 1 / 6
                                             - 2 / np.pi ** 2 * np.sum(shape * np.exp(-rate * s)))

    return constant(t) - quad(constant, 0, t, limit=200, epsabs=1e-9)[0] / STOP


class TwoFaceSlab(Check):
    number = 2
    source = "Fourier series with Duhamel's integral, computed independently"

    def test_two_face_slab(self):
        """Slab heated on both faces by a linearly falling flux, Fourier series computed independently"""
        for t, face, middle in TABLE:
            self.assertAlmostEqual(rise(t, HALF), face, delta=0.005)
            self.assertAlmostEqual(rise(t, 0), middle, delta=0.005)
        for mesh, tolerance in (("standard", 0.03), ("fine", 0.01)):
            result = simulate(CASES / "two_face_slab.yaml", mesh)
            got = result["front/temperature/ring_face_outboard"] - 293.15
            self.compare(f"peak of the face, {mesh} mesh", PEAK, got.max(), tolerance, "K")
            self.compare(f"time of the peak, {mesh} mesh", PEAK_TIME, result.time[got.argmax()], 0.02, "s")
            for t, face, _ in TABLE:
                self.compare(f"face at {t} s, {mesh} mesh", face, np.interp(t, result.time, got), tolerance, "K")
            stored = FLUX * STOP / 2 / (DENSITY * HEAT * HALF)
            self.compare(f"mean at 5 s, {mesh} mesh", stored, result["front/temperature/ring_mean"][-1] - 293.15, 1e-5, "K")
        self.curve("hatring, fine mesh", result.time[::4], got[::4], "points")
        self.curve("series, face", result.time[1:], [rise(t, HALF) for t in result.time[1:]])
        self.curve("series, middle", result.time[1:], [rise(t, 0) for t in result.time[1:]])
        self.picture("time [s]", "above start [K]")

    def test_two_face_slab_middle(self):
        """Middle of a slab heated on both faces, Fourier series computed independently (nodes of the network)"""
        net = exported(CASES / "two_face_slab.yaml", mesh="fine", interval=0.5)
        inner = max(n["name"] for n in net["nodes"] if n["name"].startswith("ring.outboard.band3.layer")
                    and len(n["name"]) == len("ring.outboard.band3.layer10"))
        layers = [i for i, n in enumerate(net["nodes"]) if n["name"] == inner]
        thickness = next(n["mass"] for n in net["nodes"] if n["name"] == inner) / sum(
            n["mass"] for n in net["nodes"] if n["name"].startswith("ring.outboard.band3.")) * HALF
        for t, _, _ in TABLE[1:]:
            mean = np.mean([rise(t, x) for x in (np.arange(8) + 0.5) / 8 * thickness])
            got = net["temperature"][net["time"].index(t)][layers[0]] - 293.15
            self.compare(f"innermost layer at {t} s, fine mesh", mean, got, 0.01, "K")


if __name__ == "__main__":
    checking.main()
