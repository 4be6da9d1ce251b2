"""A booklet: a document laid out on pages, and written as a PDF."""

from __future__ import annotations

from collections.abc import Callable
from contextlib import nullcontext
from functools import partial

from booklet.content.artist import Artist, artist_in_colour, draw, measure, prepare
from booklet.content.blocks import Document
from booklet.content.document import document
from booklet.content.edition import IN_BLACK, edition_name
from booklet.content.figures import SignFigure
from booklet.content.words.language import ENGLISH, Language
from booklet.drawing.papers.kit_papers import KitPapers
from booklet.drawing.shapes.figure import Figure
from booklet.drawing.shapes.style import BLACK_PALETTE, DrawingStyle, Palette
from booklet.kit.kit import PageFormat
from booklet.kit.kit_files import KitFile, image_files
from booklet.measure.dataclass import dataclass, replace
from booklet.pages.boxes import FigureBox, all_in
from booklet.pages.canvas import BookletCanvas
from booklet.pages.compose import Page, compose, is_left_page, section_ways
from booklet.pages.grid import GRIDS
from booklet.pages.setup import Draw, Measure, PageSetup, Prepare
from booklet.pages.type import TypeSizes, make_styles
from booklet.pages.write import FileFacts, write_pages
from booklet.placing.resolved import ResolvedKit


@dataclass(frozen=True)
class LaidBooklet:
    """A booklet laid out: its pages in reading order, the name of its edition where it has one, the canvas
    that it is written on, the files that it is made of, and the papers that its figures are drawn of.
    """

    setup: PageSetup
    pages: tuple[Page, ...]
    edition: str = ""
    canvas: type[BookletCanvas] = BookletCanvas
    files: tuple[KitFile, ...] = ()
    papers: KitPapers | None = None


def make_booklet(resolved: ResolvedKit, language: Language = ENGLISH) -> LaidBooklet:
    """Lay out the booklet of a kit.

    Raises PageOverflowError for words that no page holds, PictureError for an image that cannot be read.
    """
    laid = _unlaid_booklet(resolved, language)
    return replace(laid, pages=compose(laid.setup))


def make_booklet_in_steps(
    resolved: ResolvedKit, pause: Callable[[], None], language: Language = ENGLISH
) -> LaidBooklet:
    """Lay out the booklet of a kit, calling `pause` before each section: what that raises gives it up.

    Raises what `make_booklet` raises.
    """
    laid = _unlaid_booklet(resolved, language)
    for at, section in enumerate(laid.setup.document.sections[1:]):  # the cover is laid by itself
        pause()
        section_ways(laid.setup, section, is_left_page(at))
    pause()
    return replace(laid, pages=compose(laid.setup))


def _unlaid_booklet(resolved: ResolvedKit, language: Language) -> LaidBooklet:
    """A booklet all of which is settled but its pages."""
    said = document(resolved, language)
    papers = KitPapers(resolved.kit, resolved.images)
    setup = setup_of(artist_in_colour(resolved, language, papers), said)
    edition = edition_name(resolved, said)
    return LaidBooklet(setup, (), edition, files=_files(resolved), papers=papers)


def setup_of(artist: Artist, document: Document) -> PageSetup:
    """How what is said of a kit looks on its pages, for who draws its figures."""
    return open_setup(document, artist.resolved.kit.page, artist.style.palette, *_by(artist))


def _by(artist: Artist) -> tuple[Draw, Measure, Prepare]:
    return partial(draw, artist), partial(measure, artist), partial(prepare, artist)


def make_black_booklet(resolved: ResolvedKit, language: Language = ENGLISH) -> LaidBooklet:
    """Lay out the booklet of a kit for one ink; papers that look alike without colour bear letters.

    Its edition has the name of that in colour, and says that it is in black.

    Raises what `make_booklet` raises.
    """
    from booklet.drawing.papers.black_papers import BlackPapers
    from booklet.pages.black_canvas import BlackCanvas

    kit = resolved.kit
    papers = BlackPapers(kit, resolved.images)
    artist = Artist(resolved, language, papers, DrawingStyle(palette=BLACK_PALETTE))
    said = document(resolved, language, papers.letters)
    laid = lay_out(said, kit.page, BLACK_PALETTE, *_by(artist))
    edition = f"{edition_name(resolved, document(resolved, language))}{IN_BLACK}"
    return replace(laid, edition=edition, canvas=BlackCanvas, files=_files(resolved))


def _files(resolved: ResolvedKit) -> tuple[KitFile, ...]:
    """The files that a kit is made of; none of one that was not typed."""
    return (*resolved.typed, *image_files(resolved.kit, resolved.images)) if resolved.typed else ()


def open_setup(
    document: Document,
    page: PageFormat,
    palette: Palette,
    draw: Draw,
    measure: Measure,
    prepare: Prepare = nullcontext,
) -> PageSetup:
    """Settle how a document's pages look, from their format and the palette."""
    sizes = TypeSizes()
    return PageSetup(
        document=document,
        grid=GRIDS[page],
        sizes=sizes,
        palette=palette,
        styles=make_styles(palette, sizes, document.language),
        drawing=DrawingStyle(palette=palette),
        draw=draw,
        measure=measure,
        prepare=prepare,
    )


def lay_out(
    document: Document,
    page: PageFormat,
    palette: Palette,
    draw: Draw,
    measure: Measure,
    prepare: Prepare = nullcontext,
) -> LaidBooklet:
    """Lay a document out on pages of a format, a multiple of four of them.

    `draw` draws the figures that it asks for; `prepare` begins with some of them.  Raises PageOverflowError,
    which names the section, for words that no page holds.
    """
    setup = open_setup(document, page, palette, draw, measure, prepare)
    return LaidBooklet(setup, compose(setup))


def write_booklet(laid: LaidBooklet, is_draft: bool = False) -> bytes:
    """The PDF in reading order, the same bytes for the same booklet; a draft is marked on every page."""
    facts = FileFacts(laid.edition, is_draft, laid.files)
    return write_pages(laid.setup, laid.pages, facts, laid.canvas)


def figures_of(laid: LaidBooklet) -> tuple[Figure, ...]:
    """Every figure that is drawn to a scale, as the pages show it and in their order, each name once."""
    flowables = (each for page in laid.pages for placed in page.column for each in all_in(placed.flowable))
    figures = (each.figure for each in flowables if isinstance(each, FigureBox))
    return tuple({figure.name: figure for figure in figures if _is_to_scale(figure)}.values())


def _is_to_scale(figure: Figure) -> bool:
    """Whether it shows something of the kit to a scale; a sign explains how figures are read."""
    return bool(figure.scale) and not isinstance(figure.subject, SignFigure)
