# SPDX-License-Identifier: MIT
"""sweep_picture.py SWEEP.h5 OUT.svg: the picture of docs/how-to/sweep.md, from the result of configs/sweeps/ducts_pads_pace.yaml.

Needs h5py and matplotlib.
"""
import sys

import h5py
import matplotlib

matplotlib.use("svg")
matplotlib.rcParams["svg.hashsalt"] = "hatring"
import matplotlib.pyplot as plt  # noqa: E402  after the backend is chosen

DUCT, PADS, PACE = "brakes.front.cooling.duct_area", "brakes.front.pads", "session.1.pace"
STYLES = ("o:", "s--", "^-.", "D-")

with h5py.File(sys.argv[1]) as file:
    pads = [name.decode() for name in file["parameter"][PADS]]
    ducts = [name.decode() for name in file["label"][DUCT]]
    pace, used = 100 * file["parameter"][PACE][()], 100 * file["measure/closest"][()]

figure, panels = plt.subplots(1, len(set(pads)), figsize=(9, 3.6), sharey=True)
for panel, pad in zip(panels, dict.fromkeys(pads)):
    for duct, style in zip(dict.fromkeys(ducts), STYLES):
        rows = [i for i in range(len(pads)) if (pads[i], ducts[i]) == (pad, duct)]
        panel.plot(pace[rows], used[rows], style, color="black", markersize=4, linewidth=1, label=duct)
    panel.axhline(100, color="black", linewidth=2)
    panel.set(title=f"{pad} pads", xlabel="pace of the hot laps, %", yscale="log", ylim=(85, 900))
panels[0].set_yticks([100, 200, 400, 800], ["100", "200", "400", "800"])
panels[0].set_ylabel("used of the closest limit, %")
panels[0].legend(title="front duct")
figure.tight_layout()
figure.savefig(sys.argv[2], metadata={"Date": None})
