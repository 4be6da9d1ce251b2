"""Replay a figure as an SVG document: sizes in millimetres, coordinates in points, text as text."""

from __future__ import annotations

import re
from base64 import b64encode
from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING, Any
from xml.etree.ElementTree import Element, tostring
from xml.sax.saxutils import escape

from booklet.drawing.shapes.affine import IDENTITY, Affine, Box, Point, bounds_of_boxes
from booklet.drawing.shapes.figure import (
    Anchor,
    Cap,
    Circle,
    Figure,
    Fill,
    Group,
    Image,
    Join,
    Line,
    Path,
    Polygon,
    Polyline,
    Rect,
    Shape,
    Stroke,
    Symbol,
    Text,
    Use,
    bounds,
)
from booklet.drawing.shapes.fonts import Font
from booklet.drawing.shapes.style import POINTS_PER_MM
from booklet.drawing.shapes.windows import seen_through, windows_of

if TYPE_CHECKING:
    from svgwrite import Drawing

_FAMILIES = {
    Font.SANS: {"font_family": "'Booklet Sans', 'Source Sans 3', sans-serif"},
    Font.SANS_BOLD: {"font_family": "'Booklet Sans', 'Source Sans 3', sans-serif", "font_weight": "600"},
    Font.SANS_ITALIC: {"font_family": "'Booklet Sans', 'Source Sans 3', sans-serif", "font_style": "italic"},
    Font.SERIF_BOLD: {"font_family": "'Booklet Serif', 'Source Serif 4', serif", "font_weight": "600"},
}
_CAPS = {Cap.BUTT: "butt", Cap.ROUND: "round"}
_JOINS = {Join.MITRE: "miter", Join.ROUND: "round"}


def figure_svgs(figures: Iterable[Figure]) -> list[str]:
    """Each figure as an SVG document, one element a shape; the same figures give the same texts.

    A symbol that several of them use is put in words once.  Text is set in Booklet Sans and Booklet Serif,
    each line held to the width measured with those faces, so that it keeps its room where a viewer has to
    fall back on another face.
    """
    bodies: _Bodies = {}
    return [_SvgSheet(figure, bodies).written() for figure in figures]


# What symbols hold, in words, by their keys and the parts of them that are used.
_Bodies = dict[tuple[str, tuple[Box, ...]], str]

# Six figures are a hundredth of a point of any figure that a page can hold, and less within its symbols.
_SEGMENTS = {
    "M": "M%.6g %.6g",
    "L": "L%.6g %.6g",
    "C": "C%.6g %.6g %.6g %.6g %.6g %.6g",
    "Z": "Z",
}


def _stands_alone(shapes: Iterable[Shape]) -> bool:
    """Whether shapes refer to nothing by an id, which would differ from one document to the next."""
    return all(
        shape.clip is None and _stands_alone(shape.children)
        if isinstance(shape, Group)
        else not isinstance(shape, Use)
        for shape in shapes
    )


def _number(value: float) -> str:
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _outline(path: Path) -> str:
    form = "".join(_SEGMENTS[segment[0]] for segment in path.segments)
    return form % tuple(number for segment in path.segments for number in segment[1:])


def _points(points: Iterable[Point]) -> str:
    return " ".join(f"{_number(x)},{_number(y)}" for x, y in points)


def _matrix(transform: Affine) -> str:
    if transform[:4] == IDENTITY[:4]:
        return f"translate({_number(transform.e)} {_number(transform.f)})"
    # Six decimals, since a scale multiplies coordinates of up to some thousand points.
    return f"matrix({' '.join(f'{part:.6f}'.rstrip('0').rstrip('.') for part in transform)})"


def _fill(fill: Fill | None) -> dict[str, str]:
    return {"fill": fill.colour.hex if fill else "none"}


def _stroke(stroke: Stroke | None) -> dict[str, str]:
    if stroke is None:
        return {}
    written = {"stroke": stroke.colour.hex, "stroke_width": _number(stroke.width)}
    if stroke.dash:
        written["stroke_dasharray"] = " ".join(map(_number, stroke.dash))
    if stroke.cap is not Cap.BUTT:
        written["stroke_linecap"] = _CAPS[stroke.cap]
    if stroke.join is not Join.MITRE:
        written["stroke_linejoin"] = _JOINS[stroke.join]
    return written


