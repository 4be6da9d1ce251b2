"""Validation errors of the model, explained to the person who typed the spec: key, found, expected."""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence
from typing import Any

from pydantic_core import ErrorDetails, ValidationError

from booklet.kit import shape
from booklet.kit.errors import MOST_PROBLEMS
from booklet.kit.finding import SpecPath
from booklet.kit.source import Source
from booklet.kit.syntax import bare_colour
from booklet.kit.tree import Complaint, Keyed, Listing, Node, Scalar
from booklet.kit.words import any_of, nearest, quoted, shown, typed_words
from booklet.measure.length import A_LENGTH, A_SIZE, Unit, parse_length, parse_size


def explain_validation_error(
    error: ValidationError, root: Any, source: Source
) -> tuple[list[Complaint], int]:
    """The complaints of a failed validation of `root`, without those that only follow from another.

    Those that stand first in the file are explained; the number is that of all others.
    """
    every = [(detail, shape.follow(root, detail["loc"])) for detail in error.errors(include_url=False)]
    every.sort(key=lambda each: _place(each[1].path, source))
    details, more = every[:MOST_PROBLEMS], max(0, len(every) - MOST_PROBLEMS)
    unknown = [
        _unknown_key(reached.path, shape.follow(root, detail["loc"][:-1]).hint, source)
        for detail, reached in details
        if _is_unknown(detail)
    ]
    misspelt = {(*complaint.path, complaint.nearest) for complaint in unknown}
    other = [
        _complaint(detail, reached, source)
        for detail, reached in details
        if not _is_unknown(detail)
        and not (detail["type"] == "missing" and reached.path in misspelt)
        and not (detail["type"] == "too_short" and _has_wrong_items(reached.path, details))
    ]
    return unknown + other, more


def _place(path: SpecPath, source: Source) -> tuple[int, int]:
    spot = source.spot(path)
    return spot.line, spot.column


# Among more choices than this, no nearest one is looked for.
_MANY = 12


def _is_unknown(detail: ErrorDetails) -> bool:
    return detail["type"] in ("unexpected_keyword_argument", "extra_forbidden")


def _has_wrong_items(path: SpecPath, details: Sequence[tuple[ErrorDetails, shape.Reached]]) -> bool:
    """Whether a list may be too short only because items of it were refused, which is reported as well."""
    return any(len(other.path) > len(path) and other.path[: len(path)] == path for _, other in details)


def _complaint(detail: ErrorDetails, reached: shape.Reached, source: Source) -> Complaint:
    if detail["type"] == "missing":
        return _missing_key(reached)
    if reached.is_key:
        word = str(reached.path[-1])
        expected = shape.expectation(reached.hint)
        return Complaint(reached.path, f"the key {quoted(word)}", expected, _nearest(word, reached.hint))
    node = source.node(reached.path)
    if shape.tagged_kinds(reached.hint):
        return _wrong_step(reached, node)
    if isinstance(node, Scalar) and node.text is None:
        return _nothing(reached, source)
    if isinstance(node, Keyed) and shape.is_words(reached.hint):
        return _keys_for_words(reached.path, node, source)
    text = node.text if isinstance(node, Scalar) else None
    suggestion = _nearest(text, reached.hint) if text else None
    expected = _with_meaning(_expected(detail, reached), reached)
    return Complaint(reached.path, found_text(node), expected, suggestion)


def _with_meaning(expected: str, reached: shape.Reached) -> str:
    """What is expected, and what the key is for, where that is not plain from its name."""
    meaning = shape.meaning(reached.hint)
    return f"{expected}; {reached.path[-1]} is {meaning}" if meaning else expected


def _keys_for_words(path: tuple[str | int, ...], node: Keyed, source: Source) -> Complaint:
    """A colon within words that no quotes protect has made a key of them."""
    nearest = None
    if len(node.entries) == 1 and not source.is_flow(path):
        ((key, entry),) = node.entries.items()
        if isinstance(entry.value, Scalar) and entry.value.text:
            nearest = typed_words(f"{key}: {entry.value.text}")
    return Complaint(path, found_text(node), "words, in quotes if they hold a colon", nearest)


def found_text(node: Node | None) -> str:
    """What stands in the file, in words."""
    if isinstance(node, Scalar):
        return "nothing" if node.text is None else shown(node.text) or "empty words"
    if isinstance(node, Listing):
        return "a list" if node.items else "an empty list"
    if isinstance(node, Keyed):
        return f"the keys {shown(', '.join(node.entries))}" if node.entries else "an empty {}"
    return "nothing"


def _unknown_key(path: tuple[str | int, ...], holder: Any, source: Source) -> Complaint:
    """The last key of `path`, which what holds it (an annotation of the model) does not know."""
    known = list(shape.keys_of(holder))
    key = str(path[-1])
    close = nearest(key, known)
    if _is_readable(key, parse_length):
        found, expected = f"{key} after a comma", "brackets round a list, as in [8, 2 1/2]"
        return Complaint(path[:-1], found, expected, spot=source.spot(path))
    if not close and (words := _comma_in_words(path, holder, source)):
        return words
    expected = "a known key" if close and len(known) > _MANY else any_of(known)
    return Complaint(path[:-1], f"the unknown key {quoted(key)}", expected, close, spot=source.spot(path))


