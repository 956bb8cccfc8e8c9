# SPDX-License-Identifier: MIT
"""Check 23: the order at which the face temperature converges with the number of layers."""
import math

import checking
from checking import Check, run


class MeshOrder(Check):
    number = 23
    source = "Fourier series with Duhamel's integral; tests/sim/network/mesh_order.cpp"

    def test_mesh_order(self):
        """Observed order of convergence with the mesh, face of the two-face slab against its Fourier series"""
        meshes = [line.split() for line in run("MESH_ORDER").splitlines()]
        errors = [(int(n), abs(float(got) / float(exact) - 1)) for n, got, exact in meshes]
        self.compare("the series itself, against the value tabulated for 2.5 s", 180.616, float(meshes[0][2]), 1e-5, "K")
        self.curve("hatring", [n for n, _ in errors], [math.log10(error) for _, error in errors], "points")
        self.curve("second order", (8, 64), [math.log10(errors[1][1] * (8 / n) ** 2) for n in (8, 64)])
        self.picture("layers", "log10 of the error", x_log=True)
        for (coarse, before), (fine, after) in zip(errors, errors[1:]):
            least = 1.8 if coarse >= 8 else 1.6  # the coarsest pair is not yet in the converging range
            order = math.log(before / after) / math.log(fine / coarse)
            self.row(f"order from {coarse} to {fine} layers (error {before:.2e} to {after:.2e})", "2", order, order > least, "", f"above {least}")


if __name__ == "__main__":
    checking.main()
