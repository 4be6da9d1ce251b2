"""Lengths in the designer's own words against those of the kit: a number typed twice may be changed once."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator
from dataclasses import fields, is_dataclass
from functools import cache
from typing import Any

from booklet.kit.finding import Finding, note
from booklet.kit.kit import trimmer_limits
from booklet.kit.words import quoted
from booklet.measure.exact import Fraction
from booklet.measure.length import Unit, parse_length
from booklet.placing.model import ItemKind, Placed
from booklet.placing.prints import smallest_print_for
from booklet.placing.resolved import ResolvedKit
from booklet.proof.letters import kit_texts

# The keys whose words are read: what a hand is told besides what the program tells.
_TOLD = {"tip", "say"}
# A number and a unit.  A whole number and `in` are a length only where the next word shows it: `put 3 in each
# corner` tells none.
_PARTS = r"(?:[0-9]+[ -])?[0-9]+/[0-9]+|[0-9]*[½⅓⅔¼¾⅛⅜⅝⅞]|[0-9]+\.[0-9]+"
_SHOWN = r"(?=\s*(?:[.,;:!?)]|$)|\s+(?:wide|long|high|tall|deep|apart|from|square|down|up|above|below|x|×)\b)"
_LENGTH = re.compile(
    rf"(?<![\w/.])(?:(?:{_PARTS})\s*(?:in\b|[\"″])|(?:{_PARTS}|[0-9]+)\s*(?:mm|cm|inch|inches)\b"
    rf"|[0-9]+\s*in\b{_SHOWN})"
)
# Numbers of the model that are no lengths.
_NO_LENGTHS = {"tilt", "share", "amount", "count"}


def check_told_lengths(resolved: ResolvedKit) -> Iterator[Finding]:
    """A note for each length in a tip or a sentence of the designer's that the kit has nowhere."""
    unit = resolved.kit.unit
    told = [(where, typed) for where, text in kit_texts(resolved.kit) for typed in _lengths_in(where, text)]
    lengths = [_read(typed, unit) for _, typed in told]
    unknown = _missing_among(_known_lengths(resolved), lengths)
    for (where, typed), length in zip(told, lengths, strict=True):
        if length in unknown:
            found = f"{quoted(typed)} is the length of nothing in the kit"
            yield note("length-of-nothing", where, found, "correct it, if it is to be a measure of the kit's")


def _lengths_in(where: tuple[str | int, ...], text: str) -> Iterator[str]:
    """The lengths that a text tells, as typed."""
    if where[-1] in _TOLD:
        yield from (match[0] for match in _LENGTH.finditer(text))


def _read(typed: str, unit: Unit) -> Fraction | None:
    """The length in the kit's unit; None of what looks like one and is none, such as 5 8/4 in."""
    try:
        return parse_length(typed, unit)
    except ValueError:
        return None


def _missing_among(known: Iterator[Fraction], lengths: Iterable[Fraction | None]) -> set[Fraction]:
    """Those of some lengths that are not among the known ones, of which no more are asked for than needed."""
    missing = {length for length in lengths if length is not None}
    while missing and (length := next(known, None)) is not None:
        missing.discard(length)
    return missing


def _known_lengths(resolved: ResolvedKit) -> Iterator[Fraction]:
    """Every length of the kit, typed or computed, in its unit; first what most of those told are among."""
    yield from _numbers_in((resolved.kit, trimmer_limits(resolved.kit)))
    for sheet in resolved.sheets:
        for stage in sheet.stages:
            yield from (strip.end - strip.start for strip in stage.strips)
            yield from (stage.seen.width - cut.reading for cut in stage.cuts)
    for layout in resolved.layouts:
        page = layout.base.rect
        for item in layout.items:
            yield from (page.right - item.rect.right, page.bottom - item.rect.bottom)
            yield from _print_sides(item, resolved.kit.unit)
    yield from _numbers_in((resolved.sheets, resolved.layouts))


def _print_sides(item: Placed, unit: Unit) -> Iterator[Fraction]:
    """The sides of the print that a photograph is trimmed from."""
    print_size = smallest_print_for(item.rect.size, unit) if item.kind is ItemKind.PHOTO else None
    if print_size is not None:
        size = print_size.size(unit)
        yield from (size.width, size.height)


def _numbers_in(whole: Any) -> Iterator[Fraction]:
    """Every exact number in plain data, each part looked at once: layouts share the sheets' pieces."""
    seen: set[int] = set()
    left = [whole]
    while left:
        value = left.pop()
        if isinstance(value, Fraction):
            yield value
        elif isinstance(value, tuple):
            left += value
        elif isinstance(value, dict):
            left += value.values()
        elif id(value) not in seen and (names := _names_of_fields(value.__class__)):
            seen.add(id(value))
            left += [getattr(value, name) for name in names]


@cache
def _names_of_fields(kind: Any) -> tuple[str, ...]:
    """The fields of a dataclass that may hold lengths; none of what is no dataclass."""
    if not is_dataclass(kind):
        return ()
    return tuple(each.name for each in fields(kind) if each.name not in _NO_LENGTHS)
