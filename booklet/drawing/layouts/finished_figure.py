"""The finished look of a layout: papers, photographs, ribbon and tape as they lie in the end.

Nothing is transparent.  A shadow is two narrow tones of whatever lies beneath, so that it prints in black.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import groupby, pairwise

from booklet.drawing.layouts.finished_supplies import supply_shapes
from booklet.drawing.layouts.look import NO_PAPER, Look, ground_at, ground_of, paper_tone
from booklet.drawing.layouts.shadows import shadow_shapes
from booklet.drawing.papers.photos import photo_shapes
from booklet.drawing.papers.piece_print import print_of
from booklet.drawing.shapes.affine import Point
from booklet.drawing.shapes.figure import (
    BLACK,
    WHITE,
    Circle,
    Colour,
    DrawnLater,
    Fill,
    Group,
    Join,
    Path,
    Polygon,
    Polyline,
    Rect,
    Segment,
    Shape,
    Stroke,
    Symbol,
)
from booklet.kit.fields import Edge
from booklet.measure.dataclass import replace
from booklet.measure.geometry import ExactPoint
from booklet.placing.model import ItemKind, Placed

_PAGE_EDGE = Stroke(Colour("#8b949c"), 0.6)
_PHOTO_EDGE = Stroke(Colour("#ffffff"), 1.1)
# The paper's white or black that is kept clear about a line of writing.
_CASING = 2.6
# Half of the line lies outside the piece, where it is cut off.
_INKED = 2.0


def finished_symbol(look: Look) -> Symbol:
    """The finished layout as a drawing that is used at several sizes; what hangs over is cut off."""
    page = look.page
    edge = Rect(0, 0, page.width, page.height, None, _PAGE_EDGE)
    shapes = DrawnLater(lambda: (*finished_shapes(look), edge))
    return Symbol(f"finished {look.layout.id}", shapes, page.width, page.height)


def finished_shapes(look: Look) -> Iterator[Shape]:
    """Everything on the layout in its stacking order."""
    yield from item_shapes(look.layout.base, look)
    for item in look.layout.items:
        if item.covers and item.kind is not ItemKind.ADDED and item.id not in look.bows:
            yield from shadow_shapes(item, look)
        yield from item_shapes(item, look)


def item_shapes(item: Placed, look: Look) -> Iterator[Shape]:
    """One thing as it lies on the layout, without its shadow."""
    match item.kind:
        case ItemKind.PHOTO:
            yield _photo(item, look)
        case ItemKind.WRITING:
            yield Group(tuple(_handwriting(item, look)), look.map(item), tag="writing")
        case ItemKind.PIECE | ItemKind.BASE:
            yield from _piece(item, look)
        case _:
            yield _supplies(item, look)
    yield from _holes(item, look)


def _holes(item: Placed, look: Look) -> Iterator[Shape]:
    """The holes punched in an item, through which what lies beneath shows."""
    unit = look.resolved.kit.unit
    for punched in item.finish.holes:
        middle, radius = punched.middle, look.scale.points(punched.width, unit) / 2
        if not (0 <= middle.x <= item.rect.width and 0 <= middle.y <= item.rect.height):
            continue
        at = (look.scale.points(middle.x, unit), look.scale.points(middle.y, unit))
        tone = ground_at(ExactPoint(item.rect.x + middle.x, item.rect.y + middle.y), item, look)
        hole = Circle(*at, radius, Fill(tone), Stroke(tone.darker(0.3), 0.4))
        yield Group((hole,), look.map(item), tag="hole")


def _supplies(item: Placed, look: Look) -> Group:
    shapes = supply_shapes(
        item, look.layout, look.box(item), look.resolved.kit, ground_of(item, look), look.scale
    )
    return Group(tuple(shapes), look.map(item), tag=item.kind.value)


def _piece(item: Placed, look: Look) -> Iterator[Shape]:
    """The part of its paper's print within its outline; bare paper where the ledger knows no such piece."""
    place, outline = look.map(item), look.outline(item)
    shown = print_of(item, look.layout, look.resolved, look.papers, look.scale)
    if shown is None:
        yield Group((Polygon(outline, Fill(NO_PAPER)),), place)
    elif len(outline) == 4:
        yield shown
    else:
        yield Group((shown,), clip=look.lying[item.id])
    if item.kind is ItemKind.PIECE and look.papers.piece_edge is not None:
        yield Polygon(look.lying[item.id], None, look.papers.piece_edge)
    if item.finish.inked:
        yield Group(tuple(_inked(item, look)), place, clip=outline, tag="inked")


