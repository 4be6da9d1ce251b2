"""Replay a figure as an SVG document: sizes in millimetres, coordinates in points, text as text.

What recurs is written once: symbols, motifs and whole rows of them, and what elements that follow each other
have in common.  What is rounded is out by `_Fineness.off` at the most.
"""

from __future__ import annotations

import hashlib
from base64 import b64encode
from collections.abc import Callable, Hashable, Iterable, Iterator, Mapping
from functools import partial
from itertools import groupby
from operator import itemgetter
from string import ascii_lowercase
from typing import Any, NamedTuple
from xml.sax.saxutils import escape

from booklet.drawing.shapes import outlines
from booklet.drawing.shapes.affine import IDENTITY, Affine, Box, Point, bounds_of_boxes
from booklet.drawing.shapes.figure import (
    Circle,
    Figure,
    Fill,
    Group,
    Image,
    Line,
    Motif,
    Motifs,
    Path,
    Polygon,
    Polyline,
    Rect,
    Row,
    Segment,
    Shape,
    Stroke,
    Symbol,
    Text,
    Use,
    bounds,
)
from booklet.drawing.shapes.style import POINTS_PER_MM
from booklet.drawing.shapes.windows import Shown, seen_through, shown_symbols
from booklet.drawing.writers.svg_looks import ALL_TEXTS, attributes, lettered, painted
from booklet.drawing.writers.svg_paths import Numbers
from booklet.drawing.writers.svg_pictures import DOTS_PER_INCH, JPEG_QUALITY, Pictures
from booklet.measure.dataclass import dataclass

_END = "</svg>"


def figure_svgs(figures: Iterable[Figure]) -> list[str]:
    """Each figure as an SVG document; the same figures give the same texts.

    Text is set in Booklet Sans and Booklet Serif, each line held to the width measured with those faces, so
    that it keeps its room where a viewer has to fall back on another face.  Pictures are as
    fine as they print.
    """
    shared = _Shared(_IN_PRINT)
    return [_document(figure, shared) for figure in figures]


@dataclass(frozen=True)
class SvgPart:
    """A figure for a document that holds several: the box that it fills, in points, and its elements."""

    box: Box
    elements: str

    @property
    def view_box(self) -> str:
        """Its box as an attribute of an `svg` element."""
        number = _FINE.text
        return " ".join(map(number, (self.box.left, self.box.top, self.box.width, self.box.height)))


def svg_parts(figures: Iterable[Figure], prefix: str) -> tuple[str, list[SvgPart]]:
    """Figures for one document: what they define, each thing once for all of them, and each by itself.

    They are as fine as a screen shows.  The names of what is defined begin with the prefix; where it stands
    it must be drawn, if in no room, for a browser clips by nothing that it does not draw.  The document says
    in which face text is set.
    """
    drawn = tuple(figures)
    shapes = [shape for figure in drawn for shape in figure.shapes]
    sheet = _ScreenSheet(shown_symbols(shapes), prefix, _Shared(_ON_SCREEN), frozenset(_recurring(shapes)))
    parts = [SvgPart(_frame(figure), sheet.drawn(figure)) for figure in drawn]
    return sheet.defined, parts


def _recurring(shapes: Iterable[Shape]) -> Iterator[Path]:
    """The long paths that are drawn more than once: each is written once, wherever it lies."""
    seen: set[Path] = set()
    symbols: set[str] = set()
    waiting = list(shapes)
    while waiting:
        shape = waiting.pop()
        if isinstance(shape, Group):
            waiting += shape.children
        elif isinstance(shape, Use):
            if shape.symbol.key not in symbols:
                symbols.add(shape.symbol.key)
                waiting += shape.symbol.shapes
        elif isinstance(shape, Path) and len(shape.segments) >= _LONG_PATH:
            if shape in seen:
                yield shape
            seen.add(shape)


