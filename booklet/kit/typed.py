"""Cut steps as a hand would type them into a spec."""

from __future__ import annotations

import json
import re
from collections.abc import Callable, Iterator, Mapping, Sequence

from booklet.kit.sheet import CutStep
from booklet.measure.exact import Fraction
from booklet.measure.length import Size, Unit, convert, parse_length, parse_size
from booklet.measure.words import exact_length, exact_size

# Words that YAML takes as they stand, also between brackets and commas.
_BARE = re.compile(r"[A-Za-z0-9](?:[A-Za-z0-9 ._/'+-]*[A-Za-z0-9._/'+])?")
_NOTHING = {"null", "Null", "NULL"}
# The longest line of a list before it goes on in the next one.
_WIDE = 108


def typed_name(name: str) -> str:
    """A name, in quotes where YAML would take it for something else."""
    is_bare = _BARE.fullmatch(name) and name not in _NOTHING
    return name if is_bare else json.dumps(name, ensure_ascii=False)


def typed_sizes(sizes: Mapping[str, Size], unit: Unit) -> str:
    """Names with their sizes, in braces: `{panel: 6 1/2 x 8}`."""
    said = (f"{typed_name(name)}: {typed_size(size, unit)}" for name, size in sizes.items())
    return f"{{{', '.join(said)}}}"


def typed_length(value: Fraction, unit: Unit) -> str:
    """A length that reads back as itself: in the kit's unit, or in one whose decimals or fraction hold it.

    12.34567891 mm in a kit in inches is a fraction with more figures than a spec may hold.
    """
    others = (f"{exact_length(convert(value, unit, other), other)} {other.value}" for other in Unit)
    said = (exact_length(value, unit), *others)
    return next((one for one in said if _reads_as(parse_length, one, unit, value)), said[0])


def typed_size(size: Size, unit: Unit) -> str:
    """A size that reads back as itself, in the kit's unit or in another one."""
    said = [exact_size(size, unit)]
    for other in Unit:
        sides = Size(convert(size.width, unit, other), convert(size.height, unit, other))
        said.append(f"{exact_size(sides, other)} {other.value}")
    return next((one for one in said if _reads_as(parse_size, one, unit, size)), said[0])


def _reads_as(read: Callable[[str, Unit], object], said: str, unit: Unit, meant: object) -> bool:
    try:
        return read(said, unit) == meant
    except ValueError:
        return False


def flow_cuts(cuts: Sequence[CutStep], unit: Unit) -> str:
    """The steps in brackets, on one line, as they may stand anywhere."""
    steps = ("{" + ", ".join(f"{key}: {value}" for key, value in _entries(cut, unit)) + "}" for cut in cuts)
    return f"[{', '.join(steps)}]"


def block_cuts(cuts: Sequence[CutStep], unit: Unit, indent: int) -> list[str]:
    """The steps as lines, their dashes `indent` columns in."""
    lines: list[str] = []
    for cut in cuts:
        for number, (key, value) in enumerate(_entries(cut, unit)):
            lead = " " * indent + ("- " if number == 0 else "  ")
            lines += _wrapped(f"{lead}{key}: {value}", indent + 6)
    return lines


def _entries(cut: CutStep, unit: Unit) -> Iterator[tuple[str, str]]:
    if cut.take:
        yield "take", _typed_names(cut.take)
    if cut.turn:
        yield "turn", cut.turn.value
    yield "at", _listed(typed_length(reading, unit) for reading in cut.at)
    if cut.leaves:
        yield "leaves", _listed(map(_typed_names, cut.leaves))


def _typed_names(names: Sequence[str]) -> str:
    return typed_name(names[0]) if len(names) == 1 else _listed(map(typed_name, names))


def _listed(values: Iterator[str]) -> str:
    return f"[{', '.join(values)}]"


def _wrapped(line: str, indent: int) -> list[str]:
    """The line, broken after commas where it is too long."""
    lines = []
    while len(line) > _WIDE and (at := line.rfind(", ", indent, _WIDE)) > 0:
        lines.append(line[: at + 1])
        line = " " * indent + line[at + 2 :]
    return [*lines, line]
