"""The steps that work on a piece before or after it is laid: snip, trim, round, punch, ink, raise."""

from __future__ import annotations

from booklet.cutting.by_hand import (
    hole_off_piece,
    punch_what,
    radius_too_large,
    snip_beyond,
    snip_leaves,
    snipped_parts,
    trim_too_large,
)
from booklet.cutting.finish import NOTHING_DONE, Finish, Hole, Rounding
from booklet.kit.finding import error, note, warning
from booklet.kit.sheet import SCRAP
from booklet.kit.steps import Do, Ink, Photo, Punch, Raise, Round, Snip, Step, TrimRound
from booklet.kit.supply import SupplyKind
from booklet.kit.used import parts_left
from booklet.kit.words import any_of, quoted
from booklet.measure.dataclass import replace
from booklet.measure.exact import Fraction
from booklet.measure.geometry import ExactPoint, ExactRect, rect_at_origin
from booklet.measure.length import Size
from booklet.measure.words import exact_length
from booklet.placing.details import (
    HandWork,
    Held,
    Inked,
    Punched,
    Raised,
    Rounded,
    Snipped,
    SnippedPart,
    Target,
    TrimmedRound,
)
from booklet.placing.hand import sizes_in_hand, trim_in_hand
from booklet.placing.lay import piece_size
from booklet.placing.limits import limits_for
from booklet.placing.position import Frames, solve_position
from booklet.placing.state import (
    PlacingState,
    Reference,
    StepHandler,
    add_detail,
    find,
    mark_missing,
)
from booklet.placing.supply_use import supply_of, use_supply

_RAISING = {SupplyKind.FOAM, SupplyKind.DOTS, SupplyKind.OWN}


def snip(state: PlacingState, step: Snip) -> None:
    """Cut a piece in parts; later steps may take the parts by their names."""
    size, use = piece_size(state, 0)
    if size is None:
        mark_missing(state, *step.leaves)
        return
    if fault := snip_beyond(size, step.measured_from, step.at, state.kit.unit):
        state.report("snip-beyond", *fault, "at")
        return
    if fault := snip_leaves(step.at, step.leaves):
        state.report("snip-leaves", *fault, "leaves")
        return
    areas = snipped_parts(size, step.measured_from, step.at)
    parts = tuple(SnippedPart(name, area.size, area) for name, area in zip(step.leaves, areas, strict=True))
    for part in parts:
        state.part_sizes.setdefault((use, part.name), []).append(part.size)
    add_detail(state, Snipped(use, parts, step.measured_from, step.at))


def check_parts(state: PlacingState) -> None:
    """Every part that scissors leave must be taken by a step, or be scrap."""
    for name, where in parts_left(state.layout, state.index):
        found = f"no step takes the part {quoted(name)}"
        state.findings.append(error("part-left-over", where, found, f"place it, or call it {SCRAP}"))


def trim_round(state: PlacingState, step: TrimRound) -> None:
    """Trim a piece before it is placed."""
    target = _target(state, step.trim_round, "trim_round")
    if target is None:
        return
    if any(step.size or id not in state.loose for id in target.ids):
        found = f"{quoted(step.trim_round)} is placed already"
        state.report("trim-too-late", found, "trim it before placing it", "trim_round")
        return
    if step.size and not _is_trimmed(state, step.trim_round, step.size):
        return
    add_detail(state, TrimmedRound(step.trim_round, step.size, step.outline))


def _is_trimmed(state: PlacingState, name: str, size: Size) -> bool:
    """Whether what is in the hand under a name is large enough for a size; it then has that size."""
    for whole in sizes_in_hand(state, name):
        if fault := trim_too_large(size, whole, state.kit.unit):
            state.report("trim-too-large", *fault, "size")
            return False
        _check_even_trim(state, whole, size)
    trim_in_hand(state, name, size)
    return True


def _check_even_trim(state: PlacingState, whole: Size, size: Size) -> None:
    """Note a trim that takes nearly, but not quite, as much off the height as off the width."""
    off = whole.width - size.width, whole.height - size.height
    if 0 < abs(off[0] - off[1]) <= limits_for(state.kit.unit).nearly_even:
        sides, others = (exact_length(each / 2, state.kit.unit) for each in off)
        found = f"{sides} comes off at the sides and {others} above and below"
        state.report("trim-uneven", found, "leave it where it is meant", "size", kind=note)


def round_corners(state: PlacingState, step: Round) -> None:
    """Round corners; the radius must leave something of the edges."""
    target = _target(state, step.round, "round")
    if target is None:
        return
    sizes = _sizes(state, target)
    size = min(sizes, key=lambda size: min(size.width, size.height), default=None)
    if size is not None and (fault := radius_too_large(step.radius, size, state.kit.unit)):
        state.report("radius-too-large", *fault, "radius")
        return
    _finish(state, target, Finish(roundings=(Rounding(step.corners, step.radius),)))
    add_detail(state, Rounded(target, step.corners, step.radius))


def punch(state: PlacingState, step: Punch) -> None:
    """Punch corners, or a hole at a position on the piece."""
    target = _target(state, step.punch, "punch")
    if target is None:
        return
    if fault := punch_what(step.hole, step.corners):
        state.report("punch-what", *fault)
        return
    hole = held = None
    if step.hole is not None:
        held = _hole(state, step, target, step.hole)
        if held is None:
            return
        hole = held.rect
        _pierce(state, target, hole)
    _finish(state, target, Finish(punched=step.corners))
    add_detail(state, Punched(target, step.corners, step.shape, hole, held))


