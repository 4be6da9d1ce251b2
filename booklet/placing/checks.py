"""What to say about a finished page: hidden pieces, covered photographs, overhang, near misses."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Mapping, Sequence
from itertools import combinations, pairwise

from booklet.cutting.orientation import beyond
from booklet.kit.fields import Edge
from booklet.kit.finding import Finding, error, note, warning
from booklet.kit.kit import Kit
from booklet.kit.position import Direction
from booklet.kit.words import any_of, quoted
from booklet.measure.exact import Fraction
from booklet.measure.geometry import ExactRect, Interval
from booklet.measure.length import Unit
from booklet.measure.words import exact_length, exact_size
from booklet.placing import polygons
from booklet.placing.geometry import overlap, shared, span_of
from booklet.placing.limits import Limits, limits_for
from booklet.placing.model import ItemKind, Placed, Visible
from booklet.placing.prints import exact_print, smallest_print_for
from booklet.placing.series import PERPENDICULAR
from booklet.placing.visible import is_upright, item_ring, upright_bounds

# Corners of tilted pieces are in floating point: less than this is rounding.
_ROUNDING = Fraction(1, 10**9)
# An outline and its box.
_Shape = tuple[polygons.Ring, polygons.Box]
_PAPER = (ItemKind.PIECE, ItemKind.PHOTO)
_COVERABLE = {ItemKind.PHOTO: "photo-covered", ItemKind.WRITING: "writing-covered"}


def check_layout(
    kit: Kit, index: int, base: Placed, items: Sequence[Placed], visible: Sequence[Visible]
) -> Iterator[Finding]:
    """Everything to say about one page's geometry."""
    limits, gutters = limits_for(kit.unit), _gutters(kit, index)
    tapes = [item for item in items if item.kind is ItemKind.TAPE]
    for item, seen in zip(items, visible, strict=True):
        if not _is_taped_over(item, tapes):
            yield from _check_seen(item, seen, limits)
        yield from _check_overhang(item, base.rect, kit.unit, gutters, limits)
        yield from _check_print(item, kit.unit)
    paper = [item for item in items if item.kind in _PAPER]
    rings = {item.id: item_ring(item) for item in paper}
    shapes = {id: (ring, polygons.box(ring)) for id, ring in rings.items()}
    for one, other in combinations(paper, 2):
        yield from _check_near(one, other, shapes, kit.unit, limits)
    yield from _check_spacing(paper, kit.unit, limits)


def _is_taped_over(item: Placed, tapes: Sequence[Placed]) -> bool:
    """Whether a tape as wide as its strip lies along the whole of it, which is what it is for."""
    above = (one for one in tapes if one.layer > item.layer)
    return any(overlap(one.rect, item.rect) == item.rect.area and one.tilt == item.tilt for one in above)


def _check_seen(item: Placed, seen: Visible, limits: Limits) -> Iterator[Finding]:
    if seen.share == 0:
        found = f"nothing is seen of {quoted(item.name)}: it is wholly covered"
        yield error("piece-hidden", item.path, found, "move it, or lay it later")
    elif item.kind in _COVERABLE and 1 - seen.share > limits.photo_covered:
        covered = f"{float((1 - seen.share) * 100):.0f} %"
        most = f"{float(limits.photo_covered * 100):.0f} %"
        found = f"{covered} of {quoted(item.name)} is covered"
        yield warning(_COVERABLE[item.kind], item.path, found, f"leave at least all but {most} of it free")


def _gutters(kit: Kit, index: int) -> set[Edge]:
    """Which edges of a page meet another page."""
    layout = kit.layouts[index]
    ids = {one.id for one in kit.layouts}
    right = {Edge.RIGHT} if layout.facing in ids else set()
    left = {Edge.LEFT} if any(one.facing == layout.id for one in kit.layouts) else set()
    return right | left


def _check_overhang(
    item: Placed, page: ExactRect, unit: Unit, gutters: set[Edge], limits: Limits
) -> Iterator[Finding]:
    least = _ROUNDING if item.tilt else Fraction(0)
    box = upright_bounds(item)
    past = beyond(box, page)
    if not box.overlaps(page):
        yield _off_page(item, max(past, key=lambda edge: past[edge]), gutters)
        return
    over = {edge: length for edge, length in past.items() if length > least}
    near = [edge for edge, by in past.items() if least < abs(by) < limits.near_miss]
    if near and item.kind in _PAPER and not item.overhang:
        yield _page_near_miss(item, near[0], past[near[0]], unit)
        return
    if not over or item.overhang:
        return
    for edge, length in over.items():
        found = f"{quoted(item.name)} goes {_about(length, item, unit)} beyond the {edge.value} edge"
        if edge in gutters:
            cure = "say spread: yes to cut it at the gutter, or overhang: yes"
            yield warning("crosses-gutter", item.path, f"{found}, into the facing page", cure)
        else:
            yield warning("overhang", item.path, found, "move it, or say overhang: yes")


