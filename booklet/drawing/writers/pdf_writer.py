"""Replay a figure onto a reportlab canvas.

A document keeps one `PdfResources`, so that each symbol and each picture is written to its file once.
"""

from __future__ import annotations

import hashlib
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from math import inf
from typing import TYPE_CHECKING, Any

from booklet.drawing.shapes import outlines
from booklet.drawing.shapes.affine import IDENTITY, Affine, Box, Point, rotation, scaling
from booklet.drawing.shapes.figure import (
    Anchor,
    Circle,
    Colour,
    Figure,
    Fill,
    Group,
    Image,
    ImageSource,
    Line,
    Motifs,
    Path,
    Polygon,
    Polyline,
    Rect,
    Shape,
    Stroke,
    Symbol,
    Text,
    Use,
)
from booklet.drawing.shapes.windows import shown_through, shown_window
from booklet.drawing.writers.inks import SCREEN, Inks
from booklet.drawing.writers.looked_at_pictures import with_parts_of_pictures
from booklet.drawing.writers.pdf_fonts import pdf_font_name
from booklet.drawing.writers.pdf_paths import outline_words, points_box, segment_count, shape_words
from booklet.measure.dataclass import replace

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas


# No line is finer on the page, in points, however small the thing is drawn of which it is a part: a finer one
# breaks up in print (common practice of print shops, no source).
LEAST_WIDTH = 0.25
# A pixel of a page that is looked at is no larger, in points: a reader shows what is cut off to the next one.
_PIXEL = 2.5
# An outline of more segments than these, in a symbol, is written once: the symbol may be in several sizes.
_LONG = 40
# How far a line that is widened to print may reach beyond its points, in points of the sheet, and how many
# times its width any line may: a mitre is up to ten times half of it (ISO 32000-1, table 52).
_WIDENED, _MITRE = 36.0, 5.0
# A map that leans less than this is upright: less than a dot of a printer over the longest page.
_SLANT = 1e-5


class PdfResources:
    """What one canvas has been given already, and how fine the finest line of each symbol is."""

    # Whether a symbol may be written again in another size, its long outlines then being the same.
    has_sizes = True

    def __init__(self, canvas: Canvas, inks: Inks = SCREEN) -> None:
        self.canvas = canvas
        self.inks = inks
        self.forms: dict[str, str] = {}
        self.paths: dict[Path | Motifs, str] = {}
        # The same for those at hand, by identity: what is long takes long to compare.
        self.met: dict[int, tuple[Path | Motifs, str]] = {}
        self.finest: dict[str, float] = {}

    def used(self, use: Use, place: Affine) -> Symbol:  # noqa: ARG002 (for those who write for one place)
        """The symbol that stands for one in a place: itself, written once for all places."""
        return use.symbol


class LookedAtResources(PdfResources):
    """What a canvas has been given whose file is looked at once: of each symbol only what shows.

    A reader reads a symbol again at each of its places; of a paper a piece shows a part, and of a picture
    fewer pixels than it has.
    """

    has_sizes = False

    def used(self, use: Use, place: Affine) -> Symbol:
        """The symbol with what shows in this place alone; `place` leads from it to the page."""
        scale = place.least_scale
        window = shown_window(use, _PIXEL / scale) if scale else use.symbol.box
        shown = shown_through(use.symbol, window)
        return with_parts_of_pictures(shown, window, place.greatest_scale)


@dataclass
class _PenState:
    """What the graphics state holds, as far as this writer has set it; None where it is unknown."""

    stroke_colour: Colour | None = None
    width: float | None = None
    dash: tuple[float, ...] | None = None
    cap: int | None = None
    join: int | None = None
    fill_colour: Colour | None = None
    text_colour: Colour | None = None


def draw_figure(figure: Figure, resources: PdfResources, left: float, top: float) -> None:
    """Draw a figure with its top left corner at (left, top) of the page, y up.

    The canvas keeps its graphics state.  Raises KeyError for a kind of shape that is not known.
    """
    pen = _Pen(resources)
    with pen.within(Affine(1, 0, 0, -1, left, top)):
        pen.draw(figure.shapes)


