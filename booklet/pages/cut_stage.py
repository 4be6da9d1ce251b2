"""A stage at the trimmer on paper: what is taken and turned, the figure, the slip beside it, the lens."""

from __future__ import annotations

from collections.abc import Sequence

from reportlab.platypus import Flowable, Spacer

from booklet.content.artist import Room
from booklet.content.blocks import CutSlip, CutStage, Lens, Paragraph, Picture, SlipRow, Tone
from booklet.content.figures import TurnFigure
from booklet.content.spans import Words, line
from booklet.drawing.shapes.scale import Scale
from booklet.measure.cache import cached_on
from booklet.measure.dataclass import dataclass
from booklet.pages.blocks import text_paragraph
from booklet.pages.boxes import FigureBox, Rule, SideBySide, Stack, TickBox, spaced
from booklet.pages.flow import story_height
from booklet.pages.pictures import scale_words
from booklet.pages.setup import PageSetup, drawn, measured
from booklet.pages.text import line_width, paragraph

_GUTTER = 10.0
# The least width of a slip, in points: a disc, a reading, the name of a piece, a pocket and a box to tick.
_LEAST_SLIP = 117.0
_DISC_COLUMN = 19.0
_BOX_COLUMN = 11.0
_COLUMN_GAP = 5.0
# After a row of a slip, and between the rows of one cut, so that their pockets stand apart.
_ROW_GAP, _WITHIN_CUT = 1.8, 1.7
_RULE = 0.4
# From a stage to what is done by hand after it.
_HAND_GAP = 6.0
_TURN_SIDE = 21.0
_HEADING_GAP = 5.0
# The scale of a figure: the column that it has beside a heading, and the space above it below a figure.
_SCALE_COLUMN, _SCALE_GAP = 46.0, 2.0
# What is said of a lens stands beside it where so much room is left, else above it.
_LENS_WORDS = 74.0


def stage_height(setup: PageSetup, stage: CutStage, scale: Scale) -> float | None:
    """How high a stage stands at a scale, from the sizes of its parts; None where no slip fits beside it."""
    width, height = measured(setup, stage.picture.figure, scale)
    room = setup.grid.text_width - width - _GUTTER
    if room < _LEAST_SLIP:
        return None
    beside = story_height(slip(setup, stage.slip, room), room)
    below = 0.0 if _scale_in_heading(setup, stage) else setup.styles.small.leading + _SCALE_GAP
    return _around(setup, stage) + max(height + below, beside)


@cached_on
def _around(setup: PageSetup, stage: CutStage) -> float:
    """How high all is that stands above and below a stage's figure: the same at every scale."""
    parts = [*_above(setup, stage, ()), Spacer(0, 0), *_below(setup, stage)]
    return story_height(parts, setup.grid.text_width)


def stage_box(setup: PageSetup, stage: CutStage, scale: Scale) -> Flowable:
    """A stage at a scale: its heading and tips, its figure with the slip beside it, its lens.

    The scale stands at the end of the heading, or below the figure where a heading has no room for it.
    """
    figure = drawn(setup, stage.picture, Room(setup.grid.text_width, scale=scale))
    room = setup.grid.text_width - figure.width - _GUTTER
    scale_said = scale_words(setup, figure)
    is_above = _scale_in_heading(setup, stage)
    pictured = [FigureBox(figure), *([] if is_above else [spaced(scale_said, _SCALE_GAP, 0.0)])]
    row = SideBySide([(pictured, figure.width), (slip(setup, stage.slip, room), room)], _GUTTER)
    width = line_width((Words(figure.scale),), setup.styles.small)
    box = Stack(
        [*_above(setup, stage, [([scale_said], width)] if is_above else []), row, *_below(setup, stage)]
    )
    box.anchor = stage.anchor
    return box


def _scale_in_heading(setup: PageSetup, stage: CutStage) -> bool:
    """Whether a heading leaves room for the scale of the figure in its last line."""
    columns = _heading_columns(setup, stage)
    if not columns:
        return False
    (words,), width = columns[-1]
    return bool(words.wrap(width, 0.0)[1] == words.wrap(width - _SCALE_COLUMN - _COLUMN_GAP, 0.0)[1])


def _heading_columns(setup: PageSetup, stage: CutStage) -> list[tuple[Sequence[Flowable], float]]:
    """The arrow of a turn and the words of a heading, each with its width."""
    if not stage.heading:
        return []
    arrow = (
        drawn(setup, Picture(TurnFigure(stage.turn), ()), Room(_TURN_SIDE, _TURN_SIDE))
        if stage.turn
        else None
    )
    signs = [([FigureBox(arrow)], arrow.width)] if arrow else []
    rest = setup.grid.text_width - sum(sign + _COLUMN_GAP for _, sign in signs)
    return [*signs, ([paragraph(stage.heading, setup.styles.group)], rest)]


def _above(
    setup: PageSetup, stage: CutStage, scale_said: Sequence[tuple[Sequence[Flowable], float]]
) -> list[Flowable]:
    parts: list[Flowable] = []
    width = setup.grid.text_width
    columns = _heading_columns(setup, stage)
    if columns and scale_said:
        words, room = columns.pop()
        columns += [(words, room - sum(width + _COLUMN_GAP for _, width in scale_said)), *scale_said]
    if columns:
        parts.append(spaced(SideBySide(columns, _COLUMN_GAP, middle=True), 0.0, _HEADING_GAP))
    for tip in stage.tips:
        parts += text_paragraph(setup, Paragraph(tip, Tone.TIP), width)
    return parts


