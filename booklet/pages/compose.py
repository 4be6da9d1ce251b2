"""Sections on pages: what begins where, what shares a page, what fills the gaps up to whole press sheets."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Sequence
from contextlib import contextmanager
from dataclasses import dataclass
from functools import partial

from reportlab.platypus import Flowable

from booklet.content.blocks import (
    Arrangement,
    Block,
    Contents,
    ContentsEntry,
    CutStage,
    LayoutView,
    Section,
    WritingLines,
)
from booklet.content.figures import FigureRequest
from booklet.content.spans import Own, plain_text
from booklet.drawing.shapes.scale import Scale
from booklet.measure.cache import cached_on
from booklet.measure.dataclass import replace
from booklet.pages.boxes import PenLines, anchors_in
from booklet.pages.cover import back_cover, front_cover
from booklet.pages.flow import Column, PageOverflowError, break_story, column_height, fill, join, tightened
from booklet.pages.head import SectionHead, continued_head, section_head
from booklet.pages.layout_page import layout_pages, numbered_figure
from booklet.pages.setup import PageSetup
from booklet.pages.sheet_pages import sheet_ways
from booklet.pages.story import story

_PAGES_PER_SHEET = 4
# A page that is used less than this, as a share of its height, gets lines for a pen.
_ENDS_EARLY = 0.62
# A page that is used less than this counts as bad.
_HALF_FULL = 0.5
_LEAST_NOTES = 3
# A section whose last page is used less than this is tried with its spaces in these parts of what they are.
_LITTLE = 0.3
_TIGHTER = (0.8, 0.6, 0.45)
_SIDES = (False, True)
# The white that belongs to the part of a page above a head.
_ABOVE_PART = 12.0


@dataclass(frozen=True)
class PagePart:
    """What a page shows of a section: from where to where, in points from the top of the type area."""

    section: Section
    top: float
    bottom: float
    begins: bool


@dataclass(frozen=True)
class Page:
    """One page: what lies in its type area, and whose it is.  A bare page has no folio."""

    column: Column
    parts: tuple[PagePart, ...]
    is_bare: bool = False

    def part_at(self, y: float) -> PagePart:
        """The part in which something stands that begins so far below the top of the type area."""
        return max((part for part in self.parts if part.top <= y + 1.0), key=lambda part: part.top)


@cached_on
def section_ways(setup: PageSetup, section: Section, is_left: bool) -> tuple[tuple[Column, ...], ...]:
    """The pages that a section may take if it begins on a left page, or on a right one; the best way first.

    Raises PageOverflowError, which names the section, for what neither fits a page nor can be split.
    """
    with _naming(section):
        if _shows(section, LayoutView):
            return (layout_pages(setup, section, is_left=is_left),)
        return sheet_ways(setup, section) if _shows(section, CutStage) else (_flowing(setup, section),)


@contextmanager
def _naming(section: Section) -> Iterator[None]:
    """Tell what a section has that no page holds by its title, and where the spec has that."""
    try:
        yield
    except PageOverflowError as overflow:
        sources = (span.source for span in section.title if isinstance(span, Own))
        raise PageOverflowError(f"{plain_text(section.title)}: {overflow}", next(sources, ())) from None


def _shows(section: Section, kind: type[Block]) -> bool:
    return any(isinstance(block, kind) for block in section.blocks)


@cached_on
def _flowing(setup: PageSetup, section: Section) -> tuple[Column, ...]:
    """A section in the flow of its blocks, set tighter where that spares a page with little on it."""
    width, height = setup.grid.text_width, setup.grid.text_height

    def broken(tightness: float) -> tuple[Column, ...]:
        flowables = [*section_head(setup, section, width), *story(setup, section.blocks, width)]
        head = partial(continued_head, setup, section)
        return break_story(tightened(flowables, tightness), width, height, head)

    usual = broken(1.0)
    if len(usual) == 1 or column_height(usual[-1]) > _LITTLE * height:
        return usual
    tries = (broken(tightness) for tightness in _TIGHTER)
    return next((columns for columns in tries if len(columns) < len(usual)), usual)


# Which sections share pages, and where each begins.


@dataclass(frozen=True)
class _Run:
    """Sections laid on pages one after another: the first and those that share its last page."""

    sections: tuple[Section, ...]
    columns: tuple[Column, ...]
    must_start_left: bool


@dataclass(frozen=True, order=True)
class _Cost:
    """What an arrangement costs: all pages, then those that only fill gaps, then how empty all are."""

    pages: int
    gaps: int
    emptiness: float

    def with_run(self, run: _Run, gaps: int, height: float) -> _Cost:
        used = (column_height(column) / height for column in run.columns)
        empty = sum(max(0.0, _HALF_FULL - share) for share in used)
        return _Cost(self.pages + len(run.columns) + gaps, self.gaps + gaps, self.emptiness + empty)


def _runs(setup: PageSetup, sections: Sequence[Section], at: int, is_left: bool) -> Iterator[_Run]:
    """The ways to begin a page with a section: alone, or with ever more compact ones below it."""
    for columns in section_ways(setup, sections[at], is_left):
        must_start_left = _must_start_left(setup, sections, at, len(columns))
        if must_start_left and not is_left:
            same = (way for way in section_ways(setup, sections[at], True) if len(way) == len(columns))
            columns = next(same, columns)
        yield _Run(tuple(sections[at : at + 1]), columns, must_start_left)
        yield from _joined(setup, sections, at, columns, must_start_left)


def _joined(
    setup: PageSetup, sections: Sequence[Section], at: int, columns: tuple[Column, ...], must_start_left: bool
) -> Iterator[_Run]:
    """Runs of a section on its pages and ever more compact ones on the rest of the last."""
    for end in range(at + 1, len(sections)):
        if sections[end].arrangement is not Arrangement.COMPACT:
            return
        joined = _with_section_below(setup, columns[-1], sections[end])
        if joined is None:
            return
        columns = (*columns[:-1], joined)
        yield _Run(tuple(sections[at : end + 1]), columns, must_start_left)


@cached_on
def _with_section_below(setup: PageSetup, column: Column, section: Section) -> Column | None:
    """A column with a section below what it holds, as airy as the page allows; None where it has no room."""
    width, height = setup.grid.text_width, setup.grid.text_height
    tries = (
        join(column, _joined_story(setup, section, tightness), width, height)
        for tightness in (1.0, *_TIGHTER)
    )
    return next((joined for joined in tries if joined is not None), None)


def _joined_story(setup: PageSetup, section: Section, tightness: float) -> list[Flowable]:
    width = setup.grid.text_width
    head = section_head(setup, section, width, is_joined=True)
    return tightened([*head, *story(setup, section.blocks, width)], tightness)


def _must_start_left(setup: PageSetup, sections: Sequence[Section], at: int, pages: int) -> bool:
    """Whether a section is to be seen on one opening, by itself or with the section after it."""
    arrangement = sections[at].arrangement
    if arrangement is Arrangement.FACING and pages == 1 and at + 1 < len(sections):
        return len(section_ways(setup, sections[at + 1], False)[0]) == 1
    return arrangement in (Arrangement.OPENING, Arrangement.FACING) and pages > 1


def _arranged(setup: PageSetup, sections: Sequence[Section], starts_left: bool) -> tuple[_Cost, list[_Run]]:
    """The runs of all sections that take the fewest pages, and among those the fullest."""
    # For each section on each side of the fold: the cost from there on, and the run that begins there.
    costs = [{side: _Cost(0, 0, 0.0) for side in _SIDES} for _ in range(len(sections) + 1)]
    chosen: list[dict[bool, _Run]] = [{} for _ in sections]
    for at in reversed(range(len(sections))):
        for is_left in _SIDES:
            choices = []
            for run in _runs(setup, sections, at, is_left):
                gaps = int(run.must_start_left and not is_left)
                after = costs[at + len(run.sections)][_side_after(run, is_left)]
                choices.append((after.with_run(run, gaps, setup.grid.text_height), run))
            costs[at][is_left], chosen[at][is_left] = min(choices, key=lambda choice: choice[0])
    runs, at, is_left = [], 0, starts_left
    while at < len(sections):
        run = chosen[at][is_left]
        runs.append(run)
        at, is_left = at + len(run.sections), _side_after(run, is_left)
    return costs[0][starts_left], runs


def _press_sheets(setup: PageSetup, sections: Sequence[Section], bare: int) -> tuple[int, int]:
    """The press sheets that sections take, and the pages in them to fill; `bare` pages stand around all."""
    cost, _ = _arranged(setup, sections, is_left_page(bare))
    press_sheets = -(-(bare + cost.pages) // _PAGES_PER_SHEET)
    return press_sheets, press_sheets * _PAGES_PER_SHEET - bare - cost.pages + cost.gaps


def _with_optional(
    setup: PageSetup, sections: Sequence[Section], bare: int
) -> tuple[list[Section], list[Section]]:
    """All sections but optional ones that would take a press sheet more, and these; the last is tried first.

    One that shares a page is left out as well where else a page to fill would have nothing on it.
    """
    left = [section for section in sections if section.is_optional]
    kept = [section for section in sections if not section.is_optional]
    least, gaps = _press_sheets(setup, kept, bare)
    for section in reversed(list(left)):
        more = [each for each in sections if each in kept or each is section]
        press_sheets, rest = _press_sheets(setup, more, bare)
        if press_sheets <= least and (rest < gaps or rest < len(left)):
            kept, gaps = more, rest
            left.remove(section)
    return kept, left


def _listing(section: Section, anchors: Iterable[str]) -> Section:
    """A section whose contents list what these anchors name, in their order."""
    place = {anchor: at for at, anchor in enumerate(anchors)}

    def listed(entries: Sequence[ContentsEntry]) -> tuple[ContentsEntry, ...]:
        return tuple(
            sorted((entry for entry in entries if entry.anchor in place), key=lambda e: place[e.anchor])
        )

    blocks = tuple(
        Contents(tuple(map(listed, block.lists))) if isinstance(block, Contents) else block
        for block in section.blocks
    )
    return section if blocks == section.blocks else replace(section, blocks=blocks)


def _side_after(run: _Run, is_left: bool) -> bool:
    """Whether the page after a run is a left one."""
    started_left = is_left or run.must_start_left
    return started_left == (len(run.columns) % 2 == 0)


# Pages.


def compose(setup: PageSetup) -> tuple[Page, ...]:
    """Every page in reading order, a multiple of four of them, the back cover last.

    Raises PageOverflowError, which names the section, for what is too high for a page.
    """
    sections = list(setup.document.sections)
    _lay_ahead(setup, sections)
    cover: list[Page] = []
    if sections and sections[0].arrangement is Arrangement.FRONT_COVER:
        cover.append(_bare(setup, sections.pop(0), front_cover))
    kept, left = _with_optional(setup, sections, len(cover) + 1)
    listed = [_listing(section, [each.anchor for each in kept]) for section in kept]
    pages = _composed(setup, cover, listed, left)
    # What was left out may have filled a page: then the contents list it, where they have room for it.
    printed = page_numbers(pages)
    listed_again = [_listing(section, printed) for section in kept]
    if listed_again == listed:
        return pages
    again = _composed(setup, cover, listed_again, left)
    return again if page_numbers(again) == printed else pages


def _lay_ahead(setup: PageSetup, sections: Sequence[Section]) -> None:
    """Lay the sections without a layout beside the preparing of the layouts' figures; both are kept."""
    layouts = [section for section in sections if _shows(section, LayoutView)]
    with setup.prepare([_numbered_figure(setup, section) for section in layouts]):
        for section in sections:
            if not _shows(section, LayoutView) and section.arrangement is not Arrangement.FRONT_COVER:
                section_ways(setup, section, False)


