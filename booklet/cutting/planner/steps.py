"""From a pattern to the steps of a hand at the trimmer.

A sheet lies upright; upright cuts are made so, level cuts after a clockwise quarter turn, which brings the
bottom edge to the scale's zero, and an anticlockwise turn brings a part back.  So a part lies in one of two
ways only, and its print is never upside down.  Within a step the parts may lie in any order, except that what
wants an edge of the sheet stays there: `in_cutting_order` settles it, `within_reach` splits what is longer
than the scale, `cut_steps` writes the steps out.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from itertools import accumulate, permutations

from booklet.cutting.planner.patterns import PatternLeaf, PatternNode, PatternSplit, pattern_leaves
from booklet.cutting.planner.regions import BOTTOM, LEFT, RIGHT, TOP
from booklet.cutting.planner.wanted import PlannedStep, Settings
from booklet.kit.fields import Turn
from booklet.kit.hands import held_width
from booklet.kit.sheet import SCRAP
from booklet.measure.dataclass import replace
from booklet.measure.exact import Fraction
from booklet.measure.length import is_on_mark

# All orders of so many parts are compared (720 of them); beyond it only a few natural ones.
_ALL_ORDERS = 6


@dataclass(frozen=True)
class GridScale:
    """The trimmer's settings, and the length of one grid unit, both in the kit's unit."""

    unit: Fraction
    settings: Settings


def in_cutting_order(node: PatternNode, scale: GridScale, borders: Sequence[int]) -> PatternNode:
    """The same pattern with the parts of every split in the best order to cut them.

    The goals in their order: readings within reach, on marks, safe to hold, and that by the
    hand that need not cross the blade; scrap farthest from the zero;
    the widest part nearest to it.
    """
    if isinstance(node, PatternLeaf):
        return node
    parts = [in_cutting_order(part, scale, borders) for part in node.parts]
    ends = (LEFT, RIGHT) if node.upright else (BOTTOM, TOP)
    orders = _orders(parts, node.upright, [_wants(part, borders) for part in parts], ends)
    best = min(orders, key=lambda order: _objections(order, node.upright, scale))
    return replace(node, parts=best if node.upright else best[::-1])


def _wants(node: PatternNode, borders: Sequence[int]) -> int:
    wanted = 0
    for leaf in pattern_leaves(node):
        if leaf.kind is not None:
            wanted |= borders[leaf.kind]
    return wanted


def _length(node: PatternNode, upright: bool) -> int:
    return node.width if upright else node.height


def _is_scrap(node: PatternNode) -> bool:
    return isinstance(node, PatternLeaf) and node.kind is None


def _orders(
    parts: list[PatternNode], upright: bool, wants: list[int], ends: tuple[int, int]
) -> Iterator[tuple[PatternNode, ...]]:
    """Orders from the zero outwards in which what wants one of the two edges lies there."""
    near = [part for part, want in zip(parts, wants, strict=True) if want & ends[0]]
    far = [part for part, want in zip(parts, wants, strict=True) if want & ends[1]]
    free = [part for part, want in zip(parts, wants, strict=True) if not want & (ends[0] | ends[1])]
    free.sort(key=lambda part: (_is_scrap(part), -_length(part, upright), repr(part)))
    if len(free) <= _ALL_ORDERS:
        yield from ((*near, *order, *far) for order in dict.fromkeys(permutations(free)))
        return
    for at in range(len(free)):
        yield (*near, free[at], *free[:at], *free[at + 1 :], *far)
        yield (*near, *free[:at], *free[at + 1 :], free[at], *far)


def _objections(order: tuple[PatternNode, ...], upright: bool, scale: GridScale) -> tuple[int, ...]:
    widths = [_length(part, upright) * scale.unit for part in order]
    ends = list(accumulate(widths))
    readings = ends[:-1]
    hold, held = scale.settings.hold, scale.settings.held
    sides = list(zip(ends, widths[1:], strict=False))
    upside = sum(one < other for i, one in enumerate(widths) for other in widths[i + 1 :])
    scrap_first = sum(_is_scrap(part) * (len(order) - at) for at, part in enumerate(order))
    return (
        sum(width > scale.settings.reach for width in widths[:-1]),
        sum(reading > scale.settings.reach for reading in readings),
        sum(not is_on_mark(reading, scale.settings.mark) for reading in readings),
        sum(max(side) < hold for side in sides),
        sum(held_width(*side, held) < hold for side in sides),
        scrap_first,
        upside,
    )


def within_reach(node: PatternNode, scale: GridScale) -> PatternNode:
    """The same pattern; what lies beyond the scale's reach is cut in a second take of what is left."""
    if isinstance(node, PatternLeaf):
        return node
    parts = tuple(within_reach(part, scale) for part in _from_zero(node))
    reach = scale.settings.reach
    ends = list(accumulate(_length(part, node.upright) * scale.unit for part in parts))
    near = sum(end <= reach for end in ends[:-1])
    if 0 < near < len(parts) - 1:
        far = parts[near:]
        length = sum(_length(part, node.upright) for part in far)
        size = (length, node.height) if node.upright else (node.width, length)
        rest = PatternSplit(*size, node.upright, far if node.upright else far[::-1])
        parts = (*parts[:near], within_reach(rest, scale))
    return replace(node, parts=parts if node.upright else parts[::-1])


