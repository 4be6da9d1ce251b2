"""Which part of which paper's print shows on a placed piece, and how it comes to lie there."""

from __future__ import annotations

from booklet.cutting.orientation import Orientation, strip
from booklet.drawing.papers.kit_papers import KitPapers
from booklet.drawing.papers.lying import lie
from booklet.drawing.shapes.affine import IDENTITY, Affine, Point, bounds_of_points, rotation, translation
from booklet.drawing.shapes.figure import Symbol, Use
from booklet.drawing.shapes.scale import Scale
from booklet.kit.fields import Edge, Face
from booklet.kit.kit import sheet_size
from booklet.measure.exact import Fraction
from booklet.measure.geometry import ExactRect, rect_at_origin
from booklet.measure.length import Size, Unit, to_points
from booklet.placing.details import Snipped
from booklet.placing.model import Placed, PlacedLayout
from booklet.placing.resolved import ResolvedKit, uses_of
from booklet.sorting.ledger import LedgerEntry


def item_map(item: Placed, resolved: ResolvedKit, scale: Scale) -> Affine:
    """From an item's own box, its corner at (0, 0) as it lies untilted, to the layout, in points."""
    unit = resolved.kit.unit
    left, top = scale.points(item.rect.x, unit), scale.points(item.rect.y, unit)
    place = translation(left, top)
    if not item.tilt:
        return place
    pivot = item.pivot or item.rect.centre
    middle = (scale.points(pivot.x, unit), scale.points(pivot.y, unit))
    return place.then(rotation(float(item.tilt), middle))


def print_of(
    item: Placed, layout: PlacedLayout, resolved: ResolvedKit, papers: KitPapers, scale: Scale
) -> Use | None:
    """The print of a piece at its place on the layout; None where the ledger has no such piece."""
    entry = ledger_entry_of(item, layout, resolved)
    if entry is None:
        return None
    symbol, turned, whole, part = _source(item, layout, resolved, papers, entry)
    lying = Orientation(item.face, item.turn)
    placing = turned.then(lie(part, whole, lying, resolved.kit.unit, scale))
    clip = _clip(placing, item, resolved, scale)
    return Use(symbol, placing.then(item_map(item, resolved, scale)), clip)


def artwork_of(
    item: Placed, layout: PlacedLayout, resolved: ResolvedKit, papers: KitPapers, scale: Scale
) -> tuple[tuple[Point, ...], ...]:
    """Where the printed pictures and words of a piece lie on the layout, each as an outline, in points."""
    entry = ledger_entry_of(item, layout, resolved)
    shown = print_of(item, layout, resolved, papers, scale)
    if entry is None or entry.piece is None or shown is None or shown.clip is None or item.face is Face.BACK:
        return ()
    window = bounds_of_points(shown.clip)
    boxes = (box.common(window) for box in papers.artwork(entry.piece.sheet_index))
    return tuple(tuple(map(shown.transform.apply, box.corners)) for box in boxes if box is not None)


def ledger_entry_of(item: Placed, layout: PlacedLayout, resolved: ResolvedKit) -> LedgerEntry | None:
    """The ledger's entry for a placed piece; of a snipped part or of half a piece, that of the whole."""
    taken = _taken(item, layout, resolved)
    if taken is None:
        return None
    page, number = taken
    found = uses_of(resolved, page.index)
    # A part may be snipped again: back to the piece that it all comes from.
    while (before := found[number].part_of) is not None:
        number = before
    return resolved.ledger.of_use(page.index, number)


def _taken(item: Placed, layout: PlacedLayout, resolved: ResolvedKit) -> tuple[PlacedLayout, int] | None:
    """The layout that takes the piece, and which of its uses that is; None for what is no piece."""
    if item.from_facing:
        return _taken_by_facing(item, layout, resolved)
    return None if item.use is None else (layout, item.use)


def _taken_by_facing(
    item: Placed, layout: PlacedLayout, resolved: ResolvedKit
) -> tuple[PlacedLayout, int] | None:
    """Who takes the piece that the layout at the left cut off at the gutter.

    Halves of one name arrive in the order in which they were cut off.
    """
    left = next(one for one in resolved.layouts if resolved.kit.layouts[one.index].facing == layout.id)
    arrived = [one.id for one in _halves(layout, item.name) if one.from_facing]
    cut_off = [one for one in _halves(left, item.name) if not one.from_facing]
    use = cut_off[arrived.index(item.id)].use
    return None if use is None else (left, use)