def _document(figure: Figure, shared: _Shared) -> str:
    """A figure as a document of its own."""
    import svgwrite

    sheet = _SvgSheet(shown_symbols(figure.shapes), _prefix(figure.name), shared)
    drawn, box = sheet.drawn(figure), _frame(figure)
    number = shared.fine.text
    svg = svgwrite.Drawing(
        size=tuple(f"{number(side / POINTS_PER_MM)}mm" for side in (box.width, box.height)),
        viewBox=SvgPart(box, drawn).view_box,
        debug=False,
    )
    svg.set_desc(title=figure.name, desc=figure.alt)
    empty = str(svg.tostring()).removesuffix(_END)
    return f'<?xml version="1.0" encoding="utf-8" ?>\n{empty}{sheet.defined}<g{ALL_TEXTS}>{drawn}</g>{_END}\n'


_MOST_DECIMALS = 3


@dataclass(frozen=True)
class _Fineness:
    """How far, in points where it is shown, rounding may move an outline, or a point of one, along each axis;
    the decimals of what is placed at true size; the dots to an inch of pictures, and their quality as JPEGs.
    """

    off: float
    decimals: int
    dots: int
    quality: int


_IN_PRINT = _Fineness(0.001 * POINTS_PER_MM, _MOST_DECIMALS, DOTS_PER_INCH, JPEG_QUALITY)
# A dot of a screen is a quarter of a millimetre, or a half of that; it may be looked at enlarged.
_ON_SCREEN = _Fineness(0.03 * POINTS_PER_MM, 2, 150, 80)
# A row of fewer motifs than these is written out each time.
_SHORT_ROW = 3
_FINE = Numbers(_MOST_DECIMALS)
# A path of fewer segments is written out each time.
_LONG_PATH = 8
# What is drawn of fewer motifs is made anew by a browser without trouble.
_MANY_MOTIFS = 40
_NAMESPACES = attributes(xmlns="http://www.w3.org/2000/svg")
# How the names within a picture begin.
_WITHIN = "d"


