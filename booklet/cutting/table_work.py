"""Work at the cutting table carried out: pieces snipped in parts, trimmed, rounded and punched before filing.

Distances and corners are those of the upright piece, as it is stated.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.cutting.by_hand import (
    hole_off_piece,
    punch_what,
    radius_too_large,
    snip_beyond,
    snip_leaves,
    snipped_parts,
    trim_too_large,
)
from booklet.cutting.finish import Finish, Hole, Rounding
from booklet.cutting.model import Fate, Piece, TableWork
from booklet.cutting.take import Bench, nothing_here, reports_finished
from booklet.kit.sheet import SCRAP
from booklet.kit.table_work import PunchWork, RoundWork, SnipWork, TrimWork, WorkStep, verb_of_work, worked_on
from booklet.measure.dataclass import replace
from booklet.measure.exact import Fraction
from booklet.measure.geometry import ExactPoint, ExactRect, rect_at_origin
from booklet.measure.length import Size


def work_at_table(bench: Bench, step: WorkStep) -> None:
    """Do a step's work on every piece of its name on the bench; what is wrong with it is reported."""
    taken = _taken(bench, step)
    left = _worked(bench, step, taken) if taken else None
    if left is None:
        bench.unmade += step.leaves if isinstance(step, SnipWork) else ()
        return
    bench.cuts += 1
    work = TableWork(bench.cuts, len(bench.stages), step, taken, left, bench.where)
    bench.works.append(work)
    bench.live = (*(piece for piece in bench.live if piece not in taken), *left)


def _worked(bench: Bench, step: WorkStep, taken: tuple[Piece, ...]) -> tuple[Piece, ...] | None:
    """What the pieces become; None where the step makes no sense."""
    match step:
        case SnipWork():
            return _snipped(bench, step, taken)
        case TrimWork():
            return _trimmed(bench, step, taken)
        case RoundWork():
            return _rounded(bench, step, taken)
        case PunchWork():
            return _punched(bench, step, taken)


def _taken(bench: Bench, step: WorkStep) -> tuple[Piece, ...]:
    """The pieces that a step works on, all of its name; none where it makes no sense."""
    name, verb = worked_on(step), verb_of_work(step)
    if not bench.stages:
        found, cure = "the sheet is not cut yet", "cut it first, or say this among the steps of its layout"
        bench.report("work-before-cuts", found, cure, verb)
        return ()
    taken = tuple(piece for piece in bench.live if piece.name == name and piece.is_useful)
    if not taken and name not in bench.unmade:
        bench.report("work-on-missing", *nothing_here(bench, name), verb)
    return taken


# Scissors.


def _snipped(bench: Bench, step: SnipWork, taken: tuple[Piece, ...]) -> tuple[Piece, ...] | None:
    if fault := snip_leaves(step.at, step.leaves):
        bench.report("snip-leaves", *fault, "leaves")
        return None
    parts: list[Piece] = []
    for piece in taken:
        if fault := snip_beyond(piece.size, step.measured_from, step.at, bench.unit):
            bench.report("snip-beyond", *fault, "at")
            return None
        if reports_finished(bench, (piece,), "snip"):
            return None
        areas = snipped_parts(piece.size, step.measured_from, step.at)
        for place, (name, area) in enumerate(zip(step.leaves, areas, strict=True)):
            parts.append(_part(bench, piece, area, name, place))
    return tuple(parts)


def _part(bench: Bench, piece: Piece, area: ExactRect, name: str, place: int) -> Piece:
    """A part of a piece that scissors leave, with a label of its own unless it is scrap."""
    fate = Fate.SCRAP if name == SCRAP else Fate.KEPT
    where = (*bench.where, "leaves", place)
    part = _on_front(piece, area)
    return replace(piece, label=bench.label(fate), name=name, part=part, fate=fate, where=where)


