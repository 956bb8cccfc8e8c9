# SPDX-License-Identifier: MIT
"""write_page.py RESULTS DOCS: docs/performance.md and its picture from page.md and what tools/bench/run left in RESULTS."""
import json
import math
import pathlib
import string
import sys
import textwrap

import matplotlib

matplotlib.use("svg")
matplotlib.rcParams.update({"svg.hashsalt": "hatring", "svg.fonttype": "none", "font.size": 9, "font.family": "sans-serif",
                            "axes.spines.top": False, "axes.spines.right": False})
from matplotlib import pyplot  # noqa: E402  the backend comes first

OURS = "ours, ROS34PW2"
ONCE = "ours, mirrored nodes once"
PEER = "CVODE BDF, KLU"
BOUNDS = (0.5, 0.05, 0.01)  # [K]
GOOD = 0.05
MILLISECONDS = {"ns": 1e-6, "us": 1e-3, "ms": 1, "s": 1e3}
# Ours solid, others dashed; the order of the table.
METHODS = {OURS: "o-", "ours, RODAS3": "s-", "ours, ROS2": "^-", "ours, ROS4": "v-", "RKC": "D--", "odeint dopri5": "x--",
           "Runge-Kutta 4, equal steps": "+--", PEER: "o--", "CVODE BDF, dense": "s--"}
ORDER = {OURS: "order 3", "ours, RODAS3": "order 3, exact matrix and df/dt", "ours, ROS2": "order 2",
         "ours, ROS4": "order 4, exact matrix and df/dt", "RKC": "stabilised explicit, order 2",
         "odeint dopri5": "explicit, order 5", "Runge-Kutta 4, equal steps": "explicit, order 4", PEER: "implicit, orders 1 to 5",
         "CVODE BDF, dense": "the same, dense matrix"}


def read(path):
    """The quickest repetition of each benchmark, by group, with method, setting and time [ms]."""
    result = json.loads(path.read_text())
    best = {}
    for entry in result["benchmarks"]:
        if entry["run_type"] != "iteration":
            continue
        key = entry["run_name"], entry.get("nodes"), entry.get("minutes")
        ms = entry["cpu_time"] * MILLISECONDS[entry["time_unit"]] / entry.get("scenarios", 1)
        if key not in best or ms < best[key]["ms"]:
            best[key] = {**entry, "ms": ms}
    groups = {}
    for entry in best.values():
        group, method, setting = entry["run_name"].split("|")
        groups.setdefault(group, []).append({**entry, "method": method, "setting": setting})
    return result["context"], groups


def table(head, rows):
    return "\n".join(f"| {' | '.join(map(str, cells))} |" for cells in [head, ["---"] * len(head), *rows])


def ms(value):
    return f"{value:.3g} ms" if value < 100 else f"{value:.0f} ms"


def within(entries, method, bound):
    """The fastest setting of a method with an error below the bound, or None."""
    fits = [e for e in entries if e["method"] == method and e["error"] < bound]
    return min(fits, key=lambda e: e["ms"], default=None)


def as_run(work):
    """Ours as the program runs it, by scenarios at once, the quickest last."""
    return sorted((e for e in work if e["method"].startswith(ONCE)), key=lambda e: (e["scenarios"], "a load each" not in e["method"]))


def work_table(work):
    rows = []
    for method in METHODS:
        cells = [f"**{method}**" if method == OURS else method, ORDER[method]]
        for bound in BOUNDS:
            entry, ours = within(work, method, bound), within(work, OURS, bound)
            cells.append(f"{ms(entry['ms'])}, {entry['ms'] / ours['ms']:.2g}" if entry else "not reached")
        rows.append(cells)
    ours = within(work, OURS, GOOD)
    for entry in as_run(work):
        cell = f"{ms(entry['ms'])}{' each' if entry['scenarios'] > 1 else ''}, {entry['ms'] / ours['ms']:.2g}"
        rows.append([entry["method"], "order 3, at the default", "", cell, ""])
    return table(["method", "", *(f"error < {bound} K" for bound in BOUNDS)], rows)


