#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Checks the layout and the heat balance of a result file, and prints what it holds.

    check_result.py RESULT.h5

Exit 0 when all is well, 1 with one line per fault otherwise. Needs h5py, numpy, xarray and h5netcdf.
"""
import sys

import h5py
import numpy as np
import xarray

CONVENTIONS = "CF-1.8"
ROOT_ATTRIBUTES = {"Conventions": str, "format_version": np.integer, "program_version": str, "created": str}
UNITS = {"time": "s", "distance": "m", "speed": "m s-1", "temperature": "K", "rate": "K s-1", "heat": "J"}
JOINT_UNITS = {"differential_expansion": "m", "clearance_outward": "m", "clearance_inward": "m",
               "clearance_tangential": "m", "clearance_axial": "m", "slip": "m", "coning": "m", "fastener_load": "N",
               "fastener_carried": "N", "preload": "N", "preload_cold": "N"}
STRESS_UNITS = {"bore_hoop": "Pa", "lug_root": "Pa", "face_hoop": "Pa", "face_strain": "1", "face_residual": "Pa", "face_over_cheek": "K",
                "utilisation": "1", "fastener": "Pa", "hat_hole": "Pa", "lug": "Pa", "fastener_utilisation": "1",
                "hat_hole_utilisation": "1", "lug_utilisation": "1"}
GROUPS = ("temperature", "joint", "rate", "heat")
BALANCE = ("friction", "to_ring", "to_pads", "stored", "convection", "radiation", "to_wheel", "residual")
VERDICT = ("axle", "key", "part", "aspect", "what", "level", "value", "value_low", "value_high", "limit", "margin", "unit", "time",
           "lap", "distance", "span", "reason", "advice", "sure")
VERDICT_LEVELS = {"within limits", "near the limit", "over the limit", "not judged"}
PEDAL_UNITS = {"friction_coefficient": "1", "pressure": "Pa", "effort": "N"}
BRAKING = ("span", "lap", "time", "distance", "duration", "entry_speed", "exit_speed", "effort", "brakes_used", "tyres_used",
           "longer", "ideal_front_share",
           *(f"{axle}_{name}" for axle in ("front", "rear")
             for name in ("share", "friction", "pressure", "growth", "fade", "face_peak")))
LAPS = ("axle", "lap", "label", "begin", "end", "heat")
CLOSURE = 1e-6  # of the friction heat, or of the heat that moved where that is more
ROUNDING = 1e-9  # of the same: how far the terms may miss their sum


class Checker:
    def __init__(self, path):
        self.path = path
        self.faults = []

    def expect(self, good, message):
        if not good:
            self.faults.append(message)
        return good

    def run(self):
        with h5py.File(self.path, "r") as file:
            self.root(file)
            self.every_dataset(file)
            for axle in ("front", "rear"):
                if self.expect(axle in file, f"/{axle} is missing"):
                    self.axle(file, axle)
            self.table(file, "verdict", VERDICT)
            self.table(file, "laps", LAPS)
            if "braking" in file:
                self.table(file, "braking", BRAKING)
            if "verdict/level" in file:
                odd = set(file["verdict/level"].asstr()[()]) - VERDICT_LEVELS
                self.expect(not odd, f"/verdict/level has unknown words {sorted(odd)}")
            groups = ["/"] + [item.name for item in self.items(file, h5py.Group)]
        self.xarray(groups)

    @staticmethod
    def items(file, kind):
        found = []
        file.visititems(lambda _, item: found.append(item) if isinstance(item, kind) else None)
        return found

    def root(self, file):
        for name, kind in ROOT_ATTRIBUTES.items():
            value = file.attrs.get(name)
            self.expect(isinstance(value, kind), f"/: attribute {name} is {value!r}")
        self.expect(file.attrs.get("Conventions") == CONVENTIONS, f"/: Conventions is not {CONVENTIONS}")
        for name in ("time", "distance", "speed", "lap", "config"):
            self.expect(name in file, f"/{name} is missing")
        if "config" in file:
            self.expect(file["config"].shape == () and file["config"].asstr()[()].strip(), "/config is not one text")
        if "time" in file:
            time = file["time"][()]
            self.expect(len(time) > 0 and np.all(np.diff(time) > 0), "/time does not rise")

    def every_dataset(self, file):
        for data in self.items(file, h5py.Dataset):
            name, attrs = data.name, data.attrs
            for attribute in ("units", "long_name"):
                value = attrs.get(attribute)
                self.expect(isinstance(value, str) and value, f"{name}: {attribute} is {value!r}")
            if data.ndim == 0:
                continue
            if not self.expect(data.ndim == 1, f"{name} has {data.ndim} dimensions"):
                continue
            self.expect(data.chunks is None, f"{name} is not contiguous")
            if h5py.h5ds.is_scale(data.id):
                continue
            scales = data.dims[0].values()
            if not self.expect(len(scales) == 1, f"{name}: {len(scales)} dimension scales attached, 1 expected"):
                continue
            self.expect(scales[0].parent == data.parent, f"{name}: its scale {scales[0].name} is of another group")
            self.expect(scales[0].shape == data.shape,
                        f"{name} has {data.shape[0]} values, its scale {scales[0].shape[0]}")

    def axle(self, file, axle):
        group = file[axle]
        side = group.attrs.get("side")
        self.expect(isinstance(side, str) and side, f"/{axle}: attribute side is {side!r}")
        for name in GROUPS:
            self.expect(name in group, f"/{axle}/{name} is missing")
        for kind, columns in group.items():
            here = f"/{axle}/{kind}"
            if self.expect("time" in columns, f"{here}/time is missing") and "time" in file:
                self.expect(np.array_equal(columns["time"][()], file["time"][()]), f"{here}/time is not /time")
            for name, data in columns.items():
                self.column(f"{here}/{name}", kind, name, data)
        self.balance(axle, group)

    def column(self, here, kind, name, data):
        units = data.attrs.get("units")
        own = {"joint": JOINT_UNITS, "stress": STRESS_UNITS, "pedal": PEDAL_UNITS, "rate": {"differential_expansion": "m s-1"}}.get(kind, {})
        wanted = UNITS["time"] if name == "time" else own.get(name) or UNITS.get(kind)
        if wanted is not None:
            self.expect(units == wanted, f"{here}: units is {units!r}, {wanted!r} expected")
        values = data[()]
        if data.attrs.get("not_applicable", 0):
            self.expect(np.all(np.isnan(values)), f"{here}: not applicable, but holds numbers")
        elif kind in UNITS or name == "differential_expansion":
            self.expect(np.all(np.isfinite(values)), f"{here}: holds values that are not finite")
        elif kind == "pedal":
            self.expect(np.all(np.isfinite(values)) and not np.any(values < 0), f"{here}: holds values below 0 or not finite")
        if kind == "temperature" and name != "time":
            self.expect(not np.any(values <= 0), f"{here}: holds temperatures at or below 0 K")

    def balance(self, axle, group):
        heat = group.get("heat")
        if heat is None:
            return
        missing = [name for name in BALANCE if name not in heat]
        if not self.expect(not missing, f"/{axle}/heat lacks {missing}"):
            return
        at = {name: heat[name][()] for name in BALANCE}
        largest = np.max(np.abs(at["friction"]), initial=0)
        total = at["stored"] + at["convection"] + at["radiation"] + at["to_wheel"] + at["residual"]
        miss = np.max(np.abs(at["friction"] - total), initial=0)
        # Without friction the heat that moved (cooling from a hot start) is the measure.
        moved = max(largest, *(np.max(np.abs(at[n]), initial=0) for n in BALANCE))
        self.expect(miss <= ROUNDING * moved, f"/{axle}/heat: friction misses stored + convection + radiation + "
                    f"to_wheel + residual by {miss:.6g} J")
        residual = abs(at["residual"][-1])
        self.expect(residual <= CLOSURE * moved,
                    f"/{axle}/heat: residual {residual:.6g} J at the end, more than {CLOSURE:g} of {moved:.6g} J")
        split = np.max(np.abs(at["friction"] - at["to_ring"] - at["to_pads"]), initial=0)
        self.expect(split <= ROUNDING * moved, f"/{axle}/heat: to_ring + to_pads misses friction by {split:.6g} J")
        print(f"{axle}: friction {at['friction'][-1] / 1e6:.4f} MJ = stored {at['stored'][-1] / 1e6:.4f} + convection "
              f"{at['convection'][-1] / 1e6:.4f} + radiation {at['radiation'][-1] / 1e6:.4f} + to wheel "
              f"{at['to_wheel'][-1] / 1e6:.4f}, residual {at['residual'][-1]:.3g} J")
        for name, data in sorted(group.get("temperature", {}).items()):
            if name != "time" and not data.attrs.get("not_applicable", 0):
                print(f"  {name:<20} {np.min(data) - 273.15:7.1f} to {np.max(data) - 273.15:7.1f} degC")

    def table(self, file, name, columns):
        if not self.expect(name in file, f"/{name} is missing"):
            return
        missing = [c for c in columns if c not in file[name]]
        self.expect(not missing, f"/{name} lacks {missing}")
        lengths = {len(data) for data in file[name].values()}
        if self.expect(len(lengths) == 1, f"/{name}: columns of different length {sorted(lengths)}"):
            print(f"{name}: {lengths.pop()} rows")

    def xarray(self, groups):
        sizes = None
        for group in groups:
            try:
                with xarray.open_dataset(self.path, group=group, engine="h5netcdf") as data:
                    data.load()
                    if group.count("/") == 2 or group == "/":
                        self.expect("time" in data.indexes, f"xarray: {group} has no coordinate time")
                        sizes = sizes or dict(data.sizes)
                        self.expect(dict(data.sizes) == sizes, f"xarray: {group} has dimensions {dict(data.sizes)}")
            except Exception as error:  # any failure to open is the fault looked for
                self.faults.append(f"xarray cannot open {group}: {type(error).__name__}: {error}")
        print(f"xarray: {len(groups)} groups, {sizes}")


def main():
    if len(sys.argv) != 2:
        print(__doc__, file=sys.stderr)
        return 2
    checker = Checker(sys.argv[1])
    try:
        checker.run()
    except OSError as error:
        checker.faults.append(f"cannot be opened: {error}")
    for fault in checker.faults:
        print(f"{sys.argv[1]}: {fault}", file=sys.stderr)
    print("faults: %d" % len(checker.faults))
    return 1 if checker.faults else 0


if __name__ == "__main__":
    sys.exit(main())
