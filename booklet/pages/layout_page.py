"""A layout on its page: what it needs beside the numbered finished page, and the steps below."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from functools import partial
from heapq import heappop, heappush
from itertools import pairwise, product, takewhile
from math import inf

from reportlab.platypus import Flowable, Spacer

from booklet.content.artist import Room
from booklet.content.blocks import (
    Arrangement,
    Block,
    LayoutView,
    Need,
    Paragraph,
    Picture,
    Section,
    StepItem,
    StepList,
    Tone,
)
from booklet.content.figures import FigureRequest, NumberedLayout
from booklet.content.spans import Line, StepRef
from booklet.drawing.shapes.scale import ROUND_SCALES, Scale
from booklet.measure.cache import cached_on, remember
from booklet.measure.dataclass import dataclass, replace
from booklet.measure.exact import Fraction
from booklet.pages.boxes import FigureBox, SideBySide, spaced
from booklet.pages.flow import Column, break_story, story_height
from booklet.pages.head import continued_head, section_head
from booklet.pages.pictures import scale_words
from booklet.pages.setup import PageSetup, drawn, measured, scales_within
from booklet.pages.steps import step_list
from booklet.pages.story import story
from booklet.pages.text import paragraph

# The column of needs beside the figure: its least and its greatest width, in points.
_LEAST_NEEDS, _MOST_NEEDS = 84.0, 150.0
_GUTTER = 10.0
_NEED_PICTURE = 18.0
_STEP_FIGURE, _RING = 56.0, 16.0
# So that its rings have room, a numbered figure is at least so wide, and at most so much smaller than it
# could be.
_LEAST_FIGURE = 180.0
_SMALLEST = Fraction(7, 4)
# How much of a page's height it takes at most where the steps stand on other pages.
_FIGURE_ALONE = 0.8
# The space between two steps in points, the airiest first; with the last the title is small as well.
_STEP_GAPS = (6.0, 4.4, 3.0, 1.8, 0.8)
# A smaller scale is as bad as so many smaller gaps, and so is a story beside the figure.
_SMALLER, _STORY_BESIDE = 2, 3
_BELOW_FIGURE = 4.0
_ABOVE_SCALE = 5.0


def layout_pages(setup: PageSetup, section: Section, *, is_left: bool) -> tuple[Column, ...]:
    """The pages of a layout: one where its steps fit below the figure, else as many as they take.

    What is needed stands at the page's outer edge.
    """
    width, height = setup.grid.text_width, setup.grid.text_height
    setting = _setting(setup, section)
    # Titles that face each other are of one size.
    is_small = any(_setting(setup, each).is_small for each in opening_of(setup, section))
    head = section_head(setup, setting.titled, width, is_joined=is_small)
    parts = [*head, _drawn_top(setup, setting.top, is_left=is_left), *setting.below]
    return break_story(parts, width, height, partial(continued_head, setup, section))


def numbered_figure(setup: PageSetup, section: Section) -> tuple[FigureRequest, Scale]:
    """The figure of a layout, and the scale at which its page will show it."""
    top = _setting(setup, section).top
    return top.picture.figure, top.scale


def opening_of(setup: PageSetup, section: Section) -> Sequence[Section]:
    """The layout, and the one that it faces."""
    pairs = pairwise(setup.document.sections)
    facing = (pair for pair in pairs if pair[0].arrangement is Arrangement.FACING)
    return next((pair for pair in facing if section in pair), (section,))


@dataclass(frozen=True)
class _Setting:
    """How a layout is set: what its head says and whether in small, its figure with what stands beside it,
    its steps.
    """

    titled: Section
    is_small: bool
    top: _Top
    below: tuple[Flowable, ...]


@cached_on
def _setting(setup: PageSetup, section: Section) -> _Setting:
    """Of all ways to fit a page the best: a large figure, air between the steps, the story under the title.

    Where none fits, the largest figure that a page holds and the most air, on more pages than one.
    """
    width, height = setup.grid.text_width, setup.grid.text_height
    for scale, gap, is_beside in _ways(_scales(setup, _view_of(section)), has_story=bool(section.lead)):
        titled = replace(section, lead=()) if is_beside else section
        is_small = gap == len(_STEP_GAPS) - 1
        head = section_head(setup, titled, width, is_joined=is_small)
        top = _top(setup, section, scale, section.lead if is_beside else ())
        below = _below(setup, section, top, _STEP_GAPS[gap])
        if story_height([*head, top.room, *below], width) <= height:
            return _Setting(titled, is_small, top, tuple(below))
    shown, largest = _figure_on_page(setup, section)
    top = _top(setup, shown, largest, ())
    return _Setting(section, False, top, tuple(_below(setup, shown, top, _STEP_GAPS[0])))


def keep_setting(setup: PageSetup, before: PageSetup, section: Section) -> None:
    """Set a layout as it was set `before`, in a setup of which nothing that concerns it is another."""
    remember(_setting, _setting(before, section), setup, section)


def _ways(scales: Iterable[Scale], *, has_story: bool) -> Iterator[tuple[Scale, int, bool]]:
    """Every way to set a layout on a page, the best first: its scale, the place of its gap, and whether its
    story stands beside the figure.

    A scale takes its time to be found: the next one is asked for when nothing better is left.
    """
    met: list[Scale] = []
    waiting: list[tuple[int, int, int, bool]] = []

    def up_to(badness: float) -> Iterator[tuple[Scale, int, bool]]:
        while waiting and waiting[0][0] <= badness:
            _, number, gap, is_beside = heappop(waiting)
            yield met[number], gap, is_beside

    for number, scale in enumerate(scales):
        met.append(scale)
        for gap, is_beside in product(range(len(_STEP_GAPS)), (False, True) if has_story else (False,)):
            badness = _SMALLER * number + gap + (_STORY_BESIDE if is_beside else 0)
            heappush(waiting, (badness, number, gap, is_beside))
        # Of two that are as bad the larger one comes first.
        yield from up_to(_SMALLER * (number + 1))
    yield from up_to(inf)


def _view_of(section: Section) -> LayoutView:
    return next(block for block in section.blocks if isinstance(block, LayoutView))


def _scales(setup: PageSetup, view: LayoutView) -> Iterator[Scale]:
    """The scales at which the numbered figure is neither too wide for what is needed nor too small."""
    most = setup.grid.text_width - _GUTTER - _LEAST_NEEDS
    within = scales_within(setup, [view.picture.figure], most)
    first, _ = next(within, (ROUND_SCALES[-1], 0.0))
    yield first
    smallest = first.reduction * _SMALLEST
    legible = takewhile(lambda each: each[0].reduction <= smallest and each[1] >= _LEAST_FIGURE, within)
    yield from (scale for scale, _ in legible)


def _figure_on_page(setup: PageSetup, section: Section) -> tuple[Section, Scale]:
    """The layout with a figure that a page holds, and its largest scale there.

    Where the flags of its rulers leave no room for it they are left out: the steps tell their distances.
    """
    for shown in (section, _without_flags(section)):
        picture = _view_of(shown).picture
        for scale in ROUND_SCALES:
            if _is_within_page(setup, picture, scale):
                return shown, scale
    return shown, scale


def _is_within_page(setup: PageSetup, picture: Picture, scale: Scale) -> bool:
    most = setup.grid.text_width - _GUTTER - _LEAST_NEEDS, _FIGURE_ALONE * setup.grid.text_height
    wide, high = measured(setup, picture.figure, scale)
    if wide > most[0] or high > most[1]:
        return False
    # Rings that find no room on the page stand below it.
    return drawn(setup, picture, Room(setup.grid.text_width, scale=scale)).height <= most[1]


def _without_flags(section: Section) -> Section:
    view = _view_of(section)
    assert isinstance(view.picture.figure, NumberedLayout)
    picture = replace(view.picture, figure=replace(view.picture.figure, flags=()))
    blocks = (replace(view, picture=picture) if block is view else block for block in section.blocks)
    return replace(section, blocks=tuple(blocks))


# The figure with what stands beside it.


@dataclass(frozen=True)
class _Top:
    """The figure at a scale, what stands beside it in a column of a width, and the room that both take.

    `tips` are those that find no room there.
    """

    picture: Picture
    scale: Scale
    beside: tuple[Flowable, ...]
    needed: float
    room: Flowable
    tips: tuple[Block, ...]


@cached_on
def _top(setup: PageSetup, section: Section, scale: Scale, story_beside: Line) -> _Top:
    """What is needed, what the finished page hides, and tips as far as the figure's height allows."""
    view = _view_of(section)
    wide, high = measured(setup, view.picture.figure, scale)
    needed = min(setup.grid.text_width - wide - _GUTTER, _MOST_NEEDS)
    steps = [step for block in section.blocks if isinstance(block, StepList) for step in block.steps]
    told = [spaced(paragraph(story_beside, setup.styles.lead), 0.0, 6.0)] if story_beside else []
    beside = [*told, *_needs(setup, view, needed), *_hidden(setup, steps, needed)]
    tips = [block for block in section.blocks if _is_tip(block)]
    with_tips = [*beside, *(spaced(part, 7.0, 0.0) for part in story(setup, tips, needed))]
    stated = setup.styles.small.leading + _ABOVE_SCALE
    has_room = story_height(with_tips, needed) + stated <= high
    shown = with_tips if has_room else beside
    room = spaced(Spacer(needed, max(high, story_height(shown, needed) + stated)), 0.0, _BELOW_FIGURE)
    return _Top(view.picture, scale, tuple(shown), needed, room, () if has_room else tuple(tips))


