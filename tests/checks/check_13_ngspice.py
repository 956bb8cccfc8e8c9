# SPDX-License-Identifier: MIT
"""Check 13: the linear network as a circuit: heat capacities are capacitors, links resistors, heat flows currents."""
import pathlib
import re
import shutil
import subprocess
import tempfile
import unittest

import numpy as np

import checking
import material_tables
from checking import CASES, Check, exported


def netlist(net, end, step):
    """Temperatures above the air as volts, watts as amperes. Where the pads' pressure makes a contact, a switch adds its conductance."""
    tables = material_tables.load()
    k = [float(tables[node['material']]['conductivity'](293.15)) for node in net['nodes']]
    lines = ["network of one wheel"]
    for i, node in enumerate(net["nodes"]):
        lines.append(f"C{i} n{i} 0 {node['capacity']!r} IC={node['temperature'] - net['ambient']!r}")
    load = net["load"]
    wave = " ".join(f"{t!r} {max(applied, 0)!r}" for t, applied in spread(load, 3))
    lines.append(f"Vapplied applied 0 PWL({wave})")
    for i, l in enumerate(net["links"]):
        solid = l["shape_a"] / k[l["a"]] + l["shape_b"] / k[l["b"]]
        if l["pressed"] > 0:
            conductance = f"1/({solid!r}+1/({1 / l['resistance']!r}+{l['pressed']!r}*V(applied)))"
            lines.append(f"BL{i} n{l['a']} n{l['b']} I=V(n{l['a']},n{l['b']})*{conductance}")
        else:
            lines.append(f"RL{i} n{l['a']} n{l['b']} {solid + l['resistance']!r}")
    for i, (surface, conductance) in enumerate(zip(net["surfaces"], net["conductance"][0])):
        if conductance > 0:  # a duct blows nothing where convection is fixed
            lines.append(f"RS{i} n{surface['node']} {'0' if surface['air'] < 0 else 'n' + str(surface['air'])} {1 / conductance!r}")
    power = [0.0] * len(net["nodes"])
    for r in net["rubbings"]:
        power[r["ring"]] += r["share"] * net["ring_share"]
        power[r["pad"]] += r["share"] * (1 - net["ring_share"])
    for i, share in enumerate(power):
        if share:
            lines.append(f"IP{i} 0 n{i} PWL({' '.join(f'{t!r} {share * heat!r}' for t, heat in spread(load, 2))})")
    lines += [".options reltol=1e-6 abstol=1e-9 vntol=1e-7 method=gear", f".tran {step} {end} 0 {step} UIC", ".control", "run",
              "set wr_singlescale", "set wr_vecnames", "set numdgt=9",
              "wrdata out.txt " + " ".join(f"n{i}" for i in range(len(net["nodes"]))), "quit", ".endc", ".end"]
    return "\n".join(lines) + "\n"


def spread(load, column):
    """Points of a PWL source: a jump takes a microsecond."""
    out = []
    for row in load:
        t = row[0]
        if out and t <= out[-1][0]:
            if row[column] == out[-1][1]:
                continue
            t = out[-1][0] + 1e-6
        out.append((t, row[column]))
    return out


@unittest.skipUnless(shutil.which("ngspice"), "ngspice is not installed")
class Ngspice(Check):
    number = 13
    source = "ngspice, an independent circuit solver"

    def test_ngspice(self):
        """The whole linearised network as an RC circuit, solved by ngspice"""
        net = exported(CASES / "circuit.yaml", interval=1.0, speeds=(120 / 3.6,))
        with tempfile.TemporaryDirectory() as folder:
            pathlib.Path(folder, "net.cir").write_text(netlist(net, net["time"][-1], 0.02))
            done = subprocess.run(["ngspice", "-b", "net.cir"], cwd=folder, capture_output=True, text=True, timeout=240, check=False)
            self.assertTrue(pathlib.Path(folder, "out.txt").exists(), done.stdout[-2000:] + done.stderr[-2000:])
            names = pathlib.Path(folder, "out.txt").read_text().split("\n", 1)[0].split()
            table = np.loadtxt(pathlib.Path(folder, "out.txt"), skiprows=1)
        time, ours = np.array(net["time"]), np.array(net["temperature"]) - net["ambient"]
        worst, where = 0.0, ""
        for i, node in enumerate(net["nodes"]):
            theirs = np.interp(time, table[:, 0], table[:, names.index(f"n{i}")])
            off = np.max(np.abs(theirs - ours[:, i]))
            if off > worst:
                worst, where = off, node["name"]
            if node["name"] in ("hat.flange", "caliper") or re.fullmatch(r"ring\.outboard\.band3\.layer1", node["name"]):
                self.curve(f"ngspice, {node['name']}", time, theirs)
                self.curve(f"hatring, {node['name']}", time[::4], ours[::4, i], "points")
        self.picture("time [s]", "above air [K]")
        self.row(f"{len(net['nodes'])} nodes, {len(net['links'])} links, largest difference at {len(time)} times ({where})", 0, worst,
                 worst <= 0.1, f"{worst:.3f} K", "0.1 K", "K")
        self.row("the ring got hot", "> 50", ours.max(), ours.max() > 50, "", "", "K")


if __name__ == "__main__":
    checking.main()
