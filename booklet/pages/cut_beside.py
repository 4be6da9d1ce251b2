"""The words of a stage: as many as fit beside its figure, all else across the page."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

from reportlab.platypus import Flowable

from booklet.cutting.model import Stage
from booklet.drawing.shapes.figure import Figure
from booklet.drawing.shapes.scale import Scale
from booklet.drawing.shapes.style import DrawingStyle
from booklet.pages.cut_moves import Move
from booklet.pages.cut_rows import MoreRow
from booklet.pages.cut_steps import Numbered
from booklet.pages.cut_views import Views
from booklet.pages.flow import FigureBox, Stack
from booklet.pages.grid import Grid, TypeSizes
from booklet.pages.page import Laid
from booklet.pages.type import Prose, Styles, bold, line_break, make_styles, run, tip_words, words

GUTTER = 14.0
ROW_GAP = 6.0
_STEP_GAP = 7.0
# How much deeper than its figure a column of words may run, and how deep it may run beside any figure.
_WORDS_OVERRUN = 85.0
_WORDS_DEPTH = 200.0
_STEPS_TOGETHER = 4


@dataclass(frozen=True)
class Look:
    """What decides how large everything stands on a page."""

    grid: Grid
    sizes: TypeSizes
    drawing: DrawingStyle
    scale: Scale


def styles_of(look: Look) -> Styles:
    """The paragraph styles of a look."""
    return make_styles(look.drawing.palette, look.sizes)


@dataclass(frozen=True)
class Beside:
    """The steps beside a figure, those that must stand elsewhere, and the enlarged views."""

    steps: Stack
    later: tuple[Move, ...]
    views: tuple[Figure, ...]
    is_beneath: bool


def beside_words(
    spoken: Sequence[Move],
    views: Views,
    tip: str | None,
    depth: float,
    look: Look,
    width: float,
) -> Beside:
    """Words for a figure of this depth: as many steps as fit beside it, the others across the page.

    Enlarged views stand under their steps if that makes the whole no deeper, else in rows across the page.
    """
    styles = styles_of(look)
    lines = [Numbered(move.numbers, _narrow_words(move, styles), look.drawing) for move in spoken]
    tips = _tips(tip, styles)
    viewed: list[Flowable] = []
    for move, line in zip(spoken, lines, strict=True):
        viewed.append(line)
        viewed += [FigureBox(views.single[number]) for number in move.numbers if number in views.single]
    bare = stacked([*lines, *tips], width)
    full = stacked([*viewed, *tips], width)
    most = max(depth + _WORDS_OVERRUN, _WORDS_DEPTH)
    in_column = bool(views.single) or not views.shared
    if in_column and max(full.height, depth) <= min(
        max(bare.height, depth) + views_height(views.shared, look), most
    ):
        return Beside(full, (), tuple(views.single.values()), is_beneath=False)
    count = len(lines)
    while count and bare.height > most:
        count -= 1
        bare = stacked([*lines[:count], *tips], width)
    return Beside(bare, tuple(spoken[count:]), views.shared, is_beneath=True)


def stacked(parts: Sequence[Flowable], width: float) -> Stack:
    """Steps under one another, wrapped to a width in points so that their height is known."""
    steps = Stack(parts, _STEP_GAP)
    steps.wrap(width, 1000.0)
    return steps


def _tips(tip: str | None, styles: Styles) -> list[Flowable]:
    return [tip_words(tip, styles.small)] if tip else []


def _narrow_words(move: Move, styles: Styles) -> Flowable:
    style = styles.body
    lines = [part for said in move.outcome for part in (line_break(style), run(said, style))]
    return Prose.of(style, bold(move.order, style), *lines)


def _wide_words(move: Move, styles: Styles) -> Flowable:
    style = styles.body
    return Prose.of(style, bold(move.order, style), run(" " + " ".join(move.outcome), style))


def step_rows(stage: Stage, later: Sequence[Move], look: Look, width: float) -> Iterator[MoreRow]:
    """The steps that found no room beside the figure, a few to a row, across `width` points."""
    styles = styles_of(look)
    for at in range(0, len(later), _STEPS_TOGETHER):
        some = later[at : at + _STEPS_TOGETHER]
        steps = stacked(
            [Numbered(move.numbers, _wide_words(move, styles), look.drawing) for move in some], width
        )
        laid = (Laid(steps, 0.0, 0.0, width, steps.height),)
        yield MoreRow(laid, steps.height, 2, stage.cuts[-1].number, some[0].numbers[0])


@lru_cache(maxsize=16)
def marks_title(look: Look) -> Laid:
    """What enlarged views are called where they do not stand under their figure."""
    title = words("The marks between the labels, enlarged", styles_of(look).heading)
    wide, high = title.wrap(look.grid.text_width, 1000.0)
    return Laid(title, 0.0, 0.0, wide, high)


def view_rows(stage: Stage, views: Sequence[Figure], look: Look) -> Iterator[MoreRow]:
    """The enlarged views side by side, as many to a row as the page holds."""
    for row in _in_rows(views, look.grid.text_width):
        pitch = max(view.width for view in views) + GUTTER
        laid = tuple(
            Laid(FigureBox(view), at * pitch, 0.0, view.width, view.height) for at, view in enumerate(row)
        )
        height, last_step = max(view.height for view in row), stage.cuts[-1].number
        yield MoreRow(laid, height, 1, last_step, title=marks_title(look))


def _in_rows(views: Sequence[Figure], width: float) -> list[Sequence[Figure]]:
    if not views:
        return []
    widest = max(view.width for view in views)
    across = max(int((width + GUTTER) // (widest + GUTTER)), 1)
    return [views[at : at + across] for at in range(0, len(views), across)]


def views_height(views: Sequence[Figure], look: Look) -> float:
    """How deep the rows of enlarged views are on a page, the gaps under them included, in points."""
    rows = _in_rows(views, look.grid.text_width)
    return sum((max(view.height for view in row) + ROW_GAP for row in rows), start=0.0)
