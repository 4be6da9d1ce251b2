"""Steps as they are printed: what is done to a thing as soon as it lies stands in one numbered step with it.

A mat and the photograph on it, a title and the foam that raises it, a piece whose corners are rounded before
it is laid are one movement of the hands; printed together they are easier to follow, and the figure has
fewer numbers.  All is decided on what placing says of the steps.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import fields

from booklet.kit.sheet import SCRAP
from booklet.kit.steps import Column, Photo, Place, PositionedStep, Raise, Row, Snip
from booklet.measure.cache import cached_on
from booklet.measure.dataclass import dataclass
from booklet.placing.axis import ConstraintKind
from booklet.placing.details import (
    FIXED_ON,
    Added,
    CutLength,
    HandWork,
    Held,
    Inked,
    Moved,
    NestBorder,
    Punched,
    Raised,
    Rounded,
    TargetDetail,
    TrimmedRound,
)
from booklet.placing.model import ItemKind, PlacedLayout, PlacedStep
from booklet.placing.resolved import ResolvedKit
from booklet.placing.state import BASE_ID

# More than this in one step is no longer one movement of the hands.
_MOST_TOGETHER = 4
# Keys that say which thing a step is about and what it is called; they differ where each is treated alike.
_NAMING_KEYS = {"on", "round", "punch", "ink", "raised", "called"}
# What is laid down, and what lies on the middle of it.
_PAPER = {ItemKind.PIECE, ItemKind.PHOTO}


@dataclass(frozen=True)
class Member:
    """A step of the spec within a printed one, or several that do the same to each of what lies in line.

    `steps` are their numbers, of which `first` is the first, `items` what they lay down, `about` the things
    that they are about and no other; `in_hand` names the piece that is worked on before it is laid.  Optional
    is also what goes on with what the facing page may have left out.
    """

    steps: tuple[int, ...]
    first: PlacedStep
    items: tuple[int, ...]
    about: frozenset[int]
    is_optional: bool
    in_hand: tuple[str, ...] = ()

    @property
    def is_on_each(self) -> bool:
        """Whether the same is done to each of several."""
        return len(self.steps) > 1


@dataclass(frozen=True)
class PrintedStep:
    """One numbered step of a page: one step of the spec, or several that belong together."""

    number: int
    members: tuple[Member, ...]
    is_optional: bool

    @property
    def items(self) -> tuple[int, ...]:
        """All that it lays down."""
        return tuple(id for member in self.members for id in member.items)


@cached_on
def printed_steps(resolved: ResolvedKit, index: int) -> tuple[PrintedStep, ...]:
    """The printed steps of a layout, by its index; every step of the spec is in one of them."""
    layout = resolved.layouts[index]
    groups: list[list[Member]] = []
    for member in _done_to_each(layout):
        is_next = bool(groups) and _belongs(layout, member, groups[-1])
        home = groups[-1] if is_next else _laid_in(layout, member, groups)
        if home is not None:
            home.append(member)
        else:
            groups.append([member])
    return tuple(
        PrintedStep(number, _as_hands_do(layout, group), group[0].is_optional)
        for number, group in enumerate(groups, start=1)
    )


def printed_numbers(resolved: ResolvedKit, index: int) -> tuple[int, ...]:
    """The printed number of each step of the spec, in order."""
    numbers = {
        step: printed.number
        for printed in printed_steps(resolved, index)
        for member in printed.members
        for step in member.steps
    }
    return tuple(numbers[step] for step in sorted(numbers))


# What a step is about.


def _member(layout: PlacedLayout, placed: PlacedStep) -> Member:
    items, moved = layout.of_step(placed.number), placed.detail(Moved)
    return Member(
        (placed.number,),
        placed,
        moved.items if moved else tuple(item.id for item in items),
        _about(layout, placed),
        placed.step.optional or any(item.optional for item in items),
        tuple(_in_hand(placed)),
    )


def _about(layout: PlacedLayout, placed: PlacedStep) -> frozenset[int]:
    """What a step works on, or puts a thing on, if it has to do with nothing else."""
    for detail in placed.details:
        if isinstance(detail, TargetDetail):
            return frozenset(detail.ids)
        if isinstance(detail, HandWork):
            return frozenset(detail.ids if detail.lies else ())
    step, held = placed.step, placed.detail(Held)
    is_on = isinstance(step, PositionedStep) and step.on is not None
    if held is None or not is_on or not _is_put_on(layout, placed, held):
        return frozenset()
    referred = {*held.frame, *_against(held), *(id for over in held.over for id in over)}
    return frozenset(referred) if BASE_ID not in referred else frozenset()


def _against(held: Held) -> Iterator[int]:
    for constraint in held.constraints:
        yield from constraint.against


def _is_put_on(layout: PlacedLayout, placed: PlacedStep, held: Held) -> bool:
    """Whether a step only adds to a thing, or lays another on the middle of it."""
    kinds = {layout.item(id).kind for id in held.items}
    if placed.detail(Added) or kinds == {ItemKind.WRITING}:
        return True
    if any(isinstance(one, CutLength) and one.form in FIXED_ON for one in placed.details):
        return True
    is_centred = all(constraint.kind is ConstraintKind.CENTRED for constraint in held.constraints)
    return kinds <= _PAPER and is_centred and not held.over


def _in_hand(placed: PlacedStep) -> Iterator[str]:
    """The piece that a step works on before it is laid, and its one part that is kept."""
    for detail in placed.details:
        if isinstance(detail, TargetDetail) and not detail.ids:
            yield detail.target.name
        elif isinstance(detail, HandWork) and not detail.ids and len(detail.targets) == 1:
            yield detail.targets[0].name
        elif isinstance(detail, TrimmedRound):
            yield detail.piece
    if isinstance(placed.step, Snip):
        kept = [part for part in placed.step.leaves if part != SCRAP]
        yield from kept if len(kept) == 1 else ()


# The same to each of several.


def _done_to_each(layout: PlacedLayout) -> list[Member]:
    """The steps in order; what is done alike to every one of those laid together is one member."""
    waiting = [_member(layout, placed) for placed in layout.steps]
    together: dict[int, tuple[int, ...]] = {}
    found: list[Member] = []
    while waiting:
        run = _run_on_each(waiting, together)
        member = _joined(run) if len(run) > 1 else waiting[0]
        del waiting[: len(member.steps)]
        together |= dict.fromkeys(member.items, member.items)
        found.append(member)
    return found


def _run_on_each(waiting: Sequence[Member], together: dict[int, tuple[int, ...]]) -> Sequence[Member]:
    """As many of the steps as do the same to one after another of what was laid together; or none."""
    first = waiting[0]
    row = together.get(min(first.about), ()) if len(first.about) == 1 else ()
    run = waiting[: len(row)]
    wanted = _alike(first)
    if len(run) < 2 or len(run) < len(row) or wanted is None:
        return ()
    about = [id for member in run for id in member.about]
    is_whole = sorted(about) == sorted(row)
    return run if is_whole and all(_alike(one) == wanted for one in run) else ()


def _alike(member: Member) -> tuple[object, ...] | None:
    """What a step does, but for which thing it does it to; None of one with words of its own."""
    step = member.first.step
    if step.say or step.tip or step.uses:
        return None
    said = tuple((f.name, getattr(step, f.name)) for f in fields(step) if f.name not in _NAMING_KEYS)
    seen = tuple((one.across, one.down) for one in member.first.details if isinstance(one, NestBorder))
    return type(step), said, seen, member.is_optional


def _joined(run: Sequence[Member]) -> Member:
    return Member(
        tuple(step for member in run for step in member.steps),
        run[0].first,
        tuple(id for member in run for id in member.items),
        frozenset(id for member in run for id in member.about),
        run[0].is_optional,
    )


# What belongs together.


def _belongs(layout: PlacedLayout, member: Member, group: Sequence[Member]) -> bool:
    """Whether a step goes on with the very thing that the printed step before it has in hand."""
    if len(group) == _MOST_TOGETHER:
        return False
    if member.is_optional != group[0].is_optional:
        return False
    laid = _last_laid(layout, group)
    if not laid:
        return _is_in_hand(layout, member, group[-1].in_hand)
    return member.about == frozenset(laid)


def _laid_in(layout: PlacedLayout, member: Member, groups: Sequence[list[Member]]) -> list[Member] | None:
    """The group that glues what a later step works on in the hand; None of what was moved since then."""
    moved = {id for one in layout.details(Moved) for id in one.items}
    if not _is_done_in_hand(layout, member) or member.about & moved:
        return None
    return next((group for group in groups if _takes_up(member, group)), None)


def _takes_up(member: Member, group: Sequence[Member]) -> bool:
    """Whether a group lays just what a step works on in the hand, and has room for it."""
    is_like = member.is_optional == group[0].is_optional
    lays = any(_is_laid_by(member, one) and member.about == set(one.items) for one in group)
    return is_like and lays and len(group) < _MOST_TOGETHER


def _last_laid(layout: PlacedLayout, group: Sequence[Member]) -> tuple[int, ...]:
    """What the group laid down last, but for what is only put on paper."""
    papers = [one.items for one in group if one.items and _kinds(layout, one) <= _PAPER]
    return papers[-1] if papers else group[0].items


def _kinds(layout: PlacedLayout, member: Member) -> set[ItemKind]:
    return {layout.item(id).kind for id in member.items}


def _is_in_hand(layout: PlacedLayout, member: Member, names: Sequence[str]) -> bool:
    """Whether a step works on the piece that is in the hand already, or lays it down."""
    if not member.items:
        return bool(names) and set(member.in_hand) == set(names)
    items = [layout.item(id) for id in member.items]
    return all(set(item.names).intersection(names) for item in items)


# The order of the hands.


def _as_hands_do(layout: PlacedLayout, group: Sequence[Member]) -> tuple[Member, ...]:
    """A group in the order of the hands: what is done to a piece comes before it is glued.

    Foam alone comes right after, to be told in the sentence that lays the piece.
    """
    ordered: list[Member] = []
    for member in group:
        at = next((at for at, one in enumerate(ordered) if _is_laid_by(member, one)), None)
        if at is not None and is_foam_of(layout, member, ordered[at]):
            is_first = not any(is_foam_of(layout, one, ordered[at]) for one in ordered)
            ordered.insert(at + 1 if is_first else at, member)
        elif at is not None and _is_done_in_hand(layout, member):
            ordered.insert(at, member)
        else:
            ordered.append(member)
    return tuple(ordered)


def _is_laid_by(member: Member, laying: Member) -> bool:
    """Whether a step is about what another lays, and about nothing else."""
    lays = isinstance(laying.first.step, Place | Photo | Row | Column)
    return lays and bool(member.about) and not member.items and member.about <= set(laying.items)


def _is_done_in_hand(layout: PlacedLayout, member: Member) -> bool:
    """Whether a piece is in the hand for it; what is cut in two, or kept on the table, is raised there."""
    if any(isinstance(one, Rounded | Punched | Inked) for one in member.first.details):
        return True
    return isinstance(member.first.step, Raise) and not _is_not_laid(layout, member)


def _is_not_laid(layout: PlacedLayout, member: Member) -> bool:
    """Whether what a step is about is only put on the table, or cut in two."""
    laid = [layout.steps[layout.item(id).step_number - 1].step for id in member.about]
    return any(isinstance(step, PositionedStep) and (step.loose or step.spread) for step in laid)


def is_foam_of(layout: PlacedLayout, member: Member, laying: Member) -> bool:
    """Whether a step says no more than on what foam that one thing lies which another step lays."""
    step, is_settled = member.first.step, member.first.detail(Raised) is not None
    if not isinstance(step, Raise) or step.say or step.tip or step.uses:
        return False
    if not isinstance(laying.first.step, Place | Photo) or laying.is_on_each:
        return False
    return is_settled and member.about == set(laying.items) and not _is_not_laid(layout, member)