def _numbered_figure(setup: PageSetup, section: Section) -> tuple[FigureRequest, Scale]:
    with _naming(section):
        return numbered_figure(setup, section)


def _composed(
    setup: PageSetup, cover: Sequence[Page], sections: Sequence[Section], left: Sequence[Section]
) -> tuple[Page, ...]:
    """The covers, the pages of sections between them, and what is left out where it fills a page."""
    document = setup.document
    pages = list(cover)
    supply = _Fillers(setup, (*left, *document.fillers))
    for run in _arranged(setup, sections, is_left_page(len(pages) + 1))[1]:
        if run.must_start_left and not is_left_page(len(pages) + 1):
            pages += supply.take(1, len(pages) + 1)
        pages += run_pages(setup, run.sections[0], run.columns)
    last = supply.last_page if -(len(pages) + 1) % _PAGES_PER_SHEET else ()
    while (gap := -(len(pages) + len(last) + 1) % _PAGES_PER_SHEET) > 0:
        pages += supply.take(gap, len(pages) + 1)
    return (*pages, *last, _bare(setup, document.back, back_cover))


def is_left_page(number: int) -> bool:
    """Whether the page of a number lies at the left of the fold."""
    return number % 2 == 0


def _bare(setup: PageSetup, section: Section, lay: Callable[[PageSetup, Section], Column]) -> Page:
    with _naming(section):
        column = lay(setup, section)
    return Page(column, (PagePart(section, 0.0, setup.grid.text_height, True),), is_bare=True)


