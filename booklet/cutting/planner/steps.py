"""From a pattern to the steps of a hand at the trimmer.

A sheet lies upright; upright cuts are made so, level cuts after a clockwise quarter turn, which brings the
bottom edge to the scale's zero, and an anticlockwise turn brings a part back.  So a part lies in one of two
ways only, and its print is never upside down.  Within a step the parts may lie in any order, except that what
wants an edge of the sheet stays there: `in_hand_order` settles it, `within_reach` parts what is longer than
the scale, `cut_steps` writes the steps out.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field, replace
from itertools import accumulate, permutations

from booklet.cutting.planner.patterns import Leaf, Node, Split, leaves
from booklet.cutting.planner.rooms import BOTTOM, LEFT, RIGHT, TOP
from booklet.cutting.planner.wanted import PlannedStep, Settings
from booklet.kit.fields import Turn
from booklet.kit.sheet import SCRAP
from booklet.measure.exact import Fraction
from booklet.measure.length import is_on_mark

# All orders of so many parts are compared (720 of them); beyond it only a few natural ones.
_ALL_ORDERS = 6


@dataclass(frozen=True)
class Scale:
    """The trimmer's settings, and the length of one grid unit, both in the kit's unit."""

    unit: Fraction
    settings: Settings


def in_hand_order(node: Node, scale: Scale, borders: Sequence[int]) -> Node:
    """The same pattern with the parts of every split in the best order for the hand.

    The goals in their order: readings within reach, on marks, safe to hold; scrap farthest from the zero;
    the widest part nearest to it.
    """
    if isinstance(node, Leaf):
        return node
    parts = [in_hand_order(part, scale, borders) for part in node.parts]
    ends = (LEFT, RIGHT) if node.upright else (BOTTOM, TOP)
    orders = _orders(parts, node.upright, [_wants(part, borders) for part in parts], ends)
    best = min(orders, key=lambda order: _objections(order, node.upright, scale))
    return replace(node, parts=best if node.upright else best[::-1])


def _wants(node: Node, borders: Sequence[int]) -> int:
    wanted = 0
    for leaf in leaves(node):
        if leaf.kind is not None:
            wanted |= borders[leaf.kind]
    return wanted


def _length(node: Node, upright: bool) -> int:
    return node.width if upright else node.height


def _is_scrap(node: Node) -> bool:
    return isinstance(node, Leaf) and node.kind is None


def _orders(
    parts: list[Node], upright: bool, wants: list[int], ends: tuple[int, int]
) -> Iterator[tuple[Node, ...]]:
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


def _objections(order: tuple[Node, ...], upright: bool, scale: Scale) -> tuple[int, ...]:
    widths = [_length(part, upright) * scale.unit for part in order]
    ends = list(accumulate(widths))
    readings = ends[:-1]
    unsafe = sum(max(end, width) < scale.settings.hold for end, width in zip(ends, widths[1:], strict=False))
    upside = sum(one < other for i, one in enumerate(widths) for other in widths[i + 1 :])
    scrap_first = sum(_is_scrap(part) * (len(order) - at) for at, part in enumerate(order))
    return (
        sum(width > scale.settings.reach for width in widths[:-1]),
        sum(reading > scale.settings.reach for reading in readings),
        sum(not is_on_mark(reading, scale.settings.mark) for reading in readings),
        unsafe,
        scrap_first,
        upside,
    )


def within_reach(node: Node, scale: Scale) -> Node:
    """The same pattern; what lies beyond the scale's reach is cut in a second take of what is left."""
    if isinstance(node, Leaf):
        return node
    parts = tuple(within_reach(part, scale) for part in _hand(node))
    reach = scale.settings.reach
    ends = list(accumulate(_length(part, node.upright) * scale.unit for part in parts))
    near = sum(end <= reach for end in ends[:-1])
    if 0 < near < len(parts) - 1:
        far = parts[near:]
        length = sum(_length(part, node.upright) for part in far)
        size = (length, node.height) if node.upright else (node.width, length)
        rest = Split(*size, node.upright, far if node.upright else far[::-1])
        parts = (*parts[:near], within_reach(rest, scale))
    return replace(node, parts=parts if node.upright else parts[::-1])


