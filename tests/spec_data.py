"""The demo kits as plain data: read, walked, changed by machine, and loaded again."""

from __future__ import annotations

import json
from collections.abc import Iterator
from copy import deepcopy
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from booklet.kit.finding import SpecPath
from booklet.kit.load import LoadedKit, parse_kit
from booklet.kit.tree import plain, read_tree
from booklet.measure.exact import Fraction
from booklet.measure.length import Size, Unit, parse_length, parse_size
from booklet.placing.resolved import ResolvedKit, resolve_kit

SPECS = Path(__file__).parents[1] / "kit_specs"
DEMOS = ("hill-line", "roof-garden")
# Where whole booklets are looked at, the larger one is for the thorough tests.
WHOLE_DEMOS = (pytest.param("hill-line", marks=pytest.mark.thorough), "roof-garden")

Data = dict[str, Any]

# The keys of a spec whose values are lengths or sizes, or lists of them; `sizes` holds them by name.
_LENGTH_KEYS = {
    *("at", "left", "right", "top", "bottom", "gap", "apart", "inset", "border", "ends", "overlap", "loop"),
    *("bow", "length", "radius", "hole", "spacing", "width", "repeat", "size", "sizes", "sheet", "photo"),
    *("write", "mark", "reach", "blade", "hold", "knot", "tails", "tied_at"),
}


def demo_data(name: str) -> Data:
    """A demo kit as its file has it, every value a text as it was typed; a copy that may be changed."""
    return deepcopy(_read(name))


@cache
def _read(name: str) -> Data:
    return data_of((SPECS / f"{name}.yaml").read_text(encoding="utf-8"))


def data_of(text: str) -> Data:
    """A kit as its spec has it, every value a text as it was typed."""
    data: Data = plain(read_tree(text, "a kit spec")[0])
    return data


def loaded_data(data: Data) -> LoadedKit:
    """The spec of such data as it is loaded.  Raises SpecError where it cannot be read."""
    return parse_kit(json.dumps(data, indent=1, ensure_ascii=False), "kit.yaml", SPECS)


def resolved_data(data: Data) -> ResolvedKit:
    """The kit of such data.  Raises SpecError where it cannot be read."""
    return resolve_kit(loaded_data(data))


def unit_of(data: Data) -> Unit:
    return Unit(data["unit"])


def places(data: Any, where: SpecPath = ()) -> Iterator[tuple[SpecPath, Any]]:
    """Every value with its place, what holds others before what it holds."""
    yield where, data
    items = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    for key, value in items:
        yield from places(value, (*where, key))


def value_at(data: Any, where: SpecPath) -> Any:
    """What stands at a place."""
    for key in where:
        data = data[key]
    return data


def changed(data: Data, where: SpecPath, value: Any) -> Data:
    """The same data with another value at a place; None takes it out."""
    copy = deepcopy(data)
    holder = value_at(copy, where[:-1])
    if value is None:
        del holder[where[-1]]
    else:
        holder[where[-1]] = value
    return copy


def lengths(data: Data) -> Iterator[tuple[SpecPath, Fraction | Size]]:
    """Every length and size that is typed, in the kit's unit, with its place."""
    unit = unit_of(data)
    for where, value in places(data):
        keys = [key for key in where if isinstance(key, str)]
        key = keys[-2] if keys[-2:-1] == ["sizes"] else keys[-1] if keys else ""
        is_rest = where[:1] == ("supplies",) and key == "spare" and "length" in value_at(data, where[:-1])
        if (
            not (is_rest or key in _LENGTH_KEYS)
            or not isinstance(value, str)
            or "lay" in keys
            or "edge" in keys
        ):
            continue
        for read in (parse_length, parse_size):
            try:
                yield where, read(value, unit)
                break
            except ValueError:
                continue


def typed(value: Fraction | Size) -> str:
    """A length or size as a spec may have it, exactly: `6 1/4`, `5 1/2 x 7`."""
    if isinstance(value, Size):
        return f"{typed(value.width)} x {typed(value.height)}"
    sign, (whole, rest) = "-" if value < 0 else "", divmod(abs(value), 1)
    if not rest:
        return f"{sign}{whole}"
    return f"{sign}{whole} {rest}" if whole else f"{sign}{rest}"


def scaled(value: Fraction | Size, factor: Fraction) -> Fraction | Size:
    """A length or size so many times as long."""
    if isinstance(value, Size):
        return Size(value.width * factor, value.height * factor)
    return value * factor