def _below(setup: PageSetup, stage: CutStage) -> list[Flowable]:
    """The lens, and what is done by hand, over the whole width."""
    parts = [spaced(_lens(setup, stage.lens), 5.0, 0.0)] if stage.lens else []
    if stage.work is None:
        return parts
    rows = slip(setup, stage.work, setup.grid.text_width)
    return [*parts, spaced(Stack(rows), _HAND_GAP, 0.0)]


def _lens(setup: PageSetup, lens: Lens) -> Flowable:
    """The piece of scale at true size, its title and what to do with it beside or above."""
    width = setup.grid.text_width
    figure = drawn(setup, lens.picture, Room(width))
    title = paragraph(lens.title, setup.styles.cell_strong)
    said = paragraph(lens.text, setup.styles.cell)
    rest = width - figure.width - _COLUMN_GAP
    if rest >= _LENS_WORDS:
        return SideBySide([([title, said], rest), ([FigureBox(figure)], figure.width)], _COLUMN_GAP)
    both = paragraph(line(lens.title, " ", lens.text), setup.styles.cell)
    return Stack([spaced(both, 0.0, 3.0), FigureBox(figure)])


# The slip.


def slip(setup: PageSetup, block: CutSlip, width: float) -> list[Flowable]:
    """The rows of a slip in a column of a width in points, a thin rule under each cut."""
    columns = _columns(setup, block, width)
    parts: list[Flowable] = [spaced(_slip_head(setup, block, columns), 0.0, 1.5)]
    for at, row in enumerate(block.rows):
        goes_on = at + 1 < len(block.rows) and not (block.rows[at + 1].cut or block.rows[at + 1].instead)
        after = _WITHIN_CUT if goes_on else _ROW_GAP
        parts += [spaced(part, 0.0, after) for part in _slip_row(setup, row, columns)]
        if not goes_on and at + 1 < len(block.rows):
            parts.append(Rule(setup.palette.rule, _RULE, 0.0, _ROW_GAP))
    return parts


@dataclass(frozen=True)
class _Columns:
    """The widths of a slip's columns, in points; the last holds pockets and the box to tick."""

    disc: float
    reading: float
    said: float
    end: float

    @property
    def below(self) -> float:
        """What is said below a reading has its room as well."""
        return self.reading + self.said


def _columns(setup: PageSetup, block: CutSlip, width: float) -> _Columns:
    small = setup.styles.small
    readings = [line_width((row.reading,), setup.styles.reading) for row in block.rows if row.reading]
    reading = max([line_width(block.heads[0], small), *readings]) + _COLUMN_GAP if readings else 0.0
    pockets = [_pocket_width(setup, row) + _BOX_COLUMN for row in block.rows]
    end = max([line_width(block.heads[2], small), *pockets]) + _COLUMN_GAP
    return _Columns(_DISC_COLUMN, reading, width - _DISC_COLUMN - reading - end, end)


def _pocket_width(setup: PageSetup, row: SlipRow) -> float:
    return line_width((row.pocket,), setup.styles.step) + _COLUMN_GAP if row.pocket else 0.0


def _slip_head(setup: PageSetup, block: CutSlip, columns: _Columns) -> Flowable:
    style = setup.styles.small
    reading, outcome, filed = ([paragraph(head, style)] if head else [] for head in block.heads)
    indent = columns.end - line_width(block.heads[2], style)
    return _side_by_side(
        ([], columns.disc),
        (reading, columns.reading),
        (outcome, columns.said + indent),
        (filed, columns.end - indent + 1.0),
    )


def _slip_row(setup: PageSetup, row: SlipRow, columns: _Columns) -> list[Flowable]:
    """A row on one line where what comes off fits beside its reading, else that below it."""
    style = setup.styles.step
    said, end = [paragraph(row.said, style)], _slip_end(setup, row, columns)
    disc = [paragraph((row.cut,), setup.styles.heading)] if row.cut else []
    reading = _reading(setup, row)
    # What has no pocket and no box leaves its room to the words.
    ended = columns.end if end else 0.0
    parts: list[Flowable] = []
    if row.before:
        before = [paragraph(row.before, style)]
        parts.append(_side_by_side(([], columns.disc), (before, columns.below + columns.end)))
    if line_width(row.said, style) <= columns.said + columns.end - ended:
        room = columns.said + columns.end - ended
        one = ((disc, columns.disc), (reading, columns.reading), (said, room), (end, ended))
        return [*parts, _side_by_side(*one)]
    room = columns.below + columns.end - ended
    if not reading:
        return [*parts, _side_by_side((disc, columns.disc), (said, room), (end, ended))]
    parts.append(_side_by_side((disc, columns.disc), (reading, columns.below + columns.end)))
    return [*parts, _side_by_side(([], columns.disc), (said, room), (end, ended))]


def _reading(setup: PageSetup, row: SlipRow) -> list[Flowable]:
    if row.reading:
        return [paragraph((row.reading,), setup.styles.reading)]
    return [paragraph(row.instead, setup.styles.lead)] if row.instead else []


def _slip_end(setup: PageSetup, row: SlipRow, columns: _Columns) -> list[Flowable]:
    """The pocket and the box to tick, flush right."""
    if not row.pocket and not row.is_tick:
        return []
    chips = [paragraph((row.pocket,), setup.styles.step)] if row.pocket else []
    box = [TickBox(setup.palette.ink, setup.styles.step)] if row.is_tick else []
    width = _pocket_width(setup, row)
    return [_side_by_side(([], columns.end - _BOX_COLUMN - width), (chips, width), (box, _BOX_COLUMN))]


def _side_by_side(*columns: tuple[Sequence[Flowable], float]) -> Flowable:
    return SideBySide(columns, 0.0, middle=True)
