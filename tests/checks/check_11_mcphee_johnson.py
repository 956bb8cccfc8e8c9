# SPDX-License-Identifier: MIT
"""Check 11: what the vane passages lose against the outside of a vented ring."""
import math

import checking
from checking import CASES, Check, exported

RPM, MEASURED, SHARE = (342, 684, 1025), (27.0, 52.7, 78.3), (0.455, None, 0.554)
OUTER, INNER, HEIGHT, VANES, THICKNESS = 0.150, 0.090, 0.010, 36, 0.006
WETTED = 2 * (math.pi * (OUTER ** 2 - INNER ** 2) - VANES * THICKNESS * (OUTER - INNER)) + 2 * VANES * (OUTER - INNER) * HEIGHT


class McPheeJohnson(Check):
    number = 11
    source = "McPhee and Johnson, Int. J. Thermal Sciences 47 (2008) 458, abstract only (original and geometry not read)"

    def test_mcphee_johnson(self):
        """Vane cooling against speed and its share, McPhee and Johnson 2008 (abstract; original and geometry not read)"""
        net = exported(CASES / "vented_rig.yaml", speeds=[n * 2 * math.pi / 60 * 0.3 for n in RPM])
        inside, outside = [], []
        for values in net["conductance"]:
            by_law = {}
            for surface, value in zip(net["surfaces"], values):
                if net["nodes"][surface["node"]]["name"].startswith("ring"):
                    by_law[surface["law"]] = by_law.get(surface["law"], 0) + value
            inside.append(by_law.pop("vane passages"))
            outside.append(sum(by_law.values()))
        level = [g / WETTED for g in inside]
        shares = [i / (i + o) for i, o in zip(inside, outside)]
        for k in (1, 2):
            self.compare(f"vane coefficient at {RPM[k]} over {RPM[0]} rpm", MEASURED[k] / MEASURED[0], level[k] / level[0], 0.10)
        self.row("share of the passages rises with speed", "rising", shares[2] - shares[0], shares[0] < shares[1] < shares[2],
                 f"{shares[0]:.1%}, {shares[1]:.1%}, {shares[2]:.1%}", "trend")
        self.curve("hatring, by inlet air", RPM, level, "points")
        self.curve("measured", RPM, MEASURED, "points")
        self.picture("rpm", "vane coefficient [W/m2/K]")
        self.remark("Levels, with the geometry assumed: " + ", ".join(
            f"{n} rpm {h:.1f} W/m2/K and {share:.1%} (measured {m}{f' and {known:.1%}' if known else ''})"
            for n, h, share, m, known in zip(RPM, level, shares, MEASURED, SHARE)) + ".")
        self.remark("Not independent: the law's slope and level and the weight of the outside laws were fitted to this very abstract, for a ring "
                    "of invented usual proportions (300 x 180 mm, 36 vanes of 6 mm, 10 mm gap). The check guards the fit as the network uses it. "
                    "hatring's coefficient counts the warming of the passage air, so it lies below the wall coefficient that was fitted.")


if __name__ == "__main__":
    checking.main()
