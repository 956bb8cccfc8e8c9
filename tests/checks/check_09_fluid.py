# SPDX-License-Identifier: MIT
"""Check 9: least boiling points of brake fluid."""
import checking
from checking import CASES, Check, answers

MINIMA = {"dot3": (205, 140), "dot4": (230, 155), "dot5.1": (260, 180)}  # dry, wet [degC]


class Fluid(Check):
    number = 9
    source = "49 CFR 571.116, from a secondary text (regulation not read)"

    def test_fluid(self):
        """Least dry and wet boiling points by class, 49 CFR 571.116 (secondary text; regulation not read)"""
        for kind, (dry, wet) in MINIMA.items():
            fluid = answers(CASES / "snub.yaml", "lump", **{"brakes.front.fluid.kind": kind})["fluid"]["front"]
            self.compare(f"{kind} dry", dry, fluid["boiling_dry"] - 273.15, 1e-9, "degC", relative=False)
            self.compare(f"{kind} wet", wet, fluid["boiling_wet"] - 273.15, 1e-9, "degC", relative=False)
            self.compare(f"{kind} judged where nothing is said", wet, fluid["boiling_judged"] - 273.15, 1e-9, "degC",
                         relative=False)


if __name__ == "__main__":
    checking.main()
