"""The whole kit as one picture: sheets at the left, pockets in the middle, finished pages at the right, and
every piece a strand of its own paper between them.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from booklet.cutting.elements import elements_in
from booklet.drawing.marks.marker import pocket_outline
from booklet.drawing.overview.print_strand import print_strand
from booklet.drawing.overview.strands import Flow, Node, Source, Strand
from booklet.drawing.papers.kit_papers import KitPapers
from booklet.drawing.papers.patterns import pattern_colours
from booklet.drawing.shapes.affine import Box, scaling, translation
from booklet.drawing.shapes.figure import (
    Anchor,
    Colour,
    Figure,
    Fill,
    Group,
    Path,
    Polygon,
    Segment,
    Shape,
    Stroke,
    Symbol,
    Text,
    Use,
)
from booklet.drawing.shapes.fonts import Font, cap_height, text_width
from booklet.drawing.shapes.style import DrawingStyle
from booklet.kit.fields import Face
from booklet.kit.kit import Kit
from booklet.kit.paper import Pattern
from booklet.measure.dataclass import dataclass

# From strand to strand, and how thick one is; in points, as everything here.
_PITCH, _THICK = 4.6, 3.2
# The longer side of a sheet and of a finished page; what is left free between two of them.
_SHEET, _PAGE, _BETWEEN = 30.0, 52.0, 9.0
# A pocket: its width, and how far it reaches above and below what lies in it.
_POCKET, _ABOVE, _BELOW = 46.0, 5.0, 9.0
_POCKET_TEXT = 22.0
# Room for words beside sheets and pages; from a picture to its number, and to the first strand.
_WORDS, _GAP, _TO_STRANDS = 92.0, 5.0, 3.0
# Above the first node and below the last, where lines and words reach out.
_MARGIN = 3.0
_NUMBER, _TITLE, _LEADING = 15.0, 9.0, 10.5
_MOST_LINES = 2
# How far a strand's curve runs straight out at either end, as a share of the way.
_EASE = 0.5


@dataclass(frozen=True)
class FlowWords:
    """What is written in the picture: the number (or nothing) and the title of each source and layout, by its
    key, and the word for what is spare.
    """

    sources: Mapping[Source, tuple[str, str]]
    layouts: Mapping[int, tuple[str, str]]
    spare: str


@dataclass(frozen=True)
class _Column:
    """A column of nodes, and the height of the middle of each."""

    nodes: tuple[Node, ...]
    middles: tuple[float, ...]

    def places(self) -> Iterator[tuple[Node, float]]:
        """Each node with the height of its middle."""
        return zip(self.nodes, self.middles, strict=True)

    def rows(self) -> dict[int, float]:
        """How far down each strand lies there, by its number."""
        return {
            strand.number: middle + (at - (len(node.strands) - 1) / 2) * _PITCH
            for node, middle in self.places()
            for at, strand in enumerate(node.strands)
        }


@dataclass(frozen=True)
class FlowArt:
    """What a flow is drawn of: the kit's papers, its finished layouts by index, the words, the style."""

    kit: Kit
    papers: KitPapers
    pages: Sequence[Symbol]
    words: FlowWords
    style: DrawingStyle


def flow_figure(flow: Flow, art: FlowArt, width: float) -> Figure:
    """The flow of a kit, so wide, and as high as it needs.

    Every group is tagged for those who follow one thing through it: a strand with `strand` and the tags of
    what it runs through, a node with `node` and its own tag, as `node_tag` says.
    """
    sides = [_source_height(node) for node in flow.sources]
    between = [_middle_height(node) for node in flow.pockets]
    pages = [max(_PAGE, len(node.strands) * _PITCH) for node in flow.layouts]
    height = max(map(_needed, (sides, between, pages))) + 2 * _MARGIN
    left, right = _spread(flow.sources, sides, height), _spread(flow.layouts, pages, height)
    middle = _spread(flow.pockets, between, height)
    ends = _Ends(_WORDS + _SHEET, width / 2, width - _WORDS - _PAGE)
    shapes = (
        *_strands(flow, art, (left.rows(), middle.rows(), right.rows()), ends),
        *(shape for node, y in left.places() for shape in _source(node, art, y, ends.left)),
        *(shape for node, y in middle.places() for shape in _middle(node, art, y, ends.middle)),
        *(shape for node, y in right.places() for shape in _page(node, art, y, ends.right)),
    )
    return Figure("flow", width, height, shapes)


# The tag of strands that end in the middle, and of the word that says why.
UNUSED_TAG = "unused"


