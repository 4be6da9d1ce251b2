"""Steps as they are printed: what is done to a thing as soon as it lies stands in one numbered step with it.

A mat and the photograph on it, a title and the foam that raises it, a piece whose corners are rounded before
it is laid are one movement of the hands; printed together they are easier to follow, and the figure has
fewer numbers.  All is decided on what placing says of the steps.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, fields

from booklet.kit.sheet import SCRAP
from booklet.kit.steps import Column, Photo, Place, PositionedStep, Raise, Row, Snip, Step
from booklet.measure.cache import cached_on
from booklet.placing.axis import ConstraintKind
from booklet.placing.details import (
    Added,
    BandForm,
    CutLength,
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
_TIED = {BandForm.LOOP, BandForm.BOW}


@dataclass(frozen=True)
class Member:
    """A step of the spec within a printed one, or several that do the same to each of what lies in line.

    `steps` are their numbers, `items` what they lay down, `about` the things that they are about and no
    other; `in_hand` names the piece that is worked on before it is laid.
    """

    steps: tuple[int, ...]
    items: tuple[int, ...]
    about: frozenset[int]
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
    steps = resolved.kit.layouts[index].steps
    groups: list[list[Member]] = []
    for member in _done_to_each(layout, steps):
        is_next = bool(groups) and _belongs(layout, member, groups[-1])
        home = groups[-1] if is_next else _laid_in(layout, steps, member, groups)
        if home is not None:
            home.append(member)
        else:
            groups.append([member])
    return tuple(
        PrintedStep(number, _as_hands_do(layout, steps, group), is_optional(layout, group[0].steps[0]))
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


def is_optional(layout: PlacedLayout, number: int) -> bool:
    """Whether a step may be left out, also because the facing page may have left out what it goes on with."""
    step = layout.steps[number - 1]
    return step.optional or any(item.optional for item in layout.of_step(number))


# What a step is about.


def _member(layout: PlacedLayout, steps: Sequence[Step], placed: PlacedStep) -> Member:
    items = tuple(item.id for item in layout.of_step(placed.number))
    moved = placed.detail(Moved)
    return Member(
        (placed.number,),
        moved.items if moved else items,
        _about(layout, steps[placed.number - 1], placed),
        tuple(_in_hand(steps[placed.number - 1], placed)),
    )


def _about(layout: PlacedLayout, step: Step, placed: PlacedStep) -> frozenset[int]:
    """What a step works on, or puts a thing on, if it has to do with nothing else."""
    for detail in placed.details:
        if isinstance(detail, TargetDetail):
            return frozenset(detail.target.ids)
    held = placed.detail(Held)
    is_on = isinstance(step, PositionedStep) and step.on is not None
    if held is None or not is_on or not _is_put_on(layout, placed, held):
        return frozenset()
    referred = {*held.frame, *_against(held), *(id for over in held.over for id in over)}
    return frozenset(referred) if BASE_ID not in referred else frozenset()


def _against(held: Held) -> Iterator[int]:
    for constraint in (*held.across, *held.down):
        yield from constraint.against


def _is_put_on(layout: PlacedLayout, placed: PlacedStep, held: Held) -> bool:
    """Whether a step only adds to a thing, or lays another on the middle of it."""
    kinds = {layout.item(id).kind for id in held.items}
    if placed.detail(Added) or kinds == {ItemKind.WRITING}:
        return True
    if any(isinstance(one, CutLength) and one.form in _TIED for one in placed.details):
        return True
    constraints = (*held.across, *held.down)
    is_centred = all(constraint.kind is ConstraintKind.CENTRED for constraint in constraints)
    return kinds <= _PAPER and is_centred and not held.over


def _in_hand(step: Step, placed: PlacedStep) -> Iterator[str]:
    """The piece that a step works on before it is laid, and its one part that is kept."""
    for detail in placed.details:
        if isinstance(detail, TargetDetail) and not detail.target.ids:
            yield detail.target.name
        elif isinstance(detail, TrimmedRound):
            yield detail.piece
    if isinstance(step, Snip):
        kept = [part for part in step.leaves if part != SCRAP]
        yield from kept if len(kept) == 1 else ()


# The same to each of several.


def _done_to_each(layout: PlacedLayout, steps: Sequence[Step]) -> list[Member]:
    """The steps in order; what is done alike to every one of those laid together is one member."""
    waiting = [_member(layout, steps, placed) for placed in layout.steps]
    together: dict[int, tuple[int, ...]] = {}
    found: list[Member] = []
    while waiting:
        run = _run_on_each(layout, steps, waiting, together)
        member = _joined(run) if len(run) > 1 else waiting[0]
        del waiting[: len(member.steps)]
        together |= dict.fromkeys(member.items, member.items)
        found.append(member)
    return found


def _run_on_each(
    layout: PlacedLayout,
    steps: Sequence[Step],
    waiting: Sequence[Member],
    together: dict[int, tuple[int, ...]],
) -> Sequence[Member]:
    """As many of the steps as do the same to one after another of what was laid together; or none."""
    first = waiting[0]
    row = together.get(min(first.about), ()) if len(first.about) == 1 else ()
    run = waiting[: len(row)]
    wanted = _alike(layout, steps, first)
    if len(run) < 2 or len(run) < len(row) or wanted is None:
        return ()
    about = [id for member in run for id in member.about]
    is_whole = sorted(about) == sorted(row)
    return run if is_whole and all(_alike(layout, steps, one) == wanted for one in run) else ()


def _alike(layout: PlacedLayout, steps: Sequence[Step], member: Member) -> tuple[object, ...] | None:
    """What a step does, but for which thing it does it to; None of one with words of its own."""
    step, placed = steps[member.steps[0] - 1], layout.steps[member.steps[0] - 1]
    if step.say or step.tip or step.uses:
        return None
    said = tuple((f.name, getattr(step, f.name)) for f in fields(step) if f.name not in _NAMING_KEYS)
    seen = tuple((one.across, one.down) for one in placed.details if isinstance(one, NestBorder))
    return type(step), said, seen, is_optional(layout, placed.number)


def _joined(run: Sequence[Member]) -> Member:
    return Member(
        tuple(step for member in run for step in member.steps),
        tuple(id for member in run for id in member.items),
        frozenset(id for member in run for id in member.about),
    )


# What belongs together.


def _belongs(layout: PlacedLayout, member: Member, group: Sequence[Member]) -> bool:
    """Whether a step goes on with the very thing that the printed step before it has in hand."""
    if len(group) == _MOST_TOGETHER:
        return False
    if is_optional(layout, member.steps[0]) != is_optional(layout, group[0].steps[0]):
        return False
    laid = _last_laid(layout, group)
    if not laid:
        return _is_in_hand(layout, member, group[-1].in_hand)
    return member.about == frozenset(laid)


def _laid_in(
    layout: PlacedLayout, steps: Sequence[Step], member: Member, groups: Sequence[list[Member]]
) -> list[Member] | None:
    """The group that glues what a later step works on in the hand; None of what was moved since then."""
    moved = {
        id for step in layout.steps for one in step.details if isinstance(one, Moved) for id in one.items
    }
    if not _is_done_in_hand(layout, steps, member) or member.about & moved:
        return None
    return next((group for group in groups if _takes_up(layout, steps, member, group)), None)


def _takes_up(layout: PlacedLayout, steps: Sequence[Step], member: Member, group: Sequence[Member]) -> bool:
    """Whether a group lays just what a step works on in the hand, and has room for it."""
    is_like = is_optional(layout, member.steps[0]) == is_optional(layout, group[0].steps[0])
    lays = any(_is_laid_by(steps, member, one) and member.about == set(one.items) for one in group)
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
    return all({item.piece, item.called, item.name} & set(names) for item in items)


# The order of the hands.


def _as_hands_do(layout: PlacedLayout, steps: Sequence[Step], group: Sequence[Member]) -> tuple[Member, ...]:
    """A group in the order of the hands: what is done to a piece comes before it is glued.

    Foam alone comes right after, to be told in the sentence that lays the piece.
    """
    ordered: list[Member] = []
    for member in group:
        at = next((at for at, one in enumerate(ordered) if _is_laid_by(steps, member, one)), None)
        if at is not None and is_foam_of(layout, steps, member, ordered[at]):
            is_first = not any(is_foam_of(layout, steps, one, ordered[at]) for one in ordered)
            ordered.insert(at + 1 if is_first else at, member)
        elif at is not None and _is_done_in_hand(layout, steps, member):
            ordered.insert(at, member)
        else:
            ordered.append(member)
    return tuple(ordered)


def _is_laid_by(steps: Sequence[Step], member: Member, laying: Member) -> bool:
    """Whether a step is about what another lays, and about nothing else."""
    lays = isinstance(steps[laying.steps[0] - 1], Place | Photo | Row | Column)
    return lays and bool(member.about) and not member.items and member.about <= set(laying.items)


def _is_done_in_hand(layout: PlacedLayout, steps: Sequence[Step], member: Member) -> bool:
    """Whether a piece is in the hand for it; what is cut in two, or kept on the table, is raised there."""
    step, details = steps[member.steps[0] - 1], layout.steps[member.steps[0] - 1].details
    if any(isinstance(one, Rounded | Punched | Inked) for one in details):
        return True
    return isinstance(step, Raise) and not _is_not_laid(steps, layout, member)


def _is_not_laid(steps: Sequence[Step], layout: PlacedLayout, member: Member) -> bool:
    """Whether what a step is about is only put on the table, or cut in two."""
    laid = [steps[layout.item(id).step_number - 1] for id in member.about]
    return any(isinstance(step, PositionedStep) and (step.loose or step.spread) for step in laid)


def is_foam_of(layout: PlacedLayout, steps: Sequence[Step], member: Member, laying: Member) -> bool:
    """Whether a step says no more than on what foam that one thing lies which another step lays."""
    step = steps[member.steps[0] - 1]
    details = layout.steps[member.steps[0] - 1].details
    if not isinstance(step, Raise) or step.say or step.tip or step.uses:
        return False
    if not isinstance(steps[laying.steps[0] - 1], Place | Photo) or laying.is_on_each:
        return False
    is_settled = any(isinstance(one, Raised) for one in details)
    return is_settled and member.about == set(laying.items) and not _is_not_laid(steps, layout, member)