def run_pages(setup: PageSetup, first: Section, columns: Sequence[Column]) -> Iterator[Page]:
    """The pages of columns, which begin with a section, each used to its foot."""
    width, height = setup.grid.text_width, setup.grid.text_height
    for column in columns:
        filled = fill(_with_notes(setup, fill(column, width, height)), width, height)
        yield Page(filled, _parts(filled, first, height))


def _with_notes(setup: PageSetup, column: Column) -> Column:
    """A page that ends early with a few lines for a pen; one that has some already as it is."""
    width, height = setup.grid.text_width, setup.grid.text_height
    if column_height(column) > _ENDS_EARLY * height:
        return column
    if any(isinstance(placed.flowable, PenLines) for placed in column):
        return column
    notes = story(setup, [WritingLines(setup.words.notes, least=_LEAST_NOTES)], width)
    return join(column, notes, width, height) or column


def _parts(column: Column, first: Section, height: float) -> tuple[PagePart, ...]:
    """Whose a page is: the section that goes on at its top, unless its head stands there, and all below."""
    heads = [
        (placed.flowable.section, placed.y) for placed in column if isinstance(placed.flowable, SectionHead)
    ]
    begun = [] if heads and heads[0][1] == 0.0 else [(first, 0.0, False)]
    begun += [(section, y, True) for section, y in heads]
    ends = [y - _ABOVE_PART for _, y, _ in begun[1:]] + [height]
    return tuple(
        PagePart(section, y, end, begins) for (section, y, begins), end in zip(begun, ends, strict=True)
    )


