"""One section of a booklet laid out again on the pages where it stood: a look at what has been changed.

Working out a whole booklet again takes ten times as long, most of it for what has not changed.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from io import BytesIO

from booklet.content.artist import Artist, RingProcess, artist_in_colour, begin_numbers
from booklet.content.assembly.section import numbered_layout
from booklet.content.blocks import Document, Section
from booklet.content.document import section_again
from booklet.content.ways import layout_anchor
from booklet.content.words.language import ENGLISH, Language
from booklet.drawing.papers.kit_papers import papers_of
from booklet.measure.cache import cached_on
from booklet.measure.dataclass import dataclass, replace
from booklet.pages.booklet import LaidBooklet, setup_of
from booklet.pages.canvas import LookedAtCanvas, Noted
from booklet.pages.compose import Page, is_left_page, page_numbers, run_pages, section_ways
from booklet.pages.draw_page import draw_page
from booklet.pages.edges import edges_of
from booklet.pages.layout_page import keep_setting, numbered_figure, opening_of
from booklet.pages.open_canvas import open_canvas
from booklet.pages.places import section_pages
from booklet.pages.setup import PageSetup
from booklet.placing.resolved import ResolvedKit


@dataclass(frozen=True)
class SectionAgain:
    """The pages of a section, by their numbers; all else of the booklet is as it was before."""

    setup: PageSetup
    pages: Mapping[int, Page]
    page_of: Mapping[str, int]


def lay_section_again(
    before: LaidBooklet,
    resolved: ResolvedKit,
    anchor: str,
    language: Language = ENGLISH,
    second: RingProcess | None = None,
) -> SectionAgain | None:
    """The pages of a sheet or a layout, by its anchor, of the kit as it is now.

    With a `second` process the numbers of a layout find their places there, while its steps are set here.
    None where the section has no pages of its own, or takes another number of them than it did `before`: then
    the whole booklet is to be laid out.  Raises PageOverflowError for words that no page holds.
    """
    numbers = section_pages(before.pages, anchor)
    if any(len(before.pages[number - 1].parts) > 1 for number in numbers):
        return None
    papers = papers_of(resolved.kit, resolved.images, before.papers)
    artist = artist_in_colour(resolved, language, papers, second)
    _begin_numbers(artist, before, anchor)
    section = section_again(resolved, anchor, language)
    return None if section is None else _laid_again(before, artist, section, numbers)


def _begin_numbers(artist: Artist, before: LaidBooklet, anchor: str) -> None:
    """Begin with the numbers of a layout, for the scale that its figure had, and most likely has."""
    layouts = enumerate(artist.resolved.kit.layouts)
    index = next((index for index, layout in layouts if layout_anchor(layout.id) == anchor), None)
    was = next((section for section in before.setup.document.sections if section.anchor == anchor), None)
    if index is not None and was is not None:
        _, scale = numbered_figure(before.setup, was)
        begin_numbers(artist, numbered_layout(artist.resolved, index), scale)


def _laid_again(
    before: LaidBooklet, artist: Artist, section: Section, numbers: Sequence[int]
) -> SectionAgain | None:
    setup = setup_of(artist, _with_section(before, section))
    if setup.palette == before.setup.palette and setup.sizes == before.setup.sizes:
        # What was set in the same styles is not broken into lines again.
        setup = replace(setup, styles=before.setup.styles)
        # Nor is the layout that this one faces set again: what is said of both tells whether it is as it was.
        for each in opening_of(setup, section):
            if each is not section:
                keep_setting(setup, before.setup, each)
    ways = section_ways(setup, section, is_left_page(numbers[0]))
    columns = next((way for way in ways if len(way) == len(numbers)), None)
    if columns is None:
        return None
    pages = run_pages(setup, section, columns)
    return SectionAgain(setup, dict(zip(numbers, pages, strict=True)), _page_of(before))


@cached_on
def _page_of(laid: LaidBooklet) -> Mapping[str, int]:
    """The page of each anchor; every save asks for it."""
    return page_numbers(laid.pages)


@dataclass(frozen=True)
class PageAlone:
    """A page as a PDF of its own, and what was drawn where on it."""

    pdf: bytes
    noted: tuple[Noted, ...]


def write_page_again(again: SectionAgain, number: int) -> PageAlone:
    """One of the pages alone, as it stands in the booklet; it leads nowhere."""
    return write_page_alone(again.setup, again.pages[number], number, again.page_of)


def write_page_alone(setup: PageSetup, page: Page, number: int, page_of: Mapping[str, int]) -> PageAlone:
    """One page of a booklet, in which each anchor lies on a page of a number; it leads nowhere."""
    out, document = BytesIO(), setup.document
    size = (setup.grid.width, setup.grid.height)
    # Not packed: it is looked at and thrown away.
    canvas = open_canvas(
        LookedAtCanvas, out, document.language, pagesize=size, page_of=page_of, pageCompression=0
    )
    draw_page(canvas, setup, page, number, edges_of(document.sections))
    canvas.showPage()
    canvas.save()
    return PageAlone(out.getvalue(), tuple(canvas.noted))


def _with_section(before: LaidBooklet, section: Section) -> Document:
    """What the booklet said before, but for one section."""
    document = before.setup.document
    sections = (section if each.anchor == section.anchor else each for each in document.sections)
    return replace(document, sections=tuple(sections))