def _off_page(item: Placed, edge: Edge, gutters: set[Edge]) -> Finding:
    found = f"{quoted(item.name)} lies wholly beyond the page's {edge.value} edge"
    cure = "place it on the facing page" if edge in gutters else "correct a distance"
    return error("off-page", item.path, found, cure)


def _page_near_miss(item: Placed, edge: Edge, by: Fraction, unit: Unit) -> Finding:
    side = "beyond" if by > 0 else "within"
    found = f"{quoted(item.name)} ends {_about(abs(by), item, unit)} {side} the page's {edge.value} edge"
    return warning("near-miss", item.path, found, "let it end at the edge, or clearly apart from it")


def _about(length: Fraction, item: Placed, unit: Unit) -> str:
    """A length for a message; of a tilted piece, about as much."""
    return f"about {float(length):.2f}" if item.tilt else exact_length(length, unit)


def _check_print(item: Placed, unit: Unit) -> Iterator[Finding]:
    if item.kind is not ItemKind.PHOTO or item.whole or exact_print(item.rect.size, unit) is not None:
        return
    larger = smallest_print_for(item.rect.size, unit)
    cure = f"it is trimmed from a print of {larger.name}" if larger else "it is larger than any usual print"
    yield note(
        "photo-no-print-size", item.path, f"no usual print is {exact_size(item.rect.size, unit)}", cure
    )


def _check_near(
    one: Placed, other: Placed, shapes: Mapping[int, _Shape], unit: Unit, limits: Limits
) -> Iterator[Finding]:
    """Edges that all but meet: they should overlap, be in line, or stay apart."""
    if is_upright(one) and is_upright(other):
        gap = _near_gap(one, other, limits)
    else:
        gap = _near_shapes(shapes[one.id], shapes[other.id], limits)
    if gap is None or not 0 < abs(gap) < limits.near_miss:
        return
    later = max(one, other, key=lambda item: item.id)
    how = "overlap by" if gap < 0 else "are apart by"
    found = f"{quoted(one.name)} and {quoted(other.name)} {how} {_about(abs(gap), _tilted(one, other), unit)}"
    cure = "let them meet, overlap, or lie clearly apart"
    yield warning("near-miss", later.path, found, cure)


def _tilted(one: Placed, other: Placed) -> Placed:
    return other if other.tilt else one


def _near_gap(one: Placed, other: Placed, limits: Limits) -> Fraction | None:
    """The smallest distance of two facing edges (below 0: their overlap), or of two edges nearly in line."""
    found: list[Fraction] = []
    across, down = (one.rect.across, other.rect.across), (one.rect.down, other.rect.down)
    for along, cross in ((across, down), (down, across)):
        if shared(*cross) >= limits.near_miss:
            found += _edge_distances(*along)
    near = [gap for gap in found if 0 < abs(gap) < limits.near_miss]
    return min(near, key=abs, default=None)


def _edge_distances(one: Interval, other: Interval) -> list[Fraction]:
    """Of facing edges, and of edges on the same side where the intervals overlap."""
    facing = [other.low - one.high, one.low - other.high]
    if shared(one, other) <= 0:
        return facing
    return [*facing, abs(one.low - other.low), abs(one.high - other.high)]


def _near_shapes(one: _Shape, other: _Shape, limits: Limits) -> Fraction | None:
    """How far apart two outlines are, of which one at least is not upright; None where that is far."""
    (ring, box), (other_ring, other_box) = one, other
    if polygons.boxes_apart(box, other_box) > limits.near_miss:
        return None
    distance = Fraction(polygons.distance(ring, other_ring))
    return distance if distance > _ROUNDING else None


def _check_spacing(paper: Sequence[Placed], unit: Unit, limits: Limits) -> Iterator[Finding]:
    """Three or more equal ones in line, whose gaps are nearly but not quite the same."""
    for direction, cross in PERPENDICULAR.items():
        lines = defaultdict(list)
        for item in paper:
            if item.tilt == 0:
                lines[item.rect.size, span_of(item.rect, cross)].append(item)
        for line in lines.values():
            yield from _check_line(line, direction, unit, limits)


def _check_line(
    line: Sequence[Placed], direction: Direction, unit: Unit, limits: Limits
) -> Iterator[Finding]:
    ordered = sorted(line, key=lambda item: span_of(item.rect, direction).low)
    gaps = [span_of(b.rect, direction).low - span_of(a.rect, direction).high for a, b in pairwise(ordered)]
    if len(gaps) < 2 or min(gaps) < 0 or not 0 < max(gaps) - min(gaps) <= limits.nearly_even:
        return
    last = max(ordered, key=lambda item: item.id)
    shown = any_of([exact_length(gap, unit) for gap in gaps]).replace(" or ", " and ")
    found = f"{len(ordered)} of {quoted(last.name)} in line have gaps of {shown}"
    yield warning("spacing-uneven", last.path, found, "correct a distance, or use row: or column:")
