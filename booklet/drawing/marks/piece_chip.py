"""Chips on pieces: bold letters, words under them, on a white ground; as much as the piece has room for."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from booklet.drawing.shapes.affine import Point, box_about
from booklet.drawing.shapes.figure import Anchor, Fill, Group, Text, filled_box
from booklet.drawing.shapes.fonts import Font, cap_height, text_width
from booklet.drawing.shapes.style import DrawingStyle
from booklet.measure.dataclass import dataclass

_LEADING = 4.4
_SIDE, _TOP = 6.0, 4.6
# In a narrow piece.
_TIGHT_SIDE, _TIGHT_TOP = 1.5, 3.0
_SMALLER = (1.0, 0.85, 0.7)  # down to 9 pt
_RADIUS = 3.0
# What a chip leaves free at the edges of its piece.
_MARGIN = 1.6


@dataclass(frozen=True)
class ChipForm:
    """What a chip says and how large it is: rows of letters, of `letter_size`, rows of words; in points."""

    letters: tuple[str, ...]
    words: tuple[str, ...]
    letter_size: float
    width: float
    height: float
    top: float

    def fits(self, width: float, height: float) -> bool:
        """Whether a piece of this size has room for it."""
        return self.width <= width - 2 * _MARGIN and self.height <= height - 2 * _MARGIN


def chip_form(
    letters: Sequence[str], words: Sequence[str], width: float, height: float, style: DrawingStyle
) -> ChipForm | None:
    """The fullest chip for a piece of this size; None where not even its letters have room."""
    forms = chip_forms(letters, words, style)
    return next((form for form in forms if form.fits(width, height)), None)


def chip_forms(letters: Sequence[str], words: Sequence[str], style: DrawingStyle) -> Iterator[ChipForm]:
    """The forms that a chip may take, the fullest first."""
    row, column = (" ".join(letters),), tuple(letters)
    size = style.label_size
    for kept in range(len(words), -1, -1):
        yield _form(row, words[:kept], size, _SIDE, _TOP, style)
    for share in _SMALLER:
        yield _form(row, (), size * share, _TIGHT_SIDE, _TIGHT_TOP, style)
        if len(column) > 1:
            yield _form(column, (), size * share, _TIGHT_SIDE, _TIGHT_TOP, style)


def _form(
    letters: Sequence[str], words: Sequence[str], size: float, side: float, top: float, style: DrawingStyle
) -> ChipForm:
    widths = [text_width(row, Font.SANS_BOLD, size) for row in letters]
    widths += [text_width(row, Font.SANS, style.note_size) for row in words]
    height = len(letters) * cap_height(Font.SANS_BOLD, size) + (len(letters) - 1) * _LEADING + 2 * top
    height += len(words) * (cap_height(Font.SANS, style.note_size) + _LEADING)
    width = max(widths) + 2 * side
    return ChipForm(
        tuple(letters), tuple(words), size, max(width, height if side == _SIDE else 0), height, top
    )


def chip_shapes(form: ChipForm, centre: Point, style: DrawingStyle) -> Group:
    """The chip about its centre."""
    box, x = box_about(centre, form.width, form.height), centre[0]
    ground = filled_box(box, Fill(style.palette.paper), radius=min(_RADIUS, box.width / 4))
    texts: list[Text] = []
    baseline = box.top + form.top - _LEADING
    for row in form.letters:
        baseline += cap_height(Font.SANS_BOLD, form.letter_size) + _LEADING
        size, ink = form.letter_size, style.palette.ink
        texts.append(Text(row, x, baseline, size, Font.SANS_BOLD, ink, Anchor.MIDDLE, role="piece"))
    for row in form.words:
        baseline += cap_height(Font.SANS, style.note_size) + _LEADING
        size, ink = style.note_size, style.palette.ink
        texts.append(Text(row, x, baseline, size, Font.SANS, ink, Anchor.MIDDLE, role="note"))
    return Group((ground, *texts), tag="chip")
