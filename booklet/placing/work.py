"""The steps that work on a piece before or after it is laid: snip, trim, round, punch, ink, raise."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from itertools import pairwise

from booklet.kit.fields import Edge
from booklet.kit.finding import Finding, SpecPath, error, warning
from booklet.kit.sheet import SCRAP
from booklet.kit.steps import Do, Ink, Punch, Raise, Round, Snip, Step, TrimRound
from booklet.kit.supply import SupplyKind
from booklet.kit.used import parts_left
from booklet.kit.words import any_of, quoted
from booklet.measure.exact import Fraction
from booklet.measure.geometry import ExactRect, rect_at_origin
from booklet.measure.length import Size
from booklet.measure.words import exact_length, exact_size
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
from booklet.placing.lay import piece_size
from booklet.placing.model import Finish, Rounding
from booklet.placing.position import Frames, SolvedPosition, solve_position, solve_within
from booklet.placing.state import (
    PlacingState,
    Reference,
    StepHandler,
    add_detail,
    find,
    mark_missing,
    step_path,
)
from booklet.placing.supply_use import supply_of, use_supply

_FAR_EDGES = {Edge.RIGHT, Edge.BOTTOM}


def snip(state: PlacingState, step: Snip, number: int) -> None:
    """Cut a piece in parts; later steps may take the parts by their names."""
    path = step_path(state, number)
    size, use = piece_size(state, number, 0, step.snip)
    if size is None:
        mark_missing(state, *step.leaves)
        return
    length = size.width if step.measured_from.is_upright else size.height
    stops = [Fraction(0), *step.at, length]
    unit = state.kit.unit
    if any(one >= other for one, other in pairwise(stops)):
        found = (
            f"snips at {', '.join(exact_length(at, unit) for at in step.at)} of {exact_length(length, unit)}"
        )
        cure = "give distances from one edge, each further than the one before and within the piece"
        state.findings.append(error("snip-beyond", (*path, "at"), found, cure))
        return
    if len(step.leaves) != len(step.at) + 1:
        found = f"{len(step.at)} snips leave {len(step.at) + 1} parts; {len(step.leaves)} are named"
        state.findings.append(error("snip-leaves", (*path, "leaves"), found, f"name each part, or {SCRAP}"))
        return
    areas = [_part(size, step.measured_from, low, high) for low, high in pairwise(stops)]
    parts = tuple(SnippedPart(name, area.size, area) for name, area in zip(step.leaves, areas, strict=True))
    for part in parts:
        state.part_sizes.setdefault((use, part.name), []).append(part.size)
    add_detail(state, number, Snipped(use, parts, step.measured_from, step.at))


def _part(size: Size, edge: Edge, low: Fraction, high: Fraction) -> ExactRect:
    """What lies between two distances from an edge."""
    length = size.width if edge.is_upright else size.height
    start = length - high if edge in _FAR_EDGES else low
    zero = Fraction(0)
    if edge.is_upright:
        return ExactRect(start, zero, high - low, size.height)
    return ExactRect(zero, start, size.width, high - low)


def check_parts(state: PlacingState) -> None:
    """Every part that scissors leave must be taken by a step, or be scrap."""
    for name, where in parts_left(state.layout, state.index):
        found = f"no step takes the part {quoted(name)}"
        state.findings.append(error("part-left-over", where, found, f"place it, or call it {SCRAP}"))


def trim_round(state: PlacingState, step: TrimRound, number: int) -> None:
    """Trim a piece before it is placed."""
    path = step_path(state, number)
    target = _target(state, step.trim_round, (*path, "trim_round"))
    if target is None:
        return
    if target.ids and step.size:
        found = f"{quoted(step.trim_round)} is placed already"
        state.findings.append(
            error("trim-too-late", (*path, "trim_round"), found, "trim it before placing it")
        )
        return
    whole = state.pieces.size_of(step.trim_round)
    if step.size and whole and (step.size.width > whole.width or step.size.height > whole.height):
        found = f"{exact_size(step.size, state.kit.unit)} out of {exact_size(whole, state.kit.unit)}"
        state.findings.append(error("trim-too-large", (*path, "size"), found, "correct one of the sizes"))
        return
    if step.size:
        state.trimmed[step.trim_round] = step.size
    add_detail(state, number, TrimmedRound(step.trim_round, step.size, step.outline))


def round_corners(state: PlacingState, step: Round, number: int) -> None:
    """Round corners; the radius must leave something of the edges."""
    path = step_path(state, number)
    target = _target(state, step.round, (*path, "round"))
    if target is None:
        return
    size = _size(state, target)
    if size is not None and 2 * step.radius > min(size.width, size.height):
        found = (
            f"a radius of {exact_length(step.radius, state.kit.unit)} on {exact_size(size, state.kit.unit)}"
        )
        cure = "round to no more than half the shorter side"
        state.findings.append(error("radius-too-large", (*path, "radius"), found, cure))
        return
    _finish(state, target, Finish(roundings=(Rounding(step.corners, step.radius),)))
    add_detail(state, number, Rounded(target, step.corners, step.radius))


def punch(state: PlacingState, step: Punch, number: int) -> None:
    """Punch corners, or a hole at a position on the piece."""
    path = step_path(state, number)
    target = _target(state, step.punch, (*path, "punch"))
    if target is None:
        return
    if (step.hole is None) == (not step.corners):
        found = "neither corners nor a hole" if step.hole is None else "both corners and a hole"
        state.findings.append(
            error("punch-what", path, found, "say corners: or hole:, and one step for each")
        )
        return
    hole = held = None
    if step.hole is not None:
        held = _hole(state, step, target, path, step.hole)
        if held is None:
            return
        hole = held.rect
    _finish(state, target, Finish(punched=step.corners))
    add_detail(state, number, Punched(target, step.corners, step.shape, hole, held))


def _hole(state: PlacingState, step: Punch, target: Target, path: SpecPath, width: Fraction) -> Held | None:
    """The square round a hole, on the page, or on the upright piece where that is not laid yet."""
    if target.ids:
        solved = solve_position(state, replace(step, on=step.punch), path, width, width)
        return _held_hole(state, solved, path)
    size = state.pieces.size_of(step.punch)
    if size is None:
        return None
    alone = Reference((), rect_at_origin(size))
    solved = solve_within(state, replace(step, on=step.punch), path, width, width, Frames(alone, {}))
    return _held_hole(state, solved, path)


def _held_hole(state: PlacingState, solved: SolvedPosition | None, path: SpecPath) -> Held | None:
    """The hole, if paper is left all round it."""
    if solved is None:
        return None
    hole, piece = solved.rect, solved.frame.rect
    if piece.x < hole.x and hole.right < piece.right and piece.y < hole.y and hole.bottom < piece.bottom:
        return Held((), hole, solved.frame.ids, piece, solved.across, solved.down)
    sizes = f"{exact_length(hole.width, state.kit.unit)} on {exact_size(piece.size, state.kit.unit)}"
    found = f"a hole of {sizes} breaks an edge, or lies beside the piece"
    state.findings.append(error("hole-off-piece", path, found, "move it further in, or make it smaller"))
    return None


def ink(state: PlacingState, step: Ink, number: int) -> None:
    """Ink edges."""
    path = step_path(state, number)
    target = _target(state, step.ink, (*path, "ink"))
    if step.supply is not None:
        supply_of(state, step.supply, (*path, "supply"), {SupplyKind.INK})
    if target is None:
        return
    _finish(state, target, Finish(inked=step.edges))
    add_detail(state, number, Inked(target, step.edges, step.supply))


def raise_on_foam(state: PlacingState, step: Raise, number: int) -> None:
    """Raise a piece, with so many bits of foam."""
    path = step_path(state, number)
    target = _target(state, step.raised, (*path, "raise"))
    if step.foam is not None and supply_of(state, step.foam, (*path, "foam"), {SupplyKind.FOAM}) is not None:
        use_supply(state, step, step.foam, Fraction(step.count))
    if step.foam is None:
        state.findings.extend(_foam_unsaid(state, step, path))
    if target is None:
        return
    _finish(state, target, Finish(raised=True))
    add_detail(state, number, Raised(target, step.foam, step.count))


def _foam_unsaid(state: PlacingState, step: Raise, path: SpecPath) -> Iterator[Finding]:
    """Foam that is not counted, or is neither in the box nor brought along."""
    kit, name = state.kit, quoted(step.raised)
    foams = [supply.id for supply in kit.supplies if supply.kind is SupplyKind.FOAM]
    if foams:
        found = f"which foam raises {name} is not said, and none is counted"
        yield warning("foam-unsaid", path, found, f"say foam: {any_of(foams)}")
    elif not any("foam" in words.casefold() for words in kit.bring):
        found = f"{name} is raised on foam, which is neither in the box nor brought along"
        yield warning("foam-missing", path, found, "list it under supplies, or say it under bring")


def do(state: PlacingState, step: Do, number: int) -> None:
    """The designer's own words; only what they are about is looked up."""
    if step.on is not None:
        target = _target(state, step.on, (*step_path(state, number), "on"))
        if target is not None:
            add_detail(state, number, HandWork(target))


