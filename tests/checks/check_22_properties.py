# SPDX-License-Identifier: MIT
"""What must hold whatever the numbers are."""
import numpy as np

import checking
from checking import CASES, CONFIGS, Check, simulate

PARTS = ("ring_face_outboard", "ring_face_inboard", "ring_mean", "ring_lug", "fastener", "hat_flange", "hat_bell", "hat_face", "hub",
         "pad_outboard", "pad_inboard", "backing_plate", "piston", "caliper", "fluid")


class Properties(Check):
    number = 22
    source = "thermodynamics and symmetry"

    def temperatures(self, result, axle="front"):
        return np.array([result[f"{axle}/temperature/{part}"] for part in PARTS])

    def test_second_law(self):
        """No part gets colder than the air or, once heating ends, hotter than the hottest was (second law)"""
        result = simulate(CASES / "pulses.yaml")
        all_parts = self.temperatures(result)
        rest = result.time >= 34.2
        self.row("coldest part over the run, above air", ">= 0", all_parts.min() - 297.15, all_parts.min() > 297.15 - 0.03, "", "0.03 K", "K")
        hottest = all_parts[:, rest].max(axis=0)
        rise = np.max(np.diff(hottest))
        self.row("largest rise of the hottest part after heating", "<= 0", rise, rise <= 0.03, "", "0.03 K", "K")

    def test_double_mass(self):
        """Twice the mass rises half as far where nothing is lost (first law)"""
        rise = [simulate(CASES / "two_face_slab.yaml", **{"brakes.front.rotor.ring.thickness": f"{t} mm"})
                ["front/temperature/ring_mean"][-1] - 293.15 for t in (20, 40)]
        self.compare("rise of 40 mm over that of 20 mm", 0.5, rise[1] / rise[0], 1e-4)

    def test_symmetry(self):
        """Inboard and outboard sides stay equal where nothing sets them apart (symmetry)"""
        result = simulate(CASES / "pulses.yaml")
        for part in ("ring_face", "pad"):
            off = np.max(np.abs(result[f"front/temperature/{part}_outboard"] - result[f"front/temperature/{part}_inboard"]))
            self.row(f"{part.replace('_', ' ')}, largest difference", 0, 0 if off < 1e-9 else off, off < 1e-6, "round-off" if off < 1e-9 else f"{off:.1g} K",
                     "0.000001 K", "K")

    def test_duct_area(self):
        """A larger duct never makes the ring hotter (monotone cooling)"""
        means = {}
        for area in (0, 15, 30, 60):
            result = simulate(CONFIGS / "demo.yaml", "coarse", **{"brakes.front.cooling.duct_area": f"{area} cm2"})
            means[area] = result["front/temperature/ring_mean"]
            self.curve(f"{area} cm2", result.time[::10], means[area][::10] - 273.15)
        self.picture("time [s]", "ring mean [degC]")
        areas = list(means)
        for small, large in zip(areas, areas[1:]):
            worst = np.max(means[large] - means[small])
            self.row(f"ring mean, {large} cm2 over {small} cm2, largest excess at any moment", "<= 0", worst, worst <= 0.05,
                     f"peak {means[large].max() - means[small].max():+.1f} K", "0.05 K", "K")


if __name__ == "__main__":
    checking.main()
