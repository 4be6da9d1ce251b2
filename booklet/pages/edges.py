"""What stands in the margins: the folio, the paper of a sheet, the index of pockets, words by the spine."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from booklet.content.artist import Room
from booklet.content.blocks import Arrangement, PaperEdge, Picture, PocketEdge, Section, SpineEdge
from booklet.content.figures import PaperBand
from booklet.content.spans import plain_text
from booklet.drawing.marks.marker import pocket_outline
from booklet.drawing.shapes.affine import Box
from booklet.drawing.shapes.figure import (
    Anchor,
    Figure,
    Fill,
    Group,
    Line,
    Path,
    Rect,
    Shape,
    Stroke,
    Text,
    translated,
)
from booklet.drawing.shapes.fonts import Font, cap_height, text_width
from booklet.drawing.shapes.style import mm
from booklet.measure.dataclass import dataclass
from booklet.pages.compose import Page, PagePart
from booklet.pages.setup import PageSetup, drawn

# The folio's baseline above the foot of the page, and the least white between its number and the title.
_FOLIO_BASELINE, _FOLIO_GAP = 19.0, 12.0
# From the type area to a band of paper, the band's width, and its number's box; all stay 9 pt (3 mm) from the
# edge that is trimmed.
_BAND_GAP, _BAND = 6.4, 9.6
_TAB_WIDTH, _TAB_HEIGHT, _TAB_RADIUS, _TAB_SIZE = 14.4, 24.0, 3.2, 11.0
_MARK_MIDDLE = _BAND_GAP + _BAND / 2
# A pocket at the edge: from the type area to its middle, its size, and the most that it lies below the one
# before it.  It stands clear of words that begin at the edge of the type area.
_POCKET_MIDDLE, _POCKET_WIDTH, _POCKET_HEIGHT, _POCKET_SIZE, _POCKET_STEP = 14.1, 14.6, 25.0, 14.0, 92.0
_INDEX_SIZE, _ALONG_SIZE, _LEAST_SIZE = 10.0, 11.0, 9.0
_SPINE_FROM_FOLD, _SPINE_SIZE = 15.0, 9.4
# A spine of paper: from the fold; its label, which stays 9 pt off the fold, and its ends beyond the words.
_SPINE, _LABEL, _LABEL_ENDS = 26.0, 11.0, 6.0
_COVERS = (Arrangement.FRONT_COVER, Arrangement.BACK_COVER)


@dataclass(frozen=True)
class Edges:
    """All that stands at the edges of a booklet's pages, in order: the sheets' papers, the pockets.

    Papers stay off the edge that is trimmed, as home printers cannot print there; with `bleed` they run over
    it by so many points, and the first one makes a spine for the covers.
    """

    sheets: tuple[int, ...]
    pockets: dict[int, str]
    bleed: float | None = None


def edges_of(sections: Sequence[Section]) -> Edges:
    """The marks of all sections: those of a booklet are stepped down its edge."""
    edges = [section.edge for section in sections]
    sheets = dict.fromkeys(edge.sheet for edge in edges if isinstance(edge, PaperEdge))
    pockets = {edge.place: edge.name for edge in edges if isinstance(edge, PocketEdge)}
    return Edges(tuple(sheets), pockets)


def margin_shapes(setup: PageSetup, page: Page, number: int, edges: Edges) -> tuple[Shape, ...]:
    """All that stands in a page's margins, in points from the page's top left corner."""
    shapes: list[Shape] = []
    for part in page.parts:
        if part.section.arrangement in _COVERS and edges.sheets and edges.bleed is not None:
            shapes += _spine_paper(setup, edges.sheets[0], number, edges.bleed)
        shapes += _edge(setup, part, number, edges)
    if not page.is_bare:
        shapes += _folio(setup, page, number)
    return tuple(shapes)


def _edge(setup: PageSetup, part: PagePart, number: int, edges: Edges) -> Iterator[Shape]:
    match part.section.edge:
        case PaperEdge() as edge:
            yield from _paper_edge(setup, part, edge, number, edges)
        case PocketEdge() as edge:
            yield from _pocket_edge(setup, part, edge, number, edges)
        case SpineEdge() as edge:
            words = _spine(setup, plain_text(edge.text), number)
            if edges.sheets and edges.bleed is not None:
                yield _label(setup, words)
            yield words


def _from_outside(setup: PageSetup, number: int, out: float) -> float:
    """A place in the outer margin, so far outside the type area, from the page's left."""
    left = setup.grid.left(number)
    return left + setup.grid.text_width + out if number % 2 else left - out


# The paper of a sheet.


