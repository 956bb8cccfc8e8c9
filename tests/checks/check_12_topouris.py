# SPDX-License-Identifier: MIT
"""Check 12: natural convection of a disc that stands."""
import math

import checking
from checking import CASES, Check, simulate

DENSITY, HEAT, OUTER, INNER, THICKNESS = 7200, 500, 0.150, 0.100, 0.020
AREA = 2 * math.pi * (OUTER ** 2 - INNER ** 2) + 2 * math.pi * (OUTER + INNER) * THICKNESS


class Topouris(Check):
    number = 12
    source = "Topouris et al. 2020, abstract only (original not read): 3 to 5 W/m2/K"

    def test_topouris(self):
        """Convection of a parked disc, radiation excluded, Topouris et al. 2020 (abstract; original not read)"""
        mass = DENSITY * math.pi * (OUTER ** 2 - INNER ** 2) * THICKNESS
        got = []
        for celsius in (100, 150, 200, 250, 300):
            result = simulate(CASES / "parked_ring.yaml", **{"initial.ring_mean": f"{celsius} degC"})
            mean = result["front/temperature/ring_mean"]
            # Between 10 and 60 s: the air in the wheel has found its own temperature, the ring is still as hot as it was.
            loss = mass * HEAT * (mean[10] - mean[60]) / 50
            got.append(loss / (AREA * (0.5 * (mean[10] + mean[60]) - 293.15)))
            self.within(f"mean coefficient at {celsius} degC, all faces", 2.5, 6, got[-1], "W/m2/K")
        self.row("coefficient rises with temperature", "rising", got[-1] - got[0], all(a < b for a, b in zip(got, got[1:])), "", "", "W/m2/K")
        self.curve("hatring", (100, 150, 200, 250, 300), got, "points")
        self.curve("measured range, low", (100, 300), (3, 3))
        self.curve("measured range, high", (100, 300), (5, 5))
        self.picture("disc [degC]", "coefficient [W/m2/K]")
        self.remark("The enclosure factor of 0.6 was chosen with this range in mind: the check guards the level, it does not prove it.")


if __name__ == "__main__":
    checking.main()