def _comma_in_words(path: tuple[str | int, ...], holder: Any, source: Source) -> Complaint | None:
    """An unknown key between braces that follows words: they may hold a comma, and a colon."""
    node = source.node(path[:-1])
    if not isinstance(node, Keyed) or not source.is_flow(path[:-1]):
        return None
    keys = list(node.entries)
    before = keys[keys.index(str(path[-1])) - 1] if keys.index(str(path[-1])) else None
    if before is None or not shape.is_words(shape.keys_of(holder).get(before)):
        return None
    said, value = node.entries[before].value, node.entries[str(path[-1])].value
    nearest = None
    if isinstance(said, Scalar) and isinstance(value, Scalar):
        nearest = f"{before}: {typed_words(f'{said.text}, {path[-1]}: {value.text}')}"
    found = f"{quoted(str(path[-1]))} after a comma, which is no key"
    expected = "words that hold a comma to stand in quotes, or a known key"
    return Complaint((*path[:-1], before), found, expected, nearest, source.spot(path))


def _missing_key(reached: shape.Reached) -> Complaint:
    *above, key = reached.path
    if isinstance(key, int):
        return Complaint(tuple(above), f"a list of {key}", f"a list of {key + 1} or more")
    return Complaint(tuple(above), f"no key {quoted(key)}", f"{key}: {shape.expectation(reached.hint)}")


def _wrong_step(reached: shape.Reached, node: Node | None) -> Complaint:
    verbs = list(shape.tagged_kinds(reached.hint))
    expected = shape.expectation(reached.hint)
    if not isinstance(node, Keyed):
        close = _first_word(node, verbs)
        return Complaint(
            reached.path, found_text(node), "verb: what it is about" if close else expected, close
        )
    said = [key for key in node.entries if key in verbs]
    if len(said) > 1:
        return Complaint(reached.path, f"{' and '.join(said)} in one step", "one of them, or two steps")
    near = [close for key in node.entries if (close := nearest(key, verbs))]
    if near:
        return Complaint(reached.path, found_text(node), "one of them to be a verb", near[0])
    return Complaint(reached.path, found_text(node), expected)


def _first_word(node: Node | None, verbs: list[str]) -> str | None:
    """The verb that a step begins with where its colon is missing: `place panel` -> `place: panel`."""
    words = node.text.split() if isinstance(node, Scalar) and node.text else []
    verb = nearest(words[0], verbs) if len(words) > 1 else None
    return f"{verb}: {shown(' '.join(words[1:]))}" if verb else None


def _nothing(reached: shape.Reached, source: Source) -> Complaint:
    expected = _with_meaning(shape.expectation(reached.hint), reached)
    line = source.line(reached.path)
    typed = source.lines[line - 1] if line <= len(source.lines) else ""
    if colour := bare_colour(typed):
        found = f"nothing, since {colour} without quotes begins a comment"
        return Complaint(reached.path, found, "the colour in quotes", f'"{colour}"')
    if re.search(r"\s#", typed):
        expected += ', in quotes if a # is part of it, since "#" begins a comment'
    return Complaint(reached.path, "nothing", expected)


def _expected(detail: ErrorDetails, reached: shape.Reached) -> str:
    kind = detail["type"]
    expected = shape.expectation(reached.hint)
    if kind == "value_error":
        return str(detail["ctx"]["error"])
    if kind == "string_too_long":
        return f"{expected} of at most {detail['ctx']['max_length']} letters"
    if kind in ("too_short", "too_long"):
        least, most = detail["ctx"].get("min_length"), detail["ctx"].get("max_length")
        return f"{expected} of at least {least}" if least is not None else f"{expected} of at most {most}"
    return expected if reached.hint is not None else detail["msg"]


# Choices where the word nearest in letters may mean the opposite.
_SAID_OTHERWISE = {
    "counterclockwise": "anticlockwise",
    "counter-clockwise": "anticlockwise",
    "counter clockwise": "anticlockwise",
    "ccw": "anticlockwise",
    "cw": "clockwise",
    "180": "half",
    "millimetres": "mm",
    "millimeters": "mm",
    "centimetres": "cm",
    "centimeters": "cm",
}


def _nearest(text: str, hint: Any) -> str | None:
    """The valid value nearest to what was typed, where one can be named."""
    if choices := shape.choices_of(hint):
        meant = _SAID_OTHERWISE.get(text.casefold())
        return meant if meant in choices else nearest(text, choices)
    expected = shape.expectation(hint)
    if expected == shape.A_COLOUR:
        return _near_colour(text)
    if expected == A_LENGTH:
        return _near_length(text)
    if expected == A_SIZE:
        return _near_size(text)
    return _within(text, hint)


# What is typed by mistake for the x of a size.
_TIMES = re.compile(r"\s*(?:\bby\b|[X*;])\s*")


def _near_length(text: str) -> str | None:
    """A length with its decimal comma or inch marks set right."""
    tidy = _tidy(text)
    return tidy if tidy != text and _is_readable(tidy, parse_length) else None


def _near_size(text: str) -> str | None:
    """A size with its lengths and the x between them set right."""
    tidy = _TIMES.sub(" x ", _tidy(text))
    return tidy if tidy != text and _is_readable(tidy, parse_size) else None


def _tidy(text: str) -> str:
    return re.sub(r"(?<=\d),(?=\d)", ".", text).replace("”", '"').replace("''", '"').strip(" .")


def _is_readable(text: str, read: Callable[[str, Unit], object]) -> bool:
    try:
        read(text, Unit.INCH)
    except ValueError:
        return False
    return True


def _near_colour(text: str) -> str | None:
    digits = text.strip().lstrip("#")
    if re.fullmatch("[0-9A-Fa-f]{3}", digits):
        digits = "".join(digit * 2 for digit in digits)
    return f'"#{digits.lower()}"' if re.fullmatch("[0-9A-Fa-f]{6}", digits) else None


def _within(text: str, hint: Any) -> str | None:
    """The bound that a number has passed."""
    least, greatest = shape.number_limits(hint)
    try:
        value = float(text)
    except ValueError:
        return None
    if least is not None and value < least:
        return f"{least:g}"
    return f"{greatest:g}" if greatest is not None and value > greatest else None
