# SPDX-License-Identifier: MIT
"""Check 26: a computed lap against the same car integrated over time by another program."""
import json
import math
import os
import pathlib
import subprocess
import tempfile

import numpy
import yaml
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

import checking
from checking import Check

GRAVITY = 9.80665
MASS, ROTATING, DRAG_AREA, ROLLING = 1050, 1.04, 0.65, 0.012
POWER, GRIP, LIFT, BRAKING = 150e3, 1.15, -0.8, 0.85
REAR, TRANSFER = 0.52, 0.46 / 2.45
RADIUS, STRAIGHT = 28, 700
DENSITY = 1013e2 / (287.05 * 297.15)

CAR = f"""car: {{mass: {MASS} kg, rotating_factor: {ROTATING}, drag_area: {DRAG_AREA} m2, rolling_resistance: {ROLLING}, front_mass_fraction: {1 - REAR},
  cg_height: 0.46 m, wheelbase: 2.45 m, driven: rear, power: {POWER} W, drive_efficiency: 1, grip: {GRIP}, lift_area: {LIFT} m2,
  braking_share: {BRAKING}}}
air: {{temperature: 24 degC, pressure: 1013 hPa}}
"""
TRACK = f"""track:
  segments:
    - {{straight: {STRAIGHT} m}}
    - {{corner: left, radius: {RADIUS} m, angle: 180 deg}}
    - {{straight: {STRAIGHT} m}}
    - {{corner: left, radius: {RADIUS} m, angle: 180 deg}}
"""


def load(v):
    return MASS * GRAVITY - DENSITY * LIFT * v * v / 2


def held(v):
    return DENSITY * DRAG_AREA * v * v / 2 + ROLLING * MASS * GRAVITY


def throttle(v):
    """Of the rear wheels' own balance: their load depends on the acceleration that they make."""
    def unbalanced(a):
        wheels = GRIP * (REAR * load(v) + TRANSFER * MASS * a)
        return min(POWER / v, wheels) - held(v) - MASS * ROTATING * a
    return brentq(unbalanced, -20, 20)


def braking(v):
    return (BRAKING * GRIP * load(v) + held(v)) / (MASS * ROTATING)


def cornering():
    """The speed that takes all grip when the drive force that holds it is counted."""
    return brentq(lambda v: math.hypot(MASS * v * v / RADIUS, held(v)) - GRIP * load(v), 5, 60)


def ride(rate, start):
    """Distance and time against speed from the corner's end, forwards, or backwards in time for a car that brakes."""
    return solve_ivp(lambda _, y: [y[1], rate(y[1])], (0, 60), [0, start], rtol=1e-8, atol=1e-8, dense_output=True, max_step=0.05).sol


class Lap(Check):
    number = 26
    source = "time integration by scipy, explicit Runge-Kutta 4(5); SciPy 1.0, Virtanen et al. 2020 (original not read)"

    def test_lap(self):
        """A lap between two hairpins with downforce, driven rear wheels and drag, against scipy"""
        corner = cornering()
        out = ride(throttle, corner)
        back = ride(braking, corner)  # backwards in time the braking car speeds up
        at = lambda sol, s: brentq(lambda t: sol(t)[0] - s, 0, 59)
        meet = brentq(lambda s: out(at(out, s))[1] - back(at(back, STRAIGHT - s))[1], 100, STRAIGHT - 10)
        time = 2 * (at(out, meet) + at(back, STRAIGHT - meet) + math.pi * RADIUS / corner)
        top = float(out(at(out, meet))[1])
        with tempfile.TemporaryDirectory() as folder:
            folder = pathlib.Path(folder)
            (folder / "track.yaml").write_text(TRACK)
            (folder / "car.yaml").write_text(CAR)
            done = subprocess.run([os.environ["HATRING"], "lap", folder / "track.yaml", folder / "car.yaml", "--out", folder / "t.yaml",
                                   "--json"], capture_output=True, text=True, timeout=60, check=True)
            lap = json.loads(done.stdout)
            trace = yaml.safe_load((folder / "t.yaml").read_text())["trace"]
        self.compare("lap time [s]", time, lap["time"], 5e-4)
        self.compare("top speed [m/s]", top, lap["top_speed"], 1e-3)
        self.compare("corner speed [m/s]", corner, lap["corners"][0]["speed"], 1e-3)
        distance = numpy.array(trace["distance"]["values"])
        speed = numpy.array(trace["speed"]["values"]) / 3.6
        places = numpy.linspace(5, STRAIGHT - 5, 60)
        known = [float(out(at(out, s))[1]) if s < meet else float(back(at(back, STRAIGHT - s))[1]) for s in places]
        off = numpy.max(numpy.abs(numpy.interp(places, distance, speed) - known))
        self.row("largest difference along the straight [m/s]", "below 0.05", off, off < 0.05, f"{off:.3f}", "")
        self.curve("hatring", distance[distance <= STRAIGHT], speed[distance <= STRAIGHT])
        self.curve("scipy", places, known, "points")
        self.picture("distance [m]", "speed [m/s]")
        self.remark("Downforce, drag, rolling resistance, power and the load that acceleration brings to the driven rear wheels are in; scipy "
                    "integrates over time, forwards from one corner and backwards from the next, hatring over distance.")


if __name__ == "__main__":
    checking.main()
