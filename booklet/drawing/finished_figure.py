"""The finished look of a layout: papers, photographs, ribbon and tape as they lie in the end.

Nothing is transparent.  A shadow is two narrow tones of whatever lies beneath, so that it prints in black.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from booklet.drawing.affine import Affine, Box, Point, scaling, translation
from booklet.drawing.figure import (
    Circle,
    Colour,
    Figure,
    Fill,
    Group,
    Line,
    Path,
    Polygon,
    Rect,
    Segment,
    Shape,
    Stroke,
    Symbol,
    Use,
)
from booklet.drawing.finished_supplies import is_bow, supply_shapes
from booklet.drawing.kit_papers import KitPapers
from booklet.drawing.photos import photo_shapes
from booklet.drawing.piece_outline import outline_points
from booklet.drawing.piece_print import entry_of, item_map, print_of
from booklet.drawing.scale import Scale
from booklet.kit.fields import Edge, Face
from booklet.kit.kit import layout_title
from booklet.measure.geometry import Point as PlacedPoint
from booklet.measure.geometry import Rect as PlacedRect
from booklet.placing.details import Punched
from booklet.placing.model import Kind, Placed, PlacedLayout
from booklet.placing.worked import WorkedKit

_PAGE_EDGE = Stroke(Colour("#8b949c"), 0.6)
_PHOTO_EDGE = Stroke(Colour("#ffffff"), 1.1)
_NO_PAPER = Colour("#d9d4cc")
# Shadows fall to the lower right: how far, in points, and how much darker than what they fall on.
_SHADOWS = ((1.5, 0.14), (0.8, 0.3))
_RAISED_SHADOWS = ((3.2, 0.12), (2.2, 0.22), (1.2, 0.36))


@dataclass(frozen=True)
class Look:
    """What a finished look is drawn from."""

    layout: PlacedLayout
    worked: WorkedKit
    papers: KitPapers
    scale: Scale

    @property
    def page(self) -> Box:
        """The page, in points."""
        width, height = self.scale.size(self.layout.size, self.worked.kit.unit)
        return Box(0.0, 0.0, width, height)

    def box(self, item: Placed) -> Box:
        """An item's own box, its corner at (0, 0)."""
        width, height = self.scale.size(item.rect.size, self.worked.kit.unit)
        return Box(0.0, 0.0, width, height)

    def outline(self, item: Placed) -> tuple[Point, ...]:
        """An item's outline in its own box."""
        return outline_points(item, self.box(item), self.scale, self.worked.kit.unit)

    def map(self, item: Placed) -> Affine:
        """From an item's own box to the page."""
        return item_map(item, self.worked, self.scale)


def finished_symbol(look: Look) -> Symbol:
    """The finished layout as a drawing that is used at several sizes; what hangs over is cut off."""
    page = look.page
    edge = Rect(0, 0, page.width, page.height, None, _PAGE_EDGE)
    return Symbol(f"finished {look.layout.id}", (*finished_shapes(look), edge), page.width, page.height)


def finished_figure(symbol: Symbol, look: Look, name: str) -> Figure:
    """A finished look at the scale of `look`, from a symbol that may have been drawn at another."""
    page = look.page
    title = layout_title(look.worked.kit.layouts[look.layout.index])
    return Figure(
        name,
        page.width,
        page.height,
        (Use(symbol, scaling(page.width / symbol.width)),),
        f"{title}, finished: {len(look.layout.items)} things on their base",
        look.scale.words,
    )


def finished_shapes(look: Look) -> Iterator[Shape]:
    """Everything on the layout in its stacking order."""
    yield from _piece(look.layout.base, look)
    photos = 2 * look.layout.index
    for item in look.layout.items:
        if item.covers and item.kind is not Kind.ADDED and not is_bow(item):
            yield from _shadow(item, look)
        match item.kind:
            case Kind.PHOTO:
                yield _photo(item, look, photos)
                photos += 1
            case Kind.WRITING:
                yield Group(tuple(_handwriting(item, look)), look.map(item), tag="writing")
            case Kind.PIECE | Kind.BASE:
                yield from _piece(item, look)
            case _:
                yield _supplies(item, look)
        yield from _holes(item, look)


def _holes(item: Placed, look: Look) -> Iterator[Shape]:
    """The holes punched in an item, through which what lies beneath shows."""
    unit = look.worked.kit.unit
    for step in look.layout.steps:
        for detail in step.details:
            if isinstance(detail, Punched) and detail.hole is not None and item.id in detail.target.ids[:1]:
                centre = detail.hole.centre
                x, y = look.scale.points(centre.x, unit), look.scale.points(centre.y, unit)
                radius = look.scale.points(detail.hole.width, unit) / 2
                tone = ground_of(item, look)
                yield Circle(x, y, radius, Fill(tone), Stroke(tone.darker(0.3), 0.4))


