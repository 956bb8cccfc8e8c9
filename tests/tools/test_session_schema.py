# SPDX-License-Identifier: MIT
"""docs/session.schema.json: what the code prints, and true of every shipped config.

Environment: SESSION_SCHEMA, the program that prints it. test_session_schema.py [Class.name] runs all or one.
"""
import json
import os
import pathlib
import re
import subprocess
import unittest

import jsonschema
import yaml

ROOT = pathlib.Path(__file__).resolve().parents[2]
CONFIGS = ROOT / "configs"
# Files that are included into a map below the top, by their folder.
PARTS = {"rotors": "rotor", "pads": "pads", "calipers": "caliper"}


class Loader(yaml.SafeLoader):
    """YAML as hatring and editors read it (1.2): 1:30 is text, and `off` is a word."""


Loader.yaml_implicit_resolvers = {}
Loader.add_implicit_resolver("tag:yaml.org,2002:null", re.compile(r"^(?:null|~|)$"), None)
Loader.add_implicit_resolver("tag:yaml.org,2002:bool", re.compile(r"^(?:true|false)$"), None)
Loader.add_implicit_resolver("tag:yaml.org,2002:int", re.compile(r"^[-+]?[0-9]+$"), None)
Loader.add_implicit_resolver("tag:yaml.org,2002:float",
                             re.compile(r"^[-+]?(?:\.[0-9]+|[0-9]+(?:\.[0-9]*)?)(?:[eE][-+]?[0-9]+)?$"), None)


class SessionSchema(unittest.TestCase):
    @classmethod
    def setUpClass(cls):
        cls.text = (ROOT / "docs" / "session.schema.json").read_text()
        cls.schema = json.loads(cls.text)

    def complaints(self, text, part=None):
        schema = self.schema if part is None else {**self.schema["definitions"][part],
                                                   "definitions": self.schema["definitions"]}
        found = jsonschema.Draft7Validator(schema).iter_errors(yaml.load(text, Loader))
        return [".".join(map(str, e.absolute_path)) + ": " + e.message for e in found]

    def test_it_is_what_the_code_prints(self):
        printed = subprocess.run([os.environ["SESSION_SCHEMA"]], check=True, capture_output=True, text=True).stdout
        self.assertEqual(self.text, printed, "tools/docs/update writes it anew")

    def test_it_is_a_schema(self):
        jsonschema.Draft7Validator.check_schema(self.schema)

    def test_every_shipped_config_fits(self):
        files = sorted(CONFIGS.rglob("*.yaml"))
        self.assertGreater(len(files), 30)
        for path in files:
            with self.subTest(path.relative_to(CONFIGS)):
                self.assertEqual(self.complaints(path.read_text(), PARTS.get(path.parent.name)), [])

    def test_it_marks_mistakes(self):
        for text in ("brakes: {front: {rotor: {rign: {}}}}", "car: {mass: 1140}", "session: [{laps: 0, trace: t.yaml}]",
                     "session: [{lpas: 2}]", "brakes: {front: {rotor: {joint: {kind: welded}}}}",
                     "car: {front_mass_fraction: 1.5}", "car: 3 kg", "materials: {steel: {densty: 1 kg/m3}}",
                     "session: [{repeat: 2, steps: [{park: 20}]}]", "physics: {radiation: maybe}"):
            with self.subTest(text):
                self.assertNotEqual(self.complaints(text), [])


if __name__ == "__main__":
    unittest.main()