@dataclass
class Names:
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
        """The name of which most are still to be given, and that number."""
        name = max(self.left[kind], key=lambda name: self.left[kind][name])
        return name, self.left[kind][name]

    def give(self, kind: int, count: int) -> str:
        """Give one name to `count` pieces of a kind."""
        name, _ = self.most_of(kind)
        self.left[kind][name] -= count
        return name


@dataclass(frozen=True)
class _Group:
    """Parts alike that wait to be cut."""

    node: Split
    count: int
    name: str | None


@dataclass
class _Bench:
    """What waits, the names given to parts, and the steps so far."""

    scale: Scale
    names: Names
    waiting: list[_Group]
    part_names: dict[tuple[Node, bool], str] = field(default_factory=dict)
    upright: dict[str, bool] = field(default_factory=dict)
    steps: list[PlannedStep] = field(default_factory=list)


def cut_steps(pattern: Node, scale: Scale, names: Names) -> tuple[PlannedStep, ...]:
    """The steps that take one sheet apart; the pattern is in hand order, `names` is used up by it."""
    if isinstance(pattern, Leaf):
        return ()
    bench = _Bench(scale, names, [_Group(pattern, 1, None)])
    while bench.waiting:
        group = _next_group(bench)
        bench.waiting.remove(group)
        left = group.count
        while left:
            together = _together(bench, group.node, left)
            _cut(bench, group, together)
            left -= together
    return tuple(bench.steps)


def _next_group(bench: _Bench) -> _Group:
    """The group whose first reading is set already, if any; parts alike wait until all of them are there."""
    ready = [
        group
        for group in bench.waiting
        if not any(group.node in _inner(other.node) for other in bench.waiting if other is not group)
    ]
    last = bench.steps[-1].at[-1] if bench.steps else None
    return next((group for group in ready if _readings(bench.scale, group.node)[0] == last), ready[0])


def _inner(node: Node) -> Iterator[Node]:
    if isinstance(node, Split):
        for part in node.parts:
            yield part
            yield from _inner(part)


def _together(bench: _Bench, node: Split, waiting: int) -> int:
    """How many of the waiting parts one pass may cut: each of their pieces needs one name for all."""
    pieces = Counter(part.kind for part in node.parts if isinstance(part, Leaf) and part.kind is not None)
    for count in range(min(waiting, bench.scale.settings.together), 1, -1):
        if all(
            sum(n // count for n in bench.names.left[kind].values()) >= each for kind, each in pieces.items()
        ):
            return count
    return 1


def _hand(node: Split) -> tuple[Node, ...]:
    """The parts from the scale's zero outwards: left to right, or bottom to top after a clockwise turn."""
    return node.parts if node.upright else node.parts[::-1]


def _readings(scale: Scale, node: Split) -> tuple[Fraction, ...]:
    ends = list(accumulate(_length(part, node.upright) for part in _hand(node)))
    return tuple(end * scale.unit for end in reversed(ends[:-1]))


def _cut(bench: _Bench, group: _Group, count: int) -> None:
    lies_upright = True if group.name is None else bench.upright[group.name]
    turn = None
    if lies_upright != group.node.upright:
        turn = Turn.CLOCKWISE if lies_upright else Turn.ANTICLOCKWISE
    take = None if group.name is None else (group.name,) * count
    made = tuple(_christen(bench, part, count, group.node.upright) for part in _hand(group.node))
    bench.steps.append(PlannedStep(take, turn, _readings(bench.scale, group.node), made))


def _christen(bench: _Bench, part: Node, count: int, upright: bool) -> str:
    """The name of a part just cut; one that is to be cut further joins those alike that wait."""
    if isinstance(part, Leaf):
        return SCRAP if part.kind is None else bench.names.give(part.kind, count)
    if (part, upright) not in bench.part_names:
        name = bench.names.new_part()
        bench.part_names[part, upright], bench.upright[name] = name, upright
    name = bench.part_names[part, upright]
    for at, group in enumerate(bench.waiting):
        if group.name == name:
            bench.waiting[at] = replace(group, count=group.count + count)
            return name
    bench.waiting.append(_Group(part, count, name))
    return name