def _inked(item: Placed, look: Look) -> Iterator[Shape]:
    """A soft dark line just inside each inked edge; on a round outline, where it faces that way."""
    outline = look.outline(item)
    stroke = Stroke(paper_tone(item, look).darker(0.45), _INKED)
    for edge, run in groupby(pairwise((*outline, outline[0])), key=lambda ends: _facing(*ends)):
        if edge in item.finish.inked:
            sides = list(run)
            yield Polyline((sides[0][0], *(end for _, end in sides)), stroke)


def _facing(start: Point, end: Point) -> Edge:
    """To which side of the page a part of an outline faces, which runs clockwise."""
    across, down = end[0] - start[0], end[1] - start[1]
    if abs(across) >= abs(down):
        return Edge.TOP if across > 0 else Edge.BOTTOM
    return Edge.RIGHT if down > 0 else Edge.LEFT


def _photo(item: Placed, look: Look) -> Group:
    box = look.box(item)
    border = Polygon(box.grown(-_PHOTO_EDGE.width / 2).corners, None, _PHOTO_EDGE)
    photos = [other.id for other in look.layout.items if other.kind is ItemKind.PHOTO]
    # Facing pages begin with different scenes, and so do neighbours on a page.
    scene = photo_shapes(box, 2 * look.layout.index + photos.index(item.id))
    outline = look.outline(item)
    clip = outline if len(outline) > 4 else None
    return Group((scene, border), look.map(item), clip=clip, tag="photo")


def _handwriting(item: Placed, look: Look) -> Iterator[Shape]:
    """Lines of a quick hand, dark on light or light on dark, as many as the space holds."""
    ground = ground_of(item, look)
    ink = Colour("#39434d") if ground.luminance > 0.3 else Colour("#f4f1ea")
    box = look.box(item)
    step = min(9.0, max(4.5, box.height / 4), box.height)
    count = max(1, int(box.height / step))
    for number in range(count):
        y = (box.height - (count - 1) * step) / 2 + number * step
        length = box.width * (0.92 if number < count - 1 else 0.58)
        line = _scribble(box.width * 0.04, y, length, step, ink)
        if look.papers.has_casings:
            # Marks of a screen would be lost in it.
            yield replace(line, stroke=Stroke(_against(ink), _CASING, join=Join.ROUND))
        yield line


def _against(ink: Colour) -> Colour:
    return WHITE if ink.luminance < 0.3 else BLACK


def _scribble(x: float, y: float, length: float, step: float, ink: Colour) -> Path:
    """A line of quick writing: words of uneven strokes, the same every time."""
    stroke = step * 0.34
    segments: list[Segment] = []
    at, number = x, int(y * 7)
    while at < x + length - stroke:
        number += 1
        # The golden ratio gives an uneven row of heights without chance (a known property).
        uneven = number * 0.6180339887 % 1
        if not segments or uneven > 0.86:
            at += stroke * 0.9
            segments.append(("M", at, y))
        height = step * (0.14 + 0.26 * uneven * (number % 3 == 0) + 0.08 * uneven)
        segments.append(
            ("C", at + stroke * 0.3, y - height, at + stroke * 0.7, y - height, at + stroke * 0.55, y)
        )
        at += stroke * 0.75
        segments.append(("L", at, y - step * 0.05))
    return Path(tuple(segments), stroke=Stroke(ink, 0.55))