class _SvgSheet:
    """One SVG document in the making."""

    def __init__(self, figure: Figure, bodies: _Bodies) -> None:
        import svgwrite

        self._figure = figure
        self._bodies = bodies  # shared with other documents
        self._windows = windows_of(figure.shapes)
        # Several figures may stand in one HTML page: their ids must differ.
        self._prefix = re.sub(r"[^a-z0-9]+", "-", figure.name.lower()).strip("-") or "figure"
        self._symbols: dict[str, str] = {}
        self._clips: dict[tuple[Point, ...], str] = {}
        box = _frame(figure)
        self._svg: Drawing = svgwrite.Drawing(
            size=tuple(f"{_number(side / POINTS_PER_MM)}mm" for side in (box.width, box.height)),
            viewBox=" ".join(map(_number, (box.left, box.top, box.width, box.height))),
            debug=False,
        )

    def written(self) -> str:
        """The whole document."""
        self._svg.set_desc(title=self._figure.name, desc=self._figure.alt)
        self._draw(self._figure.shapes, self._svg)
        text = str(self._svg.tostring())
        for key in self._symbols:
            body = self._bodies.get((key, self._windows[key]))
            if body is not None:
                text = text.replace(f"<title>{escape(key)}</title>", body, 1)
        return f'<?xml version="1.0" encoding="utf-8" ?>\n{text}\n'

    def _draw(self, shapes: Iterable[Shape], into: Any) -> None:
        for shape in shapes:
            into.add(_DRAW[type(shape)](self, shape))

    def line(self, line: Line) -> Any:
        (x1, y1), (x2, y2) = line.start, line.end
        ends = {"start": (_number(x1), _number(y1)), "end": (_number(x2), _number(y2))}
        return self._svg.line(**ends, **_stroke(line.stroke))

    def polyline(self, polyline: Polyline) -> Any:
        return self._svg.path(f"M{_points(polyline.points)}", fill="none", **_stroke(polyline.stroke))

    def polygon(self, polygon: Polygon) -> Any:
        outline = f"M{_points(polygon.points)}Z"
        return self._svg.path(outline, **_fill(polygon.fill), **_stroke(polygon.stroke))

    def rect(self, rect: Rect) -> Any:
        corner = {"rx": _number(rect.radius)} if rect.radius else {}
        return self._svg.rect(
            (_number(rect.x), _number(rect.y)),
            (_number(rect.width), _number(rect.height)),
            **corner,
            **_fill(rect.fill),
            **_stroke(rect.stroke),
        )

    def circle(self, circle: Circle) -> Any:
        centre = (_number(circle.x), _number(circle.y))
        return self._svg.circle(
            centre, _number(circle.radius), **_fill(circle.fill), **_stroke(circle.stroke)
        )

    def path(self, path: Path) -> Any:
        return self._svg.path(_outline(path), **_fill(path.fill), **_stroke(path.stroke))

    def text(self, text: Text) -> Any:
        written = {**_FAMILIES[text.font], "font_size": _number(text.size), "fill": text.colour.hex}
        if text.anchor is not Anchor.START:
            written["text_anchor"] = text.anchor.value
        if text.rotation:
            about = f"{_number(text.x)} {_number(text.y)}"
            written["transform"] = f"rotate({_number(text.rotation)} {about})"
        if text.role:
            written["class_"] = text.role
        return self._svg.text(
            text.text,
            insert=(_number(text.x), _number(text.y)),
            textLength=_number(text.width),
            lengthAdjust="spacingAndGlyphs",
            style="font-kerning:none",
            **written,
        )

    def image(self, image: Image) -> Any:
        box = image.box
        return self._svg.image(
            _data_uri(image.source.read()),
            (_number(box.left), _number(box.top)),
            (_number(box.width), _number(box.height)),
            preserveAspectRatio="none",
        )

    def group(self, group: Group) -> Any:
        made = self._svg.g(**self._placing(group.transform, group.clip))
        if group.tag:
            made["class"] = group.tag
        self._draw(group.children, made)
        return made

    def use(self, use: Use) -> Any:
        name = self._symbol(use.symbol)
        made = self._svg.g(**self._placing(use.transform, use.clip))
        made.add(self._svg.use(f"#{name}"))
        return made

    def _placing(self, transform: Affine, clip: tuple[Point, ...] | None) -> dict[str, str]:
        # An element's clip is read in the coordinates that its own transform sets up: those of its children.
        placing = {} if transform == IDENTITY else {"transform": _matrix(transform)}
        if clip is not None:
            placing["clip_path"] = f"url(#{self._clip(clip)})"
        return placing

    def _clip(self, outline: tuple[Point, ...]) -> str:
        if outline not in self._clips:
            self._clips[outline] = f"{self._prefix}-clip-{len(self._clips) + 1}"
            made = self._svg.clipPath(id=self._clips[outline])
            made.add(self._svg.path(f"M{_points(outline)}Z"))
            self._svg.defs.add(made)
        return self._clips[outline]

    def _symbol(self, symbol: Symbol) -> str:
        if symbol.key not in self._symbols:
            self._symbols[symbol.key] = f"{self._prefix}-symbol-{len(self._symbols) + 1}"
            made = self._svg.g(id=self._symbols[symbol.key], **self._placing(IDENTITY, symbol.box.corners))
            self._define(symbol, made)
            self._svg.defs.add(made)
        return self._symbols[symbol.key]

    def _define(self, symbol: Symbol, made: Any) -> None:
        """Draw a symbol, or only its key as a title, where its words are known from another figure."""
        windows = self._windows[symbol.key]
        if not _stands_alone(symbol.shapes):
            self._draw(seen_through(symbol, windows), made)
            return
        if (symbol.key, windows) not in self._bodies:
            alone = self._svg.g()
            self._draw(seen_through(symbol, windows), alone)
            self._bodies[symbol.key, windows] = "".join(map(_words, alone.get_xml()))
        made.set_desc(title=symbol.key)


def _frame(figure: Figure) -> Box:
    """The figure's box, grown to what reaches beyond it: a line along its edge is half outside."""
    box = Box(0.0, 0.0, figure.width, figure.height)
    try:
        return bounds_of_boxes((box, bounds(figure.shapes)))
    except ValueError:  # nothing shows
        return box


def _words(element: Element) -> str:
    return tostring(element, encoding="unicode")


def _data_uri(data: bytes) -> str:
    kind = "jpeg" if data.startswith(b"\xff\xd8") else "png"
    return f"data:image/{kind};base64,{b64encode(data).decode()}"


_DRAW: dict[type, Callable[[_SvgSheet, Any], Any]] = {
    Line: _SvgSheet.line,
    Polyline: _SvgSheet.polyline,
    Polygon: _SvgSheet.polygon,
    Rect: _SvgSheet.rect,
    Circle: _SvgSheet.circle,
    Path: _SvgSheet.path,
    Text: _SvgSheet.text,
    Image: _SvgSheet.image,
    Group: _SvgSheet.group,
    Use: _SvgSheet.use,
}
