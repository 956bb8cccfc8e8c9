# SPDX-License-Identifier: MIT
def check(test, value, schema, root=None, path="$"):
    """A test that a value is as a schema says, by the few words of JSON Schema that docs/ uses."""
    root = root or schema
    if "$ref" in schema:
        schema = root["$defs"][schema["$ref"].rsplit("/", 1)[1]]
    if "anyOf" in schema:
        return check(test, value, next(s for s in schema["anyOf"] if (s == {"type": "null"}) == (value is None)),
                          root, path)
    kinds = {"object": dict, "array": list, "string": str, "boolean": bool, "number": (int, float), "integer": int,
             "null": type(None)}
    wanted = schema["type"] if isinstance(schema["type"], list) else [schema["type"]]
    test.assertTrue(any(isinstance(value, kinds[kind]) for kind in wanted), f"{path}: {value!r} is no {wanted}")
    if isinstance(value, dict):
        for key in schema.get("required", []):
            test.assertIn(key, value, path)
        for key, inner in value.items():
            if "properties" in schema and key in schema["properties"]:
                check(test, inner, schema["properties"][key], root, f"{path}.{key}")
            elif schema.get("additionalProperties") is False:
                test.fail(f"{path}.{key} is not described")
    if isinstance(value, list) and "items" in schema:
        for i, inner in enumerate(value):
            check(test, inner, schema["items"], root, f"{path}[{i}]")
