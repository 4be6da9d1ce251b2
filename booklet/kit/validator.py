"""The validator of a model: made of its annotations, by the core of pydantic.

Pydantic itself would make the same of annotations much like these; to do so and to be imported took it a
third of the time of `booklet check` (measured).
"""

from __future__ import annotations

import types
from collections.abc import Callable
from dataclasses import MISSING, Field, fields, is_dataclass
from enum import Enum
from functools import cache, partial, reduce
from typing import Annotated, Any, Union, cast, get_args, get_origin, get_type_hints

from pydantic_core import SchemaValidator, core_schema
from pydantic_core.core_schema import CoreSchema

from booklet.kit.rules import After, Around, Before, Letters, Limits, Meaning, OneOf, ReadBy, Spelt, Typed

_FORBID_UNKNOWN = core_schema.CoreConfig(extra_fields_behavior="forbid")


@cache
def validator_of(kind: type) -> SchemaValidator:
    """What reads a model of a kind from plain data.  Its context is a dict with the file's `unit`."""
    return SchemaValidator(model_schema(kind))


def model_schema(hint: Any) -> CoreSchema:
    """How a model, or a value of an annotation, is read, in the words of pydantic's core."""
    models: dict[type, CoreSchema] = {}
    whole = _schema(hint, models)
    return core_schema.definitions_schema(whole, list(models.values()))


@cache
def model_fields(kind: type) -> dict[str, tuple[Field[Any], Any]]:
    """The keys of a model, each with its field and its annotation."""
    hints = get_type_hints(kind, include_extras=True)
    return {_key(field, hints[field.name]): (field, hints[field.name]) for field in fields(kind)}


def rules_of(hint: Any) -> tuple[Any, ...]:
    """What an annotation notes beside its type."""
    return get_args(hint)[1:] if get_origin(hint) is Annotated else ()


def _key(field: Field[Any], hint: Any) -> str:
    return next((rule.key for rule in rules_of(hint) if isinstance(rule, Spelt)), field.name)


def _schema(hint: Any, models: dict[type, CoreSchema]) -> CoreSchema:
    """The schema of an annotation; `models` holds those of the models and choices that were met."""
    rules = rules_of(hint)
    for rule in rules:
        if isinstance(rule, OneOf):
            whole = _one_of(rule, models)
            break
        if isinstance(rule, ReadBy):
            whole = _read_by(rule)
            break
    else:
        whole = _bare(get_args(hint)[0] if rules else hint, rules, models)
    return reduce(_ruled, rules, whole)


def _ruled(inner: CoreSchema, rule: Any) -> CoreSchema:
    """A schema under one more rule; limits are in it from the beginning."""
    match rule:
        case Before():
            return _calling(rule.change, 1, "before")(schema=inner)
        case After():
            return _calling(rule.change, 1, "after")(schema=inner)
        case Around():
            return _calling(rule.read, 2, "wrap")(schema=inner)
        case Typed():
            return cast("CoreSchema", {**inner, "metadata": _typed(rule.schema)})
    return inner


_CALLS: dict[tuple[str, bool], Callable[..., CoreSchema]] = {
    ("before", False): core_schema.no_info_before_validator_function,
    ("before", True): core_schema.with_info_before_validator_function,
    ("after", False): core_schema.no_info_after_validator_function,
    ("after", True): core_schema.with_info_after_validator_function,
    ("wrap", False): core_schema.no_info_wrap_validator_function,
    ("wrap", True): core_schema.with_info_wrap_validator_function,
    ("plain", False): core_schema.no_info_plain_validator_function,
    ("plain", True): core_schema.with_info_plain_validator_function,
}


def _calling(function: Any, least: int, when: str) -> Callable[..., CoreSchema]:
    """A schema that calls a function; after its `least` arguments it may take what is known of the file."""
    return partial(_CALLS[when, function.__code__.co_argcount > least], function)


def _read_by(rule: ReadBy) -> CoreSchema:
    return _calling(rule.read, 1, "plain")(metadata=_typed(rule.typed))


