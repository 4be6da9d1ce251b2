"""Templates as a PDF: a drawing at true size in tiles, each with its name, two scales, and a plan of all."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import cached_property
from io import BytesIO

from booklet.content.spans import line, strong
from booklet.content.templates import Template, TemplateDocument
from booklet.drawing.marks.two_scales import two_scales
from booklet.drawing.shapes.affine import Box, Point, translation
from booklet.drawing.shapes.figure import (
    Anchor,
    Colour,
    Figure,
    Fill,
    Group,
    Polygon,
    Shape,
    Stroke,
    Text,
    filled_box,
)
from booklet.drawing.shapes.fonts import Font, cap_height, text_width
from booklet.drawing.shapes.style import DrawingStyle, palette_from_accent
from booklet.drawing.templates.area import TemplateArea
from booklet.drawing.templates.layout_template import (
    LayoutTemplate,
    draw_layout_template,
    layout_area,
    layout_silhouette,
)
from booklet.drawing.templates.piece_template import draw_piece_template, piece_area, piece_silhouette
from booklet.drawing.templates.register_marks import SharedStrip, register_marks, seam_lines
from booklet.drawing.templates.window import shapes_within
from booklet.drawing.writers.pdf_writer import draw_figure
from booklet.measure.dataclass import dataclass
from booklet.measure.geometry import ExactRect
from booklet.pages.canvas import BookletCanvas
from booklet.pages.office_paper import OfficePaper
from booklet.pages.open_canvas import ask_for_true_size, open_canvas, set_titles
from booklet.pages.text import TextBlock
from booklet.pages.tiles import FOOT, MARGIN, OVERLAP, Tile, Tiling, tile
from booklet.pages.type import Styles, TypeSizes, make_styles

# Words keep so far off the edge of a page that lies on them.
_OFF_SEAMS = 3.0
# Of the foot: above its words, the plan's room, and between plan, words and scales.
_ABOVE, _PLAN_WIDTH, _PLAN_HEIGHT, _GAP = 8.0, 66.0, 82.0, 12.0
_PLAN_SIZE, _PLAN_LEAST = 9.0, 3.0
_SILHOUETTE = Colour("#d9d9d9")
_TITLE_LINES = 2


@dataclass(frozen=True, eq=False)
class _Sheets:
    """A template laid over pages: its drawing with the marks by which they are joined."""

    template: Template
    tiling: Tiling
    style: DrawingStyle

    @cached_property
    def drawn(self) -> tuple[Shape, ...]:
        """Everything on the joined pages, in points of the drawing."""
        seams, style = self.tiling.seams, self.style
        figure = _draw(self.template, [_box(seam.shared).grown(_OFF_SEAMS) for seam in seams], style)
        strips = [_strip(self.tiling, at) for at in range(len(seams))]
        return (
            *seam_lines([*_edges(self.tiling)], figure.shapes, style),
            *register_marks(strips, figure.shapes, style),
            *figure.shapes,
        )

    def shown(self, part: Tile) -> Group:
        """A page's part of it, in points from the page's top left corner.

        Lines that run along its edge are shown in their whole width.
        """
        window = _box(part.window)
        clip = window.grown(self.style.outline_width / 2)
        place = translation(float(MARGIN) - window.left, float(MARGIN) - window.top)
        return Group(tuple(shapes_within(self.drawn, clip)), place, clip.corners)


def write_templates(document: TemplateDocument, paper: OfficePaper) -> bytes:
    """The templates of a document, one page after another; the same document gives the same bytes."""
    out = BytesIO()
    palette = palette_from_accent(Colour(document.accent))
    style = DrawingStyle(palette=palette)
    styles = make_styles(palette, TypeSizes(), document.language)
    canvas = open_canvas(BookletCanvas, out, document.language, page_of={})
    set_titles(canvas, document.title, document.author, document.subject)
    ask_for_true_size(canvas, "Simplex")
    for template in document.templates:
        sheets = _Sheets(template, tile(_area(template, style).size, paper), style)
        for part in sheets.tiling.tiles:
            _write_page(canvas, document, sheets, part, styles)
    canvas.save()
    return out.getvalue()


def _area(template: Template, style: DrawingStyle) -> TemplateArea:
    drawing = template.drawing
    return layout_area(drawing, style) if isinstance(drawing, LayoutTemplate) else piece_area(drawing, style)


def _draw(template: Template, seams: Sequence[Box], style: DrawingStyle) -> Figure:
    drawing = template.drawing
    if isinstance(drawing, LayoutTemplate):
        return draw_layout_template(drawing, seams, style)
    return draw_piece_template(drawing, seams, style)


def _silhouette(template: Template, style: DrawingStyle) -> tuple[Point, ...]:
    drawing = template.drawing
    if isinstance(drawing, LayoutTemplate):
        return layout_silhouette(drawing, style)
    return piece_silhouette(drawing)


# Seams.


def _box(rect: ExactRect) -> Box:
    return Box(*map(float, (rect.x, rect.y, rect.right, rect.bottom)))


def _strip(tiling: Tiling, at: int) -> SharedStrip:
    """A seam of a tiling without its ends, which a third page may show."""
    seam, overlap = tiling.seams[at], float(OVERLAP)
    box = _box(seam.shared)
    within = (0.0, overlap) if seam.is_upright else (overlap, 0.0)
    clear = Box(box.left + within[0], box.top + within[1], box.right - within[0], box.bottom - within[1])
    return SharedStrip(box, clear, seam.is_upright)


def _edges(tiling: Tiling) -> Iterator[tuple[Point, Point]]:
    """The edges of pages along which others lie, each over the whole drawing."""
    whole = _box(tiling.whole)
    upright = {
        float(x) for seam in tiling.seams if seam.is_upright for x in (seam.shared.x, seam.shared.right)
    }
    level = {
        float(y) for seam in tiling.seams if not seam.is_upright for y in (seam.shared.y, seam.shared.bottom)
    }
    yield from (((x, whole.top), (x, whole.bottom)) for x in sorted(upright))
    yield from (((whole.left, y), (whole.right, y)) for y in sorted(level))


# A page.


def _write_page(
    canvas: BookletCanvas, document: TemplateDocument, sheets: _Sheets, part: Tile, styles: Styles
) -> None:
    page = sheets.tiling.page
    width, height = float(page.width), float(page.height)
    canvas.setPageSize((width, height))
    drawing = Figure(part.name, width, height, (sheets.shown(part),))
    draw_figure(drawing, canvas.resources, 0.0, height)
    _foot(canvas, document, sheets, part, styles)
    canvas.showPage()


def _foot(
    canvas: BookletCanvas, document: TemplateDocument, sheets: _Sheets, part: Tile, styles: Styles
) -> None:
    """From the left: the plan of all pages, the words, the scales with how to join the pages."""
    tiling, style = sheets.tiling, sheets.style
    left, right = float(MARGIN), float(tiling.page.width - MARGIN)
    top = float(MARGIN + FOOT) - _ABOVE
    plan, scales = _plan(sheets, part), two_scales(style)
    draw_figure(plan, canvas.resources, left, top)
    draw_figure(scales, canvas.resources, right - scales.width, top)
    words_left = left + _PLAN_WIDTH + _GAP
    _stack(canvas, _words(document, sheets, part, styles), words_left, right - scales.width - _GAP, top)
    if tiling.count > 1:
        join = [TextBlock(styles.small, document.join)]
        _stack(canvas, join, right - scales.width, right, top - scales.height - _GAP / 2)


def _words(document: TemplateDocument, sheets: _Sheets, part: Tile, styles: Styles) -> Iterator[TextBlock]:
    yield TextBlock(styles.reading, line(strong(part.name)))
    yield TextBlock(styles.small, sheets.template.title, slice(0, _TITLE_LINES))
    if sheets.template.legend:
        yield TextBlock(styles.small, sheets.template.legend)
    yield TextBlock(styles.small, document.print_it)


def _stack(
    canvas: BookletCanvas,
    blocks: Iterable[TextBlock],
    left: float,
    right: float,
    top: float,
) -> None:
    """Paragraphs under one another between two edges, from a height of the page downwards."""
    for block in blocks:
        _, high = block.wrap(right - left, 0.0)
        top -= high
        block.drawOn(canvas, left, top)


# The plan.


def _plan(sheets: _Sheets, part: Tile) -> Figure:
    """All pages as they are joined, this one in a heavy frame, over the silhouette of the drawing."""
    tiling, style = sheets.tiling, sheets.style
    whole = tiling.whole
    factor = min(_PLAN_WIDTH / float(whole.width), _PLAN_HEIGHT / float(whole.height))
    x, y = float(whole.x), float(whole.y)
    points = [((px - x) * factor, (py - y) * factor) for px, py in _silhouette(sheets.template, style)]
    shapes: list[Shape] = [Polygon(tuple(points), Fill(_SILHOUETTE))]
    cells = {one: _cell(tiling, one, factor) for one in tiling.tiles}
    shapes += (filled_box(box, None, style.fine) for one, box in cells.items() if one is not part)
    heavy = Stroke(style.palette.ink, style.outline_width * 1.4)
    shapes.append(filled_box(cells[part], None, heavy))
    shapes += _names(cells, part, style)
    return Figure("plan", _PLAN_WIDTH, _PLAN_HEIGHT, (Group(tuple(shapes), translation(1.0, 1.0)),))


def _cell(tiling: Tiling, part: Tile, factor: float) -> Box:
    """A page on the plan: pages meet in the middle of what they share."""
    width, height = (float(side) * factor for side in (tiling.whole.width, tiling.whole.height))
    wide, high = width / tiling.columns, height / tiling.rows
    return Box(part.column * wide, part.row * high, (part.column + 1) * wide, (part.row + 1) * high)


def _names(cells: dict[Tile, Box], part: Tile, style: DrawingStyle) -> Iterator[Shape]:
    """The name of each page, where all have room."""
    widest = max(text_width(one.name, Font.SANS_BOLD, _PLAN_SIZE) for one in cells)
    box = cells[part]
    if widest + _PLAN_LEAST > box.width or box.height < _PLAN_SIZE + _PLAN_LEAST:
        return
    for one, cell in cells.items():
        font = Font.SANS_BOLD if one is part else Font.SANS
        x, y = cell.centre
        baseline = y + cap_height(font, _PLAN_SIZE) / 2
        yield Text(one.name, x, baseline, _PLAN_SIZE, font, style.palette.ink, Anchor.MIDDLE, role="tile")
