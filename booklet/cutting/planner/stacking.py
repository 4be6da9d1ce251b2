"""Equal strips, cut in one pass: fewer passes of the blade than a pattern with the fewest cuts may need.

The pattern with fewest cuts counts every cut, also those that one pass makes in several papers.  So some
pieces are grouped into equal strips, as many as the trimmer cuts together; the strips are planned as pieces,
and are then cut up in one pile.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from itertools import accumulate, product

from booklet.cutting.planner.metrics import BenchPart, concerns_of, execute_steps, measure_steps
from booklet.cutting.planner.wanted import PlannedStep, Settings, SheetPlan, Wanted
from booklet.kit.fields import Turn
from booklet.kit.sheet import SCRAP
from booklet.measure.dataclass import dataclass, replace
from booklet.measure.exact import Fraction
from booklet.measure.length import Size

# The most ways to group pieces into strips that are listed, and that are planned, the best first.
_LOOKED_AT, _PLANNED = 2000, 12
# A name that no piece can have: names come from a spec, which holds no control characters.
_STRIP = "\x00strip"

PlanOne = Callable[[Sequence[Wanted]], SheetPlan | None]


@dataclass(frozen=True)
class _StripGroup:
    """`count` equal strips, each of these pieces one after another, `over` of scrap at its end.

    `upright` says that the pieces lie one above the other on the front, `across` is their common side.
    """

    upright: bool
    across: Fraction
    pieces: tuple[tuple[Wanted, Fraction], ...]
    over: Fraction
    count: int

    @property
    def along(self) -> Fraction:
        """The length of a strip."""
        return sum((length for _, length in self.pieces), self.over)

    @property
    def size(self) -> Size:
        """The strip as it lies on the front."""
        return Size(self.across, self.along) if self.upright else Size(self.along, self.across)

    @property
    def passes(self) -> int:
        """Passes of the blade that take the pile of strips apart."""
        return len(self.pieces) - 1 + bool(self.over)


def with_stacking(
    wanted: Sequence[Wanted], planned: SheetPlan, settings: Settings, plan_one: PlanOne
) -> SheetPlan:
    """The sheet's plan, or a better one with strips cut in one pass; `wanted` is what the sheet yields."""
    if settings.together < 2 or not planned.steps:
        return planned
    best = planned
    for group in _strip_groups(wanted, planned, settings):
        with_strips = plan_one(_wanted_with_strips(wanted, group))
        made = _taken_apart(with_strips, group, settings) if with_strips else None
        if made is not None and _rank(made) < _rank(best):
            best = made
    return best


def _rank(planned: SheetPlan) -> tuple[int | Fraction, ...]:
    metrics, concerns = planned.metrics, planned.concerns
    return (
        concerns.beyond_reach + concerns.unsafe,
        metrics.cuts,
        metrics.settings + metrics.turns,
        concerns.off_marks,
        -metrics.largest_scrap,
    )


def _strip_groups(wanted: Sequence[Wanted], planned: SheetPlan, settings: Settings) -> list[_StripGroup]:
    """The groups that may need as few passes as the plan does, the most promising first."""
    partners = {piece.wish.beside for piece in wanted if piece.wish}
    free = [piece for piece in wanted if piece.count > 1 and not piece.wish and piece.name not in partners]
    total = sum(piece.count for piece in wanted)
    found: dict[_StripGroup, int] = {}
    for number, group in enumerate(_all_strip_groups(free, planned.size, settings)):
        if number == _LOOKED_AT:
            break
        others = total - group.count * len(group.pieces)
        least = others + group.count - 1 + group.passes
        if least <= planned.metrics.cuts:
            found[group] = least
    return sorted(found, key=lambda group: (found[group], group.passes, repr(group)))[:_PLANNED]


