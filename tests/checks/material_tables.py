# SPDX-License-Identifier: MIT
"""The shipped material tables, read and interpolated apart from the program."""
import numpy as np
import yaml
from scipy.interpolate import CubicHermiteSpline

import checking


def slopes(x, y):
    """Of the parabola through three neighbours, held between 0 and 3 times the secants beside (Fritsch and Carlson 1980)."""
    h, secant = np.diff(x), np.diff(y) / np.diff(x)
    if len(h) == 1:
        return np.array([secant[0], secant[0]])
    inner = (h[1:] * secant[:-1] + h[:-1] * secant[1:]) / (h[1:] + h[:-1])
    first = secant[0] + (secant[0] - inner[0])
    last = secant[-1] + (secant[-1] - inner[-1])
    raw = np.concatenate([[first], inner, [last]])
    left, right = np.concatenate([secant[:1], secant]), np.concatenate([secant, secant[-1:]])
    limit = 3 * np.minimum(np.abs(left), np.abs(right))
    same = (left * right > 0) & (raw * left > 0)
    return np.where(same, np.sign(left) * np.minimum(np.abs(raw), limit), 0)


class Table:
    """Shape-preserving cubic, held at its ends. Temperatures in K."""

    def __init__(self, entry):
        if isinstance(entry, dict):
            offset = {"degC": 273.15}[entry["temperature"]["unit"]]
            self.at = np.array(entry["temperature"]["values"], float) + offset
            self.values = np.array([float(v) for v in entry["values"]])
        else:
            self.at, self.values = np.array([293.15]), np.array([float(str(entry).split()[0])])
        self.curve = CubicHermiteSpline(self.at, self.values, slopes(self.at, self.values)) if len(self.at) > 1 else None

    def __call__(self, temperature):
        if self.curve is None:
            return np.full_like(np.asarray(temperature, float), self.values[0])
        return self.curve(np.clip(temperature, self.at[0], self.at[-1]))


def load():
    """{name: {"conductivity": Table, "specific_heat": Table}} of every shipped material."""
    out = {}
    for path in sorted((checking.CONFIGS / "materials").glob("*.yaml")):
        for name, material in yaml.safe_load(path.read_text())["materials"].items():
            out[name] = {key: Table(material[key]) for key in ("conductivity", "specific_heat")}
    return out
