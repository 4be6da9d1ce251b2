"""Replay a figure as an SVG document: sizes in millimetres, coordinates in points, text as text."""

from __future__ import annotations

import re
from base64 import b64encode
from collections.abc import Callable, Iterable, Mapping
from typing import Any
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
    bounds,
)
from booklet.drawing.shapes.fonts import Font
from booklet.drawing.shapes.outlines import as_path
from booklet.drawing.shapes.style import POINTS_PER_MM
from booklet.drawing.shapes.windows import seen_through, windows_of

_END = "</svg>"
_SANS, _SERIF = "'Booklet Sans', 'Source Sans 3', sans-serif", "'Booklet Serif', 'Source Serif 4', serif"
_FAMILIES = {
    Font.SANS: {"font-family": _SANS},
    Font.SANS_BOLD: {"font-family": _SANS, "font-weight": "600"},
    Font.SANS_ITALIC: {"font-family": _SANS, "font-style": "italic"},
    Font.SERIF_BOLD: {"font-family": _SERIF, "font-weight": "600"},
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
    form = "".join([_SEGMENTS[segment[0]] for segment in path.segments])
    return form % tuple([number for segment in path.segments for number in segment[1:]])


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
    written = {"stroke": stroke.colour.hex, "stroke-width": _number(stroke.width)}
    if stroke.dash:
        written["stroke-dasharray"] = " ".join(map(_number, stroke.dash))
    if stroke.cap is not Cap.BUTT:
        written["stroke-linecap"] = _CAPS[stroke.cap]
    if stroke.join is not Join.MITRE:
        written["stroke-linejoin"] = _JOINS[stroke.join]
    return written


class _SvgSheet:
    """One SVG document in the making: every element is a text, as an element of svgwrite takes its time."""

    def __init__(self, figure: Figure, bodies: _Bodies) -> None:
        self._figure = figure
        self._bodies = bodies  # shared with other documents
        self._windows = windows_of(figure.shapes)
        # Several figures may stand in one HTML page: their ids must differ.
        self._prefix = re.sub(r"[^a-z0-9]+", "-", figure.name.lower()).strip("-") or "figure"
        self._symbols: dict[str, str] = {}
        self._clips: dict[tuple[Point, ...], str] = {}
        self._defined: list[str] = []

    def written(self) -> str:
        """The whole document."""
        import svgwrite

        box = _frame(self._figure)
        svg = svgwrite.Drawing(
            size=tuple(f"{_number(side / POINTS_PER_MM)}mm" for side in (box.width, box.height)),
            viewBox=" ".join(map(_number, (box.left, box.top, box.width, box.height))),
            debug=False,
        )
        svg.set_desc(title=self._figure.name, desc=self._figure.alt)
        drawn = self._drawn(self._figure.shapes)
        empty = str(svg.tostring()).removesuffix(_END)
        defined = _element("defs", {}, "".join(self._defined))
        return f'<?xml version="1.0" encoding="utf-8" ?>\n{empty}{defined}{drawn}{_END}\n'

    def _drawn(self, shapes: Iterable[Shape]) -> str:
        return "".join([_DRAW[type(shape)](self, shape) for shape in shapes])

    def line(self, line: Line) -> str:
        (x1, y1), (x2, y2) = line.start, line.end
        ends = {"x1": _number(x1), "y1": _number(y1), "x2": _number(x2), "y2": _number(y2)}
        return _element("line", {**ends, **_stroke(line.stroke)})

    def polyline(self, polyline: Polyline) -> str:
        way = {"d": f"M{_points(polyline.points)}", "fill": "none"}
        return _element("path", {**way, **_stroke(polyline.stroke)})

    def polygon(self, polygon: Polygon) -> str:
        outline = {"d": f"M{_points(polygon.points)}Z"}
        return _element("path", {**outline, **_fill(polygon.fill), **_stroke(polygon.stroke)})

    def rect(self, rect: Rect) -> str:
        corner = {"rx": _number(rect.radius)} if rect.radius else {}
        box = _sides(rect.x, rect.y, rect.width, rect.height)
        return _element("rect", {**box, **corner, **_fill(rect.fill), **_stroke(rect.stroke)})

    def circle(self, circle: Circle) -> str:
        about = {"cx": _number(circle.x), "cy": _number(circle.y), "r": _number(circle.radius)}
        return _element("circle", {**about, **_fill(circle.fill), **_stroke(circle.stroke)})

    def path(self, path: Path) -> str:
        return _element("path", {"d": _outline(path), **_fill(path.fill), **_stroke(path.stroke)})

    def motifs(self, motifs: Motifs) -> str:
        return self.path(as_path(motifs))

    def text(self, text: Text) -> str:
        written = {
            "x": _number(text.x),
            "y": _number(text.y),
            **_FAMILIES[text.font],
            "font-size": _number(text.size),
            "fill": text.colour.hex,
            "textLength": _number(text.width),
            "lengthAdjust": "spacingAndGlyphs",
            "style": "font-kerning:none",
        }
        if text.anchor is not Anchor.START:
            written["text-anchor"] = text.anchor.value
        if text.rotation:
            about = f"{_number(text.x)} {_number(text.y)}"
            written["transform"] = f"rotate({_number(text.rotation)} {about})"
        if text.role:
            written["class"] = text.role
        return _element("text", written, escape(text.text))

    def image(self, image: Image) -> str:
        box = image.box
        place = _sides(box.left, box.top, box.width, box.height)
        pixels = {"xlink:href": _data_uri(image.source.read()), "preserveAspectRatio": "none"}
        return _element("image", {**place, **pixels})

    def group(self, group: Group) -> str:
        tag = {"class": group.tag} if group.tag else {}
        placing = self._placing(group.transform, group.clip)
        return _element("g", {**placing, **tag}, self._drawn(group.children))

    def use(self, use: Use) -> str:
        used = _element("use", {"xlink:href": f"#{self._symbol(use.symbol)}"})
        return _element("g", self._placing(use.transform, use.clip), used)

    def _placing(self, transform: Affine, clip: tuple[Point, ...] | None) -> dict[str, str]:
        # An element's clip is read in the coordinates that its own transform sets up: those of its children.
        placing = {} if transform == IDENTITY else {"transform": _matrix(transform)}
        if clip is not None:
            placing["clip-path"] = f"url(#{self._clip(clip)})"
        return placing

    def _clip(self, outline: tuple[Point, ...]) -> str:
        if outline not in self._clips:
            self._clips[outline] = f"{self._prefix}-clip-{len(self._clips) + 1}"
            path = _element("path", {"d": f"M{_points(outline)}Z"})
            self._defined.append(_element("clipPath", {"id": self._clips[outline]}, path))
        return self._clips[outline]

    def _symbol(self, symbol: Symbol) -> str:
        if symbol.key not in self._symbols:
            name = self._symbols[symbol.key] = f"{self._prefix}-symbol-{len(self._symbols) + 1}"
            clipped = self._placing(IDENTITY, symbol.box.corners)
            self._defined.append(_element("g", {"id": name, **clipped}, self._body(symbol)))
        return self._symbols[symbol.key]

    def _body(self, symbol: Symbol) -> str:
        """What a symbol holds; one that refers to nothing is put in words once for all documents."""
        windows = self._windows[symbol.key]
        key = symbol.key, windows
        if key in self._bodies:
            return self._bodies[key]
        body = self._drawn(seen_through(symbol, windows))
        if _stands_alone(symbol.shapes):
            self._bodies[key] = body
        return body


def _element(name: str, attributes: Mapping[str, str], contents: str = "") -> str:
    """An element of an SVG; its attributes hold nothing to be escaped: numbers, colours and our own names."""
    start = "".join([f' {attribute}="{value}"' for attribute, value in attributes.items()])
    return f"<{name}{start}>{contents}</{name}>" if contents else f"<{name}{start}/>"


def _sides(x: float, y: float, width: float, height: float) -> dict[str, str]:
    return {"x": _number(x), "y": _number(y), "width": _number(width), "height": _number(height)}


def _frame(figure: Figure) -> Box:
    """The figure's box, grown to what reaches beyond it: a line along its edge is half outside."""
    box = Box(0.0, 0.0, figure.width, figure.height)
    try:
        return bounds_of_boxes((box, bounds(figure.shapes)))
    except ValueError:  # nothing shows
        return box


def _data_uri(data: bytes) -> str:
    kind = "jpeg" if data.startswith(b"\xff\xd8") else "png"
    return f"data:image/{kind};base64,{b64encode(data).decode()}"


_DRAW: dict[type, Callable[[_SvgSheet, Any], str]] = {
    Line: _SvgSheet.line,
    Polyline: _SvgSheet.polyline,
    Polygon: _SvgSheet.polygon,
    Rect: _SvgSheet.rect,
    Circle: _SvgSheet.circle,
    Path: _SvgSheet.path,
    Motifs: _SvgSheet.motifs,
    Text: _SvgSheet.text,
    Image: _SvgSheet.image,
    Group: _SvgSheet.group,
    Use: _SvgSheet.use,
}
