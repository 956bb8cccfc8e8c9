# SPDX-License-Identifier: MIT
"""Check 1: a semi-infinite body under a flux that falls linearly to nothing."""
import math

import numpy as np

import checking
from checking import CASES, Check, simulate

FLUX, STOP, EFFUSIVITY = 2e6, 1.5, math.sqrt(50 * 7200 * 500)


def surface_rise(t):
    return 2 * FLUX * np.sqrt(t) / (math.sqrt(math.pi) * EFFUSIVITY) * (1 - 2 * t / (3 * STOP))


class Newcomb(Check):
    number = 1
    source = "T. P. Newcomb 1958/59 (original not read); closed form derived anew"

    def test_newcomb(self):
        """Semi-infinite body under a linearly falling flux, Newcomb 1958/59 (original not read; closed form)"""
        peak = 0.53192 * FLUX * math.sqrt(STOP) / EFFUSIVITY
        errors = []
        for mesh in ("lump", "coarse", "standard", "fine"):
            result = simulate(CASES / "newcomb.yaml", mesh)
            rise = result["front/temperature/ring_face_outboard"] - 293.15
            i = int(rise.argmax())
            # Over the whole stop, so that no mesh looks good by crossing the closed form at its peak.
            errors.append(np.sqrt(np.mean((rise - surface_rise(result.time)) ** 2)) / peak)
            if mesh == "fine":
                self.compare("peak of the face, fine mesh", peak, rise[i], 0.01, "K")
                # The peak is flat: three points about it place it between rows.
                a, b, c = rise[i - 1:i + 2]
                at = result.time[i] + 0.0125 * 0.5 * (a - c) / (a - 2 * b + c)
                self.compare("time of the peak, fine mesh", STOP / 2, at, 0.02, "s")
                every = slice(None, None, 4)
                self.curve("hatring, fine mesh", result.time[every], rise[every], "points")
                self.curve("closed form", result.time, surface_rise(result.time))
                self.picture("time [s]", "face above start [K]")
        self.row("error (root mean square over the stop) falls with every finer mesh", "lump > coarse > standard > fine", errors[-1],
                 all(a > b for a, b in zip(errors, errors[1:])), " > ".join(f"{e:.2%}" for e in errors), "")


if __name__ == "__main__":
    checking.main()
