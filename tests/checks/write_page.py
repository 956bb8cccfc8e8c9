# SPDX-License-Identifier: MIT
"""write_page.py RESULTS DOCS [PROGRAM.xml...]: docs/validation.md and its pictures from what the checks left in RESULTS.

PROGRAM.xml are Catch2 reports of the checks that are written in C++. Same input, same bytes. tools/validation calls this.
"""
import html
import json
import pathlib
import re
import sys
import textwrap
import xml.etree.ElementTree as ElementTree

import matplotlib

matplotlib.use("svg")
matplotlib.rcParams.update({"svg.hashsalt": "hatring", "svg.fonttype": "none", "font.size": 9, "font.family": "sans-serif",
                            "axes.spines.top": False, "axes.spines.right": False})
from matplotlib import pyplot  # noqa: E402  the backend comes first

INTRO = """\
# Validation

What hatring was held against, with what result. `tools/validation` runs the checks and writes this page; nothing on it is typed by
hand. The checks are ordinary tests too: `tools/check -R 'check '` runs them.

These checks ask whether the equations are solved right, and whether parts of them agree with published numbers. They do **not** show
that the temperatures of your car will be right: see [what has not been validated](#what-has-not-been-validated). "Original not read"
means that the source's text could not be opened and its number comes from an abstract, a secondary text or memory.
"""
GAPS = """\
## What has not been validated

- **A whole session on a track.** We know of no complete public set of measured brake temperatures with speed trace, dimensions and
  materials. Not one run of hatring has been compared with a thermocouple on a car.
- **Two-piece discs.** We know of no measured temperature of hat, joint or fastener of a two-piece disc on a track, nor of a measured
  joint movement.
- **Joint conductances.** Bolted lugs, floating bobbins and the hat on its hub are priors with bands of three to ten times (`hatring
  explain` lists them).
- **Pad split.** The contact between pad and disc (1e4 to 1e5 W/m2/K) is from memory; how much heat the pads take was checked against
  its mathematical limit only.
- **Convection.** Its level is good to about 50 %. The vane law and the balance between vanes and faces were fitted to one abstract,
  for a rotor whose geometry was not read; the parked level was chosen by another abstract.
- **Air in the wheel, ducts, shields.** Judgement, without measurement.
- **Materials.** Most tables are from memory; iron of different foundries differs by 5 % in heat capacity and conductivity, 15 % in strength.
- **Brake fluid and caliper.** We have no measured temperature after parking to compare with.
- **Pads.** The compounds are invented; friction against temperature has to come from the maker.
- **Snub numbers.** Those of 49 CFR 571.135 are from memory."""
CLOSING = "\nReadings from your own car say more than this page."
# Checks that were planned and may still be missing.
PLANNED = {3: "repeated stops", 4: "two nodes", 7: "stress of the ring and of an interference fit", 8: "counting of load cycles", 15: "energy of a car",
           16: "one stop of a car", 19: "strength of aluminium at temperature", 20: "energy balance"}
STYLES = {"line": {"linewidth": 1.3}, "points": {"linestyle": "none", "marker": "o", "markersize": 3}}


def picture(result, folder):
    """Draws a check's curves. Returns the file's name."""
    figure, axes = pyplot.subplots(figsize=(7.2, 3.2))
    for curve in result["curves"]:
        axes.plot(curve["x"], curve["y"], label=curve["label"], **STYLES[curve["style"]])
    if result["axes"]["x_log"]:
        axes.set_xscale("log")
    axes.set_xlabel(result["axes"]["x"])
    axes.set_ylabel(result["axes"]["y"])
    axes.grid(True, linewidth=0.3)
    axes.legend(frameon=False, fontsize=8, loc="upper left", bbox_to_anchor=(1.0, 1.0))
    figure.tight_layout()
    name = f"check-{result['id'].replace('_', '-')}.svg"
    figure.savefig(folder / name, metadata={"Date": None, "Creator": None})
    pyplot.close(figure)
    path = folder / name
    path.write_text("\n".join(line.rstrip() for line in path.read_text().splitlines()) + "\n")
    return name


def cell(value):
    return "" if value is None else f"{value:g}" if isinstance(value, (int, float)) else str(value).replace("|", "\\|")


def section(result, docs):
    lines = [f"### {result['number']} {result['title']}", "", f"Source: {result['source']}.", "",
             "| compared | expected | got | unit | error | tolerance | |", "|---|---|---|---|---|---|---|"]
    for row in result["rows"]:
        cells = [cell(row[key]) for key in ("what", "expected", "got", "unit", "error", "tolerance")]
        lines.append("| " + " | ".join([*cells, "met" if row["good"] else "**missed**"]) + " |")
    for remark in result["remarks"]:
        lines += ["", *textwrap.wrap(remark, 120)]
    if result["curves"]:
        lines += ["", f"![{html.escape(result['title'])}](pictures/{picture(result, docs / 'pictures')})"]
    return lines + [""]


def catch_cases(path):
    """(title, all well) of each case of a Catch2 XML report; of another program than the checks, those with a cited source."""
    for case in ElementTree.parse(path).getroot().iter("TestCase"):
        title = case.get("name")
        if title.startswith("check ") or re.search(r"\(.*(ASTM|CFR|EN 19|Timoshenko|Lame|Limpert|Incropera|Churchill|Dorfman).*\)", title):
            yield title, case.find("OverallResult").get("success") == "true"


def number_of(title):
    found = re.match(r"check (\d+): (.*)", title)
    return (int(found[1]), found[2]) if found else (999, title)


def main():
    results_folder, docs = map(pathlib.Path, sys.argv[1:3])
    results = sorted((json.loads(p.read_text()) for p in results_folder.glob("*.json")), key=lambda r: (r["number"], r["id"]))
    for old in (docs / "pictures").glob("check-*.svg"):
        old.unlink()
    page = [INTRO, "## In short", "", "| check | title | comparisons | result |", "|---|---|---|---|"]
    for r in results:
        bad = sum(not row["good"] for row in r["rows"])
        page.append(f"| {r['number']} | {r['title']} | {len(r['rows'])} | {'met' if not bad else f'**{bad} missed**'} |")
    page += ["", "## Through the command or its network", ""]
    for r in results:
        page += section(r, docs)
    page += ["## Through the C++ interface", "",
             "These compare inside the test program, with the tolerance that stands there; expected numbers are in the titles.", "",
             "| check | title | result |", "|---|---|---|"]
    cases = sorted(number_of(title) + (good,) for path in sys.argv[3:] for title, good in catch_cases(path))
    page += [f"| {'' if n == 999 else n} | {cell(title)} | {'met' if good else '**missed**'} |" for n, title, good in cases]
    page += ["", GAPS]
    missing = [f"{what} ({n})" for n, what in PLANNED.items() if n not in {case[0] for case in cases}]
    if missing:
        page.append(f"- **Checks not made yet.** {', '.join(missing)}.")
    page.append(CLOSING)
    (docs / "validation.md").write_text("\n".join(page).rstrip() + "\n")


if __name__ == "__main__":
    main()
