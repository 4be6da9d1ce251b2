"""A piece at true size: its outline to trace or to check by, what scissors and punches do to it, its words.

A line's middle is the edge.  What the blade cuts is a wide line, what scissors cut a broken one (ISO 128-2,
from memory); its print is left out, to spare ink.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import cached_property
from math import ceil

from booklet.cutting.finish import Finish
from booklet.drawing.papers.piece_outline import TRUE_ARCS, outline_points
from booklet.drawing.shapes.affine import Box, Point, translation
from booklet.drawing.shapes.figure import Circle, Figure, Group, Line, Polygon, Shape, Stroke
from booklet.drawing.shapes.scale import TRUE_SIZE
from booklet.drawing.shapes.style import DrawingStyle
from booklet.drawing.templates.area import TemplateArea
from booklet.drawing.templates.label_places import LabelField
from booklet.drawing.templates.lines import drawn_lines
from booklet.drawing.templates.words import WordBlock
from booklet.kit.sheet import OutlineShape
from booklet.kit.steps import Corner
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction
from booklet.measure.geometry import ExactRect, rect_at_origin
from booklet.measure.length import Size, Unit
from booklet.placing.model import ItemKind, Placed
from booklet.placing.piece_shape import PieceShape

OUTLINE_TAG, SCISSORS_TAG, HOLE_TAG, AREA_TAG = "outline", "scissors", "hole", "area"
# Scissors cut along dashes; an area to stencil is a chain line.
_SCISSORS, _CHAIN = (6.0, 3.2), (7.0, 1.6, 1.4, 1.6)
# The circle about a corner to punch.
_PUNCH, _PUNCHED = 9.0, (2.2, 1.5)
# Between a piece and words that stand beside it, and the arm of the cross in a hole.
_BESIDE, _CROSS = 12.0, 3.0
# Words keep so far off lines.
_CLEAR = 4.0
# How wide the lines of words may run, in points, the widest first.
_WIDTHS = (250.0, 180.0, 130.0, 90.0)


@dataclass(frozen=True)
class PieceTemplate:
    """What is drawn of a piece: its shape, and in words all that is said of it.

    `part_words` stand on its parts where it is cut in some, `area_words` on what is stencilled of it.
    """

    name: str
    shape: PieceShape
    unit: Unit
    words: WordBlock
    part_words: tuple[str, ...] = ()
    area_words: tuple[str, ...] = ()

    @cached_property
    def points(self) -> Size:
        """The piece's size in points, exactly."""
        size, each = self.shape.size, self.unit.points
        return Size(size.width * each, size.height * each)


def piece_area(template: PieceTemplate, style: DrawingStyle) -> TemplateArea:
    """What the template of a piece covers: the piece, and room for words beside it that it cannot hold."""
    size = template.points
    field = _field(_lines(template, style), (float(size.width), float(size.height)), ())
    if _placed(template, field, _outline(template), style) is not None:
        return TemplateArea(size)
    block = template.words.wrapped(_WIDTHS[0])
    wide, high = (ceil(side) for side in (block.width(style), block.height))
    if size.width < size.height and size.height >= high:
        return TemplateArea(Size(size.width + Fraction(wide + 2 * int(_BESIDE)), size.height))
    width = max(size.width, Fraction(wide + 2 * int(_BESIDE)))
    return TemplateArea(Size(width, size.height + Fraction(high + 2 * int(_BESIDE))))


def piece_silhouette(template: PieceTemplate) -> tuple[Point, ...]:
    """The outline of the piece within its area, in points."""
    return _outline(template)


def draw_piece_template(template: PieceTemplate, seams: Sequence[Box], style: DrawingStyle) -> Figure:
    """The template of a piece; its words keep off the seams, along which pages are joined."""
    area = piece_area(template, style)
    width, height = float(area.size.width), float(area.size.height)
    lines = _lines(template, style)
    shapes = [*lines, *_words(template, lines, (width, height), seams, style)]
    return Figure(template.name, width, height, tuple(shapes))


# Lines.


def _lines(template: PieceTemplate, style: DrawingStyle) -> tuple[Shape, ...]:
    shape = template.shape
    shapes: list[Shape] = [Group((Polygon(_outline(template), None, style.outline),), tag=OUTLINE_TAG)]
    if not shape.is_whole:
        shapes += (_cut_by_hand(template, part.area, part.finish, style) for part in shape.parts)
    for part in shape.parts:
        shapes += _holes(template, part.area, part.finish, style)
        shapes += _punched(template, part.area, part.finish, style)
    shapes += (_stencilled(template, area.area, style) for area in shape.areas)
    return tuple(shapes)


def _outline(template: PieceTemplate) -> tuple[Point, ...]:
    """The edge of the piece: as it is in the end, or, where scissors cut it later, as the blade leaves it."""
    shape = template.shape
    finish = shape.parts[0].finish if shape.is_whole else shape.finish
    return _edge(template, rect_at_origin(shape.size), finish, shape.outline)