def _is_tip(block: Block) -> bool:
    return isinstance(block, Paragraph) and block.tone is Tone.TIP


def _drawn_top(setup: PageSetup, top: _Top, *, is_left: bool) -> Flowable:
    figure = drawn(setup, top.picture, Room(setup.grid.text_width, scale=top.scale))
    beside = [*top.beside, spaced(scale_words(setup, figure), _ABOVE_SCALE, 0.0)]
    columns: list[tuple[Sequence[Flowable], float]] = [
        (beside, top.needed),
        ([FigureBox(figure)], figure.width),
    ]
    gutter = setup.grid.text_width - top.needed - figure.width
    return spaced(SideBySide(columns if is_left else columns[::-1], gutter), 0.0, _BELOW_FIGURE)


def _below(setup: PageSetup, section: Section, top: _Top, gap: float) -> list[Flowable]:
    """Tips that find no room beside the figure, the steps, and what stands before and after them."""
    parts = story(setup, top.tips, setup.grid.text_width)
    for block in section.blocks:
        if isinstance(block, StepList):
            parts += step_list(setup, block, setup.grid.text_width, gap)
        elif not isinstance(block, LayoutView) and not _is_tip(block):
            parts += story(setup, (block,), setup.grid.text_width)
    return parts


def _needs(setup: PageSetup, view: LayoutView, width: float) -> Iterator[Flowable]:
    yield spaced(paragraph(view.title, setup.styles.cell_strong), 0.0, 3.0)
    for need in view.needs:
        yield spaced(_need(setup, need, width), 0.0, 3.0)


