"""One thing on another: the border that is seen all round, and whether a mat holds its photograph."""

from __future__ import annotations

from booklet.kit.finding import Finding, error, warning
from booklet.kit.steps import PositionedStep
from booklet.measure.exact import Fraction
from booklet.measure.geometry import Rect
from booklet.measure.length import Unit
from booklet.measure.words import exact_length, exact_size
from booklet.placing.axis import ConstraintKind
from booklet.placing.details import NestBorder
from booklet.placing.limits import limits_for
from booklet.placing.model import Kind, Placed
from booklet.placing.position import Fixed
from booklet.placing.table import BASE_ID, Reference, Table, tell


def check_nesting(table: Table, step: PositionedStep, item: Placed, fixed: Fixed) -> None:
    """Compute the border round a nested item; compare it with the one that is stated."""
    if step.on is None and step.under is None:
        if step.border is not None:
            cure = "say on: or under:, or leave the border out"
            table.findings.append(error("word-alone", (*item.path, "border"), "a border of nothing", cure))
        return
    ids = fixed.frame.ids
    inner, outer = (item.rect, fixed.frame.rect) if step.on else (fixed.frame.rect, item.rect)
    inside, outside = (item.id, ids[0]) if step.on else (ids[0], item.id)
    if step.border is not None:
        if _compare(table, item, inner, outer, step.border):
            tell(table, item.step_number, NestBorder(inside, outside, *step.border))
    elif BASE_ID not in ids and len(ids) == 1 and _is_centred(fixed):
        _compute(table, item, NestBorder(inside, outside, inner.x - outer.x, inner.y - outer.y))
    check_held(table, step, item, fixed.frame)


def check_held(table: Table, step: PositionedStep, item: Placed, frame: Reference) -> None:
    """Whether a photograph is held by what it lies on, unless that is the page."""
    if item.kind is not Kind.PHOTO or not step.on or BASE_ID in frame.ids or step.overhang:
        return
    if not frame.rect.contains(item.rect):
        table.findings.append(_not_held(item, frame.rect, table.kit.unit))


def _not_held(item: Placed, mat: Rect, unit: Unit) -> Finding:
    """A photograph that is too large for what is to hold it, or lies so that it goes beyond."""
    size = item.rect.size
    sizes = f"{exact_size(size, unit)} on a mat of {exact_size(mat.size, unit)}"
    if size.width > mat.width or size.height > mat.height:
        cure = "take a smaller photograph, turn one of them, or say overhang: yes"
        return error("photo-beyond-mat", item.path, f"a photograph of {sizes}", cure)
    cure = "correct a distance, or say overhang: yes"
    return error("photo-beyond-mat", item.path, f"a photograph of {sizes} lies partly beside it", cure)


def _is_centred(fixed: Fixed) -> bool:
    constraints = (*fixed.across, *fixed.down)
    return bool(constraints) and all(constraint.kind is ConstraintKind.CENTRED for constraint in constraints)


def _compare(table: Table, item: Placed, inner: Rect, outer: Rect, stated: tuple[Fraction, Fraction]) -> bool:
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
    unit = table.kit.unit
    shown = ", ".join(f"{exact_length(width, unit)} at the {edge}" for edge, width in wrong.items())
    sizes = f"{exact_size(inner.size, unit)} on {exact_size(outer.size, unit)}"
    cure = "correct the border, or one of the sizes"
    table.findings.append(error("border-differs", (*item.path, "border"), f"{sizes} leaves {shown}", cure))
    return False


def _compute(table: Table, item: Placed, border: NestBorder) -> None:
    """A border that is not quite even looks like a wrong size."""
    tell(table, item.step_number, border)
    unequal = abs(border.across - border.down)
    if border.even or unequal > limits_for(table.kit.unit).nearly_even or min(border.across, border.down) < 0:
        return
    unit = table.kit.unit
    across, down = exact_length(border.across, unit), exact_length(border.down, unit)
    found = f"a border of {across} at the sides and {down} above and below"
    cure = "correct a size, or state both: border: [sides, above and below]"
    table.findings.append(warning("border-nearly-even", item.path, found, cure))
