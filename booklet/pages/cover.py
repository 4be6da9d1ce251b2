"""The covers: title and finished pages in front, papers and help with printing behind."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import cast

from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import Flowable

from booklet.content.artist import Room
from booklet.content.blocks import Block, Card, Cards, Picture, Section
from booklet.drawing.shapes.figure import Figure, Fill, Line, Path, Shape, Stroke
from booklet.drawing.shapes.outlines import KAPPA, Outline
from booklet.drawing.shapes.style import Palette, mm
from booklet.drawing.writers.pdf_writer import draw_figure
from booklet.pages.boxes import FigureBox, Rule, spaced
from booklet.pages.canvas import BookletCanvas
from booklet.pages.flow import Column, PageOverflowError, column_height, stacked, story_height
from booklet.pages.head import fitting_title
from booklet.pages.setup import PageSetup, drawn
from booklet.pages.story import story
from booklet.pages.text import paragraph

_RULE = 1.8
_TITLE_AFTER, _RULE_AFTER = 12.0, 18.0
# The shares of the room to spare that stand above the title and below the strips.
_ABOVE, _BELOW = 0.12, 0.38
_GAP, _BETWEEN_ROWS = 14.0, 9.0
# How wide strips of tickets may stand, as shares of the width, and how many at most; how much wider the first
# picture is than theirs, the least width of a ticket in points, and what a lone ticket leaves of the width.
_SHARES = (1.0, 0.94, 0.88, 0.82, 0.76, 0.7, 0.64)
_MOST_ROWS, _LARGER, _LEAST_TICKET, _LEAST_COLUMNS = 8, 1.3, 24.0, 1.5
# Less room than this, in points, shows nothing.
_LEAST_PICTURE = 40.0


def front_cover(setup: PageSetup, section: Section) -> Column:
    """The title, the first picture large, the others as strips of tickets, the lead at the foot.

    Where the words leave no room for all pictures, they are set smaller, then the strips are left out, then
    the first picture too.  Raises PageOverflowError where the words alone are more than a page.
    """
    width, height = setup.grid.text_width, setup.grid.text_height
    foot = stacked([paragraph(section.lead, setup.styles.body)] if section.lead else [], width)
    down = height - column_height(foot)
    room = down - (_GAP if foot else 0.0)
    title, hero, strips = _words_and_pictures(setup, section, room)
    spare = room - story_height([*title, *hero, *strips], width)
    if spare < 0.0:
        raise PageOverflowError("its words are more than a page; shorten them")
    above = stacked([*title, *hero], width, spare * _ABOVE)
    below = stacked(strips, width, room - story_height(strips, width) - spare * _BELOW)
    return (*above, *below, *(placed.moved(down) for placed in foot))


_Pictures = tuple[list[FigureBox], list["TicketStrip"]]


def _words_and_pictures(
    setup: PageSetup, section: Section, room: float
) -> tuple[list[Flowable], list[FigureBox], list[TicketStrip]]:
    """The title as large and the pictures as many as a room in points allows."""
    width = setup.grid.text_width
    first, _ = _picture_first(section.blocks)
    for blocks in (section.blocks, [first] if first else [], []):
        for styles in (setup.styles.displays, setup.styles.titles):
            title = _title(setup, section, styles)
            left = room - story_height(title, width) - _RULE_AFTER
            if pictures := _largest(setup, blocks, left):
                return (title, *pictures)
    return title, [], []


def _largest(setup: PageSetup, blocks: Sequence[Block], room: float) -> _Pictures | None:
    """The first picture and the strips of the others, as large as a room in points allows.

    None where the room does not hold them so that the first one stands out.
    """
    first, others = _picture_first(blocks)
    cards = [card for block in others if isinstance(block, Cards) for card in block.cards]
    found: list[tuple[float, _Pictures]] = []
    for strips in _ways_to_stand(setup, cards):
        high = sum(strip.wrap(0.0, 0.0)[1] + _BETWEEN_ROWS for strip in strips)
        hero = _first(setup, first, room - high)
        if high <= room and (first is None or _stands_out(hero, strips)):
            area = sum(box.area for box in hero) + sum(strip.area for strip in strips)
            found.append((area, (hero, strips)))
    return max(found, key=lambda each: each[0])[1] if found else None


def _stands_out(hero: Sequence[FigureBox], strips: Sequence[TicketStrip]) -> bool:
    """Whether the first picture is large enough to be seen, and larger than all others."""
    wide = max((strip.picture_width for strip in strips), default=0.0)
    return any(box.figure.height >= _LEAST_PICTURE and box.figure.width >= _LARGER * wide for box in hero)


def back_cover(setup: PageSetup, section: Section) -> Column:
    """The title, the first picture in what room there is, all else at the foot.

    A title that leaves too little room is set smaller.  Raises PageOverflowError where the words are more
    than a page.
    """
    width, height = setup.grid.text_width, setup.grid.text_height
    first, others = _picture_first(section.blocks)
    foot = stacked(story(setup, others, width), width)
    for styles in (setup.styles.titles, setup.styles.titles[-1:]):
        title = _title(setup, section, styles)
        room = height - column_height(foot) - story_height(title, width) - 2 * _GAP
        if room >= -2 * _GAP:
            break
    else:
        raise PageOverflowError("its words are more than a page; shorten them")
    if first is not None and room > _LEAST_PICTURE:
        figure = drawn(setup, first, Room(width, room))
        title.append(FigureBox(figure, "CENTER"))
    down = height - column_height(foot)
    return (*stacked(title, width), *(placed.moved(down) for placed in foot))


def _title(setup: PageSetup, section: Section, styles: Sequence[ParagraphStyle]) -> list[Flowable]:
    kicker = [paragraph(section.kicker, setup.styles.kicker)] if section.kicker else []
    title = fitting_title(section.title, styles, setup.grid.text_width)
    rule = Rule(setup.palette.accent, _RULE, 0.0, _RULE_AFTER)
    return [*kicker, spaced(title, 2.0, _TITLE_AFTER), rule]


def _picture_first(blocks: Sequence[Block]) -> tuple[Picture | None, Sequence[Block]]:
    if blocks and isinstance(blocks[0], Picture):
        return blocks[0], blocks[1:]
    return None, blocks


def _first(setup: PageSetup, first: Picture | None, room: float) -> list[FigureBox]:
    """The first picture in what room is left."""
    if first is None or room <= _GAP:
        return []
    figure = drawn(setup, first, Room(setup.grid.text_width, room - _GAP))
    return [spaced(FigureBox(figure, "CENTER"), 0.0, _GAP)]


# Tickets.

_PADDING, _NOTCH, _CORNER = 8.0, 4.0, 3.0
_PERFORATION = (2.2, 2.2)
_TICKET_HEIGHT = 0.34


def _ways_to_stand(setup: PageSetup, cards: Sequence[Card]) -> Iterator[list[TicketStrip]]:
    """Cards in one strip or more, wider and narrower ones."""
    if not cards:
        yield []
    for rows in range(1, min(len(cards), _MOST_ROWS) + 1):
        columns = -(-len(cards) // rows)
        starts = range(0, len(cards), columns)
        for share in _SHARES:
            wide = share * setup.grid.text_width / max(columns, _LEAST_COLUMNS)
            if wide > _LEAST_TICKET:
                strips = [TicketStrip(setup, cards[start : start + columns], wide) for start in starts]
                yield [spaced(strip, 0.0, _BETWEEN_ROWS) for strip in strips]


class TicketStrip(Flowable):  # type: ignore[misc]  # reportlab carries no types
    """Cards as tickets of one strip, notched where it is torn apart; their words stand below the pictures."""

    def __init__(self, setup: PageSetup, cards: Sequence[Card], ticket: float) -> None:
        super().__init__()
        self.hAlign = "CENTER"
        self.palette = setup.palette
        self.ticket = ticket
        inner = ticket - 2 * _PADDING
        room = Room(inner, setup.grid.text_height * _TICKET_HEIGHT)
        self.stacks = [
            stacked(
                [
                    spaced(FigureBox(drawn(setup, card.picture, room), "CENTER"), 0.0, 4.0),
                    *(paragraph(said, setup.styles.small) for said in card.lines),
                ],
                inner,
            )
            for card in cards
        ]

    @property
    def contents(self) -> list[Flowable]:
        """The pictures and the words of all tickets."""
        return [placed.flowable for column in self.stacks for placed in column]

    @property
    def area(self) -> float:
        """How much its pictures cover, in square points."""
        return sum(column[0].width * column[0].height for column in self.stacks)

    @property
    def picture_width(self) -> float:
        """How wide its widest picture is."""
        return max(column[0].width for column in self.stacks)

    def wrap(self, width: float, height: float) -> tuple[float, float]:  # noqa: ARG002 (the flowable protocol)
        """As wide as its tickets, as high as the highest."""
        self.width = self.ticket * len(self.stacks)
        self.height = max(column_height(column) for column in self.stacks) + 2 * _PADDING
        return self.width, self.height

    def draw(self) -> None:
        """Draw the strip, then what is on each ticket."""
        canvas = cast(BookletCanvas, self.canv)
        shapes = ticket_strip(self.ticket, len(self.stacks), self.height, self.palette)
        strip = Figure("tickets", self.width, self.height, shapes)
        draw_figure(strip, canvas.resources, 0.0, self.height)
        for at, column in enumerate(self.stacks):
            left = at * self.ticket + _PADDING
            for placed in column:
                placed.flowable.drawOn(canvas, left + placed.x, self.height - _PADDING - placed.bottom)


def ticket_strip(ticket: float, count: int, height: float, palette: Palette) -> tuple[Shape, ...]:
    """The outline of a strip of tickets, each `ticket` points wide, and the perforations between them."""
    line = Stroke(palette.ink, mm(0.25))
    dashed = Stroke(palette.ink, mm(0.25), _PERFORATION)
    between = [ticket * at for at in range(1, count)]
    tears = [Line((x, _NOTCH + 1.5), (x, height - _NOTCH - 1.5), dashed) for x in between]
    inset = line.width / 2
    return (Path(_strip_outline(ticket * count, height, between, inset), Fill(palette.paper), line), *tears)


def _strip_outline(width: float, height: float, notches: Sequence[float], inset: float) -> Outline:
    """A rounded rectangle with a round notch above and below at each of these distances from its left."""
    left, top, right, bottom = inset, inset, width - inset, height - inset
    r, n = _CORNER, _NOTCH
    handle, bite = r * (1 - KAPPA), n * KAPPA
    path: list[object] = [("M", left + r, top)]
    for x in notches:
        path += [
            ("L", x - n, top),
            ("C", x - n, top + bite, x - bite, top + n, x, top + n),
            ("C", x + bite, top + n, x + n, top + bite, x + n, top),
        ]
    path += [
        ("L", right - r, top),
        ("C", right - handle, top, right, top + handle, right, top + r),
        ("L", right, bottom - r),
        ("C", right, bottom - handle, right - handle, bottom, right - r, bottom),
    ]
    for x in reversed(notches):
        path += [
            ("L", x + n, bottom),
            ("C", x + n, bottom - bite, x + bite, bottom - n, x, bottom - n),
            ("C", x - bite, bottom - n, x - n, bottom - bite, x - n, bottom),
        ]
    path += [
        ("L", left + r, bottom),
        ("C", left + handle, bottom, left, bottom - handle, left, bottom - r),
        ("L", left, top + r),
        ("C", left, top + handle, left + handle, top, left + r, top),
        ("Z",),
    ]
    return cast(Outline, tuple(path))
