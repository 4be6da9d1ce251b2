"""The JSON Schema of a kit spec, for editors: it completes keys and underlines what the loader would refuse.

An editor reads YAML by YAML's own rules, so that `6.25` is a number there and `6 1/4` a string; where the
loader takes what was typed, the schema allows both.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any

from pydantic.json_schema import GenerateJsonSchema, JsonSchemaValue
from pydantic_core import core_schema

from booklet.kit.fields import (
    LONGEST_NAME,
    Amount,
    CoverWords,
    HexColour,
    LengthField,
    Name,
    SizeField,
    Title,
    WordsField,
)
from booklet.kit.kit import Kit
from booklet.kit.pockets import Pocket
from booklet.kit.position import DegreesField
from booklet.kit.validator import model_schema
from booklet.measure.exact import Fraction

DIALECT = "https://json-schema.org/draft/2020-12/schema"
_YES_OR_NO: JsonSchemaValue = {"enum": [True, False, "yes", "no"]}
_SHARED = {
    "Length": LengthField,
    "Size": SizeField,
    "Amount": Amount,
    "Degrees": DegreesField,
    "Colour": HexColour,
    "Name": Name,
    "Title": Title,
    "CoverWords": CoverWords,
    "Words": WordsField,
    "Pocket": Pocket,
}


def json_schema() -> JsonSchemaValue:
    """The schema of a whole kit spec, JSON Schema draft 2020-12; the same on every call."""
    schema = _of(Kit)
    shared = {name: _of(kind) for name, kind in _SHARED.items()}
    names = {_canonical(_tidy(part)): name for name, part in shared.items()}
    definitions = {name: _shared(_tidy(part), names) for name, part in schema.pop("$defs").items()}
    definitions |= {name: _tidy(part) for name, part in shared.items()}
    top = {"$schema": DIALECT, **_shared(_tidy(schema), names), "title": "Kit spec"}
    return {**top, "$defs": dict(sorted(definitions.items()))}


def _of(hint: Any) -> JsonSchemaValue:
    return _SpecSchema().generate(model_schema(hint))


class _SpecSchema(GenerateJsonSchema):
    """Widens the model's schema by the short forms that its validators turn into full ones."""

    def field_title_should_be_set(self, schema: Any) -> bool:  # noqa: ARG002 - the key says it already
        return False

    def encode_default(self, dft: Any) -> Any:
        return str(dft) if isinstance(dft, Fraction) else super().encode_default(dft)

    def str_schema(self, schema: core_schema.StringSchema) -> JsonSchemaValue:
        said = super().str_schema(schema)
        return said if "pattern" in said else {**said, "type": ["string", "number"]}

    def bool_schema(self, schema: core_schema.BoolSchema) -> JsonSchemaValue:  # noqa: ARG002 - there is one
        return dict(_YES_OR_NO)

    def function_before_schema(self, schema: core_schema.BeforeValidatorFunctionSchema) -> JsonSchemaValue:
        return self._widened(schema, super().function_before_schema(schema))

    def function_wrap_schema(self, schema: core_schema.WrapValidatorFunctionSchema) -> JsonSchemaValue:
        return self._widened(schema, super().function_wrap_schema(schema))

    def _widened(self, schema: Any, full: JsonSchemaValue) -> JsonSchemaValue:
        widen = _SHORT_FORMS[schema["function"]["function"].__name__]
        return widen(full)


def _one_or_list(full: JsonSchemaValue) -> JsonSchemaValue:
    item = full["items"] if "items" in full else full["prefixItems"][0]
    return {"anyOf": [item, full]}


def _all_or_list(full: JsonSchemaValue) -> JsonSchemaValue:
    return {"anyOf": [{"const": "all"}, full["items"], full]}


def _or(*short: JsonSchemaValue) -> Callable[[JsonSchemaValue], JsonSchemaValue]:
    return lambda full: {"anyOf": [*short, full]}


_A_NAME: JsonSchemaValue = {"type": ["string", "number"], "minLength": 1, "maxLength": LONGEST_NAME}

# By the validator that reads the short form; a missing one is an error when the schema is made.
_SHORT_FORMS: dict[str, Callable[[JsonSchemaValue], JsonSchemaValue]] = {
    "as_tuple": _one_or_list,
    "_border": _one_or_list,
    "_entries": _one_or_list,
    "_all_edges": _all_or_list,
    "_all_corners": _all_or_list,
    "_base": _or(_A_NAME),
    "_row_entry": _or(_A_NAME),
    "_line_element": _or(_A_NAME),
    "_line_elements": _one_or_list,
    "_entry": _or(_A_NAME),
    "_centring": _or({"enum": [True, "yes"]}),
    "_fits": _or({"const": "fits"}),
    "_or_plan": _or({"const": "plan"}),
}


def _tidy(part: Any) -> Any:
    """A part of the schema without what an editor does not need: defaults of nothing and of whole groups."""
    if isinstance(part, list):
        return [_tidy(item) for item in part]
    if not isinstance(part, dict):
        return part
    return {key: _tidy(value) for key, value in part.items() if not (key == "default" and _is_noise(value))}


def _is_noise(default: Any) -> bool:
    return default is None or isinstance(default, (list, dict))


def _shared(part: Any, names: dict[str, str]) -> Any:
    """A part of the schema with the kinds of value that recur replaced by references."""
    if isinstance(part, list):
        return [_shared(item, names) for item in part]
    if not isinstance(part, dict):
        return part
    name = names.get(_canonical({key: value for key, value in part.items() if key != "default"}))
    if name:
        default = {"default": part["default"]} if "default" in part else {}
        return {"$ref": f"#/$defs/{name}", **default}
    return {key: _shared(value, names) for key, value in part.items()}


def _canonical(part: Any) -> str:
    return json.dumps(part, sort_keys=True)
