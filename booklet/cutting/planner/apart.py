"""Cuts for a cut-apart sheet: they follow from where its printed elements lie.

Each element comes out along its own edges; what lies between is scrap.  A part is cut along all lines of one
direction that run through no element, or first freed of the scrap at its two ends alone.  Of these ways, and
of the two edges that may lie at the scale's zero, the one is taken that costs least: parts that are cut alike
are cut in one pass.  The steps are found, never proved fewest.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import pairwise
from typing import NamedTuple, TypeAlias

from booklet.cutting.orientation import Orientation, part_seen, strip
from booklet.kit.element import PrintedElement
from booklet.kit.fields import Edge, Face, Turn
from booklet.kit.hands import held_width
from booklet.kit.kit import TrimmerLimits
from booklet.kit.sheet import MOST_CUTS, SCRAP, CutStep
from booklet.measure.exact import Fraction
from booklet.measure.geometry import ExactRect
from booklet.measure.length import Size

_TURNS = {0: None, 1: Turn.CLOCKWISE, 2: Turn.HALF, 3: Turn.ANTICLOCKWISE}
# A part as it is to be cut on, or the name of an element, or scrap.
_Strip: TypeAlias = "_Cutting | str"


class NoCutError(Exception):
    """No cut from edge to edge parts these elements."""

    def __init__(self, elements: Sequence[PrintedElement]) -> None:
        self.names = tuple(element.name for element in elements)
        super().__init__(", ".join(self.names))


class TooManyStepsError(Exception):
    """A sheet cannot have as many steps or cuts as part its elements."""


class _Cost(NamedTuple):
    """What cutting costs, the worst first: cuts that cannot be made, passes, crossed hands, turns."""

    objections: int = 0
    passes: int = 0
    crossings: int = 0
    turns: int = 0

    def plus(self, other: _Cost, times: int = 1) -> _Cost:
        """Both, the other one so many times."""
        return _Cost(*(one + times * more for one, more in zip(self, other, strict=True)))


@dataclass(frozen=True)
class _Cutting:
    """How a part is cut: as it lies then, by its quarter turns; its strips from the scale's zero outwards.

    Parts of one `shape` are cut alike and may lie on each other.  `cost` counts all that is cut of it.
    """

    quarters: int
    readings: tuple[Fraction, ...]
    strips: tuple[_Strip, ...]
    shape: tuple[object, ...]
    cost: _Cost


def cuts_apart(
    elements: Sequence[PrintedElement],
    whole: ExactRect,
    first: Orientation,
    limits: TrimmerLimits,
    copies: int,
) -> tuple[CutStep, ...]:
    """The steps that cut elements out of a sheet that first lies so, of which `copies` are cut together.

    The scale's zero is taken to be at the left.  Raises NoCutError where they cannot be parted, and
    TooManyStepsError.
    """
    together = max(1, limits.together // copies)
    search = _Search(tuple(elements), first.face, limits, together)
    chosen = search.best(whole, first.quarters)
    if isinstance(chosen, str):
        return ()
    steps = _Steps({element.name for element in elements}, together, copies)
    steps.carry_out(chosen, first.quarters)
    if len(steps.made) > MOST_CUTS or any(len(step.at) > MOST_CUTS for step in steps.made):
        raise TooManyStepsError
    return tuple(steps.made)


# The search.


@dataclass
class _Search:
    """The best way to cut each part that is met, for each of the four ways in which it may lie."""

    elements: tuple[PrintedElement, ...]
    face: Face
    limits: TrimmerLimits
    together: int
    known: dict[tuple[ExactRect, int], _Cutting | None] = field(default_factory=dict)
    depth: int = 0

    def best(self, part: ExactRect, quarters: int) -> _Strip:
        """How a part that lies so is cut on; the name of the element that it is, or scrap."""
        held = [element for element in self.elements if part.contains(element.rect)]
        if not held:
            return SCRAP
        if held[0].rect == part:
            return held[0].name
        ways = [way for way in (self.lying(part, held, at) for at in range(4)) if way is not None]
        if not ways:
            raise NoCutError(held)
        return min(ways, key=lambda way: (_with_turn(way, quarters), -(way.quarters == quarters)))

    def lying(self, part: ExactRect, held: Sequence[PrintedElement], quarters: int) -> _Cutting | None:
        """The best way to cut a part once it lies so; None where no cut runs between its elements."""
        key = (part, quarters)
        if key not in self.known:
            self.depth += 1
            if self.depth > MOST_CUTS:
                raise TooManyStepsError
            seen = [part_seen(one.rect, part, Orientation(self.face, quarters)) for one in held]
            ways = [self.cut(part, quarters, lines) for lines in _lines(seen, part, quarters)]
            self.known[key] = min(ways, key=lambda way: way.cost) if ways else None
            self.depth -= 1
        return self.known[key]

    def cut(self, part: ExactRect, quarters: int, lines: tuple[Fraction, ...]) -> _Cutting:
        """A part that lies so cut along lines, these by their distance from the scale's zero."""
        lying = Orientation(self.face, quarters)
        seen = lying.seen_size(part.size)
        bounds = pairwise([Fraction(0), *lines, seen.width])
        strips = tuple(self.best(strip(part, lying, low, high, Edge.LEFT), quarters) for low, high in bounds)
        readings = lines[::-1]
        cost = self.cost(readings, seen)
        alike: dict[object, list[_Cutting]] = {}
        for one in strips:
            if isinstance(one, _Cutting):
                alike.setdefault(one.shape, []).append(one)
        for group in alike.values():
            passes = -(-len(group) // self.together)
            cost = cost.plus(_with_turn(group[0], quarters), passes)
        shapes = (one.shape if isinstance(one, _Cutting) else one == SCRAP for one in strips)
        return _Cutting(quarters, readings, strips, (seen, quarters, readings, *shapes), cost)

    def cost(self, readings: Sequence[Fraction], seen: Size) -> _Cost:
        """What these cuts cost by themselves: some are beyond scale or blade, or leave too little to hold."""
        limits = self.limits
        sides = [(reading, before - reading) for before, reading in pairwise([seen.width, *readings])]
        beyond = sum(reading > limits.reach or seen.height > limits.blade for reading in readings)
        narrow = sum(max(side) < limits.hold for side in sides)
        across = sum(held_width(*side, limits.held) < limits.hold for side in sides)
        return _Cost(beyond + narrow, len(readings), across)


def _lines(seen: Sequence[ExactRect], part: ExactRect, quarters: int) -> Iterator[tuple[Fraction, ...]]:
    """Lines to cut along, each by its distance from the zero: all between elements; the two ends alone."""
    width = Orientation(quarters=quarters).seen_size(part.size).width
    edges = sorted({x for one in seen for x in (one.x, one.right) if 0 < x < width})
    free = tuple(x for x in edges if not any(one.x < x < one.right for one in seen))
    if free:
        yield free
    ends = tuple(x for x in (min(one.x for one in seen), max(one.right for one in seen)) if 0 < x < width)
    if ends and ends != free:
        yield ends


def _with_turn(way: _Cutting, quarters: int) -> _Cost:
    """What a way costs of a part that lies so before."""
    return way.cost.plus(_Cost(turns=int(way.quarters != quarters)))


# The steps.


@dataclass
class _Waiting:
    """Parts cut alike that wait, by their names, and how they lie."""

    quarters: int
    parts: list[tuple[str, _Cutting]]


@dataclass
class _Steps:
    """The steps so far, and the parts that wait to be cut on; `taken` are names that parts cannot have."""

    taken: set[str]
    together: int
    copies: int
    made: list[CutStep] = field(default_factory=list)
    waiting: list[_Waiting] = field(default_factory=list)
    named: int = 0

    def carry_out(self, whole: _Cutting, quarters: int) -> None:
        """All steps, the oldest part first, and with it what is cut alike."""
        self.waiting.append(_Waiting(quarters, [("", whole)]))
        while self.waiting and len(self.made) <= MOST_CUTS:
            group = self.waiting[0]
            parts, group.parts = group.parts[: self.together], group.parts[self.together :]
            if not group.parts:
                self.waiting.pop(0)
            self.step(parts, group.quarters)

    def step(self, parts: Sequence[tuple[str, _Cutting]], quarters: int) -> None:
        """The step that cuts these parts in one pass, each of them of so many copies."""
        first = parts[0][1]
        strips = [
            [self.name(strip_, first.quarters) for strip_ in across]
            for across in zip(*(part.strips for _, part in parts), strict=True)
        ]
        are_told = any(isinstance(strip_, _Cutting) for strip_ in first.strips)
        take = tuple(name for name, _ in parts for _ in range(self.copies) if name)
        turn = _TURNS[(first.quarters - quarters) % 4]
        leaves = tuple(map(self.by_paper, strips)) if are_told else ()
        self.made.append(CutStep(at=first.readings, leaves=leaves, take=take, turn=turn))

    def name(self, strip_: _Strip, quarters: int) -> str:
        """The name of a strip just cut; one that is to be cut on waits with those that are cut alike."""
        if isinstance(strip_, str):
            return strip_
        self.named += 1
        while f"strip {self.named}" in self.taken:
            self.named += 1
        name = f"strip {self.named}"
        for group in self.waiting:
            if group.quarters == quarters and group.parts[0][1].shape == strip_.shape:
                group.parts.append((name, strip_))
                return name
        self.waiting.append(_Waiting(quarters, [(name, strip_)]))
        return name

    def by_paper(self, names: Sequence[str]) -> tuple[str, ...]:
        """One name for all papers of a strip, or one for each, copy by copy."""
        return (names[0],) if len(set(names)) == 1 else tuple(n for n in names for _ in range(self.copies))
