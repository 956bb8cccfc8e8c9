# SPDX-License-Identifier: MIT
"""Mesh study: the demo on three meshes."""
import checking
from checking import CONFIGS, Check, answers, exported

AIR = 297.15  # of the demo
BULK = ("ring_mean", "ring_lug", "fastener", "hat_flange", "hat_bell", "pad_outboard", "backing_plate", "caliper", "fluid")


class MeshStudy(Check):
    number = 21
    source = "comparison of hatring's own meshes"

    def test_mesh_study(self):
        """Mesh study on the demo: peaks of the standard mesh against the fine one (comparison with itself)"""
        peaks = {mesh: answers(CONFIGS / "demo.yaml", mesh)["peaks"] for mesh in ("coarse", "standard", "fine")}

        def rise(mesh, axle, part):
            return peaks[mesh][axle][part]["value"] - AIR
        nodes = {mesh: len(exported(CONFIGS / "demo.yaml", mesh=mesh, interval=60)["nodes"]) for mesh in peaks}
        for part in ("ring_face_outboard", "ring_mean", "hat_flange", "fluid"):
            self.curve(part.replace("_", " "), nodes.values(),
                       [100 * (rise(mesh, "front", part) / rise("fine", "front", part) - 1) for mesh in peaks], "points")
        self.picture("nodes of the front wheel", "peak against the fine mesh [%]", x_log=True)
        for axle in ("front", "rear"):
            for part in (*BULK, "ring_face_outboard"):
                tolerance = 0.03 if "face_outboard" in part else 0.01
                fine, coarse = rise("fine", axle, part), rise("coarse", axle, part)
                self.compare(f"{axle} {part.replace('_', ' ')}, peak above air (coarse mesh {coarse / fine - 1:+.1%})",
                             fine, rise("standard", axle, part), tolerance, "K")


if __name__ == "__main__":
    checking.main()