def _all_strip_groups(free: Sequence[Wanted], sheet: Size, settings: Settings) -> Iterator[_StripGroup]:
    for upright in (True, False):
        room = sheet.height if upright else sheet.width
        by_across: dict[Fraction, list[tuple[Wanted, Fraction]]] = {}
        for piece in free:
            for across, along in _orientations(piece, upright):
                by_across.setdefault(across, []).append((piece, along))
        for across in sorted(by_across, reverse=True):
            for count in range(settings.together, 1, -1):
                for pieces in _contents(by_across[across], count, room):
                    yield from _of_lengths(_StripGroup(upright, across, pieces, Fraction(0), count), sheet)


def _orientations(piece: Wanted, upright: bool) -> Iterator[tuple[Fraction, Fraction]]:
    """Across and along a strip, for each way in which the piece may lie in it."""
    across, along = piece.size.width, piece.size.height
    if not upright:
        across, along = along, across
    yield across, along
    if piece.may_turn and across != along:
        yield along, across


def _contents(
    choices: Sequence[tuple[Wanted, Fraction]], count: int, room: Fraction
) -> Iterator[tuple[tuple[Wanted, Fraction], ...]]:
    """What `count` equal strips may hold: at least two pieces each, no more than there are, none too long."""
    for numbers in product(*(range(piece.count // count, -1, -1) for piece, _ in choices)):
        pieces = tuple(choice for choice, number in zip(choices, numbers, strict=True) for _ in range(number))
        if len(pieces) > 1 and sum(along for _, along in pieces) <= room:
            yield tuple(sorted(pieces, key=lambda one: (-one[1], one[0].name)))


def _of_lengths(group: _StripGroup, sheet: Size) -> Iterator[_StripGroup]:
    """The strip as long as its pieces, and as long as a side of the sheet, scrap at its end."""
    yield group
    for side in dict.fromkeys((sheet.height, sheet.width)):
        if side > group.along:
            yield replace(group, over=side - group.along)


def _wanted_with_strips(wanted: Sequence[Wanted], group: _StripGroup) -> list[Wanted]:
    """What is wanted, with the strips in place of the pieces in them."""
    used = Counter(piece.name for piece, _ in group.pieces)
    left = [replace(piece, count=piece.count - used[piece.name] * group.count) for piece in wanted]
    may_turn = all(piece.may_turn for piece, _ in group.pieces)
    strips = Wanted(_STRIP, group.size, group.count, may_turn)
    return [*(piece for piece in left if piece.count), strips]


def _taken_apart(with_strips: SheetPlan, group: _StripGroup, settings: Settings) -> SheetPlan | None:
    """The plan with the pile of strips cut at its end; None where they do not lie the same way."""
    if not with_strips.steps:
        return None
    strips = [part for part in execute_steps(with_strips.steps, with_strips.size) if part.name == _STRIP]
    if len({(part.rect.size, part.lying) for part in strips}) != 1:
        return None
    name = _part_name(with_strips)
    steps = tuple(
        replace(step, leaves=tuple(name if left == _STRIP else left for left in step.leaves))
        for step in with_strips.steps
    )
    steps = (*steps, _apart(group, strips[0], name))
    metrics, concerns = (
        measure_steps(steps, with_strips.size),
        concerns_of(steps, with_strips.size, settings),
    )
    return replace(with_strips, steps=steps, metrics=metrics, concerns=concerns)


def _part_name(with_strips: SheetPlan) -> str:
    used = {name for step in with_strips.steps for name in step.leaves}
    return next(name for number in range(1, len(used) + 2) if (name := f"strip {number}") not in used)


def _apart(group: _StripGroup, strip: BenchPart, name: str) -> PlannedStep:
    """The step that takes the pile apart, the longest piece at the scale's zero, scrap farthest from it."""
    is_turned = strip.rect.size != group.size
    runs_down = group.upright != is_turned
    lies_turned = strip.lying.quarters % 2 == 1
    turn = None
    if runs_down != lies_turned:
        turn = Turn.ANTICLOCKWISE if lies_turned else Turn.CLOCKWISE
    ends = list(accumulate(length for _, length in group.pieces))
    leaves = tuple(piece.name for piece, _ in group.pieces)
    if group.over:
        leaves = (*leaves, SCRAP)
    else:
        ends = ends[:-1]
    return PlannedStep((name,) * group.count, turn, tuple(reversed(ends)), leaves)
