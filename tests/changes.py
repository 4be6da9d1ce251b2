"""Single changes to the demo kits: what a hand mistypes, leaves out, types twice or exchanges.

Each kind is a function over the plain data of a spec.  A length is typed a mark of the trimmer more and
a mark less, a size so in its width and in its height, a count one more and one less; a name is exchanged with
its neighbour under the same key; a step is dropped, doubled, or exchanged with the next.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from typing import Any, TypeVar

from booklet.kit.finding import SpecPath
from booklet.kit.steps import VERBS
from booklet.measure.exact import Fraction
from booklet.measure.length import Size, Unit
from tests.spec_data import DEMOS, Data, changed, demo_data, lengths, places, typed, unit_of, value_at

# The keys whose names are changed, each to the next that stands under the same key.
_NAMING = (
    *("paper", "take", "base", "place", "snip", "raise", "facing", "foam", "add"),
    *("on", "above", "below", "tucked"),
)
# The lengths that say where something lies, and how far from its neighbour.
_DISTANCES = {"left", "right", "top", "bottom", "gap", "apart", "inset", "border", "ends", "at"}
_MOST_POCKETS = 4
One = TypeVar("One")


@dataclass(frozen=True)
class Change:
    """One value of one demo kit that is typed otherwise; None where it is left out, or was not said.

    `where` is what is changed, `said` how in a few words.  `put` is the value that then stands at `put_at`:
    of a step, the whole list that it stands in.
    """

    kind: str
    demo: str
    where: SpecPath
    said: str
    put_at: SpecPath
    put: Any

    @property
    def words(self) -> str:
        """The change in one line."""
        place = " > ".join(str(key + 1) if isinstance(key, int) else key for key in self.where)
        return f"{self.demo}: {place}: {self.said}"

    @property
    def data(self) -> Data:
        """The demo kit with the change."""
        return changed(demo_as_typed(self.demo), self.put_at, self.put)


# A place, how it is changed, where a value is put, and which.
_Site = tuple[SpecPath, str, SpecPath, Any]


@cache
def demo_as_typed(name: str) -> Data:
    """A demo kit as its file has it, read once; nothing is written into it."""
    return demo_data(name)


def all_changes(kind: str) -> list[Change]:
    """Every change of a kind to either demo, in the order of the specs."""
    return [Change(kind, demo, *site) for demo in DEMOS for site in KINDS[kind](demo_as_typed(demo))]


def spread_over(found: Sequence[One], number: int) -> Sequence[One]:
    """So many of them, as far apart as they can be taken; all where there are no more."""
    if len(found) <= number:
        return found
    return [found[(2 * place + 1) * len(found) // (2 * number)] for place in range(number)]


def last_key(where: SpecPath) -> str:
    """The last key of a path, whatever its place in a list."""
    return next((key for key in reversed(where) if isinstance(key, str)), "")


def _typed_otherwise(where: SpecPath, old: Any, new: Any) -> _Site:
    return where, f"{old or 'nothing'} -> {new or 'nothing'}", where, new


# Lengths, sizes, counts.


def _mark(data: Data) -> Fraction:
    """The lines on the trimmer that reading goes by."""
    return Fraction(1, 8) if unit_of(data) is Unit.INCH else Fraction(1, 10)


def _is_reading(where: SpecPath) -> bool:
    return where[0] == "sheets" and last_key(where) == "at"


def _lengths_where(data: Data, is_meant: Callable[[SpecPath], bool]) -> Iterator[_Site]:
    for where, length in lengths(data):
        if isinstance(length, Fraction) and is_meant(where):
            for by in (_mark(data), -_mark(data)):
                yield _typed_otherwise(where, value_at(data, where), typed(length + by))


def _readings(data: Data) -> Iterator[_Site]:
    return _lengths_where(data, _is_reading)


def _distances(data: Data) -> Iterator[_Site]:
    return _lengths_where(data, lambda where: last_key(where) in _DISTANCES and not _is_reading(where))


def _other_lengths(data: Data) -> Iterator[_Site]:
    return _lengths_where(data, lambda where: last_key(where) not in _DISTANCES)


def _sizes(data: Data) -> Iterator[_Site]:
    mark = _mark(data)
    for where, size in lengths(data):
        if isinstance(size, Size):
            for wider, higher in ((mark, 0), (-mark, 0), (0, mark), (0, -mark)):
                other = Size(size.width + wider, size.height + higher)
                yield _typed_otherwise(where, value_at(data, where), typed(other))


def _counts(data: Data) -> Iterator[_Site]:
    for where, value in places(data):
        is_count = where[-1:] in (("count",), ("spare",), ("halves",)) and isinstance(value, str)
        if is_count and value.isdigit() and "length" not in value_at(data, where[:-1]):
            for other in (int(value) + 1, int(value) - 1):
                yield _typed_otherwise(where, value, str(other))


def _pockets(data: Data) -> Iterator[_Site]:
    for where, value in places(data):
        if isinstance(value, str) and ("pockets" in where or where[-1] == "pocket"):
            for by in (1, -1):
                yield _typed_otherwise(where, value, str((int(value) - 1 + by) % _MOST_POCKETS + 1))


# Ways, names.


def _faces(data: Data) -> Iterator[_Site]:
    for where, value in places(data):
        if isinstance(value, dict) and ("place" in value or (where and where[-1] == "lay")):
            old = value.get("face")
            yield _typed_otherwise((*where, "face"), old, "front" if old == "back" else "back")


def _turns(data: Data) -> Iterator[_Site]:
    others = {"clockwise": ["anticlockwise", "half", None], "half": ["clockwise", None]}
    for where, value in places(data):
        if where and where[-1] == "turn":
            for other in others[value]:
                yield _typed_otherwise(where, value, other)


def _tilts(data: Data) -> Iterator[_Site]:
    """A tilt the other way, and left out."""
    for where, value in places(data):
        if where and where[-1] == "tilt":
            yield _typed_otherwise(where, value, value[1:] if value.startswith("-") else f"-{value}")
            yield _typed_otherwise(where, value, None)


def _references(data: Data) -> Iterator[_Site]:
    """A name by the next other one that stands under the same key."""
    for key in _NAMING:
        sites = [(where, value) for where, value in places(data) if where and where[-1] == key]
        sites = [(where, value) for where, value in sites if isinstance(value, str)]
        names = list(dict.fromkeys(value for _, value in sites))
        for where, value in sites:
            if len(names) > 1:
                yield _typed_otherwise(where, value, names[(names.index(value) + 1) % len(names)])


# Steps.


def _cut_steps(data: Data) -> Iterator[_Site]:
    for index, sheet in enumerate(data["sheets"]):
        if isinstance(sheet.get("cuts"), list):
            yield from _steps(data, ("sheets", index, "cuts"))


def _assembly_steps(data: Data) -> Iterator[_Site]:
    for index in range(len(data["layouts"])):
        yield from _steps(data, ("layouts", index, "steps"))


def _steps(data: Data, where: SpecPath) -> Iterator[_Site]:
    """Each step of a list dropped, doubled, and exchanged with the next."""
    steps = value_at(data, where)
    for at, step in enumerate(steps):
        name, before, after = _named(step), steps[:at], steps[at + 1 :]
        yield (*where, at), f"{name} dropped", where, [*before, *after]
        yield (*where, at), f"{name} doubled", where, [*before, step, step, *after]
        if after:
            said = f"{name} exchanged with {_named(after[0])}"
            yield (*where, at), said, where, [*before, after[0], step, *after[1:]]


def verb_of_data(step: Data) -> str:
    """The key of a step of an assembly that says what is done."""
    return next((key for key in VERBS if key in step), "at")


def _named(step: Data) -> str:
    verb = verb_of_data(step)
    return f"{verb} {step[verb]}" if isinstance(step[verb], str) else f"the step at {step[verb]}"


KINDS: dict[str, Callable[[Data], Iterator[_Site]]] = {
    "reading": _readings,
    "size": _sizes,
    "distance": _distances,
    "length": _other_lengths,
    "count": _counts,
    "pocket": _pockets,
    "face": _faces,
    "turn": _turns,
    "tilt": _tilts,
    "reference": _references,
    "cut step": _cut_steps,
    "assembly step": _assembly_steps,
}
