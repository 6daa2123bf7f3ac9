"""The schemas of api/schema/v1 and validators for them."""

import json
import pathlib

import jsonschema

ROOT = pathlib.Path(__file__).resolve().parents[2]
FOLDER = ROOT / "api" / "schema" / "v1"


def load():
    """{file name: schema}, each checked against the draft it names."""
    schemas = {}
    for path in sorted(FOLDER.glob("*.schema.json")):
        schema = json.loads(path.read_text(encoding="utf-8"))
        jsonschema.Draft202012Validator.check_schema(schema)
        if schema["$id"] != path.name:
            raise SystemExit(f"{path.name}: $id must be the file's name")
        schemas[path.name] = schema
    return schemas


class Schemas:
    def __init__(self):
        self.by_name = load()
        self._validators = {}

    def validator(self, reference):
        """A validator for "entry.schema.json" or "entry.schema.json#/$defs/ReadingEntry"."""
        if reference not in self._validators:
            store = dict(self.by_name)
            resolver = jsonschema.RefResolver("", {}, store=store)
            self._validators[reference] = jsonschema.Draft202012Validator({"$ref": reference}, resolver=resolver)
        return self._validators[reference]

    def faults(self, reference, instance):
        """Sentences saying what is wrong; empty where the instance is valid."""
        errors = sorted(self.validator(reference).iter_errors(instance), key=lambda error: list(map(str, error.path)))
        return [sentence(error) for error in errors]


def sentence(error):
    where = "/".join(str(part) for part in error.absolute_path)
    message = error.message if len(error.message) <= 300 else error.message[:300] + " ..."
    return f"{where}: {message}" if where else message
