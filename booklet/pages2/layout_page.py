"""A layout on its page: what it needs beside the numbered finished page, and the steps below."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from functools import partial

from reportlab.platypus import Flowable

from booklet.content.artist import Room
from booklet.content.blocks import Block, LayoutView, Need, Section, StepItem, StepList
from booklet.content.spans import StepRef
from booklet.drawing.shapes.scale import ROUND_SCALES, Scale
from booklet.pages2.boxes import FigureBox, SideBySide, Stack, spaced
from booklet.pages2.flow import Column, break_story, story_height
from booklet.pages2.head import continued_head, section_head
from booklet.pages2.pictures import scale_words
from booklet.pages2.setup import PageSetup, drawn
from booklet.pages2.steps import step_list
from booklet.pages2.story import story
from booklet.pages2.text import paragraph

# The column of needs beside the figure: its least and its greatest width, in points.
_LEAST_NEEDS, _MOST_NEEDS = 64.0, 96.0
_GUTTER = 10.0
_NEED_PICTURE = 22.0
# A numbered figure is at least so wide, so that its rings have room, and a step's own figure so wide.
_LEAST_FIGURE = 150.0
_STEP_FIGURE = 74.0
# The space between two steps in points, the airiest first.
_STEP_GAPS = (6.5, 5.0, 3.6, 2.2)
_BELOW_FIGURE = 9.0


def layout_pages(setup: PageSetup, section: Section, *, is_left: bool) -> tuple[Column, ...]:
    """The pages of a layout: one where its steps fit below the figure, else as many as they take.

    The figure is drawn as large as the steps allow.  What is needed stands at the page's outer edge.
    """
    width, height = setup.grid.text_width, setup.grid.text_height
    view = next(block for block in section.blocks if isinstance(block, LayoutView))
    scales = _scales(setup, view)
    for scale in scales:
        for gap in _STEP_GAPS:
            parts = _parts(setup, section, view, scale, gap, is_left=is_left)
            if story_height(parts, width) <= height:
                return break_story(parts, width, height)
    parts = _parts(setup, section, view, scales[0], _STEP_GAPS[1], is_left=is_left)
    return break_story(parts, width, height, partial(continued_head, setup, section))


def _scales(setup: PageSetup, view: LayoutView) -> list[Scale]:
    """The scales at which the numbered figure is neither too wide for what is needed nor too small."""
    most = setup.grid.text_width - _GUTTER - _LEAST_NEEDS
    widths = [(scale, setup.measure(view.picture.figure, scale)[0]) for scale in ROUND_SCALES]
    fitting = [scale for scale, wide in widths if _LEAST_FIGURE <= wide <= most]
    return fitting or [next((scale for scale, wide in widths if wide <= most), ROUND_SCALES[-1])]


def _parts(
    setup: PageSetup, section: Section, view: LayoutView, scale: Scale, gap: float, *, is_left: bool
) -> list[Flowable]:
    """Everything of a layout in order: its head, the figure with what is needed, the steps, the rest."""
    width = setup.grid.text_width
    parts = [*section_head(setup, section, width)]
    for block in section.blocks:
        if block is view:
            steps = [step for each in section.blocks if isinstance(each, StepList) for step in each.steps]
            parts.append(spaced(_view(setup, view, steps, scale, is_left=is_left), 0.0, _BELOW_FIGURE))
        elif isinstance(block, StepList):
            parts += step_list(setup, block, width, gap)
        else:
            parts += _other(setup, block, width)
    return parts


def _other(setup: PageSetup, block: Block, width: float) -> list[Flowable]:
    return story(setup, (block,), width)


def _view(
    setup: PageSetup, view: LayoutView, steps: Sequence[StepItem], scale: Scale, *, is_left: bool
) -> Flowable:
    """The numbered figure, and beside it what is needed and what the finished page hides."""
    figure = drawn(setup, view.picture.figure, Room(setup.grid.text_width, scale=scale))
    room = setup.grid.text_width - figure.width - _GUTTER
    needed = min(room, _MOST_NEEDS)
    pictured = [FigureBox(figure), spaced(scale_words(setup, figure), 2.0, 0.0)]
    beside = [*_needs(setup, view, needed), *_hidden(setup, steps, needed)]
    columns: list[tuple[Sequence[Flowable], float]] = [(beside, needed), (pictured, figure.width)]
    gutter = _GUTTER + room - needed
    return SideBySide(columns if is_left else columns[::-1], gutter)


def _needs(setup: PageSetup, view: LayoutView, width: float) -> Iterator[Flowable]:
    yield spaced(paragraph(view.title, setup.styles.cell_strong), 0.0, 3.0)
    for need in view.needs:
        yield spaced(_need(setup, need, width), 0.0, 3.0)


def _need(setup: PageSetup, need: Need, width: float) -> Flowable:
    if need.picture is None:
        return paragraph(need.text, setup.styles.cell)
    figure = drawn(setup, need.picture.figure, Room(_NEED_PICTURE, _NEED_PICTURE))
    rest = width - _NEED_PICTURE - 4.0
    said = [paragraph(need.text, setup.styles.cell)]
    return SideBySide([([FigureBox(figure)], _NEED_PICTURE), (said, rest)], 4.0, middle=True)


def _hidden(setup: PageSetup, steps: Sequence[StepItem], width: float) -> Iterator[Flowable]:
    """The figures of the steps that the finished page hides, each with its step's ring."""
    for step in steps:
        if step.picture is not None:
            figure = drawn(setup, step.picture.figure, Room(min(width - 18.0, _STEP_FIGURE)))
            ring = paragraph((StepRef("", step.number),), setup.styles.cell)
            columns: list[tuple[Sequence[Flowable], float]] = [
                ([ring], 17.0),
                ([FigureBox(figure)], figure.width),
            ]
            yield spaced(Stack([SideBySide(columns, 1.0)]), 6.0, 0.0)
