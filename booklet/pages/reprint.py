"""Paper for pages that are printed again: where a page lies on it, and what stands about the page."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from io import BytesIO

from reportlab.platypus import Flowable

from booklet.content.edition import edition_keywords
from booklet.content.spans import Length, Line, Role, joined
from booklet.content.words.english.reprint import EnglishReprint
from booklet.drawing.marks.print_check import check_length, print_check
from booklet.drawing.writers.pdf_writer import draw_figure
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction
from booklet.measure.length import Size, Unit
from booklet.pages.canvas import BookletCanvas
from booklet.pages.flow import stacked
from booklet.pages.office_paper import WHITE_EDGE
from booklet.pages.open_canvas import ask_for_true_size, open_canvas, set_titles
from booklet.pages.setup import PageSetup
from booklet.pages.text import paragraph
from booklet.pages.type import hex_colour

# The room that words, marks and the bar need above and below a page, and words alone above one that is
# enlarged or reduced.
_ROOM, _HEAD = Fraction(80), Fraction(52)
_PERCENT = Fraction(1, 100)
# Trim marks: clear of the page by so much, and so long; as thin as a line may be (ISO 128-2, from memory).
_MARK_GAP, _MARK_LENGTH, _MARK_WIDTH = 6.0, 14.0, 0.51
_INSET = 36.0
_ABOVE_BAR = 27.0


@dataclass(frozen=True)
class OnPaper:
    """Where a page lies on a paper, in points from the lower left corner, and in which size.

    A page of its true size has marks and words about it where there is room for them.
    """

    paper: Size
    page: Size
    left: Fraction
    bottom: Fraction
    scale: Fraction
    has_words: bool

    @property
    def is_true(self) -> bool:
        """Whether the page has its true size."""
        return self.scale == 1

    @property
    def percent(self) -> int:
        """Its size as a whole percentage."""
        return int(self.scale / _PERCENT)


def lay_on_paper(page: Size, paper: Size, *, is_large: bool) -> OnPaper:
    """A page in the middle of a paper at its true size; as large as the paper allows where that is wished.

    One that is larger than the paper is reduced as far as it must.  It lies as far from the left as from the
    right, so that the two sides of a leaf back up when the paper is turned over on its long edge.
    """
    fits = page.width <= paper.width and page.height <= paper.height
    if fits and not is_large:
        bottom = (paper.height - page.height) / 2
        return OnPaper(paper, page, (paper.width - page.width) / 2, bottom, Fraction(1), bottom >= _ROOM)
    across = (paper.width - 2 * WHITE_EDGE) / page.width
    down = (paper.height - 2 * WHITE_EDGE - _HEAD) / page.height
    scale = min(across, down) // _PERCENT * _PERCENT
    left = (paper.width - scale * page.width) / 2
    return OnPaper(paper, page, left, paper.height - WHITE_EDGE - _HEAD - scale * page.height, scale, True)


@dataclass(frozen=True)
class PaperSide:
    """One side of a paper: the page that it bears, and of which leaf it is a side, if of one."""

    page: int
    leaf: int | None = None


@dataclass(frozen=True)
class Reprint:
    """What is printed again: of which kit and edition, how many pages that has, which sides of paper."""

    kit: Line
    edition: str
    count: int
    unit: Unit
    sides: tuple[PaperSide, ...]


def write_papers(
    setup: PageSetup,
    words: EnglishReprint,
    reprint: Reprint,
    place: OnPaper,
    make_canvas: type[BookletCanvas] = BookletCanvas,
) -> bytes:
    """The sides of paper with all that stands about their pages, and room where the pages belong.

    The same input gives the same bytes.
    """
    out = BytesIO()
    size, document = (float(place.paper.width), float(place.paper.height)), setup.document
    canvas = open_canvas(make_canvas, out, document.language, pagesize=size, page_of={})
    title = words.name(reprint.kit, _pages_name(words, reprint.sides))
    set_titles(canvas, title, document.author, words.subject)
    canvas.setKeywords(edition_keywords(reprint.edition))
    is_leaf = any(side.leaf is not None for side in reprint.sides)
    ask_for_true_size(canvas, "DuplexFlipLongEdge" if is_leaf else "Simplex")
    for side in reprint.sides:
        if place.has_words:
            _write_about(canvas, setup, words, reprint, place, side)
        canvas.showPage()
    canvas.save()
    return out.getvalue()


def _pages_name(words: EnglishReprint, sides: Sequence[PaperSide]) -> Line:
    first, last = sides[0].page, sides[-1].page
    return words.page_name(first) if first == last else words.pages_name(first, last)


def _write_about(
    canvas: BookletCanvas,
    setup: PageSetup,
    words: EnglishReprint,
    reprint: Reprint,
    place: OnPaper,
    side: PaperSide,
) -> None:
    """The words above a page; about one of true size its marks, and below it the bar to check the print."""
    style = setup.styles.small
    width = float(place.paper.width) - 2 * _INSET
    said = [paragraph(each, style) for each in _said(words, reprint, place, side)]
    _draw_down(canvas, said, float(place.paper.height) - float(WHITE_EDGE) - 6.0, width)
    if place.is_true:
        canvas.setStrokeColor(hex_colour(setup.palette.ink))
        canvas.setLineWidth(_MARK_WIDTH)
        canvas.lines(list(_trim_marks(place)))
        length = Length(check_length(reprint.unit), reprint.unit, Role.LENGTH, ("unit",), with_unit=True)
        figure = print_check(reprint.unit, setup.drawing)
        top = float(place.bottom) - _ABOVE_BAR
        draw_figure(figure, canvas.resources, _INSET, top)
        beside = _INSET + figure.width + 14.0
        _draw_down(canvas, [paragraph(words.bar(length), style)], top, width - figure.width - 14.0, beside)


def _said(words: EnglishReprint, reprint: Reprint, place: OnPaper, side: PaperSide) -> Iterator[Line]:
    """What stands above a page: what it is, how to print it, and what then."""
    is_front = side.page % 2 == 1
    if side.leaf is None:
        yield words.page_of(reprint.kit, side.page, reprint.count)
    else:
        yield words.side_of(reprint.kit, side.leaf, side.page, is_front=is_front)
    edition = words.edition(reprint.edition)
    if place.is_true:
        yield joined((words.print_true(is_leaf=side.leaf is not None), edition))
        yield words.lay_in(fold_is_left=is_front)
    else:
        yield joined((words.not_true(place.percent), edition))


def _draw_down(
    canvas: BookletCanvas, parts: Sequence[Flowable], top: float, width: float, left: float = _INSET
) -> None:
    for placed in stacked(parts, width):
        placed.flowable.drawOn(canvas, left + placed.x, top - placed.bottom)


def _trim_marks(place: OnPaper) -> Iterator[tuple[float, float, float, float]]:
    """Two short lines at each corner of the page, outside it: their ends in points."""
    left, bottom = float(place.left), float(place.bottom)
    right, top = left + float(place.page.width), bottom + float(place.page.height)
    for x, out in ((left, -1.0), (right, 1.0)):
        for y, up in ((bottom, -1.0), (top, 1.0)):
            yield x + out * _MARK_GAP, y, x + out * (_MARK_GAP + _MARK_LENGTH), y
            yield x, y + up * _MARK_GAP, x, y + up * (_MARK_GAP + _MARK_LENGTH)