def _pierce(state: PlacingState, target: Target, hole: ExactRect) -> None:
    """Let a hole belong to what it is punched in, so that it goes wherever that goes."""
    if not target.ids:
        _finish(state, target, Finish(holes=(Hole(hole.centre, hole.width),)))
    for id in target.ids:
        corner = state.items[id].rect
        middle = ExactPoint(hole.centre.x - corner.x, hole.centre.y - corner.y)
        _finish(state, Target(target.name, (id,)), Finish(holes=(Hole(middle, hole.width),)))


def _hole(state: PlacingState, step: Punch, target: Target, width: Fraction) -> Held | None:
    """The square round a hole, on the page, or on the upright piece where that is not laid yet.

    Paper must be left all round it, in each of several that are in the hand.
    """
    if target.ids:
        return _hole_in(state, step, width, None)
    sizes = sizes_in_hand(state, step.punch)
    frames = [Frames(Reference((), rect_at_origin(size)), {}) for size in sizes]
    holes = [_hole_in(state, step, width, one) for one in frames]
    if None in holes:
        return None
    if not holes and any(isinstance(one, Photo) and one.called == target.name for one in state.layout.steps):
        found = f"how large {quoted(target.name)} is follows only from what it is laid on"
        state.report("hole-of-no-place", found, "state its size, or punch it once it is laid")
    if len({hole.rect for hole in holes if hole is not None}) > 1:
        found = f"the parts {quoted(target.name)} differ in size, and so does where the hole is in each"
        state.report("hole-of-no-place", found, "give each part a name of its own")
        return None
    return holes[0] if holes else None


def _hole_in(state: PlacingState, step: Punch, width: Fraction, frames: Frames | None) -> Held | None:
    solved = solve_position(state, replace(step, on=step.punch), width, width, frames=frames)
    if solved is None:
        return None
    if fault := hole_off_piece(solved.rect, solved.frame.rect, state.kit.unit):
        state.report("hole-off-piece", *fault)
        return None
    return solved.held(())


def ink(state: PlacingState, step: Ink) -> None:
    """Ink edges."""
    target = _target(state, step.ink, "ink")
    if step.supply is not None:
        supply_of(state, step.supply, "supply", kinds={SupplyKind.INK})
    if target is None:
        return
    _finish(state, target, Finish(inked=step.edges))
    add_detail(state, Inked(target, step.edges, step.supply))


def raise_on_foam(state: PlacingState, step: Raise) -> None:
    """Raise a piece, with so many bits of foam; two halves are cut from one."""
    target = _target(state, step.raised, "raise")
    if step.foam is not None and supply_of(state, step.foam, "foam", kinds=_RAISING) is not None:
        use_supply(state, step, step.foam, step.wholes + Fraction(step.halves, 2))
    if step.foam is None:
        _check_foam(state, step)
    if target is None:
        return
    if _is_raised(state, target):
        found = f"{quoted(target.name)} is raised already"
        state.report("raised-twice", found, "leave it out, or raise what was meant", "raise", kind=warning)
    _finish(state, target, Finish(raised=True))
    add_detail(state, Raised(target, step.foam, step.wholes, step.halves))


def _is_raised(state: PlacingState, target: Target) -> bool:
    """Whether an earlier step has raised any of it."""
    if not target.ids:
        return state.finishes.get(target.name, Finish()).raised
    return any(state.items[id].finish.raised for id in target.ids)


def _check_foam(state: PlacingState, step: Raise) -> None:
    """Foam that is not counted, or is neither in the box nor brought along."""
    kit, name = state.kit, quoted(step.raised)
    foams = [supply.id for supply in kit.supplies if supply.kind is SupplyKind.FOAM]
    if foams:
        found = f"which foam raises {name} is not said, and none is counted"
        state.report("foam-unsaid", found, f"say foam: {any_of(foams)}", kind=warning)
    elif not any("foam" in words.casefold() for words in kit.bring):
        found = f"{name} is raised on foam, which is neither in the box nor brought along"
        cure = "list it under supplies, or say it under bring"
        state.report("foam-missing", found, cure, kind=warning)


def do(state: PlacingState, step: Do) -> None:
    """The designer's own words; only what they are about is looked up."""
    found = [_target(state, name, "on", at) for at, name in enumerate(step.on)]
    targets = tuple(dict.fromkeys(target for target in found if target is not None))
    if targets:
        add_detail(state, HandWork(targets))


def _target(state: PlacingState, name: str, *keys: str | int) -> Target | None:
    """What a step works on: the latest thing of that name, or all that are laid later under it."""
    if name in state.names:
        reference = find(state, name, *keys)
        return Target(name, reference.ids) if reference else None
    if name in _names_to_come(state):
        return Target(name, ())
    find(state, name, *keys)
    return None


def _names_to_come(state: PlacingState) -> set[str]:
    called = {step.called for step in state.layout.steps if step.called}
    return called | {use.name for use in state.uses}


def _sizes(state: PlacingState, target: Target) -> tuple[Size, ...]:
    """The sizes of what is worked on, each as it lies; of what is in the hand upright."""
    if target.ids:
        return tuple(state.items[id].rect.size for id in target.ids)
    return sizes_in_hand(state, target.name)


def _finish(state: PlacingState, target: Target, finish: Finish) -> None:
    for id in target.ids:
        item = state.items[id]
        state.items[id] = replace(item, finish=item.finish.with_more(finish))
    if not target.ids:
        state.finishes[target.name] = state.finishes.get(target.name, NOTHING_DONE).with_more(finish)


HANDLERS: dict[type[Step], StepHandler] = {
    Snip: snip,
    TrimRound: trim_round,
    Round: round_corners,
    Punch: punch,
    Ink: ink,
    Raise: raise_on_foam,
    Do: do,
}
