# SPDX-License-Identifier: MIT
"""`hatring explain` end to end, through the binary named by the environment variable HATRING."""
import json
import re
import unittest
import xml.etree.ElementTree

from cli_case import BAD_INPUT, CliTest, DEMO, WITHIN, hatring

SVG = "{http://www.w3.org/2000/svg}"
MESHES = ("lump", "coarse", "standard", "fine")
JOINTS = ("rigid", "floating", "one_piece")


class Explain(CliTest):
    def explain(self, *args):
        result = hatring("explain", DEMO, "--out", "out", *args, cwd=self.folder)
        self.assertEqual(result.returncode, WITHIN, result.stdout + result.stderr)
        self.assertEqual(result.stderr, "")
        return result.stdout

    def drawing(self, axle):
        return xml.etree.ElementTree.parse(self.folder / "out" / f"network-{axle}.svg").getroot()

    def words(self, axle):
        return ["".join(text.itertext()) for text in self.drawing(axle).iter(f"{SVG}text")]


class Text(Explain):
    def test_fits_a_terminal(self):
        for units in ("si", "us"):
            with self.subTest(units=units):
                text = self.explain("--units", units)
                self.assertEqual([line for line in text.splitlines() if len(line) > 80], [])
                self.assertNotIn("\x1b", text)

    def test_says_what_it_is_made_of(self):
        text = self.explain()
        for phrase in ("SESSION", "parked", "brakings", "FRONT", "REAR", "ring.outboard.band*.layer*", "hat_hub",
                       "Cooper, Mikic and Yovanovich 1969", "vane passages", "radiation", "rubbing",
                       "from its dimensions", "brakes.rise_time: 0.15 s", "PRIORS"):
            self.assertIn(phrase, text)
        self.assertNotIn("safe ", text)

    def test_the_energy_of_the_car_closes(self):
        share = re.search(r"differ by (\S+) of the brakes' heat", self.explain()).group(1)
        self.assertLess(float(share), 1e-6)

    def test_us_units(self):
        text = self.explain("--units", "us")
        for unit in ("lb", "mi", "BTU/F", "62 mph", "68 F"):
            self.assertIn(unit, text)

    def test_quiet(self):
        self.assertEqual(self.explain("--quiet"), "")
        self.assertEqual(sorted(p.name for p in (self.folder / "out").iterdir()),
                         ["network-front.svg", "network-rear.svg"])

    def test_pins_are_named(self):
        text = self.explain("--set", "physics.links.hat_hub=0.5 W/K", "--set", "physics.convection.constant=25 W/m2/K")
        self.assertIn("pinned by physics.links", text)
        self.assertIn("pinned by physics.convection", text)

    def test_bad_input(self):
        self.assertEqual(hatring("explain", "not-there.yaml", cwd=self.folder).returncode, BAD_INPUT)
        self.assertEqual(list(self.folder.iterdir()), [])


class Json(Explain):
    def answer(self, *args):
        return json.loads(self.explain("--json", *args))

    def test_one_object_with_everything(self):
        answer = self.answer()
        for key in ("nodes", "links", "surfaces", "radiations", "rubbings", "masses"):
            self.assertEqual(answer[key].keys(), {"front", "rear"}, key)
        self.assertGreater(len(answer["assumptions"]), 10)
        for assumption in answer["assumptions"]:
            self.assertEqual(assumption.keys(), {"key", "value", "reason"})
        for prior in answer["priors"]:
            self.assertTrue(prior["low"] <= prior["likely"] <= prior["high"], prior)

    def test_numbers_agree(self):
        answer = self.answer()
        for axle in ("front", "rear"):
            names = {node["name"] for node in answer["nodes"][axle]}
            self.assertEqual(len(names), len(answer["nodes"][axle]))
            for link in answer["links"][axle]:
                self.assertLessEqual({link["from"], link["to"]}, names)
                self.assertGreater(link["conductance"], 0)
                self.assertNotEqual(link["origin"], "")
            for surface in answer["surfaces"][axle]:
                self.assertNotEqual(surface["origin"], "")
            self.assertAlmostEqual(sum(rubbing["share"] for rubbing in answer["rubbings"][axle]), 1)
            ring = sum(node["mass"] for node in answer["nodes"][axle] if node["name"].startswith(("ring", "lug")))
            self.assertAlmostEqual(ring, answer["masses"][axle]["ring"]["geometry"])

    def test_span_heat_is_the_brakes_heat(self):
        session = self.answer("--set", "brakes.front_share=0.6")["session"]
        heat = sum(span["front_wheel_heat"] for span in session["spans"])
        self.assertAlmostEqual(heat / (0.6 * session["energy"]["brake"] / 2), 1, delta=1e-4)


class Drawing(Explain):
    def test_every_mesh_and_joint_draws_every_node(self):
        for mesh in MESHES:
            for joint in JOINTS:
                with self.subTest(mesh=mesh, joint=joint):
                    answer = json.loads(self.explain("--json", "--mesh", mesh, "--set",
                                                     f"brakes.front.rotor.joint.kind={joint}"))
                    boxes = {rect.find(f"{SVG}title").text.split(":")[0]: rect
                             for rect in self.drawing("front").iter(f"{SVG}rect")
                             if rect.find(f"{SVG}title") is not None}
                    self.assertEqual(boxes.keys(), {node["name"] for node in answer["nodes"]["front"]})
                    self.assert_apart(list(boxes.values()))

    def assert_apart(self, rects):
        """No box lies on another or outside the page."""
        page = self.drawing("front")
        spans = [(float(r.get("x")), float(r.get("y")), float(r.get("width")), float(r.get("height"))) for r in rects]
        for i, (x, y, w, h) in enumerate(spans):
            self.assertTrue(x >= 0 and y >= 0 and w > 0 and h > 0)
            self.assertTrue(x + w <= float(page.get("width")) and y + h <= float(page.get("height")))
            for ox, oy, ow, oh in spans[i + 1:]:
                self.assertFalse(x < ox + ow and ox < x + w and y < oy + oh and oy < y + h)

    def test_losses_can_be_told_apart(self):
        self.explain("--quiet")
        text = (self.folder / "out" / "network-front.svg").read_text()
        self.assertIn("outside air", self.words("front"))
        self.assertIn('stroke-dasharray="7 4"', text)
        self.assertIn('stroke-dasharray="0.1 ', text)

    def test_no_radiation_when_off(self):
        self.explain("--quiet", "--set", "physics.radiation=off")
        self.assertEqual([w for w in self.words("front") if w.startswith("radiation") and "m2" in w], [])

    def test_text_is_escaped(self):
        name = 'a<b & "c"'
        self.explain("--quiet", "--set", f"brakes.front.rotor.name='{name}'")
        self.assertTrue(any(name in word for word in self.words("front")))


if __name__ == "__main__":
    unittest.main()
