"""The paragraph styles of a booklet: one family for text, one for titles, one accent colour."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from typing import Any, Self
from xml.sax.saxutils import escape

from reportlab.lib.colors import HexColor
from reportlab.lib.enums import TA_CENTER, TA_LEFT
from reportlab.lib.styles import ParagraphStyle
from reportlab.platypus import Paragraph

from booklet.drawing.shapes.figure import Colour
from booklet.drawing.shapes.fonts import Font, pdf_font_name
from booklet.drawing.shapes.style import Palette
from booklet.measure.exact import Fraction
from booklet.measure.words import print_fraction
from booklet.pages.grid import TypeSizes


@dataclass(frozen=True)
class Styles:
    """Every paragraph style that a page may use."""

    body: ParagraphStyle
    body_bold: ParagraphStyle
    small: ParagraphStyle
    small_bold: ParagraphStyle
    small_centre: ParagraphStyle
    note: ParagraphStyle
    lead: ParagraphStyle
    kicker: ParagraphStyle
    title: ParagraphStyle
    display: ParagraphStyle
    heading: ParagraphStyle
    subtitle: ParagraphStyle
    step: ParagraphStyle
    step_tight: ParagraphStyle


@lru_cache(maxsize=8)
def make_styles(palette: Palette, sizes: TypeSizes) -> Styles:
    """The styles for a palette and a set of type sizes."""
    ink = _hex(palette.ink)
    sans, bold, serif = (pdf_font_name(f) for f in (Font.SANS, Font.SANS_BOLD, Font.SERIF_BOLD))
    italic = pdf_font_name(Font.SANS_ITALIC)
    _map_family(sans, bold, italic)

    def style(name: str, font: str, size: float, leading: float, **more: Any) -> ParagraphStyle:
        options = {
            "textColor": ink,
            "splitLongWords": 1,
            "allowWidows": 0,
            "allowOrphans": 0,
            # Words keep their distance, and no line is longer than its room (reportlab's default: 0.05).
            "spaceShrinkage": 0,
            **more,
        }
        return ParagraphStyle(name, fontName=font, fontSize=size, leading=leading, **options)

    body = (sizes.body, sizes.leading)
    small = (sizes.small, sizes.small_leading)
    accent = _hex(palette.accent)
    return Styles(
        body=style("body", sans, *body),
        body_bold=style("body bold", bold, *body),
        small=style("small", sans, *small),
        small_bold=style("small bold", bold, *small),
        small_centre=style("small centre", sans, *small, alignment=TA_CENTER),
        note=style("note", italic, *small, textColor=_hex(palette.soft_ink)),
        lead=style("lead", sans, sizes.lead, sizes.lead_leading),
        kicker=style("kicker", bold, sizes.kicker, sizes.kicker * 1.25, textColor=accent),
        title=style("title", serif, sizes.title, sizes.title * 1.16),
        display=style("display", serif, sizes.title * 1.6, sizes.title * 1.75),
        heading=style("heading", bold, sizes.heading, sizes.heading * 1.3),
        subtitle=style("subtitle", serif, sizes.subtitle, sizes.subtitle * 1.2),
        step=style("step", sans, sizes.step, sizes.step_leading),
        step_tight=style("step tight", sans, sizes.small, sizes.small * 1.2),
    )


def _map_family(sans: str, bold: str, italic: str) -> None:
    """Let <b> and <i> in a paragraph find the family's own faces."""
    from reportlab.lib.fonts import addMapping

    for name in (sans, bold, italic):
        addMapping(name, 0, 0, name)
        addMapping(name, 1, 0, bold)
        addMapping(name, 0, 1, italic)
        addMapping(name, 1, 1, bold)


def _hex(colour: Colour) -> HexColor:
    return HexColor(colour.hex)


# What reportlab makes of words that are set alike, of a line's end, or of a mark: it has no public type.
Fragment = Any


class TextBlock(Paragraph):  # type: ignore[misc]  # reportlab carries no types
    """A paragraph that breaks its lines once for a width: pages are tried, tables ask for heights twice."""

    _broken: tuple[float, tuple[float, float]] | None = None

    @classmethod
    def of(cls, style: ParagraphStyle, *fragments: Fragment) -> Self:
        """A paragraph of words that are told apart already: there is no markup to read."""
        return cls("", style, frags=list(fragments))

    def wrap(self, width: float, height: float) -> tuple[float, float]:
        """As wide as the room, as high as its lines."""
        # A split that finds no room for two lines forgets the lines that were broken.
        if self._broken is None or self._broken[0] != width or not hasattr(self, "blPara"):
            self._broken = width, super().wrap(width, height)
        return self._broken[1]


# A last line is short below this share of its room; the line before it stays at least this share as long.
_SHORT = 0.5
# How many words a line must have before one of them may go: two stay.
_LEAST_WORDS = 3
_STOPS = (".", "?", "!")
# Less than any space is wide, in points, and more than sums of widths are out.
_LESS = 0.01


class Prose(TextBlock):
    """A paragraph that leaves no short word alone on the last line before its end, or before a new line.

    The word before it comes down to it.  No text grows by a line for that.
    """

    def breakLines(self, width: Sequence[float]) -> Any:  # noqa: N802 (reportlab's name)
        """The lines as reportlab breaks them, in less room where a line must give its last word up.

        `width` is the room of the first line and of all later ones, in points.
        """
        usual = super().breakLines(width)
        if len(usual.lines) < 2 or self.style.alignment != TA_LEFT:
            return usual
        rooms = [width[0], *[width[-1]] * (len(usual.lines) - 1)]
        lines = _measured(usual, rooms)
        lone = [
            at
            for at in range(1, len(lines))
            if _is_lone(lines, at, rooms[at]) and not _ends_sentence(usual, at - 1)
        ]
        if not lone:
            return usual
        for at in lone:
            rooms[at - 1] = lines[at - 1].used - _LESS
        held = super().breakLines(rooms)
        if _is_as_good(lines, _measured(held, rooms), lone):
            return held
        return super().breakLines(width)