def _target(state: PlacingState, name: str, where: SpecPath) -> Target | None:
    """What a step works on: the latest thing of that name, or all that are laid later under it."""
    if name in state.names:
        reference: Reference | None = find(state, name, where)
        return Target(name, reference.ids) if reference else None
    if name in _names_to_come(state):
        return Target(name, ())
    find(state, name, where)
    return None


def _names_to_come(state: PlacingState) -> set[str]:
    called = {step.called for step in state.layout.steps if step.called}
    return called | {use.name for use in state.uses}


def _size(state: PlacingState, target: Target) -> Size | None:
    if len(target.ids) == 1:
        return state.items[target.ids[0]].rect.size
    return None if target.ids else state.pieces.size_of(target.name)


def _finish(state: PlacingState, target: Target, finish: Finish) -> None:
    for id in target.ids:
        item = state.items[id]
        state.items[id] = replace(item, finish=item.finish.with_more(finish))
    if not target.ids:
        state.finishes[target.name] = state.finishes.get(target.name, Finish()).with_more(finish)


HANDLERS: dict[type[Step], StepHandler] = {
    Snip: snip,
    TrimRound: trim_round,
    Round: round_corners,
    Punch: punch,
    Ink: ink,
    Raise: raise_on_foam,
    Do: do,
}
