"""One thing on another: the border that is seen all round, and whether a mat holds its photograph."""

from __future__ import annotations

from booklet.kit.finding import warning
from booklet.kit.steps import PositionedStep
from booklet.measure.exact import Fraction
from booklet.measure.geometry import ExactRect
from booklet.measure.words import exact_length, exact_size
from booklet.placing.axis import ConstraintKind
from booklet.placing.details import NestBorder
from booklet.placing.limits import limits_for
from booklet.placing.model import ItemKind, Placed
from booklet.placing.position import SolvedPosition
from booklet.placing.state import BASE_ID, PlacingState, Reference, add_detail


def check_nesting(state: PlacingState, step: PositionedStep, item: Placed, solved: SolvedPosition) -> None:
    """Compute the border round a nested item; compare it with the one that is stated."""
    if step.on is None and step.under is None:
        if step.border is not None:
            cure = "say on: or under:, or leave the border out"
            state.report("word-alone", "a border of nothing", cure, "border")
        return
    ids = solved.frame.ids
    inner, outer = (item.rect, solved.frame.rect) if step.on else (solved.frame.rect, item.rect)
    inside, outside = (item.id, ids[0]) if step.on else (ids[0], item.id)
    if step.border is not None:
        if _compare(state, inner, outer, step.border):
            add_detail(state, NestBorder(inside, outside, *step.border))
    elif BASE_ID not in ids and len(ids) == 1 and _is_centred(solved):
        _compute(state, NestBorder(inside, outside, inner.x - outer.x, inner.y - outer.y))
    check_held(state, step, item, solved.frame)


def check_held(state: PlacingState, step: PositionedStep, item: Placed, frame: Reference) -> None:
    """Whether a photograph is held by what it lies on, unless that is the page."""
    if item.kind is not ItemKind.PHOTO or not step.on or BASE_ID in frame.ids or step.overhang:
        return
    if not frame.rect.contains(item.rect):
        size, mat, unit = item.rect.size, frame.rect.size, state.kit.unit
        found = f"a photograph of {exact_size(size, unit)} on a mat of {exact_size(mat, unit)}"
        if size.width > mat.width or size.height > mat.height:
            cure = "take a smaller photograph, turn one of them, or say overhang: yes"
        else:
            found, cure = f"{found} lies partly beside it", "correct a distance, or say overhang: yes"
        state.report("photo-beyond-mat", found, cure)


def _is_centred(solved: SolvedPosition) -> bool:
    constraints = (*solved.across, *solved.down)
    return bool(constraints) and all(constraint.kind is ConstraintKind.CENTRED for constraint in constraints)


def _compare(
    state: PlacingState, inner: ExactRect, outer: ExactRect, stated: tuple[Fraction, Fraction]
) -> bool:
    """Whether the border is as stated all round."""
    across, down = stated
    found = {
        "left": inner.x - outer.x,
        "right": outer.right - inner.right,
        "top": inner.y - outer.y,
        "bottom": outer.bottom - inner.bottom,
    }
    wanted = {"left": across, "right": across, "top": down, "bottom": down}
    wrong = {edge: width for edge, width in found.items() if width != wanted[edge]}
    if not wrong:
        return True
    unit = state.kit.unit
    shown = ", ".join(f"{exact_length(width, unit)} at the {edge}" for edge, width in wrong.items())
    sizes = f"{exact_size(inner.size, unit)} on {exact_size(outer.size, unit)}"
    cure = "correct the border, or one of the sizes"
    state.report("border-differs", f"{sizes} leaves {shown}", cure, "border")
    return False


def _compute(state: PlacingState, border: NestBorder) -> None:
    """A border that is not quite even looks like a wrong size, unless two edges are flush."""
    add_detail(state, border)
    unequal = abs(border.across - border.down)
    if (
        border.even
        or unequal > limits_for(state.kit.unit).nearly_even
        or min(border.across, border.down) <= 0
    ):
        return
    unit = state.kit.unit
    across, down = exact_length(border.across, unit), exact_length(border.down, unit)
    found = f"a border of {across} at the sides and {down} above and below"
    cure = "correct a size, or state both: border: [sides, above and below]"
    state.report("border-nearly-even", found, cure, kind=warning)
