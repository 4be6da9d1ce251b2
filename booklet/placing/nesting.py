"""One thing on another: the border that is seen all round, and whether a mat holds its photograph."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from booklet.kit.fields import Edge
from booklet.kit.finding import Finding, SpecPath, error, note, warning
from booklet.kit.sheet import OutlineShape
from booklet.kit.steps import PositionedStep
from booklet.kit.words import quoted
from booklet.measure.dataclass import replace
from booklet.measure.exact import Fraction
from booklet.measure.geometry import ExactRect, rect_of
from booklet.measure.length import Size
from booklet.measure.words import exact_length, exact_size
from booklet.placing.axis import ConstraintKind
from booklet.placing.details import NestBorder
from booklet.placing.limits import limits_for
from booklet.placing.model import ItemKind, Placed
from booklet.placing.position import SolvedPosition
from booklet.placing.state import BASE_ID, PlacingState, Reference, add_detail, step_path
from booklet.placing.visible import is_upright, upright_bounds, visible_share

# What is to lie on a thing with all of it; a photograph is held by its mat, and a bow may stand out.
LYING = {ItemKind.PIECE, ItemKind.WRITING}
# What is mounted square on a thing, and tilted with it.
_MOUNTED = {*LYING, ItemKind.PHOTO}


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
        if step.on is not None:
            _check_tilt(state, item, state.items[ids[0]])
        _compute(state, NestBorder(inside, outside, inner.x - outer.x, inner.y - outer.y))
    if item.kind in LYING:
        check_larger(state, step, item.name, item.rect.size, solved.frame)
    check_held(state, step, item, solved.frame)


def check_larger(state: PlacingState, step: PositionedStep, name: str, inner: Size, frame: Reference) -> None:
    """Whether what is laid on something, other than the page, is wider or higher than it without a word.

    A stated border is compared with the sizes itself.
    """
    outer, is_stated = frame.rect.size, step.border is not None or step.overhang
    if step.on is None or is_stated or BASE_ID in frame.ids:
        return
    if inner.width > outer.width or inner.height > outer.height:
        unit = state.kit.unit
        found = (
            f"{quoted(name)} of {exact_size(inner, unit)} on {exact_size(outer, unit)} of {quoted(step.on)}"
        )
        cure = "turn one of them, take another, or say overhang: yes"
        state.report("larger-than-below", found, cure, "on", kind=warning)


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


def check_borders_seen(state: PlacingState, items: Sequence[Placed]) -> Iterator[Finding]:
    """Each stated border that things laid above hide at a whole side.

    `items` are all that lie on the page in the end, in their stacking order.
    """
    by_id = {item.id: item for item in items}
    for number, step in enumerate(state.layout.steps, start=1):
        if not isinstance(step, PositionedStep) or step.border is None:
            continue
        for border in state.details.get(number, ()):
            if isinstance(border, NestBorder) and set(border.ids) <= set(by_id):
                path = (*step_path(state, number), "border")
                yield from _check_seen(by_id[border.inner], by_id[border.outer], items, path)


def _check_seen(inner: Placed, outer: Placed, items: Sequence[Placed], path: SpecPath) -> Iterator[Finding]:
    above = [item for item in items if item.layer > outer.layer and item.id != inner.id]
    hidden = [edge for edge, side in _sides(inner, outer).items() if _is_hidden(side, edge, above)]
    if hidden:
        edges = " and ".join(edge.value for edge in hidden)
        which = f"the border of {quoted(outer.name)} round {quoted(inner.name)}"
        found = f"{which} is not seen in full at the {edges}"
        yield error("border-hidden", path, found, "move what covers it, or leave the border out")


def _sides(inner: Placed, outer: Placed) -> dict[Edge, Placed]:
    """What is to be seen of the outer thing on each side of the inner one; nothing where they are flush."""
    one, other = inner.rect, outer.rect
    rects = {
        Edge.LEFT: ExactRect(other.x, one.y, one.x - other.x, one.height),
        Edge.RIGHT: ExactRect(one.right, one.y, other.right - one.right, one.height),
        Edge.TOP: ExactRect(one.x, other.y, one.width, one.y - other.y),
        Edge.BOTTOM: ExactRect(one.x, one.bottom, one.width, other.bottom - one.bottom),
    }
    whole = replace(outer, pivot=outer.pivot or other.centre, outline=OutlineShape.RECTANGLE)
    return {edge: replace(whole, rect=rect) for edge, rect in rects.items() if rect.area > 0}


def _is_hidden(side: Placed, edge: Edge, above: Sequence[Placed]) -> bool:
    """Whether a side of a border is nowhere seen in its full width; where something is tilted, not at all."""
    covers = [item for item in above if item.covers and upright_bounds(item).overlaps(upright_bounds(side))]
    return visible_share(side, [_over_all(item, side, edge) for item in covers]) == 0


def _over_all(cover: Placed, side: Placed, edge: Edge) -> Placed:
    """An upright cover as if it reached over the whole width of a side of a border."""
    if side.tilt or not is_upright(cover):
        return cover
    if edge.is_upright:
        return replace(cover, rect=rect_of(side.rect.across, cover.rect.down))
    return replace(cover, rect=rect_of(cover.rect.across, side.rect.down))


def _is_centred(solved: SolvedPosition) -> bool:
    kinds = {constraint.kind for constraint in solved.constraints}
    return kinds == {ConstraintKind.CENTRED}


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


def _check_tilt(state: PlacingState, item: Placed, lower: Placed) -> None:
    """Note what is centred on a tilted thing and tilted otherwise; on a straight one it may lie anyhow."""
    if item.kind in _MOUNTED and lower.tilt and item.tilt != lower.tilt:
        under = f"{quoted(lower.name)} under it by {lower.tilt}"
        found = f"{quoted(item.name)} is tilted by {item.tilt}, and {under}"
        cure = "say the same tilt of both, or leave it where it is meant"
        state.report("tilt-differs", found, cure, "tilt", kind=note)


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