def decides(work):
    """Which of our methods, and how far the others are behind, as a sentence."""
    best = []
    for bound in BOUNDS:
        found = [e for m in METHODS if m.startswith("ours") and (e := within(work, m, bound))]
        best.append(min(found, key=lambda e: e["ms"])["method"].removeprefix("ours, "))
    if len(set(best)) == 1:
        text = f"Of our own methods {best[0]} is the cheapest at all three errors. "
    else:
        text = "Of our own methods the cheapest are " + ", ".join(f"{m} below {b} K" for m, b in zip(best, BOUNDS)) + ". "
    ours = within(work, OURS, GOOD)["ms"]
    others = ", ".join(f"{name} {within(work, m, GOOD)['ms'] / ours:.2g}" for name, m in
                       (("the second-order ROS2", "ours, ROS2"), ("RODAS3", "ours, RODAS3"), ("the fourth-order ROS4", "ours, ROS4"))
                       if within(work, m, GOOD))
    return textwrap.fill(text + f"Below {GOOD} K, in times of ROS34PW2: {others}.", 130)


def ahead(work):
    """How far the program is ahead of the peers on this session, as a sentence."""
    alone, *_, most = as_run(work)
    klu, rk4 = (within(work, m, GOOD)["ms"] for m in (PEER, "Runge-Kutta 4, equal steps"))
    return textwrap.fill(f"With both, mirrored nodes once and scenarios that are driven alike side by side, a session takes the program {ms(alone['ms'])} alone and {ms(most['ms'])} each with {most['scenarios']:.0f} "
                         f"at once: {klu / alone['ms']:.0f} and {klu / most['ms']:.0f} times as quick as {PEER}, and {rk4 / alone['ms']:.1f} and "
                         f"{rk4 / most['ms']:.0f} times as quick as Runge-Kutta 4 on all nodes, which would gain from the first as well.", 130)


def draw(work, path):
    base = within(work, PEER, GOOD)["ms"]
    figure, axes = pyplot.subplots(figsize=(7.2, 4.2))
    for method, style in METHODS.items():
        line = sorted(((e["error"], e["ms"] / base) for e in work if e["method"] == method and e["error"] < 4), key=lambda p: p[1])
        axes.plot(*zip(*line), style, label=method, markersize=4, linewidth=1.1, fillstyle="none" if "--" in style else "full")
    axes.axvline(GOOD, color="black", linewidth=0.6, linestyle=":")
    axes.set(xscale="log", yscale="log", xlabel="largest error of the session, K",
             ylabel=f"time; 1 = {PEER},\nat its fastest below {GOOD} K")
    axes.grid(True, linewidth=0.3)
    axes.legend(frameon=False, fontsize=8, loc="upper left", bbox_to_anchor=(1.0, 1.0))
    figure.tight_layout()
    figure.savefig(path, metadata={"Date": None, "Creator": None})
    path.write_text("\n".join(line.rstrip() for line in path.read_text().splitlines()) + "\n")


def growth_table(growth):
    sizes = {}
    for entry in growth:
        sizes.setdefault(int(entry["nodes"]), {})[entry["method"]] = entry
    rows = []
    for nodes, by in sorted(sizes.items()):
        ours = by[OURS]
        others = [f"{ms(by[m]['ms'])}, {by[m]['ms'] / ours['ms']:.2g}" if m in by else "" for m in (PEER, "Runge-Kutta 4, equal steps")]
        rows.append([nodes, ms(ours["ms"]), f"{ours['steps']:.0f}", f"{1e3 * ours['ms'] / ours['steps']:.1f} us", f"{ours['error']:.2f} K",
                     f"{ms(by[ONCE]['ms'])}, {by[ONCE]['nodes_once']:.0f}", *others])
    (small, first), (large, last) = sorted(sizes.items())[1::2]
    a, b = first[OURS], last[OURS]
    power, power_once = (math.log(last[method]["ms"] / first[method]["ms"]) / math.log(large / small) for method in (OURS, ONCE))
    solved = [x[ONCE]["nodes_once"] for x in (first, last)]
    power_solved = power_once * math.log(large / small) / math.log(solved[1] / solved[0])
    by_step = math.log(b["ms"] / b["steps"] / (a["ms"] / a["steps"])) / math.log(large / small)
    head = ["nodes", "ours, 0.02 K", "steps", "a step", "error", "mirrored nodes once, so many", f"{PEER}, 0.001 K", "Runge-Kutta 4 at its limit"]
    return {"growth": table(head, rows), "small": small, "large": large, "exponent": f"{power:.2f}", "exponent_once": f"{power_once:.2f}",
            "exponent_solved": f"{power_solved:.2f}", "step_exponent": f"{by_step:.2f}"}