@dataclass
class NamePool:
    """The names still to be given to the pieces of each kind, with how many of each; parts get their own."""

    left: list[dict[str, int]]
    parts: int = 0

    def new_part(self) -> str:
        """A name for a part that is to be cut further, which no wanted piece has."""
        self.parts += 1
        while any(f"strip {self.parts}" in names for names in self.left):
            self.parts += 1
        return f"strip {self.parts}"

    def most_of(self, kind: int) -> tuple[str, int]:
        """The name that is still to be given most often, and how often."""
        name = max(self.left[kind], key=lambda name: self.left[kind][name])
        return name, self.left[kind][name]

    def give(self, kind: int, count: int) -> str:
        """Give one name to `count` pieces of a kind."""
        name, _ = self.most_of(kind)
        self.left[kind][name] -= count
        return name


@dataclass(frozen=True)
class _Waiting:
    """Equal parts that wait to be cut."""

    node: PatternSplit
    count: int
    name: str | None


@dataclass
class _Progress:
    """The parts that wait to be cut, the names given to parts, and the steps so far."""

    scale: GridScale
    names: NamePool
    waiting: list[_Waiting]
    part_names: dict[tuple[PatternNode, bool], str] = field(default_factory=dict)
    upright: dict[str, bool] = field(default_factory=dict)
    steps: list[PlannedStep] = field(default_factory=list)


def cut_steps(pattern: PatternNode, scale: GridScale, names: NamePool) -> tuple[PlannedStep, ...]:
    """The steps that take one sheet apart; the pattern is in cutting order, `names` is used up by it."""
    if isinstance(pattern, PatternLeaf):
        return ()
    progress = _Progress(scale, names, [_Waiting(pattern, 1, None)])
    while progress.waiting:
        group = _next_group(progress)
        progress.waiting.remove(group)
        left = group.count
        while left:
            together = _together(progress, group.node, left)
            _cut(progress, group, together)
            left -= together
    return tuple(progress.steps)


def _next_group(progress: _Progress) -> _Waiting:
    """The group whose first reading is set already, if any; equal parts wait until all of them are there."""
    ready = [
        group
        for group in progress.waiting
        if not any(group.node in _inner(other.node) for other in progress.waiting if other is not group)
    ]
    last = progress.steps[-1].at[-1] if progress.steps else None
    return next((group for group in ready if _readings(progress.scale, group.node)[0] == last), ready[0])


def _inner(node: PatternNode) -> Iterator[PatternNode]:
    if isinstance(node, PatternSplit):
        for part in node.parts:
            yield part
            yield from _inner(part)


def _together(progress: _Progress, node: PatternSplit, waiting: int) -> int:
    """How many of the waiting parts one pass may cut: each of their pieces needs one name for all."""
    pieces = Counter(
        part.kind for part in node.parts if isinstance(part, PatternLeaf) and part.kind is not None
    )
    for count in range(min(waiting, progress.scale.settings.together), 1, -1):
        if all(
            sum(n // count for n in progress.names.left[kind].values()) >= each
            for kind, each in pieces.items()
        ):
            return count
    return 1


def _from_zero(node: PatternSplit) -> tuple[PatternNode, ...]:
    """The parts from the scale's zero outwards: left to right, or bottom to top after a clockwise turn."""
    return node.parts if node.upright else node.parts[::-1]


def _readings(scale: GridScale, node: PatternSplit) -> tuple[Fraction, ...]:
    ends = list(accumulate(_length(part, node.upright) for part in _from_zero(node)))
    return tuple(end * scale.unit for end in reversed(ends[:-1]))


def _cut(progress: _Progress, group: _Waiting, count: int) -> None:
    lies_upright = True if group.name is None else progress.upright[group.name]
    turn = None
    if lies_upright != group.node.upright:
        turn = Turn.CLOCKWISE if lies_upright else Turn.ANTICLOCKWISE
    take = None if group.name is None else (group.name,) * count
    made = tuple(_name_part(progress, part, count, group.node.upright) for part in _from_zero(group.node))
    progress.steps.append(PlannedStep(take, turn, _readings(progress.scale, group.node), made))


def _name_part(progress: _Progress, part: PatternNode, count: int, upright: bool) -> str:
    """The name of a part just cut; one that is to be cut further joins the equal ones that wait."""
    if isinstance(part, PatternLeaf):
        return SCRAP if part.kind is None else progress.names.give(part.kind, count)
    if (part, upright) not in progress.part_names:
        name = progress.names.new_part()
        progress.part_names[part, upright], progress.upright[name] = name, upright
    name = progress.part_names[part, upright]
    for at, group in enumerate(progress.waiting):
        if group.name == name:
            progress.waiting[at] = replace(group, count=group.count + count)
            return name
    progress.waiting.append(_Waiting(part, count, name))
    return name