def _typed(schema: Any) -> dict[str, Any]:
    """Tells pydantic's generator of JSON Schema what may be typed."""
    return {"pydantic_js_functions": [lambda _schema, _inner: dict(schema)]}


def _one_of(rule: OneOf, models: dict[type, CoreSchema]) -> CoreSchema:
    return core_schema.tagged_union_schema(
        {tag: _schema(kind, models) for tag, kind in rule.kinds.items()},
        rule.tag_of,
        custom_error_type="one_verb",
        custom_error_message=f"a step with exactly one of: {', '.join(rule.kinds)}",
    )


def _bare(kind: Any, rules: tuple[Any, ...], models: dict[type, CoreSchema]) -> CoreSchema:
    """The schema of a type, within the limits among its rules."""
    limits = next((rule for rule in rules if isinstance(rule, Limits)), Limits())
    sized = {"min_length": limits.least, "max_length": limits.most}
    origin, inner = get_origin(kind), get_args(kind)
    if origin is Annotated:
        return _schema(kind, models)
    if origin in (Union, types.UnionType):
        (one,) = (each for each in inner if each is not types.NoneType)
        return core_schema.nullable_schema(_schema(one, models))
    if origin is tuple and inner[-1] is Ellipsis:
        return core_schema.tuple_schema([_schema(inner[0], models)], variadic_item_index=0, **sized)  # type: ignore[arg-type]
    if origin is tuple:
        return core_schema.tuple_schema([_schema(each, models) for each in inner])
    if origin is dict:
        return core_schema.dict_schema(*(_schema(each, models) for each in inner), **sized)  # type: ignore[arg-type]
    return _plain(kind, rules, limits, models)


def _plain(kind: type, rules: tuple[Any, ...], limits: Limits, models: dict[type, CoreSchema]) -> CoreSchema:
    """The schema of a type that holds no others, or of a model."""
    if is_dataclass(kind) or issubclass(kind, Enum):
        return _reference(kind, models)
    if kind is str:
        letters = next((rule for rule in rules if isinstance(rule, Letters)), Letters())
        return core_schema.str_schema(
            min_length=letters.least,
            max_length=letters.most,
            pattern=letters.form,
            to_lower=letters.lower,
            strip_whitespace=not letters.form,
        )
    if kind is int:
        return core_schema.int_schema(ge=limits.least, le=limits.most)
    if kind is bool:
        return core_schema.bool_schema()
    raise TypeError(f"{kind} needs a rule that reads it")


def _reference(kind: type, models: dict[type, CoreSchema]) -> CoreSchema:
    """A reference to a model or a choice; what it is made of is noted the first time."""
    name = f"{kind.__module__}.{kind.__qualname__}:{id(kind)}"
    if kind not in models:
        models[kind] = core_schema.any_schema()  # holds the place: a model may come to itself
        models[kind] = (
            core_schema.enum_schema(kind, list(kind), ref=name)
            if issubclass(kind, Enum)
            else _model(kind, name, models)
        )
    return core_schema.definition_reference_schema(name)


def _model(kind: type, name: str, models: dict[type, CoreSchema]) -> CoreSchema:
    keys = [_field(field, key, hint, models) for key, (field, hint) in model_fields(kind).items()]
    arguments = core_schema.dataclass_args_schema(kind.__name__, keys, extra_behavior="forbid")
    return core_schema.dataclass_schema(
        kind, arguments, [each["name"] for each in keys], ref=name, config=_FORBID_UNKNOWN
    )


def _field(
    field: Field[Any], key: str, hint: Any, models: dict[type, CoreSchema]
) -> core_schema.DataclassField:
    schema = _schema(hint, models)
    if field.default is not MISSING:
        schema = core_schema.with_default_schema(schema, default=field.default)
    elif field.default_factory is not MISSING:
        schema = core_schema.with_default_schema(schema, default_factory=field.default_factory)
    meaning = next((rule.words for rule in rules_of(hint) if isinstance(rule, Meaning)), None)
    return core_schema.dataclass_field(
        field.name,
        schema,
        kw_only=True,
        validation_alias=key if key != field.name else None,
        metadata={"pydantic_js_updates": {"description": meaning}} if meaning else None,
    )
