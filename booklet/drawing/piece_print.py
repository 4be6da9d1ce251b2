"""Which part of which paper's print shows on a placed piece, and how it comes to lie there."""

from __future__ import annotations

from fractions import Fraction
from functools import lru_cache

from booklet.cutting.orientation import Orientation, strip
from booklet.drawing.affine import Affine, Point, bounds_of_points, rotation, translation
from booklet.drawing.cut_figure import lie
from booklet.drawing.figure import Symbol, Use
from booklet.drawing.kit_papers import KitPapers
from booklet.drawing.scale import Scale
from booklet.kit.kit import sheet_size
from booklet.kit.used import Use as Used
from booklet.kit.used import uses
from booklet.measure.geometry import Rect as Part
from booklet.measure.length import Size
from booklet.placing.details import Snipped
from booklet.placing.model import Placed, PlacedLayout
from booklet.placing.worked import WorkedKit
from booklet.sorting.ledger import Entry


def item_map(item: Placed, worked: WorkedKit, scale: Scale) -> Affine:
    """From an item's own box, its corner at (0, 0) as it lies untilted, to the layout, in points."""
    unit = worked.kit.unit
    left, top = scale.points(item.rect.x, unit), scale.points(item.rect.y, unit)
    width, height = scale.size(item.rect.size, unit)
    place = translation(left, top)
    if not item.tilt:
        return place
    return place.then(rotation(float(item.tilt), (left + width / 2, top + height / 2)))


def print_of(
    item: Placed, layout: PlacedLayout, worked: WorkedKit, papers: KitPapers, scale: Scale
) -> Use | None:
    """The print of a piece at its place on the layout; None where the ledger has no such piece."""
    entry = entry_of(item, layout, worked)
    if entry is None:
        return None
    symbol, whole, part = _source(item, layout, worked, papers, entry)
    lying = Orientation(item.face, item.turn)
    placing = lie(part, whole, lying, worked.kit.unit, scale)
    clip = _clip(placing, item, worked, scale)
    return Use(symbol, placing.then(item_map(item, worked, scale)), clip)


def entry_of(item: Placed, layout: PlacedLayout, worked: WorkedKit) -> Entry | None:
    """The ledger's entry for a placed piece; of a snipped part or of half a piece, that of the whole."""
    if item.from_facing:
        return _facing_entry(item, layout, worked)
    if item.use is None:
        return None
    used = _uses(worked, layout.index)[item.use]
    number = item.use if used.part_of is None else used.part_of
    return worked.ledger.of_use(layout.index, number)


@lru_cache(maxsize=128)
def _uses(worked: WorkedKit, index: int) -> tuple[Used, ...]:
    """What a layout uses; asked for with each of its pieces."""
    return uses(worked.kit.layouts[index], index)


def _facing_entry(item: Placed, layout: PlacedLayout, worked: WorkedKit) -> Entry | None:
    """The entry of the piece that the layout at the left cut off at the gutter."""
    for left in worked.layouts:
        if worked.kit.layouts[left.index].facing == layout.id:
            halves = (one for one in left.items if one.whole is not None and one.piece == item.piece)
            return next((entry_of(half, left, worked) for half in halves), None)
    return None


def _source(
    item: Placed, layout: PlacedLayout, worked: WorkedKit, papers: KitPapers, entry: Entry
) -> tuple[Symbol, Size, Part]:
    """The face's symbol, the size of its sheet, and the piece's part of the front."""
    kit = worked.kit
    if entry.piece is not None:
        index = entry.piece.sheet_index
        whole, part = sheet_size(kit, kit.sheets[index]), entry.piece.part
        symbol = papers.sheet(index, item.face)
    else:
        assert entry.ready_index is not None
        ready = kit.ready[entry.ready_index]
        whole, part = ready.size, Part(Fraction(0), Fraction(0), ready.size.width, ready.size.height)
        symbol = papers.paper(ready.paper, item.face, ready.size)
    return symbol, whole, _shown(item, layout, part)


def _shown(item: Placed, layout: PlacedLayout, part: Part) -> Part:
    """The part of the piece that is laid down here: all of it, or what scissors left."""
    area = _snipped_area(item, layout)
    if area is not None:
        return Part(part.x + area.x, part.y + area.y, area.width, area.height)
    if item.whole is not None:
        return _cut_at_gutter(item, part)
    size = item.upright_size
    width, height = min(size.width, part.width), min(size.height, part.height)
    # Trimmed round a printed outline: the middle of the piece is what is left.
    return Part(part.x + (part.width - width) / 2, part.y + (part.height - height) / 2, width, height)


def _cut_at_gutter(item: Placed, part: Part) -> Part:
    """The left part of the piece as it lies on the page, or on the facing page its right part."""
    lying = Orientation(item.face, item.turn)
    across = lying.seen_size(part.size).width
    start = across - item.rect.width if item.from_facing else Fraction(0)
    return strip(part, lying, start, start + item.rect.width)


def _snipped_area(item: Placed, layout: PlacedLayout) -> Part | None:
    for step in layout.steps:
        for detail in step.details:
            if isinstance(detail, Snipped):
                for part in detail.parts:
                    if part.name == item.piece and part.size == item.upright_size:
                        return Part(part.area.x, part.area.y, part.area.width, part.area.height)
    return None


def _clip(placing: Affine, item: Placed, worked: WorkedKit, scale: Scale) -> tuple[Point, ...]:
    """The item's box, taken back into the symbol's coordinates."""
    width, height = scale.size(item.rect.size, worked.kit.unit)
    back = _inverse(placing)
    corners = [back.apply(corner) for corner in ((0.0, 0.0), (width, 0.0), (width, height), (0.0, height))]
    return bounds_of_points(corners).corners


def _inverse(map_: Affine) -> Affine:
    determinant = map_.a * map_.d - map_.b * map_.c
    a, b = map_.d / determinant, -map_.b / determinant
    c, d = -map_.c / determinant, map_.a / determinant
    return Affine(a, b, c, d, -(a * map_.e + c * map_.f), -(b * map_.e + d * map_.f))
