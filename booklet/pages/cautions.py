"""Cautions after ANSI Z535.6 (from memory): signal word, hazard, consequence, how to avoid it.

WARNING could cause serious injury, CAUTION a minor one.  They stand at the front, framed, with the alert
symbol, and are told apart by word and frame, so that they lose nothing in black.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import cast

from reportlab.platypus import Flowable

from booklet.drawing.shapes.affine import Point
from booklet.drawing.shapes.figure import Anchor, Figure, Fill, Polygon, Rect, Shape, Stroke, Text
from booklet.drawing.shapes.fonts import Font, cap_height, text_width
from booklet.drawing.shapes.style import DrawingStyle
from booklet.drawing.writers.pdf_writer import draw_figure
from booklet.kit.kit import Kit
from booklet.kit.steps import Punch, Snip, TrimRound
from booklet.kit.supply import SupplyKind
from booklet.pages.book import Book
from booklet.pages.flow import BookCanvas, Gap
from booklet.pages.lists import heading
from booklet.pages.type import words


@dataclass(frozen=True)
class Caution:
    """One safety message; `signal` is WARNING or CAUTION."""

    signal: str
    text: str


_BLADES = Caution(
    "WARNING",
    "Blades are sharp and can cut deeply. Keep fingers out of the blade’s path, hold the paper and not the "
    "edge, close or cover the blade after every use, and keep it from children.",
)
_SMALL_PARTS = Caution(
    "CAUTION",
    "Small parts can choke a young child. Keep them out of reach, and clear the table when you stop.",
)
_ADHESIVES = Caution(
    "CAUTION",
    "Adhesive can irritate skin and eyes. Use it in fresh air, and wash it off at once.",
)
_SMALL = {SupplyKind.BRADS, SupplyKind.DOTS, SupplyKind.FOAM}
_DIRECTIONS = (
    "Follow the directions of the makers of your trimmer and your adhesives, and the rules where you live."
)


def cautions_of(kit: Kit) -> Iterator[Caution]:
    """The safety messages that this kit calls for, the graver first."""
    kinds = {supply.kind for supply in kit.supplies}
    if _has_blades(kit):
        yield _BLADES
    if kinds & _SMALL:
        yield _SMALL_PARTS
    if SupplyKind.ADHESIVE in kinds:
        yield _ADHESIVES


def _has_blades(kit: Kit) -> bool:
    steps = (step for layout in kit.layouts for step in layout.steps)
    by_hand = any(isinstance(step, Snip | TrimRound | Punch) for step in steps)
    return by_hand or any(sheet.cuts for sheet in kit.sheets)


def caution_story(book: Book) -> list[Flowable]:
    """The framed messages, the publisher's own words, and whom to obey besides."""
    story = heading(book, "Take care", after=4.0)
    for caution in cautions_of(book.kit):
        story += [CautionBox(book, caution), Gap(6.0)]
    if book.kit.cautions:
        story.append(words(f"{book.kit.publisher} adds", book.styles.small_bold))
    for said in book.kit.cautions:
        story += [words(said, book.styles.small), Gap(3.0)]
    return [*story, words(_DIRECTIONS, book.styles.small)]


_PANEL = 78.0
_PADDING = 6.0
_SIGNAL_SIZE = 10.0
_TRIANGLE = 11.0


class CautionBox(Flowable):  # type: ignore[misc]  # reportlab carries no types
    """A safety message in its frame: the signal word at the left, the words beside it."""

    def __init__(self, book: Book, caution: Caution) -> None:
        super().__init__()
        self.style = book.drawing
        self.caution = caution
        self.words = words(caution.text, book.styles.small)

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        """As wide as the column, as high as the words and the room about them."""
        text_height = self.words.wrap(width - _PANEL - 2 * _PADDING, height)[1]
        self.width, self.height = width, text_height + 2 * _PADDING
        return self.width, self.height

    def draw(self) -> None:
        """Draw the frame with its signal, then the words."""
        canvas = cast(BookCanvas, self.canv)
        shapes = caution_frame(self.caution.signal, self.width, self.height, self.style)
        figure = Figure("caution", self.width, self.height, shapes, self.caution.signal, "")
        draw_figure(figure, canvas.resources, 0.0, self.height)
        self.words.drawOn(canvas, _PANEL + _PADDING, _PADDING)


def caution_frame(signal: str, width: float, height: float, style: DrawingStyle) -> tuple[Shape, ...]:
    """Frame, alert symbol, signal word: white on ink for a warning, ink on white for a caution."""
    palette = style.palette
    grave = signal == "WARNING"
    ground, ink = (palette.ink, palette.paper) if grave else (palette.paper, palette.ink)
    line = Stroke(palette.ink, style.outline_width)
    inset = style.outline_width / 2
    size = _SIGNAL_SIZE
    word = text_width(signal, Font.SANS_BOLD, size)
    left = (_PANEL - word - _TRIANGLE - 4.0) / 2
    middle = height / 2
    return (
        Rect(inset, inset, width - 2 * inset, height - 2 * inset, None, line),
        Rect(inset, inset, _PANEL - inset, height - 2 * inset, Fill(ground), line),
        *_alert((left + _TRIANGLE / 2, middle), ink == palette.paper, style),
        Text(
            signal,
            left + _TRIANGLE + 4.0,
            middle + cap_height(Font.SANS_BOLD, size) / 2,
            size,
            Font.SANS_BOLD,
            ink,
            Anchor.START,
            role="signal",
        ),
    )


def _alert(centre: Point, on_dark: bool, style: DrawingStyle) -> tuple[Shape, ...]:
    """The safety alert symbol: a triangle with an exclamation mark."""
    palette = style.palette
    solid, mark = (palette.paper, palette.ink) if on_dark else (palette.ink, palette.paper)
    x, y = centre
    half, rise = _TRIANGLE / 2, _TRIANGLE * 0.433
    corners = ((x, y - rise), (x + half, y + rise), (x - half, y + rise))
    return (
        Polygon(corners, Fill(solid)),
        Rect(x - 0.65, y - 1.6, 1.3, 3.6, Fill(mark)),
        Rect(x - 0.65, y + 2.6, 1.3, 1.3, Fill(mark)),
    )