def node_tag(column: str, key: Source | str | int) -> str:
    """The tag of a node and of each strand that runs through it: `source-sheets-2`, `pocket-3`, `layout-0`.

    What a pocket's name has besides letters and digits is told by its code.
    """
    said = "-".join(map(str, key)) if isinstance(key, tuple) else str(key)
    plain = "".join(sign if sign.isalnum() or sign == "-" else f"_{ord(sign)}_" for sign in said)
    return f"{column}-{plain}"


def strand_tags(strand: Strand) -> str:
    """The tags of a strand, with spaces between them."""
    tags = ["strand", f"piece-{strand.number}", node_tag("source", strand.source)]
    tags += [node_tag("pocket", strand.pocket)] if strand.pocket is not None else []
    tags.append(node_tag("layout", strand.layout) if strand.layout is not None else UNUSED_TAG)
    return " ".join(tags)


# Where things stand.


def _source_height(node: Node) -> float:
    return max(_SHEET, len(node.strands) * _PITCH)


def _middle_height(node: Node) -> float:
    strands = len(node.strands) * _PITCH
    return strands + _ABOVE + _BELOW if node.key is not None else strands


def _needed(heights: Sequence[float]) -> float:
    return sum(heights) + _BETWEEN * (len(heights) - 1) if heights else 0.0


def _spread(nodes: Sequence[Node], heights: Sequence[float], height: float) -> _Column:
    """Nodes one below another over a height, as much air between all of them."""
    air = height - 2 * _MARGIN - sum(heights)
    # One alone stands in the middle.
    gap, top = (air / (len(nodes) - 1), _MARGIN) if len(nodes) > 1 else (0.0, _MARGIN + air / 2)
    middles: list[float] = []
    for high in heights:
        middles.append(top + high / 2)
        top += high + gap
    return _Column(tuple(nodes), tuple(middles))


@dataclass(frozen=True)
class _Ends:
    """How far right the sources end, the middle of the pockets lies, and the pages begin."""

    left: float
    middle: float
    right: float


# Strands.


def _strands(
    flow: Flow, art: FlowArt, rows: tuple[dict[int, float], dict[int, float], dict[int, float]], ends: _Ends
) -> Iterator[Shape]:
    left, middle, right = rows
    for strand in flow.strands:
        number = strand.number
        course = _course(left[number], middle[number], right.get(number), ends)
        shapes = tuple(print_strand(course, _THICK, *_paper(strand, art)))
        yield Group(shapes, tag=strand_tags(strand))


def _course(start: float, middle: float, end: float | None, ends: _Ends) -> tuple[Segment, ...]:
    """From a source through the middle to a page, or to an end behind the middle."""
    x = ends.left + _TO_STRANDS
    into, out = ends.middle - _POCKET / 2, ends.middle + _POCKET / 2
    first: tuple[Segment, ...] = (("M", x, start), _ease(x, start, into, middle))
    if end is None:
        return first
    to = ends.right - _TO_STRANDS
    return (*first, ("L", out, middle), _ease(out, middle, to, end))


def _ease(x: float, y: float, to_x: float, to_y: float) -> Segment:
    """A curve that leaves and arrives level."""
    ease = (to_x - x) * _EASE
    return "C", x + ease, y, to_x - ease, to_y, to_x, to_y


def _paper(strand: Strand, art: FlowArt) -> tuple[Pattern, tuple[Colour, ...]]:
    """The pattern of a strand and its colours; of what is printed as a picture, its tone."""
    kind, index = strand.source
    if kind == "sheets":
        sheet = art.kit.sheets[index]
        number = _element(strand, art)
        if number is not None:
            return Pattern.SOLID, (art.papers.element_tone(index, number),)
        name = sheet.paper
    else:
        name = art.kit.ready[index].paper
    printed = art.kit.papers[name].face(Face.FRONT)
    if printed.image is not None:
        return Pattern.SOLID, (art.papers.tone(name, Face.FRONT),)
    return printed.pattern, pattern_colours(printed)


def _element(strand: Strand, art: FlowArt) -> int | None:
    """The printed element that a piece bears, by its number on its sheet."""
    piece = strand.entry.piece
    if piece is None:
        return None
    sheet = art.kit.sheets[piece.sheet_index]
    held = elements_in(sheet, piece.part)
    return sheet.printed.index(held[0]) if held else None


# What strands run from, through and to.


