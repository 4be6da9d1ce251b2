"""What lies on a page before a step, and how a sentence refers to it: by the number of its step."""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass

from booklet.kit.layout import Layout
from booklet.kit.position import Direction
from booklet.kit.steps import Add, Column, Row, Step
from booklet.measure.exact import Fraction
from booklet.measure.length import Size
from booklet.measure.words import print_size, ruler_length
from booklet.pages.cut_words import listed
from booklet.placing.details import Moved
from booklet.placing.geometry import hull
from booklet.placing.model import PlacedLayout, PlacedStep
from booklet.placing.resolved import ResolvedKit
from booklet.placing.state import BASE_ID, PAGE, Reference

# Stands before a step's number until a sentence is finished; a character that no font draws.
_MARK = "\ue000"
_MARKED = re.compile(f"{_MARK}([0-9]+)")
_ORDINALS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth")
_PLACES = {
    Direction.ACROSS: ("left", "middle", "right"),
    Direction.DOWN: ("top", "middle", "bottom"),
}


@dataclass(frozen=True)
class Laid:
    """A layout as it lies before the step of this number; `names` are the ids that each name stands for."""

    resolved: ResolvedKit
    layout: PlacedLayout
    number: int
    names: Mapping[str, tuple[int, ...]]

    @property
    def spec(self) -> Layout:
        """The layout as the designer wrote it."""
        return self.resolved.kit.layouts[self.layout.index]

    @property
    def placed(self) -> PlacedStep:
        """The step, worked out."""
        return self.layout.steps[self.number - 1]


def laid_before(resolved: ResolvedKit, layout: PlacedLayout, number: int) -> Laid:
    """What lies on a layout before one of its steps; of a name that is used twice, the latest is meant."""
    base = layout.base
    names: dict[str, tuple[int, ...]] = {name: (BASE_ID,) for name in (PAGE, base.piece, base.name) if name}
    steps = resolved.kit.layouts[layout.index].steps
    for placed in layout.steps[: number - 1]:
        names.update(_named(layout, steps[placed.number - 1], placed))
    return Laid(resolved, layout, number, names)


def _named(layout: PlacedLayout, step: Step, placed: PlacedStep) -> Iterator[tuple[str, tuple[int, ...]]]:
    """The names that a step gives, in the order in which it gives them."""
    items = layout.of_step(placed.number)
    for item in items:
        yield from ((name, (item.id,)) for name in (item.called, item.piece, item.name) if name)
    if step.called and _direction(step) is not None and items:
        for place, item in enumerate(items, start=1):
            yield f"{step.called} {place}", (item.id,)
        yield step.called, tuple(item.id for item in items)
    if step.called:
        yield from ((step.called, one.items) for one in placed.details if isinstance(one, Moved))


def _direction(step: Step) -> Direction | None:
    """In which direction the things of a step stand in line; None where they do not."""
    match step:
        case Row():
            return Direction.ACROSS
        case Column():
            return Direction.DOWN
        case Add():
            return step.run
        case _:
            return None


def find(laid: Laid, name: str) -> Reference | None:
    """What a name refers to; None where nothing of that name lies on the page."""
    ids = laid.names.get(name)
    if ids is None:
        return None
    return Reference(ids, hull([laid.layout.item(id).rect for id in ids]))


def refer(laid: Laid, ids: Sequence[int]) -> str:
    """Things in a sentence: `the page`, a step's number, or which one of what a step lays."""
    if BASE_ID in ids:
        return "the page"
    numbers = dict.fromkeys(laid.layout.item(id).step_number for id in ids)
    if len(numbers) > 1:
        return listed([mark(number) for number in _group_of(laid, ids) or sorted(numbers)])
    (number,) = numbers
    fellows = [item.id for item in laid.layout.of_step(number)]
    if len(ids) > 1 or len(fellows) == 1:
        return mark(number)
    return f"{_which(laid.spec.steps[number - 1], fellows.index(ids[0]), len(fellows))} of {mark(number)}"


def _group_of(laid: Laid, ids: Sequence[int]) -> list[int]:
    """The step that laid these together as one block."""
    earlier = laid.layout.steps[: laid.number - 1]
    moved = [(step.number, one) for step in earlier for one in step.details if isinstance(one, Moved)]
    return [number for number, one in moved if one.items == tuple(ids)][-1:]


def _which(step: Step, place: int, count: int) -> str:
    """`the left one`, `the middle one`, `the second from the left`."""
    first, middle, last = _PLACES[_direction(step) or Direction.ACROSS]
    if place == 0:
        return f"the {first} one"
    if place == count - 1:
        return f"the {last} one"
    if count == 3:
        return f"the {middle} one"
    nth = _ORDINALS[place] if place < len(_ORDINALS) else f"{place + 1}th"
    return f"the {nth} from the {first}"


def mark(number: int) -> str:
    """A step's number within a sentence that is not finished yet."""
    return f"{_MARK}{number}"


def said(words: str) -> str:
    """A designer's words within a sentence, in which no step's number is marked."""
    return words.replace(_MARK, "")


def finished(text: str) -> tuple[str, tuple[tuple[int, int], ...]]:
    """A sentence for print, and where in it the numbers of steps stand (start and end).

    A number is never parted from the word before it.
    """
    kept = text.replace(f" {_MARK}", f"\u00a0{_MARK}")
    spans = []
    for earlier, found in enumerate(_MARKED.finditer(kept)):
        start = found.start() - earlier
        spans.append((start, start + len(found[1])))
    return kept.replace(_MARK, ""), tuple(spans)


def length(laid: Laid, value: Fraction) -> str:
    """A length in print as a ruler shows it, in the kit's unit."""
    return ruler_length(value, laid.resolved.kit.unit)


def size(laid: Laid, value: Size) -> str:
    """A size in print, in the kit's unit."""
    return print_size(value, laid.resolved.kit.unit)


def to_cut(laid: Laid, value: Fraction) -> str:
    """A length to cut off a roll, with its unit."""
    return f"{length(laid, value)}\u00a0{laid.resolved.kit.unit.value}"