class _Pen:
    """Writes shapes to a canvas and leaves out every change of state that changes nothing."""

    def __init__(self, resources: PdfResources) -> None:
        self._resources = resources
        self._canvas = resources.canvas
        self._inks = resources.inks
        self._state = _PenState()
        # From what is drawn to the page, and from the form that is written; the page itself is no form.
        self._map = IDENTITY
        self._form_map = IDENTITY
        self._is_in_form = False

    @contextmanager
    def within(self, transform: Affine = IDENTITY, clip: tuple[Point, ...] | None = None) -> Iterator[None]:
        """Draw under a map, within an outline given in the mapped coordinates; then as before."""
        outer, outer_map = self._state, self._map
        self._state, self._map = replace(outer), transform.then(outer_map)
        self._canvas.saveState()
        if transform != IDENTITY:
            self._canvas.transform(*transform)
        if clip is not None:
            self._canvas.clipPath(outline_words(outlines.polygon(clip)), stroke=0, fill=0)
        yield
        self._canvas.restoreState()
        self._state, self._map = outer, outer_map

    def draw(self, shapes: Iterable[Shape]) -> None:
        """Draw shapes in order."""
        for shape in shapes:
            _DRAW[type(shape)](self, shape)

    def line(self, line: Line) -> None:
        self._set_stroke(line.stroke)
        self._canvas.line(*line.start, *line.end)

    def polyline(self, polyline: Polyline) -> None:
        self._set_stroke(polyline.stroke)
        self._canvas.drawPath(outline_words(outlines.polygon(polyline.points)[:-1]), stroke=1, fill=0)

    def polygon(self, polygon: Polygon) -> None:
        painted = self._paint(polygon.fill, polygon.stroke)
        self._canvas.drawPath(outline_words(outlines.polygon(polygon.points)), **painted)

    def rect(self, rect: Rect) -> None:
        painted = self._paint(rect.fill, rect.stroke)
        if rect.radius:
            self._canvas.roundRect(rect.x, rect.y, rect.width, rect.height, rect.radius, **painted)
        else:
            self._canvas.rect(rect.x, rect.y, rect.width, rect.height, **painted)

    def circle(self, circle: Circle) -> None:
        painted = self._paint(circle.fill, circle.stroke)
        self._canvas.drawPath(outline_words(outlines.circle(circle.x, circle.y, circle.radius)), **painted)

    def path(self, path: Path | Motifs) -> None:
        is_shared = self._is_in_form and self._resources.has_sizes
        if not (is_shared and segment_count(path) > _LONG):
            self._paint_path(path)
        elif path.stroke is None and path.fill is not None and self._inks.is_solid(path.fill.colour):
            # A frame a little larger, so that nothing is cut off by rounding.
            self._canvas.doForm(self._path_form(path, 1.0))
        elif path.stroke is not None and path.fill is None and self._inks.is_solid(path.stroke.colour):
            self._lines(path, path.stroke)
        else:
            self._paint_path(path)

    def _lines(self, path: Path | Motifs, stroke: Stroke) -> None:
        """Long lines, written once however wide: a form has the width that is set where it is drawn."""
        width = max(stroke.width, _least_width(self._map))
        self._set_width(width)
        self._canvas.doForm(self._path_form(path, _WIDENED + _MITRE * stroke.width, width))

    def _paint_path(self, path: Path | Motifs) -> None:
        painted = self._paint(path.fill, path.stroke)
        # 1 is the non-zero rule, which SVG follows by default.
        self._canvas.drawPath(shape_words(path), **painted, fillMode=1)

    def text(self, text: Text) -> None:
        self._set_text(text.colour)
        written = self._canvas.beginText()
        written.setTextTransform(*_text_matrix(text))
        written.setFont(pdf_font_name(text.font), text.size)
        written.textOut(text.text)
        self._canvas.drawText(written)

    def image(self, image: Image) -> None:
        box = image.box
        with self.within(Affine(box.width, 0, 0, box.height, box.left, box.top)):
            self._canvas.doForm(self._picture_form(image.source))

    def group(self, group: Group) -> None:
        if group.transform == IDENTITY and group.clip is None:
            self.draw(group.children)
            return
        with self.within(group.transform, group.clip):
            self.draw(group.children)

    def use(self, use: Use) -> None:
        if self._inks.keeps_size and not _is_upright(use.transform.then(self._map)):
            # A pattern in a form that lies at a slant is drawn at a slant by some readers.
            with self.within(use.transform, use.clip), self.within(clip=use.symbol.box.corners):
                self.draw(use.symbol.shapes)
            return
        place = use.transform.then(self._map)
        name = self._symbol_form(self._resources.used(use, place), place)
        with self.within(use.transform, use.clip):
            self._canvas.doForm(name)

    def _paint(self, fill: Fill | None, stroke: Stroke | None) -> dict[str, int]:
        if fill is not None:
            self._set_fill(fill.colour)
        if stroke is not None:
            self._set_stroke(stroke)
        return {"stroke": int(stroke is not None), "fill": int(fill is not None)}

    def _set_fill(self, colour: Colour) -> None:
        if self._state.fill_colour != colour:
            self._state.fill_colour = colour
            self._state.text_colour = None
            self._inks.set_fill(self._canvas, colour, self._form_map)

    def _set_text(self, colour: Colour) -> None:
        if self._state.text_colour != colour:
            self._state.text_colour = colour
            self._state.fill_colour = None
            self._inks.set_text(self._canvas, colour)

    def _set_stroke(self, stroke: Stroke) -> None:
        state, canvas = self._state, self._canvas
        if state.stroke_colour != stroke.colour:
            state.stroke_colour = stroke.colour
            self._inks.set_stroke(canvas, stroke.colour)
        self._set_width(max(stroke.width, _least_width(self._map)))
        if state.dash != stroke.dash:
            state.dash = stroke.dash
            canvas.setDash(list(stroke.dash))
        if state.cap != stroke.cap.value:
            state.cap = stroke.cap.value
            canvas.setLineCap(stroke.cap.value)
        if state.join != stroke.join.value:
            state.join = stroke.join.value
            canvas.setLineJoin(stroke.join.value)

    def _set_width(self, width: float) -> None:
        if self._state.width != width:
            self._state.width = width
            self._canvas.setLineWidth(width)

    def _symbol_form(self, symbol: Symbol, place: Affine) -> str:
        """One form for all places, but where lines would be too fine: there one of their size.

        Where the inks keep their size on the page, there is one for each size and way that it lies.
        """
        least = _least_width(place)
        is_fine = least > self._finest(symbol)
        outer, self._map = self._map, scaling(LEAST_WIDTH / least) if is_fine else IDENTITY
        key = f"symbol-{symbol.key}-{least:.3f}" if is_fine else f"symbol-{symbol.key}"
        if self._inks.keeps_size:
            self._map, key = _without_move(place), f"symbol-{symbol.key}-{_way(place)}"
        name = self._form(key, symbol.box, lambda: self.draw(symbol.shapes))
        self._map = outer
        return name

    def _path_form(self, path: Path | Motifs, margin: float, width: float | None = None) -> str:
        """One form for a path wherever it is drawn, in a frame with a margin; its lines are of a `width`."""
        names, met = self._resources.paths, self._resources.met

        def contents() -> None:
            self._state.width = width
            self._paint_path(path)

        if id(path) not in met:
            if path not in names:
                names[path] = self._form(f"path-{len(names)}", points_box(path).grown(margin), contents)
            met[id(path)] = path, names[path]
        return met[id(path)][1]

    def _finest(self, symbol: Symbol) -> float:
        finest = self._resources.finest
        if symbol.key not in finest:
            finest[symbol.key] = _finest_width(symbol.shapes)
        return finest[symbol.key]

    def _picture_form(self, source: ImageSource) -> str:
        place = self._map

        def contents() -> None:
            with self.within(Affine(1, 0, 0, -1, 0, 1)):
                self._canvas.drawImage(self._inks.picture(source, place), 0, 0, 1, 1)

        sized = f"-{_way(place)}" if self._inks.keeps_size else ""
        return self._form(f"picture-{source.key}{sized}", Box(0, 0, 1, 1), contents)

    def _form(self, key: str, frame: Box, contents: Callable[[], None]) -> str:
        """The name of a form on this canvas, made from its contents on the first call."""
        forms = self._resources.forms
        if key not in forms:
            forms[key] = "F" + hashlib.sha256(key.encode()).hexdigest()[:16]
            outer, self._state = self._state, _PenState()
            outer_map, self._form_map = self._form_map, _without_move(self._map)
            was_in_form, self._is_in_form = self._is_in_form, True
            self._canvas.beginForm(forms[key], frame.left, frame.top, frame.right, frame.bottom)
            contents()
            self._canvas.endForm()
            self._state, self._form_map, self._is_in_form = outer, outer_map, was_in_form
        return forms[key]