def _source(node: Node, art: FlowArt, y: float, right: float) -> Iterator[Shape]:
    assert isinstance(node.key, tuple)
    number, title = art.words.sources[node.key]
    picture = _sheet_symbol(node.key, art)
    factor = _SHEET / max(picture.width, picture.height)
    width, height = picture.width * factor, picture.height * factor
    box = Box(right - width, y - height / 2, right, y + height / 2)
    words = _words(number, title, box.left - _GAP, y, Anchor.END, art.style)
    yield Group((*_framed(picture, box, factor, art.style), *words), tag=_node_tags("source", node))


def _sheet_symbol(source: Source, art: FlowArt) -> Symbol:
    kind, index = source
    if kind == "sheets":
        return art.papers.sheet(index, Face.FRONT)
    ready = art.kit.ready[index]
    return art.papers.paper(ready.paper, Face.FRONT, ready.size)


def _page(node: Node, art: FlowArt, y: float, left: float) -> Iterator[Shape]:
    assert isinstance(node.key, int)
    number, title = art.words.layouts[node.key]
    picture = art.pages[node.key]
    factor = _PAGE / max(picture.width, picture.height)
    width, height = picture.width * factor, picture.height * factor
    box = Box(left, y - height / 2, left + width, y + height / 2)
    words = _words(number, title, box.right + _GAP, y, Anchor.START, art.style)
    yield Group((*_framed(picture, box, factor, art.style), *words), tag=_node_tags("layout", node))


def _node_tags(column: str, node: Node) -> str:
    assert node.key is not None
    return f"node {node_tag(column, node.key)}"


def _framed(picture: Symbol, box: Box, factor: float, style: DrawingStyle) -> Iterator[Shape]:
    yield Use(picture, scaling(factor).then(translation(box.left, box.top)))
    yield Polygon(box.corners, None, style.fine)


def _middle(node: Node, art: FlowArt, y: float, x: float) -> Iterator[Shape]:
    """A pocket that holds its strands; what passes none lies bare, and what ends there says why."""
    palette, left = art.style.palette, x - _POCKET / 2
    if node.key is None:
        if all(strand.layout is None for strand in node.strands):
            baseline = y + cap_height(Font.SANS, _TITLE) / 2
            word = Text(art.words.spare, left + _GAP, baseline, _TITLE, Font.SANS, palette.ink)
            yield Group((word,), tag=f"node {UNUSED_TAG}")
        return
    top, height = y - _middle_height(node) / 2, _middle_height(node)
    outline = pocket_outline(left, top, _POCKET, height)
    name = str(node.key)
    size = min(_POCKET_TEXT, (_POCKET - 2 * _GAP) / text_width(name, Font.SANS_BOLD, 1.0))
    baseline = top + height / 2 + cap_height(Font.SANS_BOLD, size) / 2
    shapes = (
        Path(outline, Fill(palette.accent_tint), Stroke(palette.accent, art.style.outline_width)),
        Text(name, x, baseline, size, Font.SANS_BOLD, palette.accent, Anchor.MIDDLE, role="pocket"),
    )
    yield Group(shapes, tag=_node_tags("pocket", node))


def _words(
    number: str, title: str, x: float, y: float, anchor: Anchor, style: DrawingStyle
) -> Iterator[Shape]:
    """A number, and the title below it, about a height."""
    lines = _lines(title)
    height = (_NUMBER if number else 0.0) + len(lines) * _LEADING
    top = y - height / 2
    if number:
        baseline = top + cap_height(Font.SANS_BOLD, _NUMBER)
        yield Text(number, x, baseline, _NUMBER, Font.SANS_BOLD, style.palette.accent, anchor)
        top += _NUMBER
    for at, line in enumerate(lines):
        baseline = top + at * _LEADING + cap_height(Font.SANS, _TITLE) + 1.0
        yield Text(line, x, baseline, _TITLE, Font.SANS, style.palette.ink, anchor)


def _lines(title: str) -> list[str]:
    """A title in a few lines; what has no room there ends in an ellipsis."""
    room, lines = _WORDS - 2 * _GAP, [""]
    for word in title.split():
        longer = f"{lines[-1]} {word}".strip()
        if text_width(longer, Font.SANS, _TITLE) <= room or not lines[-1]:
            lines[-1] = longer
        else:
            lines.append(word)
    if len(lines) > _MOST_LINES:
        lines = [*lines[: _MOST_LINES - 1], f"{lines[_MOST_LINES - 1]} \u2026"]
    return [_shortened(line, room) for line in lines]


def _shortened(line: str, room: float) -> str:
    while text_width(line, Font.SANS, _TITLE) > room:
        line = f"{line.rstrip(chr(0x2026)).rstrip()[:-1]}\u2026"
    return line