def _supplies(item: Placed, look: Look) -> Group:
    shapes = supply_shapes(item, look.box(item), look.worked.kit, ground_of(item, look), look.scale)
    return Group(tuple(shapes), look.map(item), tag=item.kind.value)


def _piece(item: Placed, look: Look) -> Iterator[Shape]:
    """The part of its paper's print within its outline; bare paper where the ledger knows no such piece."""
    place, outline = look.map(item), look.outline(item)
    shown = print_of(item, look.layout, look.worked, look.papers, look.scale)
    if shown is None:
        yield Group((Polygon(outline, Fill(_NO_PAPER)),), place)
    elif len(outline) == 4:
        yield shown
    else:
        yield Group((shown,), clip=tuple(place.apply(point) for point in outline))
    if item.finish.inked:
        yield Group(tuple(_inked(item, look)), place, tag="inked")


def _inked(item: Placed, look: Look) -> Iterator[Shape]:
    """A soft dark line along each inked edge."""
    box = look.box(item)
    (x0, y0), (x1, _), (_, y1), _ = box.corners
    ends = {
        Edge.TOP: ((x0, y0), (x1, y0)),
        Edge.RIGHT: ((x1, y0), (x1, y1)),
        Edge.BOTTOM: ((x1, y1), (x0, y1)),
        Edge.LEFT: ((x0, y1), (x0, y0)),
    }
    tone = paper_tone(item, look).darker(0.45)
    for edge in item.finish.inked:
        yield Line(*ends[edge], Stroke(tone, 1.4))


def _shadow(item: Placed, look: Look) -> Iterator[Shape]:
    """The item's outline moved a little to the lower right, in darker tones of what lies beneath."""
    beneath = ground_of(item, look)
    place, outline = look.map(item), look.outline(item)
    for distance, darker in _RAISED_SHADOWS if item.finish.raised else _SHADOWS:
        moved = place.then(translation(distance * 0.8, distance))
        yield Group((Polygon(outline, Fill(beneath.darker(darker))),), moved, tag="shadow")


def ground_of(item: Placed, look: Look) -> Colour:
    """The tone of whatever lies right beneath the middle of an item."""
    centre = item.rect.centre
    for other in reversed(look.layout.items):
        if other.layer < item.layer and other.covers and _holds(other.rect, centre):
            return paper_tone(other, look)
    return paper_tone(look.layout.base, look)


def _holds(rect: PlacedRect, point: PlacedPoint) -> bool:
    return rect.x <= point.x <= rect.right and rect.y <= point.y <= rect.bottom


def paper_tone(item: Placed, look: Look) -> Colour:
    """The ground colour of a piece's paper; a middle grey for what has none."""
    entry = entry_of(item, look.layout, look.worked)
    if entry is None:
        return _NO_PAPER
    kit = look.worked.kit
    if entry.piece is not None:
        sheet = kit.sheets[entry.piece.sheet_index]
        element = next((e for e in sheet.elements if e.name == entry.name), None)
        if element is not None:
            return Colour(element.ground)
        paper = kit.papers[sheet.paper]
    else:
        paper = kit.papers[kit.ready[entry.ready_index or 0].paper]
    face = paper.front if item.face is Face.FRONT else paper.back
    return _NO_PAPER if face.image else Colour(face.colours[0])


def _photo(item: Placed, look: Look, variety: int) -> Group:
    box = look.box(item)
    border = Polygon(box.grown(-_PHOTO_EDGE.width / 2).corners, None, _PHOTO_EDGE)
    scene = photo_shapes(box, variety)
    outline = look.outline(item)
    clip = outline if len(outline) > 4 else None
    return Group((scene, border), look.map(item), clip=clip, tag="photo")


def _handwriting(item: Placed, look: Look) -> Iterator[Shape]:
    """Lines of a quick hand, dark on light or light on dark, as many as the space holds."""
    ground = ground_of(item, look)
    ink = Colour("#39434d") if ground.luminance > 0.3 else Colour("#f4f1ea")
    box = look.box(item)
    step = min(9.0, max(4.5, box.height / 4))
    count = max(1, int(box.height / step))
    for number in range(count):
        y = (box.height - (count - 1) * step) / 2 + number * step
        length = box.width * (0.92 if number < count - 1 else 0.58)
        yield _scribble(box.width * 0.04, y, length, step, ink)


def _scribble(x: float, y: float, length: float, step: float, ink: Colour) -> Shape:
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
