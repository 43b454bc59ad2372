"""The fields as a JSON Schema, for editors that help while a shop file is written."""

from collections.abc import Iterable
from typing import Any

from sawside.fields import Field

#: Lenient on purpose: a number or fraction first, then anything; the exact grammar is that of sawside.units.
_QUANTITY = r"^\s*(guess\s+)?[+-]?[0-9.,\u00bc-\u00be\u2150-\u215e].*$"

_RULE = {
    "type": "object",
    "properties": {key: {"type": "string"} for key in ("rule", "since", "saw", "stage")},
    "required": ["rule"],
    "additionalProperties": False,
}


def json_schema(fields: Iterable[Field], title: str) -> dict[str, Any]:
    """Return a JSON Schema (2020-12) of a record, with a description for each key.

    >>> schema = json_schema([Field("tyre_width", "Tyre width", "length", "Across the tyre.", "18 mm")], "Machine")
    >>> schema["properties"]["tyre_width"]["description"]
    'Tyre width. Across the tyre. For example: 18 mm'
    """
    fields = tuple(fields)
    return {
        "$schema": "https://json-schema.org/draft/2020-12/schema",
        "title": title,
        "type": "object",
        "properties": {field.name: _property(field) for field in fields},
        "required": [field.name for field in fields if field.required],
        "additionalProperties": False,
    }


def _property(field: Field) -> dict[str, Any]:
    described = {"description": f"{field.label}. {field.measure} For example: {field.example}", "examples": [field.example]}
    shape = _shape(field)
    if field.unknown_ok:
        shape = {"anyOf": [shape, {"const": "unknown"}]}
    return described | shape


def _shape(field: Field) -> dict[str, Any]:
    """Return what a value may look like. An editor's YAML reader turns `yes` and `6` into other types: both are let through."""
    match field.takes:
        case "choice":
            return {"enum": [*field.choices, *(f"guess {choice}" for choice in field.choices)]}
        case "choices":
            return {"type": "array", "items": {"enum": list(field.choices)}, "uniqueItems": True}
        case "yes_no":
            return {"enum": ["yes", "no", "guess yes", "guess no", True, False]}
        case "date":
            return {"type": "string", "pattern": "^[0-9]{4}-[0-9]{2}-[0-9]{2}$"}
        case "id":
            return {"type": "string", "pattern": "^[a-z0-9][a-z0-9-]{0,39}$"}
        case "lines":
            return {"type": "array", "items": {"type": "string", "maxLength": field.longest}}
        case "rules" | "rules_of_a_saw":
            return {"type": "array", "items": {"anyOf": [{"type": "string", "maxLength": field.longest}, _RULE]}}
        case "text":
            return {"type": ["string", "number"], "maxLength": field.longest}
        case "count":
            return {"type": "integer"} | _limits(field)
        case "number":
            return {"type": ["number", "string"], "pattern": _QUANTITY}
    return {"type": "string", "pattern": _QUANTITY}


def _limits(field: Field) -> dict[str, Any]:
    limits = {"minimum": field.low, "maximum": field.high}
    return {key: limit for key, limit in limits.items() if limit is not None}