def _need(setup: PageSetup, need: Need, width: float) -> Flowable:
    if need.picture is None:
        return paragraph(need.text, setup.styles.cell)
    figure = drawn(setup, need.picture, Room(_NEED_PICTURE, _NEED_PICTURE))
    pictured = max(_NEED_PICTURE, figure.width)
    said = [paragraph(need.text, setup.styles.cell)]
    return SideBySide([([FigureBox(figure)], pictured), (said, width - pictured - 5.0)], 5.0, middle=True)


def _hidden(setup: PageSetup, steps: Sequence[StepItem], width: float) -> Iterator[Flowable]:
    """The figures of the steps that the finished page hides, two in a row, each behind its step's ring."""
    hidden = [step for step in steps if step.picture is not None]
    column = (width - _GUTTER) / 2
    for at in range(0, len(hidden), 2):
        row = [([_step_figure(setup, step, column)], column) for step in hidden[at : at + 2]]
        yield spaced(SideBySide(row, _GUTTER), 4.0, 0.0)


def _step_figure(setup: PageSetup, step: StepItem, width: float) -> Flowable:
    assert step.picture is not None
    figure = drawn(setup, step.picture, Room(min(width - _RING, _STEP_FIGURE)))
    ring = paragraph((StepRef("", step.number),), setup.styles.cell)
    return SideBySide([([ring], _RING), ([FigureBox(figure)], figure.width)], 0.0)
