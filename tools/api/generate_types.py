#!/usr/bin/env python3
"""Writes api/types/fallwright.ts from the schemas of api/schema/v1.

Every $defs name that begins with a capital becomes an exported type; the others are written out where they are used.
A definition whose $comment is "rule" only narrows and has no type of its own; oneOf, anyOf, not and required beside
"type": "object" narrow as well. The subset known here is what the schemas use; anything else stops the run.
"""

import sys

from generated import write_or_check
from schemas import ROOT, load

# File -> name of the type of its root, in the order of the output.
ROOTS = {
    "common.schema.json": None,
    "finding-code.schema.json": "FindingCode",
    "entry.schema.json": "Entry",
    "request.schema.json": "DeskRequest",
    "evaluate.schema.json": "EvaluateAnswer",
    "levels.schema.json": "LevelsAnswer",
    "check.schema.json": "CheckAnswer",
    "trial.schema.json": "TrialAnswer",
    "suspects.schema.json": "SuspectsAnswer",
    "fall.schema.json": "FallAnswer",
    "dial.schema.json": "DialAnswer",
    "setout.schema.json": "SetoutAnswer",
    "plan.schema.json": "PlanAnswer",
    "drain.schema.json": "DrainAnswer",
    "drains.schema.json": "DrainsAnswer",
    "figures.schema.json": "FiguresAnswer",
    "report.schema.json": "ReportAnswer",
    "staff.schema.json": "StaffAnswer",
    "export.schema.json": "ExportAnswer",
    "import.schema.json": "ImportAnswer",
    "error.schema.json": "ErrorAnswer",
}
PRIMITIVES = {"string": "string", "number": "number", "integer": "number", "boolean": "boolean", "null": "null"}
KNOWN = {
    "$schema", "$id", "$defs", "$ref", "$comment", "title", "description", "default", "type", "properties", "required",
    "additionalProperties", "items", "prefixItems", "minItems", "maxItems", "enum", "const", "oneOf", "anyOf", "allOf",
    "not", "minimum", "maximum", "exclusiveMinimum", "exclusiveMaximum", "minLength", "minProperties", "pattern", "format",
}  # fmt: skip
WIDEST = 100
HEAD = """// Types of what goes into and comes out of Fallwright, version 1.
// Made by tools/api/generate_types.py from api/schema/v1; do not edit by hand.
// Lengths are in the unit of the book, gradients rise per length, uncertainties one standard deviation.
"""


def literal(value):
    if value is None:
        return "null"
    if isinstance(value, bool):
        return "true" if value else "false"
    return f'"{value}"' if isinstance(value, str) else str(value)


def union(parts):
    """A union without repetitions, in order of first appearance."""
    return " | ".join(dict.fromkeys(parts))


def wrapped(text):
    """The right-hand side of a type; a long union stands one part a line."""
    if len(text) <= WIDEST or "{" in text:
        return f" {text}"
    return "".join(f"\n  | {part}" for part in text.split(" | "))


def bracketed(text):
    return f"({text})" if " | " in text else text


def comment(schema, indent=""):
    words = [schema[key] for key in ("description",) if key in schema]
    if "default" in schema:
        words.append(f"Default: {literal(schema['default'])}.")
    if not words:
        return ""
    text = ". ".join(word.rstrip(".") for word in words[:-1]) + (". " if len(words) > 1 else "") + words[-1]
    return f"{indent}/** {text} */\n"


def is_named(name):
    return name[0].isupper()