def _prefix(name: str) -> str:
    """Six letters that stand for a figure's name: the ids of several in one HTML page must differ."""
    number = int.from_bytes(hashlib.sha256(name.encode()).digest()[:8])
    return "".join(ascii_lowercase[number // 26**place % 26] for place in range(6))


class _Element(NamedTuple):
    """An element in words: up to what it looks like, what it looks like, and on from there."""

    start: str
    look: str
    end: str = "/>"


def _joined(elements: Iterable[_Element]) -> str:
    """Elements one after the other; what several in a row look like is said once for them."""
    parts: list[str] = []
    for look, alike in groupby(elements, key=itemgetter(1)):
        run = list(alike)
        if len(run) > 1 and look:
            parts += ["<g", look, ">", *(part for start, _, end in run for part in (start, end)), "</g>"]
        else:
            parts += [part for element in run for part in element]
    return "".join(parts)


class _Shared:
    """What several documents share: pictures that are decoded, and numbers in words by their decimals."""

    def __init__(self, fineness: _Fineness) -> None:
        self.pictures = Pictures(fineness.dots, fineness.quality)
        self._off = fineness.off
        self._motifs: dict[tuple[Motif, int], str] = {}
        self._numbers = [Numbers(decimals) for decimals in range(_MOST_DECIMALS + 1)]
        self.fine = self._numbers[fineness.decimals]

    def numbers(self, scale: float) -> Numbers:
        """Numbers as fine as they have to be of what is drawn at a scale."""
        fine = (count for count in range(_MOST_DECIMALS) if scale * 0.5 / 10**count <= self._off)
        return self._numbers[next(fine, _MOST_DECIMALS)]

    def motif(self, motif: Motif, numbers: Numbers) -> str:
        """The data of a motif's path."""
        key = motif, numbers.decimals
        if key not in self._motifs:
            self._motifs[key] = numbers.path(motif.segments)
        return self._motifs[key]


@dataclass(frozen=True)
class _Drawing:
    """What is being drawn: how large it is printed, and where a symbol that it belongs to is seen.

    `place` leads from it to the symbol; no windows mean that all is seen.
    """

    scale: float
    windows: tuple[Box, ...] | None = None
    place: Affine = IDENTITY

    def within(self, transform: Affine) -> _Drawing:
        """What is drawn under a map there."""
        scale = self.scale * transform.greatest_scale
        return _Drawing(scale, self.windows, transform.then(self.place))

    @property
    def seen(self) -> tuple[Box, ...] | None:
        """The windows, in the coordinates of what is being drawn."""
        if self.windows is None:
            return None
        back = self.place.inverse
        return tuple(window.under(back) for window in self.windows)


class _SvgSheet:
    """An SVG document in the making: every element is a text, as an element of svgwrite takes its time.

    `shown` is what all its figures show of each symbol.
    """

    # As SVG 1.1 has it, which every viewer knows.
    _href = "xlink:href"

    def __init__(self, shown: Mapping[str, Shown], prefix: str, shared: _Shared) -> None:
        self._shared = shared
        self._number = shared.fine.text
        self._shown = shown
        self._prefix = prefix
        self._names: dict[object, str] = {}
        self._defined: list[str] = []
        self._drawing = _Drawing(1.0)

    def drawn(self, figure: Figure) -> str:
        """The elements of a figure, without what they refer to."""
        return self._drawn(figure.shapes)

    @property
    def defined(self) -> str:
        """What the figures that were drawn refer to."""
        return f"<defs>{''.join(self._defined)}</defs>" if self._defined else ""

    def _drawn(self, shapes: Iterable[Shape]) -> str:
        return _joined([_DRAW[type(shape)](self, shape) for shape in shapes])

    @property
    def _numbers(self) -> Numbers:
        return self._shared.numbers(self._drawing.scale)

    def line(self, line: Line) -> _Element:
        (x1, y1), (x2, y2) = line.start, line.end
        ends = attributes(x1=self._number(x1), y1=self._number(y1), x2=self._number(x2), y2=self._number(y2))
        return _Element(f"<line{ends}", painted(None, line.stroke))

    def polyline(self, polyline: Polyline) -> _Element:
        return self._path(outlines.polygon(polyline.points)[:-1], None, polyline.stroke)

    def polygon(self, polygon: Polygon) -> _Element:
        return self._path(outlines.polygon(polygon.points), polygon.fill, polygon.stroke)

    def rect(self, rect: Rect) -> _Element:
        corner = attributes(rx=self._number(rect.radius)) if rect.radius else ""
        box = self._sides(rect.x, rect.y, rect.width, rect.height)
        return _Element(f"<rect{box}{corner}", painted(rect.fill, rect.stroke))

    def circle(self, circle: Circle) -> _Element:
        number = self._number
        about = attributes(cx=number(circle.x), cy=number(circle.y), r=number(circle.radius))
        return _Element(f"<circle{about}", painted(circle.fill, circle.stroke))

    def path(self, path: Path) -> _Element:
        return self._outlines(path)

    def _outlines(self, path: Path) -> _Element:
        return self._path(path.segments, path.fill, path.stroke)

    def _path(self, segments: Iterable[Segment], fill: Fill | None, stroke: Stroke | None) -> _Element:
        return _Element(f'<path d="{self._numbers.path(segments)}"', painted(fill, stroke))

    def motifs(self, motifs: Motifs) -> _Element:
        stretched = [row for row in motifs.rows if row.is_stretched]
        plain = [row for row in motifs.rows if not row.is_stretched]
        parts = "".join([*self._rows(plain), *self._stretched(stretched)])
        return _Element("<g", painted(motifs.fill, motifs.stroke), f">{parts}</g>")

    def _rows(self, rows: Iterable[Row]) -> Iterator[str]:
        """Motifs at their places; a row that recurs is written once."""
        numbers = self._numbers
        starts: dict[tuple[Motif, tuple[int, ...]], list[tuple[int, int]]] = {}
        for row in rows:
            first, *_ = places = [numbers.steps(x) for x in row.xs]
            alike = row.motif, tuple([x - first for x in places])
            starts.setdefault(alike, []).append((first, numbers.steps(row.y)))
        for (motif, offsets), places_of_rows in starts.items():
            name, steps = self._motif(motif, numbers), offsets
            if len(offsets) >= _SHORT_ROW and len(places_of_rows) > 1:
                within = "".join([_use(self._href, name, numbers, x, 0) for x in offsets])
                key = motif, offsets, numbers.decimals
                name, steps = self._named(key, partial(">{}</g>".format, within), "<g"), (0,)
            for x, y in places_of_rows:
                yield from (_use(self._href, name, numbers, x + step, y) for step in steps)

    def _stretched(self, rows: Iterable[Row]) -> Iterator[str]:
        """Motifs that are stretched, such as letters: those of a line together."""
        for (y, across, down), line in groupby(rows, key=lambda row: (row.y, row.across, row.down)):
            row_list = list(line)
            left = min(row.xs[0] for row in row_list)
            numbers = self._shared.numbers(self._drawing.scale * across)
            uses = "".join(
                [
                    _use(
                        self._href,
                        self._motif(row.motif, numbers),
                        numbers,
                        numbers.steps((x - left) / across),
                        0,
                    )
                    for row in row_list
                    for x in row.xs
                ]
            )
            # Nine decimals, since a letter is drawn in a thousand units and may stand far to the right.
            placing = f"translate({self._number(left)} {self._number(y)})scale({across:.9f} {down:.9f})"
            yield f'<g transform="{placing}">{uses}</g>'

    def text(self, text: Text) -> _Element:
        own = {"x": self._number(text.x), "y": self._number(text.y)}
        if text.rotation:
            about = f"{self._number(text.x)} {self._number(text.y)}"
            own["transform"] = f"rotate({self._number(text.rotation)} {about})"
        return _Element(
            f"<text{attributes(**own, **self._of_text(text))}",
            lettered(text.font, text.size, text.colour, text.anchor),
            f">{escape(text.text)}</text>",
        )

    def _of_text(self, text: Text) -> dict[str, str]:
        """What a text is for, and what holds it to its width where a viewer has another face."""
        role = {"class": text.role} if text.role else {}
        return {**role, "textLength": self._number(text.width), "lengthAdjust": "spacingAndGlyphs"}

    def image(self, image: Image) -> _Element:
        parts = self._shared.pictures.parts(image, self._drawing.seen, self._drawing.scale)
        images = [
            f"<image{self._sides(box.left, box.top, box.width, box.height)}"
            f' {self._href}="{_data_uri(data)}" preserveAspectRatio="none"/>'
            for box, data in parts
        ]
        return _Element("", "", "".join(images))

    def group(self, group: Group) -> _Element:
        tag = attributes(**{"class": group.tag}) if group.tag else ""
        placing = self._placing(group.transform, group.clip)
        outer, self._drawing = self._drawing, self._drawing.within(group.transform)
        children = self._drawn(group.children)
        self._drawing = outer
        return _Element("", "", f"<g{placing}{tag}>{children}</g>")

    def use(self, use: Use) -> _Element:
        placing = self._placing(use.transform, use.clip)
        return _Element("", "", f'<g{placing}><use {self._href}="#{self._symbol(use.symbol)}"/></g>')

    def _placing(self, transform: Affine, clip: tuple[Point, ...] | None) -> str:
        # An element's clip is read in the coordinates that its own transform sets up: those of its children.
        placing = "" if transform == IDENTITY else f' transform="{self._matrix(transform)}"'
        return placing if clip is None else f'{placing} clip-path="url(#{self._clip(clip)})"'

    def _sides(self, x: float, y: float, width: float, height: float) -> str:
        number = self._number
        return attributes(x=number(x), y=number(y), width=number(width), height=number(height))

    def _matrix(self, transform: Affine) -> str:
        if transform[:4] == IDENTITY[:4]:
            return f"translate({self._number(transform.e)} {self._number(transform.f)})"
        # Six decimals, since a scale multiplies coordinates of up to some thousand points.
        return f"matrix({' '.join([f'{part:.6f}'.rstrip('0').rstrip('.') for part in transform])})"

    def _named(self, key: Hashable, contents: Callable[[], str], start: str) -> str:
        """The name of a definition, made from its contents on the first call."""
        if key not in self._names:
            name = self._names[key] = f"{self._prefix}{len(self._names) + 1}"
            self._defined.append(f'{start} id="{name}"{contents()}')
        return self._names[key]

    def _clip(self, outline: tuple[Point, ...]) -> str:
        def contents() -> str:
            return f'><path d="{self._shared.fine.path(outlines.polygon(outline))}"/></clipPath>'

        return self._named(outline, contents, "<clipPath")

    def _motif(self, motif: Motif, numbers: Numbers) -> str:
        return self._named(
            (motif, numbers.decimals), lambda: f' d="{self._shared.motif(motif, numbers)}"/>', "<path"
        )

    def _symbol(self, symbol: Symbol) -> str:
        def contents() -> str:
            clipped = self._placing(IDENTITY, symbol.box.corners)
            return f"{clipped}>{self.body(symbol)}</g>"

        return self._named(symbol.key, contents, "<g")

    def body(self, symbol: Symbol) -> str:
        """What a symbol holds, as far as it is seen, in the size in which it is largest."""
        shown = self._shown[symbol.key]
        outer, self._drawing = self._drawing, _Drawing(shown.scale, shown.windows)
        body = self._drawn(seen_through(symbol, shown.windows))
        self._drawing = outer
        return body


class _PictureSheet(_SvgSheet):
    """An SVG for a browser, as a picture in a page."""

    _href = "href"


class _ScreenSheet(_SvgSheet):
    """Figures for one page of a browser; `recurring` are the paths that it writes once.

    A browser makes all that a use refers to anew for each use, a paper's thousand dots for each strip of it.
    So what is drawn of many motifs is a picture in the page, itself an SVG: one thing, however often used.
    """

    _href = "href"

    def __init__(
        self, shown: Mapping[str, Shown], prefix: str, shared: _Shared, recurring: frozenset[Path]
    ) -> None:
        super().__init__(shown, prefix, shared)
        self._recurring = recurring

    def _outlines(self, path: Path) -> _Element:
        if path not in self._recurring:
            return super()._outlines(path)

        def contents() -> str:
            return f' d="{self._numbers.path(path.segments)}"{painted(path.fill, path.stroke)}/>'

        name = self._named((path, self._numbers.decimals), contents, "<path")
        return _Element("", "", f'<use {self._href}="#{name}"/>')

    def _of_text(self, text: Text) -> dict[str, str]:  # noqa: ARG002
        """Nothing: the page brings the face, and has its own classes."""
        return {}

    def _symbol(self, symbol: Symbol) -> str:
        if _motifs_of(symbol.shapes) < _MANY_MOTIFS:
            return super()._symbol(symbol)
        return self._named(symbol.key, lambda: self._as_picture(symbol), "<image")

    def _as_picture(self, symbol: Symbol) -> str:
        within = _PictureSheet(self._shown, _WITHIN, self._shared)
        body = within.body(symbol)
        size = attributes(width=self._number(symbol.width), height=self._number(symbol.height))
        svg = f"<svg{_NAMESPACES}{size}>{within.defined}{body}</svg>"
        return f'{size} {self._href}="data:image/svg+xml;base64,{b64encode(svg.encode()).decode()}"/>'


def _motifs_of(shapes: Iterable[Shape]) -> int:
    """How many motifs shapes are drawn of; none where they use other symbols, which are drawn apart."""
    count = 0
    for shape in shapes:
        if isinstance(shape, Use):
            return 0
        if isinstance(shape, Group):
            count += _motifs_of(shape.children)
        elif isinstance(shape, Motifs):
            count += sum(len(row.xs) for row in shape.rows)
    return count


def _use(href: str, name: str, numbers: Numbers, x: int, y: int) -> str:
    across, down = f' x="{numbers[x]}"' if x else "", f' y="{numbers[y]}"' if y else ""
    return f'<use {href}="#{name}"{across}{down}/>'


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


_DRAW: dict[type, Callable[[_SvgSheet, Any], _Element]] = {
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
