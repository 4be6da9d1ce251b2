"""Where on its lines a span of a paragraph stands, found by following its letters."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from reportlab.lib.enums import TA_CENTER, TA_RIGHT
from reportlab.pdfbase.pdfmetrics import stringWidth

from booklet.content.spans import CutRef, LineBreak, PocketRef, SheetRef, Span, StepRef, plain_text
from booklet.drawing.shapes.affine import Box
from booklet.measure.dataclass import dataclass
from booklet.pages.text import TextBlock

# What setting adds between letters, or leaves out there.
_BETWEEN = " \u00a0\u00ad-\u2010\n"
_SHARES = {TA_CENTER: 0.5, TA_RIGHT: 1.0}


@dataclass(frozen=True)
class _Letter:
    """A letter as it is set: on which line, and from where to where along it, in points."""

    text: str
    line: int
    start: float
    end: float


def set_spans(block: TextBlock) -> Iterator[tuple[Span, Box]]:
    """The spans of a paragraph that has been drawn, each on every line on which it stands.

    The boxes are in points from the top left corner of the paragraph.  Spans that cannot be followed, and all
    after them, are left out.
    """
    letters = list(_letters(block))
    leading, first = block.style.leading, block.lines.start or 0
    shown = range(first, first + len(block.blPara.lines))
    at = 0
    for span in block.said:
        count = _length(span, letters, at)
        if count is None:
            return
        for line in dict.fromkeys(letter.line for letter in letters[at : at + count]):
            own = [letter for letter in letters[at : at + count] if letter.line == line]
            if line in shown:
                top = (line - first) * leading
                yield span, Box(own[0].start, top, own[-1].end, top + leading)
        at += count


def _length(span: Span, letters: Sequence[_Letter], at: int) -> int | None:
    """How many letters a span takes from a place on; None where others stand there."""
    said = [letter for letter in _said(span) if letter not in _BETWEEN]
    run = [letter.text for letter in letters[at : at + len(said)]]
    return len(said) if run == said else None


def _said(span: Span) -> str:
    match span:
        case StepRef(number=number) | CutRef(number=number) | SheetRef(number=number):
            return str(number)
        case PocketRef(name=name):
            return name
        case LineBreak():
            return ""
        case _:
            return plain_text((span,))


def _letters(block: TextBlock) -> Iterator[_Letter]:
    """Every letter of the whole paragraph that is more than space, in order."""
    style, broken = block.style, block.whole_lines
    share = _SHARES.get(style.alignment, 0.0)
    for number, line in enumerate(broken.lines):
        indent = style.leftIndent + (style.firstLineIndent if number == 0 else 0.0)
        if broken.kind:
            spare, runs = line.extraSpace, [(held.text, held.fontName, held.fontSize) for held in line.words]
        else:
            spare, runs = line[0], [(" ".join(line[1]), style.fontName, style.fontSize)]
        x = indent + share * max(spare, 0.0)
        for text, font, size in runs:
            for letter in text:
                end = x + stringWidth(letter, font, size)
                if letter not in _BETWEEN:
                    yield _Letter(letter, number, x, end)
                x = end
