# SPDX-License-Identifier: MIT
"""The convection of one wheel, written from the published formulas apart from the program (sources: docs/theory.md, section 3).

Only what the program assumes about a wheel (areas, shares, which law cools what) is shared with it. Everything takes arrays of
temperature differences (surface minus air, K) and gives W/m2/K, or W/K where it says so.
"""
import numpy as np

GRAVITY, GAS = 9.80665, 287.05


class Air:
    """Ideal gas, Sutherland viscosity and conductivity (White), specific heat by Cengel and Boles; from memory."""

    def __init__(self, temperature, pressure):
        self.temperature = t = np.asarray(temperature, float)
        ratio = (t / 273.15) ** 1.5
        self.density = pressure / (GAS * t)
        self.conductivity = 0.0241 * ratio * (273.15 + 194) / (t + 194)
        self.heat = 1000 / 28.97 * (28.11 + 0.1967e-2 * t + 0.4802e-5 * t ** 2 - 1.966e-9 * t ** 3)
        viscosity = 1.716e-5 * ratio * (273.15 + 110.4) / (t + 110.4)
        self.nu = viscosity / self.density
        self.prandtl = viscosity * self.heat / self.conductivity


def power(re, exponent, low=100.0):
    """re ** exponent, starting as a parabola under `low`."""
    x = np.minimum(re / low, 1)
    return np.where(re >= low, np.maximum(re, low) ** exponent, low ** exponent * x ** 2 * (3 - exponent - (2 - exponent) * x))


def mixed(re, middle, width, laminar, turbulent):
    s = np.clip(np.log(np.maximum(re, 1e-9) / middle) / width + 0.5, 0, 1)
    weight = s * s * (3 - 2 * s)
    return (1 - weight) * laminar + weight * turbulent


def combined(natural, forced):
    return np.cbrt(natural ** 3 + forced ** 3)


def disc(omega, radius, air):
    re = omega * radius ** 2 / air.nu
    return mixed(re, 2.4e5, 0.5, 0.33 * power(re, 0.5), 0.0194 * re ** 0.8) * air.conductivity / radius


def plate(speed, length, air):
    re = speed * length / air.nu
    laminar, turbulent = 0.664 * power(re, 0.5), 0.037 * re ** 0.8
    return mixed(re, 5e5, np.log(4), laminar, turbulent) * np.cbrt(air.prandtl) * air.conductivity / length


def cylinder(speed, size, air):
    """Churchill and Bernstein 1977."""
    re, pr = speed * size / air.nu, air.prandtl
    nusselt = 0.3 + 0.62 * power(re, 0.5, 1.0) * np.cbrt(pr) / (1 + (0.4 / pr) ** (2 / 3)) ** 0.25 * (1 + (re / 282000) ** 0.625) ** 0.8
    return nusselt * air.conductivity / size


def natural_plate(surface, ambient, height, pressure):
    """Churchill and Chu 1975."""
    air = Air((surface + ambient) / 2, pressure)
    rayleigh = GRAVITY / air.temperature * np.abs(surface - ambient) * height ** 3 / air.nu ** 2 * air.prandtl
    root = 0.825 + 0.387 * rayleigh ** (1 / 6) / (1 + (0.492 / air.prandtl) ** (9 / 16)) ** (8 / 27)
    return root ** 2 * air.conductivity / height


class Wheel:
    """Laws by the names that the network gives them."""

    def __init__(self, ambient, pressure, wind, tyre_radius, ring, hat_diameter, pad_area, duct_area):
        self.ambient, self.pressure, self.wind, self.tyre, self.ring = ambient, pressure, wind, tyre_radius, ring
        self.duct_area = duct_area
        self.size = {"pad edge": pad_area ** 0.5, "caliper": 0.12, "hat and hub": hat_diameter, "bell": hat_diameter, "wheel": 0.4}
        self.outside = Air(ambient, pressure)

    def film(self, difference):
        return Air(np.maximum(self.ambient + difference / 2, 150), self.pressure)

    def natural(self, difference, height):
        return 0.6 * natural_plate(np.maximum(self.ambient + difference, 120), self.ambient, height, self.pressure)

    def __call__(self, law, speed, difference):
        difference = np.asarray(difference, float)
        omega, diameter = speed / self.tyre, self.ring["outer"] * 2
        if law.startswith("ring face"):
            inner, outer = float(law.split()[2]), float(law.split()[4])
            film = self.film(difference)
            # Mean over the band by a fine midpoint rule.
            r = inner + (outer - inner) * (np.arange(200)[:, None] + 0.5) / 200
            free = np.sum(disc(omega, r, film) * r, axis=0) / np.sum(r)
            re = speed * diameter / film.nu
            road = mixed(re, 2.4e5, 0.5, 0.70 * power(re, 0.55), 0.04 * re ** 0.8) * film.conductivity / diameter
            forced = combined(free ** 0.35 * road ** 0.65, plate(0.3 * self.wind, diameter, film))
            return combined(self.natural(difference, diameter), forced)
        if law in ("ring rim", "ring bore"):
            radius = self.ring["outer" if law == "ring rim" else "bore"]
            return combined(self.natural(difference, radius), disc(omega, radius, self.film(difference)))
        if law == "vane passages":  # W/K
            return combined(self.still(difference), self.pumped(omega))
        if law == "duct into the eye":  # W/K
            velocity = 0.2 * speed
            carried = self.outside.density * self.duct_area * velocity * self.outside.heat
            if carried <= 0:
                return np.zeros_like(difference)
            wall = self.wetted() * plate(velocity * self.duct_area / self.inlet(), self.ring["outer"] - self.ring["bore"], self.film(difference))
            return carried * (1 - np.exp(-wall / carried))
        if law == "air exchange of the wheel":  # W/K
            flow = np.hypot(0.0075 * speed, 0.006 * self.wind) + 0.004 * np.sqrt(np.hypot(difference, 1) / 100)
            return self.outside.density * self.outside.heat * flow
        size = self.size[law]
        air_speed = np.hypot(0.25 * speed, 0.3 * self.wind)
        return combined(self.natural(difference, size), cylinder(air_speed, size, self.film(difference)))

    def passage(self):
        """Width at mid radius, height and number of passages, length."""
        r = self.ring
        width = np.pi * (r["outer"] + r["bore"]) / r["vanes"] - r["vane"]
        return width, r["height"], r["vanes"], r["outer"] - r["bore"]

    def wetted(self):
        width, height, count, length = self.passage()
        return 2 * count * length * (width + height)

    def inlet(self):
        r = self.ring
        return (2 * np.pi * r["bore"] - r["vanes"] * r["vane"]) * r["height"]

    def still(self, difference):
        return 0.5 * self.wetted() * self.natural(difference, self.ring["outer"] - self.ring["bore"])

    def pumped(self, omega):
        r = self.ring
        width, height, count, _ = self.passage()
        head = omega * np.sqrt(r["outer"] ** 2 - r["bore"] ** 2)
        carried = 0.5 * self.outside.density * self.inlet() * head * self.outside.heat
        if carried <= 0:
            return 0.0
        hydraulic = 2 * width * height / (width + height)
        nusselt = np.cbrt(3.66 ** 3 + (4.7735e-3 * power(head * hydraulic / self.outside.nu, 0.97)) ** 3)
        return carried * (1 - np.exp(-nusselt * self.outside.conductivity / hydraulic * self.wetted() / carried))