def _paper_edge(
    setup: PageSetup, part: PagePart, edge: PaperEdge, number: int, edges: Edges
) -> Iterator[Shape]:
    middle = _from_outside(setup, number, _MARK_MIDDLE)
    top, height = setup.grid.top + part.top, part.bottom - part.top
    out = _BAND_GAP + _BAND if edges.bleed is None else setup.grid.outer + edges.bleed
    band = drawn(setup, Picture(PaperBand(edge.sheet), ()), Room(out - _BAND_GAP, height))
    left = min(_from_outside(setup, number, _BAND_GAP), _from_outside(setup, number, out))
    yield translated(band.shapes, left, top)
    yield Rect(left, top, band.width, band.height, None, Stroke(setup.palette.ink, mm(0.18)))
    place = (edges.sheets.index(edge.sheet) + 0.5) / len(edges.sheets) * setup.grid.text_height
    half = _TAB_HEIGHT / 2
    y = setup.grid.top + min(max(place, part.top + half + 2.0), part.bottom - half - 2.0)
    box = Rect(
        middle - _TAB_WIDTH / 2,
        y - half,
        _TAB_WIDTH,
        _TAB_HEIGHT,
        Fill(setup.palette.paper),
        Stroke(setup.palette.ink, mm(0.35)),
        _TAB_RADIUS,
    )
    yield box
    yield _number(setup, edge.number, middle, y, _TAB_SIZE, _TAB_WIDTH - 3.0)


def _number(setup: PageSetup, said: str, x: float, y: float, size: float, room: float) -> Text:
    """A bold number about a point, smaller where it is too wide, but never under 9 pt."""
    fitting = size * room / max(text_width(said, Font.SANS_BOLD, size), room)
    size = max(_LEAST_SIZE, fitting)
    baseline = y + cap_height(Font.SANS_BOLD, size) / 2
    return Text(said, x, baseline, size, Font.SANS_BOLD, setup.palette.ink, Anchor.MIDDLE, role="edge")


# The index of pockets.


@dataclass(frozen=True)
class _PocketMark:
    """A pocket in the index: its name, its middle from the page's top left corner, whether it is the own."""

    name: str
    x: float
    y: float
    is_own: bool

    @property
    def height(self) -> float:
        """How much of the edge it takes."""
        return _pocket_height(self.name) if self.is_own else _index_height(self.name)


def pocket_rects(
    setup: PageSetup, page: Page, number: int, edges: Edges
) -> Iterator[tuple[str, tuple[float, float, float, float]]]:
    """The pockets at the edge of a page: left, bottom, right and top of each mark in points, y up."""
    for part in page.parts:
        if isinstance(part.section.edge, PocketEdge):
            for mark in _pocket_marks(setup, part, part.section.edge, number, edges):
                up, half, high = setup.grid.height - mark.y, _POCKET_WIDTH / 2, mark.height / 2
                yield mark.name, (mark.x - half, up - high, mark.x + half, up + high)


def _pocket_edge(
    setup: PageSetup, part: PagePart, edge: PocketEdge, number: int, edges: Edges
) -> Iterator[Shape]:
    for mark in _pocket_marks(setup, part, edge, number, edges):
        if mark.is_own:
            yield from _pocket(setup, mark.name, mark.x, mark.y)
        else:
            yield _along(setup, mark.name, mark.x, mark.y, _INDEX_SIZE, Font.SANS)


def _pocket_marks(
    setup: PageSetup, part: PagePart, edge: PocketEdge, number: int, edges: Edges
) -> Iterator[_PocketMark]:
    middle = _from_outside(setup, number, _POCKET_MIDDLE)
    step = min(_POCKET_STEP, setup.grid.text_height / max(edge.count, 1))
    top = setup.grid.top + max(part.top, (setup.grid.text_height - step * edge.count) / 2)
    tallest = max(_index_height(pocket) for pocket in edges.pockets.values())
    clear = (_pocket_height(edge.name) + tallest) / 2
    for place, pocket in edges.pockets.items():
        y = top + (place + 0.5) * step
        is_own = place == edge.place
        if is_own or (step >= tallest and abs(place - edge.place) * step > clear):
            yield _PocketMark(pocket, middle, y, is_own)


def _runs_along(pocket: str) -> bool:
    """Whether a name is too long to stand across its pocket: it runs along the edge, read from the right."""
    return text_width(pocket, Font.SANS_BOLD, _LEAST_SIZE) > _POCKET_WIDTH


def _index_height(pocket: str) -> float:
    """How much of the edge a name of the index takes, with the white about it."""
    if not _runs_along(pocket):
        return _INDEX_SIZE * 1.3
    return text_width(pocket, Font.SANS, _INDEX_SIZE) + _INDEX_SIZE * 0.6


def _pocket_height(pocket: str) -> float:
    """How high the own pocket is: as high as its name needs."""
    if not _runs_along(pocket):
        return _POCKET_HEIGHT
    return max(_POCKET_HEIGHT, text_width(pocket, Font.SANS_BOLD, _ALONG_SIZE) + 9.0)


