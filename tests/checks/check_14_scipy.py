# SPDX-License-Identifier: MIT
"""Check 14: the whole nonlinear network, its heat balance written a second time and solved by SciPy."""
import numpy as np
from scipy.integrate import solve_ivp

import checking
import cooling_apart
import material_tables
from checking import CASES, Check, exported

STEFAN_BOLTZMANN = 5.670374419e-8
# The demo's front corner.
RING = {"outer": 0.153, "bore": 0.096, "vanes": 44, "vane": 0.0052, "height": 0.0255 - 2 * 0.0076}


class Peer:
    def __init__(self, net, wheel):
        self.net, self.wheel, self.ambient = net, wheel, net["ambient"]
        self.mass = np.array([n["mass"] for n in net["nodes"]])
        tables = material_tables.load()
        self.groups = []
        for name in {n["material"] for n in net["nodes"]}:
            members = np.array([i for i, n in enumerate(net["nodes"]) if n["material"] == name])
            if name == "air":
                air = cooling_apart.Air(self.ambient, wheel.pressure)
                self.groups.append((members, lambda t, c=float(air.heat): np.full_like(t, c),
                                    lambda t, k=float(air.conductivity): np.full_like(t, k)))
            else:
                self.groups.append((members, tables[name]["specific_heat"], tables[name]["conductivity"]))

        def columns(rows, *keys):
            return [np.array([row[key] for row in rows]) for key in keys]
        self.links = columns(net["links"], "a", "b", "shape_a", "shape_b", "resistance", "pressed")
        self.rubbings = columns(net["rubbings"], "ring", "pad", "share", "contact", "shape_ring", "shape_pad")
        self.radiations = columns(net["radiations"], "a", "b", "factor")
        self.surfaces = {}
        for s in net["surfaces"]:
            self.surfaces.setdefault(s["law"], []).append(s)
        self.surfaces = {law: columns(rows, "node", "air", "scale") for law, rows in self.surfaces.items()}

    def rates(self, t, speed, heat, applied):
        heat_capacity, k = np.empty_like(t), np.empty_like(t)
        for members, specific_heat, conductivity in self.groups:
            heat_capacity[members], k[members] = specific_heat(t[members]), conductivity(t[members])
        q = np.zeros_like(t)
        a, b, shape_a, shape_b, resistance, pressed = self.links
        with np.errstate(divide="ignore"):
            contact = np.where(pressed > 0, 1 / (1 / resistance + pressed * applied), resistance)
        flow = (t[a] - t[b]) / (shape_a / k[a] + contact + shape_b / k[b])
        np.subtract.at(q, a, flow)
        np.add.at(q, b, flow)
        ring, pad, share, contact, shape_ring, shape_pad = self.rubbings
        # Both surfaces unknown: half the power arises on each, the contact passes on what their difference drives. A pad
        # that comes on or lifts bears with that part of its area which it is applied by.
        r_ring, r_pad, g, half = shape_ring / k[ring], shape_pad / k[pad], contact, heat * share / 2
        across = g * half * (r_pad - r_ring) / (1 + g * (r_ring + r_pad))
        across += applied * g * (t[pad] - t[ring]) / (1 + g * (r_ring + r_pad))
        np.add.at(q, ring, half + across)
        np.add.at(q, pad, half - across)
        outside = np.append(t, self.ambient)  # index -1
        for law, (node, air, scale) in self.surfaces.items():
            d = t[node] - outside[air]
            flow = scale * self.wheel(law, speed, d) * d
            np.subtract.at(q, node, flow)
            inside = air >= 0
            np.add.at(q, air[inside], flow[inside])
        a, b, factor = self.radiations
        flow = STEFAN_BOLTZMANN * factor * (t[a] ** 4 - outside[b] ** 4)
        np.subtract.at(q, a, flow)
        np.add.at(q, b[b >= 0], flow[b >= 0])
        return q / (self.mass * heat_capacity)

    def solve(self, times):
        """Temperatures at `times`: integrated anew between the jumps of the load."""
        t, out = np.array([n["temperature"] for n in self.net["nodes"]]), {}
        restarts, load = self.net["restarts"], np.array(self.net["load"])
        for begin, end in zip(restarts, restarts[1:]):
            rows = load[(load[:, 0] >= begin) & (load[:, 0] <= end)]
            # At a jump, the last row of its time opens the next stretch, the first closes this one.
            first = np.flatnonzero(rows[:, 0] == begin)[-1]
            last = np.flatnonzero(rows[:, 0] == end)[0]
            rows = rows[first:last + 1]
            inside = [s for s in times if begin < s <= end]
            done = solve_ivp(lambda s, y: self.rates(y, *(np.interp(s, rows[:, 0], rows[:, c]) for c in (1, 2, 3))), (begin, end), t,
                             "LSODA", rtol=1e-8, atol=1e-6, t_eval=sorted({*inside, end}))
            if not done.success:
                raise AssertionError(done.message)
            for s, y in zip(done.t, done.y.T):
                out[s] = y
            t = done.y[:, -1]
        return np.array([out[s] for s in times])


class SciPy(Check):
    number = 14
    source = "SciPy LSODA at 1e-8, right-hand side written apart in Python"

    def test_scipy(self):
        """The whole nonlinear network against SciPy, its right-hand side and its convection written apart"""
        net = exported(CASES / "pulses.yaml", interval=0.5)
        wheel = cooling_apart.Wheel(net["ambient"], 101300, 1, 0.297, RING, 0.152, 52e-4, 30e-4)
        times = [t for t in net["time"] if t > 0]
        theirs = Peer(net, wheel).solve(times)
        ours = np.array(net["temperature"])[1:]
        off = np.max(np.abs(ours - theirs), axis=0)
        i = int(np.argmax(off))
        self.row(f"{len(off)} nodes, largest difference at {len(times)} times ({net['nodes'][i]['name']})", 0, off[i], off[i] <= 0.05,
                 f"{off[i]:.3f} K", "0.05 K", "K")
        self.row("the ring got hot", "> 100", ours.max() - net["ambient"], ours.max() - net["ambient"] > 100, "", "", "K")
        for name in ("ring.outboard.band3.layer1", "pad.outboard.layer1", "hat.flange"):
            k = next(j for j, n in enumerate(net["nodes"]) if n["name"] == name)
            self.curve(f"SciPy, {name}", times, theirs[:, k] - 273.15)
            self.curve(f"hatring, {name}", times[::8], ours[::8, k] - 273.15, "points")
        self.picture("time [s]", "temperature [degC]")


if __name__ == "__main__":
    checking.main()
