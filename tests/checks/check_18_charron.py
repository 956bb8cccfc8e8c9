# SPDX-License-Identifier: MIT
"""Check 18: how friction heat splits between ring and pad."""
import math

import checking
from checking import CASES, Check, simulate

RING_AREA, PAD_AREA = math.pi * (0.150 ** 2 - 0.100 ** 2), 60e-4
SHARE = RING_AREA * math.sqrt(50 * 7200 * 500) / (RING_AREA * math.sqrt(50 * 7200 * 500) + PAD_AREA * math.sqrt(4 * 2800 * 900))


def ring_share(scale, **settings):
    """Share of the ring at 0.5 s: well under a tenth of the time that heat takes through ring or pad."""
    bodies = {f"materials.{name}.{key}": f"{value * scale!r} {unit}"
              for name, conductivity, density in (("slab", 50, 7200), ("rubber", 4, 2800))
              for key, value, unit in (("conductivity", conductivity, "W/m/K"), ("density", density, "kg/m3"))}
    result = simulate(CASES / "partition.yaml", "fine", **bodies, **settings)
    return result["front/heat/to_ring"][-1] / result["front/heat/friction"][-1]


class Charron(Check):
    number = 18
    source = "F. Charron 1943 (original not read); effusivity of two semi-infinite bodies"

    def test_charron(self):
        """Heat split between disc and pad in perfect contact, by effusivity, Charron 1943 (original not read)"""
        shares = {scale: ring_share(scale, **{"session.0.heat": f"{1000 * scale} W"}) for scale in (1, 0.1, 0.01, 0.001)}
        self.compare("share of the ring, contact a thousand times as good", SHARE, shares[0.001], 0.01)
        self.compare("share of the pad, contact a thousand times as good", 1 - SHARE, 1 - shares[0.001], 0.01)
        off = [abs(share - SHARE) for share in shares.values()]
        self.row("the better the contact, the closer", "falling", off[-1], all(a > b for a, b in zip(off, off[1:])),
                 " > ".join(f"{e:.2g}" for e in off), "")
        self.compare("partition: effusivity", SHARE, ring_share(1, **{"physics.partition": "effusivity"}), 1e-6)
        self.curve("hatring", [1 / scale for scale in shares], shares.values(), "points")
        self.curve("effusivity", (1, 1000), (SHARE, SHARE))
        self.picture("contact, times as good as assumed", "share of the ring", x_log=True)
        self.remark("The ring's share is nearly one, so the pad's is compared as well. With the contact as it is, 4e4 W/m2/K, half the heat "
                    f"arises on each side of it and the ring's share over the first 0.5 s is {shares[1]:.1%}.")


if __name__ == "__main__":
    checking.main()