_DRAW: dict[type, Callable[[_Pen, Any], None]] = {
    Line: _Pen.line,
    Polyline: _Pen.polyline,
    Polygon: _Pen.polygon,
    Rect: _Pen.rect,
    Circle: _Pen.circle,
    Path: _Pen.path,
    Motifs: _Pen.path,
    Text: _Pen.text,
    Image: _Pen.image,
    Group: _Pen.group,
    Use: _Pen.use,
}


def _least_width(place: Affine) -> float:
    """The width there that is the least on the page; none where all that is drawn is flat."""
    scale = place.least_scale
    return LEAST_WIDTH / scale if scale else 0.0


def _without_move(place: Affine) -> Affine:
    return Affine(*place[:4])


def _is_upright(place: Affine) -> bool:
    """Whether a map turns what it moves by quarters, if at all."""
    turned = max(abs(place.a), abs(place.d)), max(abs(place.b), abs(place.c))
    return min(turned) < _SLANT * max(turned)


def _way(place: Affine) -> str:
    """How large and how turned a map makes what it moves, as a name."""
    return " ".join(f"{part + 0.0:.4f}" for part in place[:4])


def _finest_width(shapes: Iterable[Shape]) -> float:
    """The width of the finest line of shapes; infinite where there is none."""
    return min((_finest_of(shape) for shape in shapes), default=inf)


def _finest_of(shape: Shape) -> float:
    if isinstance(shape, Group):
        return _finest_width(shape.children) * shape.transform.least_scale
    if isinstance(shape, Use):
        return _finest_width(shape.symbol.shapes) * shape.transform.least_scale
    if isinstance(shape, Text | Image) or shape.stroke is None:
        return inf
    return shape.stroke.width


def _text_matrix(text: Text) -> Affine:
    # Glyphs stand upright only when the figure's downward y is turned back for them.
    upright = Affine(1, 0, 0, -1, text.left - text.x, 0)
    if text.anchor is Anchor.START and not text.rotation:
        return Affine(1, 0, 0, -1, text.x, text.y)
    return upright.then(rotation(text.rotation)).then(Affine(e=text.x, f=text.y))