def _halves(layout: PlacedLayout, name: str) -> list[Placed]:
    """The parts of pieces of this name that are cut at the gutter, in the order in which they were laid."""
    halves = (one for one in layout.items if one.whole is not None and one.name == name)
    return sorted(halves, key=lambda one: one.id)


def _source(
    item: Placed, layout: PlacedLayout, resolved: ResolvedKit, papers: KitPapers, entry: LedgerEntry
) -> tuple[Symbol, Affine, Size, ExactRect]:
    """The face's symbol, how it is turned, the size of its sheet so, and the piece's part of the front."""
    kit, turned = resolved.kit, IDENTITY
    if entry.piece is not None:
        index = entry.piece.sheet_index
        whole, part = sheet_size(kit, kit.sheets[index]), entry.piece.part
        symbol = papers.sheet(index, item.face)
        if entry.piece.is_turned:
            turned, whole, part = _turned(item.face, kit.unit, whole, part)
    else:
        assert entry.ready_index is not None
        ready = kit.ready[entry.ready_index]
        whole, part = ready.size, rect_at_origin(ready.size)
        symbol = papers.paper(ready.paper, item.face, ready.size)
    return symbol, turned, whole, _shown(item, layout, resolved, part)


def _turned(face: Face, unit: Unit, whole: Size, part: ExactRect) -> tuple[Affine, Size, ExactRect]:
    """A face of a sheet whose front is turned clockwise, at full size, and where a part of it then lies."""
    wide, high = to_points(whole.width, unit), to_points(whole.height, unit)
    if face is Face.FRONT:
        turned = rotation(90).then(translation(high, 0.0))
    else:  # seen from behind, the same turn goes the other way
        turned = rotation(270).then(translation(0.0, wide))
    return turned, whole.turned, ExactRect(whole.height - part.bottom, part.x, part.height, part.width)


def _shown(item: Placed, layout: PlacedLayout, resolved: ResolvedKit, part: ExactRect) -> ExactRect:
    """The part of the piece that is laid down here: all of it, or what scissors and gutter left."""
    taken = _taken(item, layout, resolved)
    if taken is not None:
        part = part_taken(*taken, resolved, part)
    part = middle_of(part, item.upright_size)
    return part if item.whole is None else _cut_at_gutter(item, part)


def part_taken(layout: PlacedLayout, number: int, resolved: ResolvedKit, part: ExactRect) -> ExactRect:
    """The part of the front that a use takes of a piece: of a snipped one, where that lay on the piece."""
    found = uses_of(resolved, layout.index)
    use = found[number]
    if use.part_of is None:
        return part
    part = part_taken(layout, use.part_of, resolved, part)
    # A snip that is at fault leaves no parts, and then nothing of them is placed.
    parts = next(one.parts for one in layout.details(Snipped) if one.use == use.part_of)
    areas = [one.area for one in parts if one.name == use.name]
    earlier = [one for one in found[:number] if (one.name, one.part_of) == (use.name, use.part_of)]
    right, bottom = max(one.area.right for one in parts), max(one.area.bottom for one in parts)
    part, area = middle_of(part, Size(right, bottom)), areas[len(earlier)]
    return ExactRect(part.x + area.x, part.y + area.y, area.width, area.height)


def middle_of(part: ExactRect, size: Size) -> ExactRect:
    """What is left of a piece that is trimmed round a printed outline to a size: the middle of it."""
    width, height = min(size.width, part.width), min(size.height, part.height)
    return ExactRect(part.x + (part.width - width) / 2, part.y + (part.height - height) / 2, width, height)


def _cut_at_gutter(item: Placed, part: ExactRect) -> ExactRect:
    """The left part of the piece as it lies on the page, or on the facing page its right part."""
    lying = Orientation(item.face, item.turn)
    across = lying.seen_size(part.size).width
    start = across - item.rect.width if item.from_facing else Fraction(0)
    return strip(part, lying, start, start + item.rect.width, Edge.LEFT)


def _clip(placing: Affine, item: Placed, resolved: ResolvedKit, scale: Scale) -> tuple[Point, ...]:
    """The item's box, taken back into the symbol's coordinates."""
    width, height = scale.size(item.rect.size, resolved.kit.unit)
    back = placing.inverse
    corners = [back.apply(corner) for corner in ((0.0, 0.0), (width, 0.0), (width, height), (0.0, height))]
    return bounds_of_points(corners).corners
