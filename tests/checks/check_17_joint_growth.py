# SPDX-License-Identifier: MIT
"""Check 17: growth of ring against hat."""
import numpy as np

import checking
from checking import CASES, Check, simulate

IRON, ALUMINIUM, RADIUS = 12.5e-6, 24e-6, 0.095


class JointGrowth(Check):
    number = 17
    source = "closed form, expansion 12.5e-6 and 24e-6 per K"

    def test_joint_growth(self):
        """Ring minus hat growth at a bolt circle of 190 mm, closed form"""
        for ring, hat, expected in ((500, 200, 0.160), (100, 200, -0.315), (600, 100, 0.506)):
            parts = {f"initial.{part}": f"{ring} degC" for part in ("ring_mean", "ring_lug")}
            parts |= {f"initial.{part}": f"{hat} degC" for part in ("hat_flange", "hat_bell", "hat_face")}
            result = simulate(CASES / "joint_growth.yaml", **parts)
            self.compare(f"ring {ring} degC, hat {hat} degC", expected, 1e3 * result["front/joint/differential_expansion"][0], 0.002, "mm",
                         relative=False)

    def test_joint_growth_turns(self):
        """A run in which the growth of ring against hat changes its sign, closed form at every moment"""
        result = simulate(CASES / "joint_growth.yaml")
        growth = result["front/joint/differential_expansion"]
        ring, flange, bell = (result[f"front/temperature/{part}"] - 293.15 for part in ("ring_mean", "hat_flange", "hat_bell"))
        free = RADIUS * (IRON * ring - ALUMINIUM * flange)
        held = RADIUS * (IRON * ring - ALUMINIUM * bell)
        outside = np.maximum(np.minimum(free, held) - growth, growth - np.maximum(free, held)).max()
        self.row("largest growth", "> 0", 1e3 * growth.max(), growth.max() > 1e-5, "", "", "mm")
        self.row("smallest growth, in the soak", "< 0", 1e3 * growth.min(), growth.min() < -1e-5 and growth.argmin() > growth.argmax(), "", "", "mm")
        self.row("outside the closed form with the hat's flange free or held by its bell", "<= 0", 1e3 * outside, outside <= 2e-6,
                 f"{1e3 * outside:.2g} mm", "0.002 mm", "mm")
        every = slice(None, None, 100)
        self.curve("hatring", result.time[every], 1e3 * growth[every], "points")
        self.curve("flange free", result.time[every], 1e3 * free[every])
        self.picture("time [s]", "ring minus hat [mm]")


if __name__ == "__main__":
    checking.main()
