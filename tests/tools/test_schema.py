# SPDX-License-Identifier: MIT
"""What --json prints is what the schemas in docs/ say, no less and no more, by Debian's python3-jsonschema."""
import json
import pathlib
import unittest

import jsonschema

from cli_case import CONFIGS, DEMO, QUICK, CliTest, RAN, hatring

DOCS = pathlib.Path(__file__).resolve().parents[2] / "docs"
SCHEMAS = {path.name: json.loads(path.read_text()) for path in DOCS.glob("*.schema.json")}


def faults(name, value):
    """Every place where the value is not what the schema says; 'more than' for undescribed keys of the whole."""
    schema = SCHEMAS[name]
    resolver = jsonschema.RefResolver(name, schema, store=SCHEMAS)
    validator = jsonschema.Draft202012Validator(schema, resolver=resolver)
    found = [f"{error.json_path}: {error.message[:200]}" for error in validator.iter_errors(value)]
    return found + [f"more than the schema: {key}" for key in value.keys() - schema["properties"].keys()]


class Schema(CliTest):
    def holds(self, schema, command, *args):
        result = hatring(command, *args, "--json", "--no-report", cwd=self.folder)
        self.assertIn(result.returncode, RAN, result.stderr)
        value = json.loads(result.stdout)
        self.assertEqual(faults(schema, value), [])
        return value

    def test_the_schemas_are_schemas(self):
        for name, schema in SCHEMAS.items():
            with self.subTest(name=name):
                jsonschema.Draft202012Validator.check_schema(schema)

    def test_simulate(self):
        puddle = ("--set", "wet_patches=[{from: 0 m, to: 50 m}]")
        for session, args in (("demo.yaml", puddle), ("demo.yaml", ("--band", "--band-runs", "16")),
                              ("demo_hydraulic.yaml", ("--no-band",)), ("duties/bedding.yaml", puddle),
                              ("duties/downhill_drag.yaml", ()), ("days/two_sessions.yaml", ("--no-band",))):
            with self.subTest(session=session):
                self.holds("run.schema.json", "simulate", CONFIGS / session, "--mesh", "lump", *args)

    def test_simulate_faults_are_found(self):
        value = self.holds("run.schema.json", "simulate", DEMO, *QUICK, "--no-band")
        value["verdicts"][0]["level"] = "safe"
        del value["joint"]["front"]["applicable"]
        value["fluid"]["rear"]["colour"] = "green"
        value["extra"] = 1
        self.assertEqual(len(faults("run.schema.json", value)), 4)

    def test_compare(self):
        variants = [CONFIGS / "variants" / f"{name}.yaml" for name in ("hat_steel", "one_piece")]
        value = self.holds("compare.schema.json", "compare", DEMO, *variants, "--mesh", "lump")
        for variant in value["variants"]:
            known = SCHEMAS["run.schema.json"]["properties"].keys() | {"name", "file", "cost"}
            self.assertLessEqual(variant.keys(), known)

    def test_cooldown(self):
        self.holds("cooldown.schema.json", "cooldown", DEMO, "--mesh", "lump", "--set", "cooldown.laps=[0, 0.5, 1]")


if __name__ == "__main__":
    unittest.main()
