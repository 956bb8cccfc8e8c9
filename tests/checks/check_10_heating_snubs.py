# SPDX-License-Identifier: MIT
"""Check 10: energy of snubs."""
import numpy as np

import checking
from checking import CASES, CONFIGS, Check, simulate

FAST, SLOW, DECELERATION, EVERY, GRAVITY = 120 / 3.6, 60 / 3.6, 3.0, 45.0, 9.80665
# The demo's car.
MASS, ROTATING, DRAG_AREA, ROLLING, ENGINE, SLIP = 935, 1.05, 0.62, 0.013, 310, 0.05


def heat(result, until=None):
    """Friction heat of all four wheels [J]."""
    row = -1 if until is None else int(np.searchsorted(result.time, until))
    return sum(2 * result[f"{axle}/heat/friction"][row] for axle in ("front", "rear"))


class HeatingSnubs(Check):
    number = 10
    source = "49 CFR 571.135 (numbers from memory, regulation text not read); closed form"

    def test_snub_energy(self):
        """Energy of one snub, all resistances off, 49 CFR 571.135 heating snubs (numbers from memory; closed form)"""
        result = simulate(CASES / "snub.yaml", "coarse")
        self.compare("heat of all four brakes, 1500 kg from 120 to 60 km/h", 0.5 * 1500 * (FAST ** 2 - SLOW ** 2) / 1e3,
                     heat(result) / 1e3, 0.005, "kJ")

    def test_heating_snubs(self):
        """Fifteen heating snubs equal kinetic energy less drag, rolling and engine, 49 CFR 571.135 (numbers from memory)"""
        result = simulate(CONFIGS / "duties" / "heating_snubs.yaml", "coarse", **{"output.interval": "0.25 s"})
        density = 101300 / (287.05 * (273.15 + 24))
        kinetic = 0.5 * MASS * ROTATING * (FAST ** 2 - SLOW ** 2)
        distance = (FAST ** 2 - SLOW ** 2) / (2 * DECELERATION)
        # v = FAST - DECELERATION t: the integral of v^3 dt is that of v^3 dv / DECELERATION.
        drag = 0.5 * density * DRAG_AREA * (FAST ** 4 - SLOW ** 4) / (4 * DECELERATION)
        rolling = MASS * GRAVITY * ROLLING * distance
        one = (kinetic - drag - rolling - ENGINE * distance) * (1 - SLIP)
        self.compare("first snub, all four brakes", one / 1e3, heat(result, 30) / 1e3, 0.005, "kJ")
        self.compare("fifteen snubs", 15 * one / 1e3, heat(result, 14 * EVERY + 30) / 1e3, 0.005, "kJ")
        self.remark(f"One snub: kinetic {kinetic / 1e3:.1f} kJ, drag {drag / 1e3:.1f}, rolling {rolling / 1e3:.1f}, engine "
                    f"{ENGINE * distance / 1e3:.1f}, and {SLIP:.0%} of the rest into the tyres.")
        driving = result.time <= 15 * EVERY
        for axle in ("front", "rear"):
            self.curve(f"{axle} ring, mean", result.time[driving][::4], result[f"{axle}/temperature/ring_mean"][driving][::4] - 273.15)
        self.picture("time [s]", "temperature [degC]")


if __name__ == "__main__":
    checking.main()