def _trimmed(bench: Bench, step: TrimWork, taken: tuple[Piece, ...]) -> tuple[Piece, ...] | None:
    """The middle of each piece; what comes off is scrap."""
    if step.size is None:
        return taken
    left: list[Piece] = []
    for piece in taken:
        size, whole = step.size, piece.size
        if fault := trim_too_large(size, whole, bench.unit):
            bench.report("trim-too-large", *fault, "size")
            return None
        if reports_finished(bench, (piece,), "trim_round"):
            return None
        across, down = (whole.width - size.width) / 2, (whole.height - size.height) / 2
        kept = ExactRect(across, down, size.width, size.height)
        left.append(replace(piece, part=_on_front(piece, kept)))
        for area in _around(kept, whole):
            part = _on_front(piece, area)
            left.append(replace(piece, label="", name=SCRAP, part=part, fate=Fate.SCRAP, where=bench.where))
    return tuple(left)


def _around(kept: ExactRect, whole: Size) -> Iterator[ExactRect]:
    """What is left of a whole piece about a part of it, in four strips at most."""
    zero = Fraction(0)
    strips = (
        ExactRect(zero, zero, whole.width, kept.y),
        ExactRect(zero, kept.bottom, whole.width, whole.height - kept.bottom),
        ExactRect(zero, kept.y, kept.x, kept.height),
        ExactRect(kept.right, kept.y, whole.width - kept.right, kept.height),
    )
    return (strip for strip in strips if strip.area)


def _on_front(piece: Piece, area: ExactRect) -> ExactRect:
    """A part of the upright piece as one of the front, which is turned clockwise for a turned piece."""
    part = piece.part
    if piece.is_turned:
        return ExactRect(part.x + area.y, part.bottom - area.right, area.height, area.width)
    return ExactRect(part.x + area.x, part.y + area.y, area.width, area.height)


# Punches.


def _rounded(bench: Bench, step: RoundWork, taken: tuple[Piece, ...]) -> tuple[Piece, ...] | None:
    for piece in taken:
        if fault := radius_too_large(step.radius, piece.size, bench.unit):
            bench.report("radius-too-large", *fault, "radius")
            return None
    return _with_finish(taken, Finish(roundings=(Rounding(step.corners, step.radius),)))


def _punched(bench: Bench, step: PunchWork, taken: tuple[Piece, ...]) -> tuple[Piece, ...] | None:
    if fault := punch_what(step.hole, step.corners):
        bench.report("punch-what", *fault, "punch")
        return None
    if step.hole is None:
        return _with_finish(taken, Finish(punched=step.corners))
    left: list[Piece] = []
    for piece in taken:
        hole = hole_in(step, step.hole, piece.size)
        if hole is None:
            found, cure = "a hole that is measured from two edges over against each other", "keep one of them"
            bench.report("hole-twice", found, cure, "punch")
            return None
        if fault := hole_off_piece(hole.rim, rect_at_origin(piece.size), bench.unit):
            bench.report("hole-off-piece", *fault, "hole")
            return None
        left += _with_finish((piece,), Finish(holes=(hole,)))
    return tuple(left)


def hole_in(step: PunchWork, width: Fraction, size: Size) -> Hole | None:
    """Where a hole lies on an upright piece of this size; None where one direction is measured twice."""
    x = _middle(step.left, step.right, width, size.width)
    y = _middle(step.top, step.bottom, width, size.height)
    return None if x is None or y is None else Hole(ExactPoint(x, y), width)


def _middle(
    near: Fraction | None, far: Fraction | None, width: Fraction, length: Fraction
) -> Fraction | None:
    """The middle of a hole along a side of a length, from how far its rim lies from one end."""
    if near is not None and far is not None:
        return None
    if near is not None:
        return near + width / 2
    return length / 2 if far is None else length - far - width / 2


def _with_finish(pieces: tuple[Piece, ...], more: Finish) -> tuple[Piece, ...]:
    return tuple(replace(piece, finish=piece.finish.with_more(more)) for piece in pieces)