class Generator:
    def __init__(self, schemas):
        self.schemas = schemas
        self.names = {}

    def resolve(self, reference, file):
        """(schema, file it stands in, exported name or None) of a $ref."""
        target, _, pointer = reference.partition("#")
        target = target or file
        if not pointer:
            return self.schemas[target], target, ROOTS[target]
        name = pointer.removeprefix("/$defs/")
        return self.schemas[target]["$defs"][name], target, name if is_named(name) else None

    def type_of(self, schema, file, indent=""):
        unknown = set(schema) - KNOWN
        if unknown:
            raise SystemExit(f"{file}: keywords this generator does not know: {', '.join(sorted(unknown))}")
        if "$ref" in schema:
            target, target_file, name = self.resolve(schema["$ref"], file)
            return name or self.type_of(target, target_file, indent)
        if "const" in schema:
            return literal(schema["const"])
        if "enum" in schema:
            return union(literal(value) for value in schema["enum"])
        if schema.get("type") == "object":
            return self.object_type(schema, file, indent)
        for keyword in ("oneOf", "anyOf"):
            if keyword in schema:
                return union(self.type_of(option, file, indent) for option in schema[keyword])
        return self.plain_type(schema, file, indent)

    def plain_type(self, schema, file, indent):
        names = schema.get("type")
        if names is None:
            return "unknown"
        parts = []
        for name in [names] if isinstance(names, str) else names:
            if name == "array":
                parts.append(self.array_type(schema, file, indent))
            elif name == "object":
                parts.append(self.object_type(schema, file, indent))
            else:
                parts.append(PRIMITIVES[name])
        return union(parts)

    def array_type(self, schema, file, indent):
        if schema.get("items") is False:
            return f"[{', '.join(self.type_of(item, file, indent) for item in schema['prefixItems'])}]"
        return f"{bracketed(self.type_of(schema['items'], file, indent))}[]"

    def object_type(self, schema, file, indent):
        if "properties" in schema:
            return "{\n" + self.members(schema, file, indent + "  ") + indent + "}"
        values = schema.get("additionalProperties")
        return f"Record<string, {self.type_of(values, file, indent) if values else 'unknown'}>"

    def members(self, schema, file, indent):
        lines = []
        required = schema.get("required", [])
        for name, member in schema["properties"].items():
            mark = "" if name in required else "?"
            key = name if name.isidentifier() else literal(name)
            described = self.described(member, file)
            lines.append(f"{comment(described, indent)}{indent}{key}{mark}: {self.type_of(member, file, indent)};\n")
        return "".join(lines)

    def described(self, member, file):
        """A member's own words, or those of the unnamed definition it refers to."""
        if "description" in member or "$ref" not in member:
            return member
        target, _, name = self.resolve(member["$ref"], file)
        return {key: value for key, value in {**target, **member}.items() if not name or key == "default"}

    def declaration(self, name, schema, file):
        if name in self.names:
            raise SystemExit(f"{file}: {name} is already defined in {self.names[name]}")
        self.names[name] = file
        head = comment(schema)
        if schema.get("type") == "object" and "properties" in schema:
            bases = [self.type_of(base, file) for base in schema.get("allOf", [])]
            extends = f" extends {', '.join(bases)}" if bases else ""
            return f"\n{head}export interface {name}{extends} {{\n{self.members(schema, file, '  ')}}}\n"
        return f"\n{head}export type {name} ={wrapped(self.type_of(schema, file))};\n"

    def answers(self):
        """Which answer each verb gets: the type of a request fixes that of its answer."""
        rows = {}
        for option in self.schemas["request.schema.json"]["oneOf"]:
            request, _, _ = self.resolve(option["$ref"], "request.schema.json")
            verb = request["properties"]["verb"]["const"]
            key = verb if verb.isidentifier() else literal(verb)
            # A drain with a book and one without are answered differently.
            name = "drains" if verb == "drain" and "book" in request["properties"] else verb
            # So is a report of which one drawing is asked for.
            name = "figures" if option["$ref"].endswith("/FiguresRequest") else name
            rows.setdefault(key, []).append(ROOTS[f"{name}.schema.json"])
        body = "".join(f"  {key}: {union(names)};\n" for key, names in rows.items())
        return f"\n/** What each verb is answered with, where the request is usable */\nexport interface Answers {{\n{body}}}\n"

    def page(self):
        if set(ROOTS) != set(self.schemas):
            raise SystemExit(f"schemas and ROOTS differ: {sorted(set(ROOTS) ^ set(self.schemas))}")
        parts = [HEAD]
        for file, root in ROOTS.items():
            schema = self.schemas[file]
            parts.append(f"\n// --- {schema['title']}\n")
            if root:
                parts.append(self.declaration(root, schema, file))
            for name, definition in schema.get("$defs", {}).items():
                if is_named(name) and definition.get("$comment") != "rule":
                    parts.append(self.declaration(name, definition, file))
        parts.append(self.answers())
        return "".join(parts)


if __name__ == "__main__":
    sys.exit(write_or_check(ROOT / "api" / "types" / "fallwright.ts", Generator(load()).page(), __doc__))