class _Fillers:
    """The useful pages from which gaps are filled, each used once but for the last."""

    def __init__(self, setup: PageSetup, sections: Sequence[Section]) -> None:
        self._setup = setup
        self._notes = Section("", setup.words.notes, (WritingLines((), least=_LEAST_NOTES),))
        self._left = [each for each in sections if each.arrangement is not Arrangement.LAST]
        self._last = [each for each in sections if each.arrangement is Arrangement.LAST]

    def take(self, gap: int, number: int) -> list[Page]:
        """The next useful pages for a gap that begins with a page of this number."""
        for section in self._left:
            columns = section_ways(self._setup, section, is_left_page(number))[0]
            if len(columns) <= gap:
                if section is not self._left[-1]:
                    self._left.remove(section)
                return list(run_pages(self._setup, section, columns))
        columns = section_ways(self._setup, self._notes, is_left_page(number))[0]
        return list(run_pages(self._setup, self._notes, columns))

    @property
    def last_page(self) -> tuple[Page, ...]:
        """The page that is kept for the last gap, where there is one."""
        for section in self._last:
            columns = section_ways(self._setup, section, False)[0]
            if len(columns) == 1:
                return tuple(run_pages(self._setup, section, columns))
        return ()


def page_numbers(pages: Sequence[Page]) -> dict[str, int]:
    """The number of the page on which each anchor lies, the first one where it comes again."""
    numbers: dict[str, int] = {}
    for number, page in enumerate(pages, 1):
        for anchor in _anchors(page):
            numbers.setdefault(anchor, number)
    return numbers


def _anchors(page: Page) -> Iterator[str]:
    yield from (part.section.anchor for part in page.parts if part.begins and part.section.anchor)
    yield from (anchor for placed in page.column for anchor in anchors_in(placed.flowable))