def length_table(lengths):
    rows = [[f"{e['minutes']:.3g} min", ms(e["ms"]), f"{e['steps']:.0f}", f"{e['ms'] / e['minutes']:.2f} ms", f"{e['error']:.2f} K"]
            for e in sorted(lengths, key=lambda e: e["minutes"])]
    return table(["session", "time", "steps", "a minute of it", "error"], rows)


def program(measured):
    runs = [[r["runs"], f"{r['cpu']:.2f} s", f"{1e3 * r['cpu'] / r['runs']:.0f} ms", f"{r['peak']:.0f} MB"] for r in measured["runs"]]
    laps = [[r["laps"], f"{r['cpu']:.2f} s", f"{r['peak']:.0f} MB"] for r in measured["laps"]]
    one = measured["threads"][0]["wall"]
    threads = [[t["threads"], f"{t['wall']:.2f} s", f"{one / t['wall']:.2f}", f"{t['peak']:.0f} MB"] for t in measured["threads"]]
    return {"laps": table(["hot laps", "processor time", "peak memory"], laps),
            "runs": table(["runs", "processor time", "a run", "peak memory"], runs),
            "threads": table(["threads", "time", "times as quick", "peak memory"], threads),
            "threaded_runs": measured["threads"][0]["runs"]}


def cooldown(entries):
    plans, again = (next(e for e in entries if e["method"] == m) for m in ("plans", "session"))
    return {"plans": int(plans["plans"]), "plans_seconds": f"{plans['ms'] / 1e3:.2f}",
            "plans_ratio": f"{again['ms'] * plans['plans'] / plans['ms']:.0f}"}


def orders(entries):
    errors = [e["error"] for e in sorted(entries, key=lambda e: int(e["setting"]))]
    return ", ".join(f"{math.log2(a / b):.2f}" for a, b in zip(errors, errors[1:]))


def picture(measured):
    if not measured:
        return "How soon a report shows on a phone was not measured here: there was no Chromium."
    base = measured["milliseconds"]["one sentence"]["answer"]
    rows = [[name, mark, f"{t:.0f} ms", f"{t / base:.1f}"] for name, marks in measured["milliseconds"].items() for mark, t in marks.items()]
    return (f"The demo's report ({measured['bytes'] / 1e6:.2f} MB) on a slow phone: Chromium at 390 x 844, processor slowed {measured['slower']} "
            f"times, median of {measured['runs']} openings, \nbeside a page of one sentence and a plain table of the numbers of the first chart:\n\n"
            + table(["page", "shows its", "after", "times the sentence"], rows))


def main():
    results, docs = map(pathlib.Path, sys.argv[1:3])
    context, groups = read(results / "solvers.json")
    work = groups["work"]
    draw(work, docs / "pictures" / "performance-work.svg")
    settings = [[e["setting"], ms(e["ms"]), f"{e['error']:.3f} K", f"{e['steps']:.0f}"]
                for e in sorted((e for e in work if e["method"] == OURS), key=lambda e: -e["error"])]
    fields = {"machine": f"a machine with {context['num_cpus']} cores at {context['mhz_per_cpu'] / 1e3:.1f} GHz with a load of {context['load_avg'][0]:.1f} at the start",
              "nodes": int(work[0]["nodes"]), "work": work_table(work), "decides": decides(work),
              "nodes_once": int(work[0]["nodes_once"]), "ahead": ahead(work),
              "settings": table(["tolerance of a step", "time", "error", "steps, rejected ones included"], settings),
              **growth_table(groups["growth"]), "lengths": length_table(groups["length"]),
              **program(json.loads((results / "program.json").read_text())), **cooldown(groups["cooldown"]),
              "orders": orders(groups["convergence"]), "picture": picture(json.loads((results / "picture.json").read_text()))}
    page = string.Template(pathlib.Path(__file__).with_name("page.md").read_text()).substitute(fields)
    (docs / "performance.md").write_text(page)


if __name__ == "__main__":
    main()
