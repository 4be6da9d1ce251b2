"""Pages as data: flowables laid in the type area, and blocks of pages that belong on one opening."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from enum import Enum
from itertools import count

from reportlab.platypus import Flowable

from booklet.kit.errors import KitError
from booklet.pages.flow import Gap
from booklet.pages.grid import Grid


@dataclass(frozen=True)
class Laid:
    """A flowable with its place: its top left corner, in points from the type area's top left, y down."""

    flowable: Flowable
    x: float
    y: float
    width: float
    height: float


@dataclass(frozen=True)
class Page:
    """One page: what is laid on it, what the running title says, what the bookmarks call it.

    `anchor` is what a page reference points to.  A bare page has no running title and no number.  `section`
    names the part of the booklet that begins here, above the page's own bookmark.
    """

    laid: tuple[Laid, ...]
    running: str
    bookmark: str | None = None
    bookmark_level: int = 0
    anchor: str | None = None
    bare: bool = False
    section: str | None = None


class Start(Enum):
    """On which side of the fold a block of pages must begin."""

    ANYWHERE = "anywhere"
    LEFT = "left"
    RIGHT = "right"


@dataclass(frozen=True)
class Block:
    """Pages that follow each other, and where the first must lie."""

    pages: tuple[Page, ...]
    start: Start = Start.ANYWHERE


@dataclass(frozen=True)
class PageName:
    """What a page, or the first of several, is called."""

    running: str
    bookmark: str | None = None
    level: int = 0
    anchor: str | None = None
    bare: bool = field(default=False)


class PageOverflowError(KitError):
    """Something is higher than a page and cannot be split."""


# What makes the head of a page on which a story goes on, another for every page.
Head = Callable[[], Sequence[Flowable]]


def flow(story: Sequence[Flowable], grid: Grid, name: PageName, later: Head = tuple) -> tuple[Page, ...]:
    """Break a story into pages; only the first bears the bookmark and the anchor, each later one its head.

    Raises PageOverflowError, which says on which page, for what neither fits nor can be split.
    """
    pages: list[Page] = []
    try:
        broken = break_story(story, grid.text_width, grid.text_height, later)
    except PageOverflowError as overflow:
        raise PageOverflowError(f"{name.bookmark or name.running}: {overflow}") from None
    for laid in broken:
        first = not pages
        pages.append(
            Page(
                laid,
                name.running,
                name.bookmark if first else None,
                name.level,
                name.anchor if first else None,
                name.bare,
            )
        )
    return tuple(pages)


def break_story(
    story: Sequence[Flowable], width: float, height: float, later: Head = tuple
) -> list[tuple[Laid, ...]]:
    """Lay flowables downwards, page after page, each later one under its head; split what can be split.

    Raises PageOverflowError for one that neither fits a page nor can be split.
    """
    pages: list[tuple[Laid, ...]] = []
    head: tuple[Laid, ...] = ()
    laid: list[Laid] = []
    waiting = list(story)
    y = 0.0
    while waiting:
        flowable = waiting.pop(0)
        if isinstance(flowable, Gap) and not laid:
            continue
        space = max(flowable.getSpaceBefore(), 0.0) if laid else 0.0
        wide, high = flowable.wrap(width, height - y - space)
        if y + space + high <= height + 1e-6:
            laid.append(Laid(flowable, 0.0, y + space, wide, high))
            y += space + high + flowable.getSpaceAfter()
            continue
        parts = flowable.split(width, height - y - space)
        if len(parts) > 1:
            waiting[:0] = parts
        elif laid:
            pages.append((*head, *laid))
            head = stacked(later(), width)
            laid, y = [], stack_height(head)
            waiting.insert(0, flowable)
        else:
            raise PageOverflowError(
                f"what belongs together is {high:.0f} pt high, and a page has room for {height:.0f} pt; "
                "shorten its words"
            )
    return [*pages, (*head, *laid)] if laid else pages


def stacked(parts: Sequence[Flowable], width: float) -> tuple[Laid, ...]:
    """Flowables right under one another, the first at the top."""
    laid: list[Laid] = []
    for part in parts:
        wide, high = part.wrap(width, 1000.0)
        laid.append(Laid(part, 0.0, stack_height(laid), wide, high))
    return tuple(laid)


def stack_height(laid: Sequence[Laid]) -> float:
    """How high what stands right under one another is in all."""
    return sum((each.height for each in laid), start=0.0)


def lay_on_one(story: Sequence[Flowable], width: float, height: float, what: str) -> tuple[Laid, ...]:
    """Lay a story that must stay together, called `what` in an error.

    Raises PageOverflowError where it takes more than the height.
    """
    pages = break_story(story, width, height)
    if len(pages) > 1:
        raise PageOverflowError(f"{what}: its words leave no room for the rest of its page; shorten them")
    return pages[0] if pages else ()


def story_height(story: Sequence[Flowable], width: float) -> float:
    """How high a story stands in one column, with the space between its parts."""
    total = 0.0
    after = 0.0
    for position, flowable in enumerate(story):
        before = flowable.getSpaceBefore() if position else 0.0
        total += after + before + flowable.wrap(width, 10_000.0)[1]
        after = flowable.getSpaceAfter()
    return total


def arrange(blocks: Sequence[Block], fillers: Iterator[Page], last: Page) -> tuple[Page, ...]:
    """Put the blocks in order, each on its side of the fold, and fill to a multiple of four.

    A useful page is taken from `fillers` wherever one is needed; `last` is the back cover.
    """
    pages: list[Page] = []
    for block in blocks:
        if not _may_start(block.start, len(pages) + 1):
            pages.append(next(fillers))
        pages += block.pages
    while (len(pages) + 1) % 4:
        pages.append(next(fillers))
    return (*pages, last)


def _may_start(start: Start, number: int) -> bool:
    if start is Start.ANYWHERE:
        return True
    return (number % 2 == 0) == (start is Start.LEFT)


def anchors(pages: Sequence[Page]) -> dict[str, int]:
    """The number of the page on which each anchor lies."""
    return {page.anchor: number for number, page in zip(count(1), pages) if page.anchor}
