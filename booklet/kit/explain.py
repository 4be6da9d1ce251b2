"""What the model refuses, told to the person who typed it: which key, what was found, what belongs there."""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable
from typing import Any

from pydantic import ValidationError
from pydantic_core import ErrorDetails

from booklet.kit import shape
from booklet.kit.nearest import nearest
from booklet.kit.source import Source
from booklet.kit.syntax import bare_colour
from booklet.kit.tree import Complaint, Keyed, Listing, Node, Scalar
from booklet.kit.words import any_of, quoted, shown
from booklet.measure.length import Unit, parse_length, parse_size


def explain(error: ValidationError, root: Any, source: Source) -> list[Complaint]:
    """Every complaint of a failed validation of `root`, without those that only follow from another."""
    told = []
    for detail in error.errors(include_url=False):
        reached = shape.follow(root, detail["loc"])
        if not _follows_from_items(detail, source.node(reached.path)):
            told.append(_complaint(detail, reached, root, source))
    misspelt = {(one.path, one.nearest) for one in told if one.found.startswith(_UNKNOWN_KEY)}
    return [
        one for one in told if not (one.found.startswith(_NO_KEY) and (one.path, one.nearest) in misspelt)
    ]


_UNKNOWN_KEY = "the unknown key "
_NO_KEY = "no key "


def _follows_from_items(detail: ErrorDetails, node: Node | None) -> bool:
    """Whether a list is only called too short because its items were refused, which is told already."""
    return detail["type"] == "too_short" and isinstance(node, Listing) and bool(node.items)


def _complaint(detail: ErrorDetails, reached: shape.Reached, root: Any, source: Source) -> Complaint:
    if detail["type"] in ("unexpected_keyword_argument", "extra_forbidden"):
        return _unknown_key(reached.path, root, source)
    if detail["type"] == "missing":
        return _missing_key(reached)
    if reached.is_key:
        word = str(reached.path[-1])
        expected = f"as a key {shape.expectation(reached.hint)}"
        return Complaint(reached.path, f"the key {quoted(word)}", expected, _nearest(word, reached.hint))
    node = source.node(reached.path)
    if shape.tagged_kinds(reached.hint):
        return _wrong_step(reached, node)
    if isinstance(node, Scalar) and node.text is None:
        return _nothing(reached, source)
    text = node.text if isinstance(node, Scalar) else None
    suggestion = _nearest(text, reached.hint) if text else None
    return Complaint(reached.path, found_text(node), _expected(detail, reached), suggestion)


def found_text(node: Node | None) -> str:
    """What stands in the file, in words."""
    if isinstance(node, Scalar):
        return "nothing" if node.text is None else shown(node.text) or "empty words"
    if isinstance(node, Listing):
        return "a list" if node.items else "an empty list"
    if isinstance(node, Keyed):
        return f"the keys {shown(', '.join(node.entries))}" if node.entries else "an empty {}"
    return "nothing"


def _unknown_key(path: tuple[str | int, ...], root: Any, source: Source) -> Complaint:
    known = list(shape.keys_of(_kind_above(path, root, source)))
    key = str(path[-1])
    found = f"{_UNKNOWN_KEY}{quoted(key)}"
    return Complaint(path[:-1], found, any_of(known), nearest(key, known), spot=source.spot(path))


def _kind_above(path: tuple[str | int, ...], root: Any, source: Source) -> Any:
    """The annotation of what holds the last key of `path`: for a step, that of its verb."""
    hint = shape.follow(root, path[:-1]).hint
    kinds = shape.tagged_kinds(hint)
    node = source.node(path[:-1])
    verbs = [verb for verb in kinds if isinstance(node, Keyed) and verb in node.entries]
    return kinds[verbs[0]] if verbs else hint


def _missing_key(reached: shape.Reached) -> Complaint:
    key = str(reached.path[-1])
    return Complaint(
        reached.path[:-1], f"{_NO_KEY}{quoted(key)}", f"{key}: {shape.expectation(reached.hint)}", key
    )


def _wrong_step(reached: shape.Reached, node: Node | None) -> Complaint:
    verbs = list(shape.tagged_kinds(reached.hint))
    expected = shape.expectation(reached.hint)
    if not isinstance(node, Keyed):
        return Complaint(reached.path, found_text(node), expected, _first_word(node, verbs))
    said = [key for key in node.entries if key in verbs]
    if len(said) > 1:
        return Complaint(reached.path, f"{' and '.join(said)} in one step", "one of them, or two steps")
    near = [close for key in node.entries if (close := nearest(key, verbs))]
    return Complaint(reached.path, found_text(node), expected, near[0] if near else None)


def _first_word(node: Node | None, verbs: list[str]) -> str | None:
    """The verb that a step begins with where its colon is missing: `place panel` -> `place: panel`."""
    words = node.text.split() if isinstance(node, Scalar) and node.text else []
    verb = nearest(words[0], verbs) if len(words) > 1 else None
    return f"{verb}: {shown(' '.join(words[1:]))}" if verb else None


def _nothing(reached: shape.Reached, source: Source) -> Complaint:
    expected = shape.expectation(reached.hint)
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


def _nearest(text: str, hint: Any) -> str | None:
    """The valid value nearest to what was typed, where one can be named."""
    if choices := shape.choices_of(hint):
        return nearest(text, choices)
    expected = shape.expectation(hint)
    if expected == shape.A_COLOUR:
        return _near_colour(text)
    if expected == shape.A_LENGTH:
        return _near(text, lambda tidy: parse_length(tidy, Unit.INCH))
    if expected == shape.A_SIZE:
        return _near(
            re.sub(r"\s*(\bby\b|[X*/,;])\s*(?=[\d.]+)", " x ", text),
            lambda tidy: parse_size(tidy, Unit.INCH),
        )
    return _within(text, hint)


def _near(text: str, parse: Callable[[str], object]) -> str | None:
    tidy = unicodedata.normalize("NFKC", re.sub(r"([¼-¾⅐-⅞])", r" \1", text)).replace("\u2044", "/")
    tidy = re.sub(r"(?<=\d),(?=\d)", ".", tidy).replace("”", '"').replace("''", '"').strip(" .")
    try:
        parse(tidy)
    except ValueError:
        return None
    return tidy if tidy != text else None


def _near_colour(text: str) -> str | None:
    digits = text.strip().lstrip("#")
    if re.fullmatch("[0-9A-Fa-f]{3}", digits):
        digits = "".join(digit * 2 for digit in digits)
    return f'"#{digits.lower()}"' if re.fullmatch("[0-9A-Fa-f]{6}", digits) else None


def _within(text: str, hint: Any) -> str | None:
    """The bound that a number has passed."""
    least, greatest = shape.bounds(hint)
    try:
        value = float(text)
    except ValueError:
        return None
    if least is not None and value < least:
        return f"{least:g}"
    return f"{greatest:g}" if greatest is not None and value > greatest else None
