"""Lines of content as paragraphs: words broken into lines, numbers of steps and cuts as signs among them."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil
from typing import Any, cast

from reportlab.lib.abag import ABag
from reportlab.lib.enums import TA_LEFT
from reportlab.lib.styles import ParagraphStyle
from reportlab.pdfbase.pdfmetrics import stringWidth
from reportlab.platypus import Flowable, Paragraph

from booklet.content.spans import (
    CutRef,
    Degrees,
    Extent,
    Length,
    Line,
    LineBreak,
    Number,
    Own,
    PieceRef,
    PocketRef,
    SheetRef,
    Span,
    StepRef,
    Weight,
    Words,
    degrees_text,
    extent_text,
    length_text,
    own_text,
)
from booklet.content.ways import may_lead
from booklet.drawing.shapes.fonts import Font, cap_height
from booklet.drawing.writers.pdf_fonts import pdf_font_name
from booklet.drawing.writers.pdf_writer import draw_figure
from booklet.measure.cache import cached_on
from booklet.pages.canvas import BookletCanvas
from booklet.pages.flow import ENDLESS
from booklet.pages.hyphens import hyphenated
from booklet.pages.marks import Mark, cut_mark, pocket_mark, step_mark
from booklet.pages.type import hex_colour

# What reportlab makes of words that are set alike, of a line's end, or of a mark: it has no public type.
Fragment = Any

NO_BREAK = "\u00a0"
_MARK = "mark"
# A word is hyphenated where it is wider than its column, or of so many letters and of this share of it.
_LONG, _WIDE = 12, 0.4
# The last word keeps the one before it, if neither has more letters than these.
_SHORT_LAST, _SHORT_BEFORE = 9, 12
# Fewer words than these are a name rather than a text.
_LEAST_WORDS = 6
# So many lines of a paragraph at least stand on each page.
_LEAST_LINES = 2
# Letters are about so wide, in parts of their size, at most.
_LETTER = 0.62
_ALL = slice(None)


class TextBlock(Paragraph):  # type: ignore[misc]  # reportlab carries no types
    """A line of content as a paragraph, or some of its lines where it goes on over the page."""

    def __init__(self, style: ParagraphStyle, said: Line, lines: slice = _ALL) -> None:
        super().__init__("", style, frags=[])
        self.said, self.lines = said, lines
        self.broken_at: float | None = None

    def wrap(self, width: float, height: float) -> tuple[float, float]:  # noqa: ARG002 (the flowable protocol)
        """As wide as the room, as high as its lines."""
        if width != self.broken_at:
            self.width = self.broken_at = width
            self.frags, broken = _broken(self.style, self.said, width)
            is_whole = self.lines == _ALL
            self.blPara = broken if is_whole else broken.clone(lines=broken.lines[self.lines])
            self.height = len(self.blPara.lines) * self.style.leading
        return width, self.height

    def split(self, width: float, height: float) -> list[Flowable]:
        """The lines that a height has room for, and the others; nothing where a line would stand alone.

        Both keep their breaks; reportlab breaks the rest anew, and fails at a word that it has hyphenated.
        """
        self.wrap(width, height)
        count, fitting = len(self.blPara.lines), int(height / self.style.leading)
        if count <= fitting:
            return [self]
        fitting -= fitting == count - 1
        if fitting < _LEAST_LINES:
            return []
        first = self.lines.start or 0
        parts = (slice(first, first + fitting), slice(first + fitting, self.lines.stop))
        return [TextBlock(self.style, self.said, lines) for lines in parts]

    @property
    def line_texts(self) -> list[str]:
        """What stands on each line of the whole paragraph, in the width that it has been wrapped in."""
        broken = self.whole_lines
        if broken.kind:
            return ["".join(held.text for held in line.words) for line in broken.lines]
        return [" ".join(words) for _, words in broken.lines]

    @property
    def whole_lines(self) -> Any:
        """The lines of the whole paragraph as reportlab has them, in the width that it was wrapped in."""
        return _broken(self.style, self.said, self.width)[1]

    def draw(self) -> None:
        """Draw the words and the marks among them; what leads somewhere is known by now."""
        canvas = cast(BookletCanvas, self.canv)
        canvas.note(self)
        canvas.setNamedCB(_MARK, _draw_mark)
        for held in self._as_set():
            span = getattr(held, "span", None)
            if span is not None:
                goal = canvas.goal_of(span)
                held.link = [] if goal is None else [(0, f"#{goal}")]
        super().draw()

    def _as_set(self) -> Iterator[Fragment]:
        """What is set alike, in order: the whole paragraph, or the words of each of its lines."""
        if not self.blPara.kind:
            yield self.blPara
            return
        for line in getattr(self.blPara, "lines", ()):
            yield from line.words


@cached_on
def _broken(style: ParagraphStyle, said: Line, width: float) -> tuple[list[Fragment], Any]:
    """The fragments of a line in a column of a width, and their lines as reportlab breaks them.

    Pages are tried, tables ask for heights twice, and many lines of a booklet are alike.  What fits one line
    is set once, however wide its room.
    """
    is_left = style.alignment == TA_LEFT
    fits = is_left and not _has_break(said) and line_width(said, style) <= width
    return _broken_at(style, said, ENDLESS if fits else width)


@cached_on
def _broken_at(style: ParagraphStyle, said: Line, width: float) -> tuple[list[Fragment], Any]:
    made = _fitted(_without_lone_word(fragments(said, style)), width, style.language)
    block = Paragraph("", style, frags=made)
    block.wrap(max(width, 1.0), 0.0)
    return block.frags, block.blPara


def _has_break(said: Line) -> bool:
    return any(isinstance(span, LineBreak) for span in said)


def paragraph(said: Line, style: ParagraphStyle) -> TextBlock:
    """A line of content as a paragraph; the last word of a longer text does not stand alone on a line."""
    return TextBlock(style, said)


def line_width(said: Line, style: ParagraphStyle) -> float:
    """How wide a line of content runs when nothing breaks it, in points."""
    return _line_width(style, said)


@cached_on
def _line_width(style: ParagraphStyle, said: Line) -> float:
    widths = (stringWidth(held.text, held.fontName, held.fontSize) for held in fragments(said, style))
    return float(sum(widths))


def widest_word(said: Line, style: ParagraphStyle) -> float:
    """The width of the widest word of a line, in points."""
    words = (
        stringWidth(word, held.fontName, held.fontSize)
        for held in fragments(said, style)
        for word in held.text.split(" ")
    )
    return max(words, default=0.0)


# Spans to fragments.


def fragments(said: Line, style: ParagraphStyle) -> list[Fragment]:
    """What reportlab sets of a line: its spans in order, each number of a step, cut or pocket in its sign."""
    made: list[Fragment] = []
    for span in said:
        if made and isinstance(span, StepRef | CutRef | PocketRef):
            made[-1].text = _held(made[-1].text)
        made += _of_span(span, style)
    return made


def _held(text: str) -> str:
    """Words whose last one keeps what follows it on its line."""
    before, space, nothing = text.rpartition(" ")
    is_short = len(before.rpartition(" ")[2]) <= _SHORT_BEFORE
    return f"{before}{NO_BREAK}" if space and not nothing and is_short else text


def _of_span(span: Span, style: ParagraphStyle) -> list[Fragment]:
    size, palette = style.fontSize, style.palette
    match span:
        case Words():
            return [_set(span.text, style, span.weight)]
        case Own():
            return _leading([_set(own_text(span), style, span.weight)], span)
        case Number():
            return [_set(span.text, style, span.weight)]
        case Length():
            return [_set(length_text(span), style, span.weight)]
        case Extent():
            return [_set(extent_text(span), style, span.weight)]
        case Degrees():
            return [_set(degrees_text(span), style)]
        case PieceRef():
            return _leading([_set(span.text, style, Weight.STRONG)], span)
        case SheetRef():
            return _leading([_set(str(span.number), style, Weight.STRONG)], span)
        case StepRef():
            return marked(step_mark(span.number, palette, size), style)
        case CutRef():
            return marked(cut_mark(span.number, palette, size), style)
        case PocketRef():
            return _leading(marked(pocket_mark(span.name, palette, size), style), span)
        case LineBreak():
            return [_break(style).clone()]


def _leading(made: list[Fragment], span: Span) -> list[Fragment]:
    """Fragments that may lead somewhere, which shows when they are drawn.

    The link tells them until then from what is set alike beside them.
    """
    for held in made if may_lead(span) else ():
        held.span, held.link = span, [(0, span)]
    return made


def _set(text: str, style: ParagraphStyle, weight: Weight = Weight.NORMAL) -> Fragment:
    plain = _plain(style)
    match weight:
        case Weight.NORMAL:
            return plain.clone(text=text)
        case Weight.STRONG:
            return plain.clone(text=text, fontName=style.strongFont)
        case Weight.QUIET:
            return plain.clone(text=text, fontName=style.quietFont)


@cached_on
def _plain(style: ParagraphStyle) -> Fragment:
    return Paragraph("x", style).frags[0]


@cached_on
def _break(style: ParagraphStyle) -> Fragment:
    return Paragraph("<br/>", style).frags[-1]


def marked(mark: Mark, style: ParagraphStyle) -> list[Fragment]:
    """A sign in a line: its number as text in no-break spaces, and what draws the sign about it."""
    bold, plain = pdf_font_name(Font.SANS_BOLD), _plain(style)
    room = (mark.width - stringWidth(mark.number, bold, mark.size)) / 2
    raised = (cap_height(Font.SANS, style.fontSize) - cap_height(Font.SANS_BOLD, mark.size)) / 2
    colour = hex_colour(mark.colour)
    number = plain.clone(text=mark.number, fontName=bold, fontSize=mark.size, rise=raised, textColor=colour)
    drawn = plain.clone(text="", cbDefn=ABag(kind="onDraw", name=_MARK, label=(mark, style.fontSize)))
    return [_room(room, style), number, _room(room, style), drawn]


def _room(width: float, style: ParagraphStyle) -> Fragment:
    """No-break spaces that take a width in points."""
    plain = _plain(style)
    space = stringWidth(NO_BREAK, plain.fontName, style.fontSize)
    count = max(1, ceil(width / space))
    size = style.fontSize * width / (count * space)
    return plain.clone(text=NO_BREAK * count, fontSize=size, is_room=True)


def _draw_mark(canvas: BookletCanvas, kind: str, label: tuple[Mark, float]) -> None:  # noqa: ARG001
    mark, size = label
    place = cast(Any, canvas)._curr_tx_info
    middle = place["cur_y"] + cap_height(Font.SANS, size) / 2
    left = place["cur_x"] - mark.width + mark.side
    draw_figure(mark.figure, canvas.resources, left, middle + mark.figure.height / 2)


# Fragments to lines.


def _without_lone_word(made: list[Fragment]) -> list[Fragment]:
    """Fragments whose last word, if it is short, keeps the one before it."""
    if sum(held.text.count(" ") for held in made) < _LEAST_WORDS:
        return made
    after = 0
    for held in reversed(made):
        if hasattr(held, "lineBreak") or hasattr(held, "is_room"):
            break
        text = held.text.rstrip(" ") if not after else held.text
        before, space, last = text.rpartition(" ")
        if space:
            long_before = len(before.rpartition(" ")[2]) > _SHORT_BEFORE
            if before and 0 < len(last) + after <= _SHORT_LAST and not long_before:
                held.text = f"{before}{NO_BREAK}{last}"
            break
        after += len(last)
    return made


def _fitted(made: list[Fragment], width: float, language: str) -> list[Fragment]:
    """Fragments whose long words may be broken with a hyphen, in a column of a width in points."""
    for held in made:
        if not (hasattr(held, "is_room") or hasattr(held, "cbDefn") or not held.text.strip()):
            held.text = " ".join(_fitted_words(held, width, language))
    return made


def _fitted_words(held: Fragment, width: float, language: str) -> Iterator[str]:
    def wide(word: str) -> float:
        return cast(float, stringWidth(word, held.fontName, held.fontSize))

    longest = max(4, int(width / (_LETTER * held.fontSize)) - 1)
    for kept in held.text.split(" "):
        if wide(kept) <= _WIDE * width:
            yield kept
            continue
        # What is kept together gives way where no line holds it.
        for word in kept.split(NO_BREAK) if wide(kept) > width else [kept]:
            is_long = len(word) >= _LONG and wide(word) > _WIDE * width
            if is_long or wide(word) > width:
                yield NO_BREAK.join(hyphenated(part, language, longest) for part in word.split(NO_BREAK))
            else:
                yield word