@dataclass(frozen=True)
class _Line:
    """How many words a line holds, how wide they are in points, and whether they end a stretch."""

    words: int
    used: float
    is_end: bool


def _measured(broken: Any, rooms: Sequence[float]) -> list[_Line]:
    """Lines that reportlab has broken: of one run of words they are bare pairs, of several they say more."""
    last = len(broken.lines) - 1
    if broken.kind:
        return [
            _Line(line.wordCount, line.maxWidth - line.extraSpace, line.lineBreak or at == last)
            for at, line in enumerate(broken.lines)
        ]
    return [
        _Line(len(held), room - spare, at == last)
        for at, ((spare, held), room) in enumerate(zip(broken.lines, rooms, strict=False))
    ]


def _is_lone(lines: Sequence[_Line], at: int, room: float) -> bool:
    """Whether a line is one short word at the end of a stretch, and the line before has one to give."""
    line, before = lines[at], lines[at - 1]
    alone = line.is_end and line.words == 1 and line.used < _SHORT * room
    return alone and not before.is_end and before.words >= _LEAST_WORDS


def _ends_sentence(broken: Any, at: int) -> bool:
    """Whether a line ends with a sentence: its last word belongs to what stands before it."""
    line = broken.lines[at]
    last = "".join(held.text for held in line.words).rstrip() if broken.kind else line[1][-1]
    return bool(last.endswith(_STOPS))


def _is_as_good(usual: Sequence[_Line], held: Sequence[_Line], lone: Sequence[int]) -> bool:
    """Whether no line was added, no word broken, and no line left much shorter than the last one under it."""
    return [line.words for line in held] == [
        line.words + (at in lone) - (at + 1 in lone) for at, line in enumerate(usual)
    ] and all(held[at - 1].used >= _SHORT * held[at].used for at in lone)


def words(text: str, style: ParagraphStyle) -> Paragraph:
    """A paragraph of plain words, nothing in them read as markup: there is nothing to parse."""
    return Prose.of(style, run(text, style))


def cell_words(text: str, style: ParagraphStyle) -> Paragraph:
    """Plain words as a paragraph in a table's cell: a name that takes two lines is no prose."""
    return TextBlock.of(style, run(text, style))


def tip_words(tip: str, style: ParagraphStyle) -> Paragraph:
    """A tip as a paragraph that says so."""
    return Prose.of(style, bold("Tip", style), run(f" {tip}", style))


def line_break(style: ParagraphStyle) -> Fragment:
    """Where a paragraph goes on with a new line."""
    return fragment("<br/>", style)


def run(text: str, style: ParagraphStyle, markup: str = "word") -> Fragment:
    """Words that are set alike within a paragraph; `markup` shows how, with `word` in their place."""
    return fragment(markup, style).clone(text=typographic(text))


def bold(text: str, style: ParagraphStyle) -> Fragment:
    """Bold words within a paragraph."""
    return run(text, style, "<b>word</b>")


@lru_cache(maxsize=512)
def fragment(markup: str, style: ParagraphStyle) -> Fragment:
    """The last of what reportlab reads in some markup; paragraphs may share it, as nothing changes it."""
    return Paragraph(markup, style).frags[-1]


def escaped(text: str) -> str:
    """Words from a spec as part of a markup: nothing in them read as markup, quotes and fractions set."""
    return escape(typographic(text))


# Quotes as they are typed: opening after a space, a dash or a bracket, closing after anything else; an inch
# mark after a figure stays as it is.
_OPENING = re.compile(r"(^|[\s(\[\u2013\u2014\u201c\u2018])([\"'])")
_CLOSING = re.compile(r"(?<!\d)\"|'")


# A typed fraction: proper, in the parts of a ruler, and no date or ratio of more than two numbers.
_BY = re.compile(r"(?<=[\d₀₁₂₃₄₅₆₇₈₉]) x (?=[\d⁰¹²³⁴⁵⁶⁷⁸⁹])")
_FRACTION = re.compile(r"(?<![\d/.])(?:(\d{1,3})[ -])?(\d{1,2})/(2|3|4|8|16|32|64)(?![\d/])")


def _set_fraction(found: re.Match[str]) -> str:
    part = Fraction(int(found[2]), int(found[3]))
    return (found[1] or "") + print_fraction(part) if 0 < part < 1 else found[0]


def typographic(text: str) -> str:
    """Round quotes, set fractions, real signs of times: `the page's 4 1/2 x 6` -> `the page’s 4¹⁄₂ × 6`."""
    if "/" in text:
        text = _FRACTION.sub(_set_fraction, text)
    if " x " in text:
        text = _BY.sub("\u00a0×\u00a0", text)
    if "'" not in text and '"' not in text:
        return text
    opened = _OPENING.sub(lambda found: found[1] + ("“" if found[2] == '"' else "‘"), text)
    return _CLOSING.sub(lambda found: "”" if found[0] == '"' else "’", opened)


def rich(markup: str, style: ParagraphStyle) -> Paragraph:
    """A paragraph of markup that the booklet itself made; words from a spec go through `escape` first."""
    return Prose(markup, style)