def _edge(
    template: PieceTemplate, area: ExactRect, finish: Finish, outline: OutlineShape
) -> tuple[Point, ...]:
    """The outline of a part of the piece, in points.  How large a corner punch bites, no kit says."""
    unbitten = Finish(roundings=finish.roundings)
    upright = Placed(
        0, 0, template.name, None, ItemKind.PIECE, area, (), outline=outline, finish=unbitten
    )  # fmt: skip
    box = _box(template, area)
    here = translation(box.left, box.top)
    flat = Box(0.0, 0.0, box.width, box.height)
    return tuple(map(here.apply, outline_points(upright, flat, TRUE_SIZE, template.unit, TRUE_ARCS)))


def _box(template: PieceTemplate, area: ExactRect) -> Box:
    sides = (area.x, area.y, area.right, area.bottom)
    return Box(*(TRUE_SIZE.points(side, template.unit) for side in sides))


def _cut_by_hand(template: PieceTemplate, area: ExactRect, finish: Finish, style: DrawingStyle) -> Group:
    edge = Stroke(style.palette.ink, style.dimension_width, _SCISSORS)
    outline = template.shape.outline if len(template.shape.parts) == 1 else OutlineShape.RECTANGLE
    return Group((Polygon(_edge(template, area, finish, outline), None, edge),), tag=SCISSORS_TAG)


def _holes(template: PieceTemplate, area: ExactRect, finish: Finish, style: DrawingStyle) -> Iterator[Shape]:
    """Each hole as it is punched, with a cross in its middle."""
    for hole in finish.holes:
        x = TRUE_SIZE.points(area.x + hole.middle.x, template.unit)
        y = TRUE_SIZE.points(area.y + hole.middle.y, template.unit)
        radius = TRUE_SIZE.points(hole.width, template.unit) / 2
        yield Group((Circle(x, y, radius, None, style.outline),), tag=HOLE_TAG)
        yield from cross(x, y, style)


def cross(x: float, y: float, style: DrawingStyle) -> tuple[Line, Line]:
    """A small upright cross about a point that is to be met."""
    return (
        Line((x - _CROSS, y), (x + _CROSS, y), style.fine),
        Line((x, y - _CROSS), (x, y + _CROSS), style.fine),
    )


def _punched(
    template: PieceTemplate, area: ExactRect, finish: Finish, style: DrawingStyle
) -> Iterator[Shape]:
    """A circle about each corner that is punched: how much comes off there is the punch's own affair."""
    box = _box(template, area)
    corners = dict(zip(Corner, box.corners, strict=True))
    radius = min(_PUNCH, box.width / 4, box.height / 4)
    for corner in finish.punched:
        yield Circle(*corners[corner], radius, None, Stroke(style.palette.ink, style.fine_width, _PUNCHED))


def _stencilled(template: PieceTemplate, area: ExactRect, style: DrawingStyle) -> Group:
    edge = Stroke(style.palette.ink, style.dimension_width, _CHAIN)
    return Group((Polygon(_box(template, area).corners, None, edge),), tag=AREA_TAG)


# Words.


def _words(
    template: PieceTemplate,
    lines: Sequence[Shape],
    size: tuple[float, float],
    seams: Sequence[Box],
    style: DrawingStyle,
) -> Iterator[Shape]:
    """The words on the piece where it holds them, clear of seams where it can; beside it else."""
    field, anywhere = _field(lines, size, seams), _field(lines, size, ())
    outline, beside = _outline(template), _beside(template, size).corners
    rooms = ((field, outline), (anywhere, outline), (field, beside), (anywhere, beside))
    found = (_placed(template, tried, room, style) for tried, room in rooms)
    block, box = next(one for one in found if one is not None)
    yield from block.shapes(box, style)
    field.keep_off_box(box)
    named = zip(template.shape.parts, template.part_words, strict=False)
    areas = [(_box(template, part.area), words) for part, words in named]
    stencilled = zip(template.shape.areas, template.area_words, strict=False)
    areas += [(_box(template, area.area), words) for area, words in stencilled]
    for room_of, said in areas:
        label = WordBlock((said,))
        place = field.within(label.width(style), label.height, field.cells([room_of.corners]))
        if place is not None:
            yield from label.shapes(place, style)


def _beside(template: PieceTemplate, size: tuple[float, float]) -> Box:
    """The room for words at the right of the piece, or below it; nearly nothing where all is the piece."""
    left, top = float(template.points.width), float(template.points.height)
    if size[1] > top:
        return Box(0.0, top + _CLEAR, *size)
    return Box(min(left + _CLEAR, size[0]), 0.0, *size)


def _placed(
    template: PieceTemplate, field: LabelField, room: Sequence[Point], style: DrawingStyle
) -> tuple[WordBlock, Box] | None:
    """The words in the widest lines in which a room holds them, and where; None where it does not."""
    cells = field.cells([room])
    for width in _WIDTHS:
        block = template.words.wrapped(width)
        box = field.within(block.width(style), block.height, cells)
        if box is not None:
            return block, box
    return None


def _field(lines: Sequence[Shape], size: tuple[float, float], seams: Sequence[Box]) -> LabelField:
    field = LabelField(*size, _CLEAR)
    field.keep_off(drawn_lines(lines))
    for seam in seams:
        field.keep_off_box(seam)
    return field
