"""The shape of a spec, read off the model: which keys a place has, and what its value should look like.

The model's own annotations are the one statement of what a spec may hold; messages read them rather than
repeat them.
"""

from __future__ import annotations

import types
from collections.abc import Iterator, Mapping
from dataclasses import is_dataclass
from enum import Enum
from typing import Annotated, Any, Union, get_args, get_origin

from booklet.kit.fields import (
    A_NUMBER,
    Amount,
    BorderLength,
    CoverWords,
    HexColour,
    LengthField,
    Name,
    PositiveLength,
    RepeatLength,
    RepeatSize,
    SizeField,
    StockLength,
    Title,
    WordsField,
)
from booklet.kit.finding import SpecPath
from booklet.kit.pockets import A_POCKET, Pocket
from booklet.kit.position import SOME_DEGREES, DegreesField
from booklet.kit.rules import Limits, Meaning, OneOf
from booklet.kit.sheet import PaperNames
from booklet.kit.supply import KIND_WORDS, KindWord
from booklet.kit.validator import model_fields, rules_of
from booklet.kit.words import any_of
from booklet.measure.dataclass import dataclass
from booklet.measure.length import A_LENGTH, A_SIZE

A_COLOUR = 'a colour in quotes such as "#1d5c7a"'
_WORDED = [
    (LengthField, A_LENGTH),
    (PositiveLength, A_LENGTH),
    (BorderLength, A_LENGTH),
    (StockLength, A_LENGTH),
    (RepeatLength, A_LENGTH),
    (SizeField, A_SIZE),
    (RepeatSize, A_SIZE),
    (Amount, A_NUMBER),
    (HexColour, A_COLOUR),
    (WordsField, "words"),
    (KindWord, f"{', '.join(KIND_WORDS)} or a kind of your own"),
    (Title, "words"),
    (CoverWords, "words"),
    (Name, "a name"),
    (DegreesField, SOME_DEGREES),
    (Pocket, A_POCKET),
    (PaperNames, "a name, or a list of names"),
]


@dataclass(frozen=True)
class Reached:
    """Where a path through the model ends: the path in the spec's own keys, and the annotation there.

    `hint` is None past an unknown key; `is_key` says that a key itself is meant, not its value.
    """

    path: SpecPath
    hint: Any
    is_key: bool = False


def follow(root: Any, location: SpecPath) -> Reached:
    """Walk a validation error's location from `root`, leaving out the tags that are not in the spec."""
    path: list[str | int] = []
    hint: Any = root
    for step in location:
        tagged = tagged_kinds(hint)
        if step == "[key]":
            return Reached(tuple(path), _key_hint(root, tuple(path)), is_key=True)
        if tagged and step in tagged:
            hint = tagged[str(step)]
            continue
        path.append(step)
        hint = _below(hint, step)
    return Reached(tuple(path), hint)


def tagged_kinds(hint: Any) -> Mapping[str, Any]:
    """The kinds that a value may be of, by the tag that tells them apart; empty for any other annotation."""
    return next((rule.kinds for rule in _rules(hint) if isinstance(rule, OneOf)), {})


def keys_of(hint: Any) -> dict[str, Any]:
    """The keys of a place and their annotations; empty where it holds none that are fixed."""
    kind = bare(hint)
    if not isinstance(kind, type) or not is_dataclass(kind):
        return {}
    return {key: inner for key, (_, inner) in model_fields(kind).items()}


def choices_of(hint: Any) -> list[str]:
    """The words that a place chooses between; empty where it is not a choice."""
    kind = bare(hint)
    return [str(member.value) for member in kind] if isinstance(kind, type) and issubclass(kind, Enum) else []


def expectation(hint: Any) -> str:
    """What should stand at a place, in words."""
    if worded := _worded(hint):
        return worded
    if choices := choices_of(hint):
        return any_of(choices)
    kind = bare(hint)
    if kind is bool:
        return "yes or no"
    if kind in (int, float):
        return ("a whole number" if kind is int else "a number") + _range(hint)
    if tagged_kinds(hint):
        return f"a step with exactly one of: {', '.join(tagged_kinds(hint))}"
    if keys := keys_of(hint):
        return f"keys ({', '.join(keys)})"
    return {tuple: "a list", dict: "keys with values", str: "words"}.get(
        get_origin(kind) or kind, "something else"
    )


def meaning(hint: Any) -> str | None:
    """What a key is, and what it tests, where the model says so."""
    return next((rule.words for rule in _rules(hint) if isinstance(rule, Meaning)), None)


def is_words(hint: Any) -> bool:
    """Whether a place holds words of a person's own: a text or a title, not a name that must be known."""
    return expectation(hint) == "words"


def number_limits(hint: Any) -> tuple[Any, Any]:
    """The least and the greatest number allowed at a place, None where open."""
    limits = next((rule for rule in _rules(hint) if isinstance(rule, Limits)), Limits())
    return limits.least, limits.most


def bare(hint: Any) -> Any:
    """An annotation without its extras and without None."""
    return list(_layers(hint))[-1]


def _layers(hint: Any) -> Iterator[Any]:
    """An annotation, what is within its extras or beside its None, and so on down to the bare one."""
    yield hint
    inner = get_args(hint)[0] if get_origin(hint) is Annotated else _without_none(hint)
    if inner is not hint:
        yield from _layers(inner)


def _worded(hint: Any) -> str | None:
    """The words for one of the model's own field types, which a field may narrow further."""
    for layer in _layers(hint):
        for known, words in _WORDED if get_origin(layer) is Annotated else ():
            kind, *extras = get_args(known)
            if get_args(layer)[: len(extras) + 1] == (kind, *extras):
                return words
    return None


def _below(hint: Any, step: str | int) -> Any:
    """The annotation of one key or item of a place."""
    kind = bare(hint)
    if get_origin(kind) is tuple:
        return get_args(kind)[0]
    if get_origin(kind) is dict:
        return get_args(kind)[1]
    return keys_of(kind).get(str(step))


def _key_hint(root: Any, path: SpecPath) -> Any:
    kind = bare(follow(root, path[:-1]).hint)
    return get_args(kind)[0] if get_origin(kind) is dict else None


def _without_none(hint: Any) -> Any:
    """`X | None` as `X`; anything else as it is."""
    if get_origin(hint) not in (Union, types.UnionType):
        return hint
    kinds = [kind for kind in get_args(hint) if kind is not type(None)]
    return kinds[0] if len(kinds) == 1 else hint


def _rules(hint: Any) -> list[Any]:
    return [rule for layer in _layers(hint) for rule in rules_of(layer)]


def _range(hint: Any) -> str:
    least, greatest = number_limits(hint)
    if least is None and greatest is None:
        return ""
    if greatest is None:
        return f" of {least:g} or more"
    return f" up to {greatest:g}" if least is None else f" from {least:g} to {greatest:g}"