def _pocket(setup: PageSetup, said: str, x: float, y: float) -> Iterator[Shape]:
    height = _pocket_height(said)
    outline = pocket_outline(x - _POCKET_WIDTH / 2, y - height / 2, _POCKET_WIDTH, height)
    palette = setup.palette
    yield Path(outline, Fill(palette.accent_tint), Stroke(palette.ink, mm(0.35)))
    if _runs_along(said):
        yield _along(setup, said, x, y, _ALONG_SIZE, Font.SANS_BOLD)
    else:
        yield _number(setup, said, x, y + 0.8, _POCKET_SIZE, _POCKET_WIDTH - 4.0)


def _along(setup: PageSetup, said: str, x: float, y: float, size: float, font: Font) -> Text:
    """A pocket's name about a point of the edge, a long one along it."""
    drop, ink = cap_height(font, size) / 2, setup.palette.ink
    if _runs_along(said):
        return Text(said, x + drop, y, size, font, ink, Anchor.MIDDLE, -90.0, "edge")
    return Text(said, x, y + drop, size, font, ink, Anchor.MIDDLE, role="edge")


# The folio, and words by the spine.


def _folio(setup: PageSetup, page: Page, number: int) -> Iterator[Shape]:
    """The page's number at the outer edge, bold; the running titles at the inner one."""
    left, size = setup.grid.left(number), setup.sizes.folio
    right = left + setup.grid.text_width
    is_right = bool(number % 2)
    baseline = setup.grid.height - _FOLIO_BASELINE
    outer, inner = (right, left) if is_right else (left, right)
    outwards, inwards = (Anchor.END, Anchor.START) if is_right else (Anchor.START, Anchor.END)
    folio = Text(
        str(number), outer, baseline, size, Font.SANS_BOLD, setup.palette.ink, outwards, role="folio"
    )
    yield folio
    running = "  ·  ".join(dict.fromkeys(plain_text(part.section.title) for part in page.parts))
    said = shortened(running, size, setup.grid.text_width - folio.width - _FOLIO_GAP)
    yield Text(said, inner, baseline, size, Font.SANS, setup.palette.ink, inwards, role="running")


def shortened(title: str, size: float, room: float) -> str:
    """A running title that fits its line: cut after a word, or within one that is too long by itself."""
    if text_width(title, Font.SANS, size) <= room:
        return title
    ends = range(len(title) - 1, -1, -1)
    fitting = next((end for end in ends if text_width(f"{title[:end]}…", Font.SANS, size) <= room), 0)
    cut = title[:fitting]
    if title[fitting] != " " and " " in cut.strip():
        cut = cut[: cut.rindex(" ")]
    return f"{cut.rstrip(' ,;:·')}…"


def _spine(setup: PageSetup, said: str, number: int) -> Text:
    """Words along the fold, read from the top down, as on a spine."""
    x = _SPINE_FROM_FOLD if number % 2 else setup.grid.width - _SPINE_FROM_FOLD
    size, palette = _SPINE_SIZE, setup.palette
    return Text(
        shortened(said, size, setup.grid.text_height),
        x - cap_height(Font.SANS_BOLD, size) / 2,
        setup.grid.top,
        size,
        Font.SANS_BOLD,
        palette.ink,
        Anchor.START,
        rotation=90.0,
        role="spine",
    )


def _label(setup: PageSetup, words: Text) -> Rect:
    """Paper of the booklet's own under words that run along a spine of the kit's."""
    across, along = _LABEL, words.width + 2 * _LABEL_ENDS
    left = words.x + cap_height(words.font, words.size) / 2 - across / 2
    line = Stroke(setup.palette.ink, mm(0.35))
    top = words.y - _LABEL_ENDS
    return Rect(left, top, across, along, Fill(setup.palette.paper), line, _TAB_RADIUS)


def _spine_paper(setup: PageSetup, sheet: int, number: int, bleed: float) -> Iterator[Shape]:
    """A paper along the fold of a cover, as a bookbinder's cloth, over head, foot and fold by the bleed.

    One print runs over the fold from the back to the front: it lies alike on both.
    """
    grid, high = setup.grid, setup.grid.height + 2 * bleed
    fold, face = (0.0, _SPINE) if number % 2 else (grid.width, grid.width - _SPINE)
    beyond = -bleed if number % 2 else grid.width + bleed
    printed = drawn(setup, Picture(PaperBand(sheet), ()), Room(2 * _SPINE, high))
    seen = Box(min(beyond, face), -bleed, max(beyond, face), grid.height + bleed)
    yield Group((translated(printed.shapes, fold - _SPINE, -bleed),), clip=seen.corners)
    yield Line((face, -bleed), (face, grid.height + bleed), Stroke(setup.palette.ink, mm(0.18)))


def margin_figure(setup: PageSetup, page: Page, number: int, edges: Edges) -> Figure:
    """The margins of a page as one drawing of the page's size."""
    shapes = margin_shapes(setup, page, number, edges)
    return Figure(f"margins-{number}", setup.grid.width, setup.grid.height, shapes)
