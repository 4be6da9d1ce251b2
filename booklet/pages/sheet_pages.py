"""A sheet at the trimmer on its pages: how it lies, its stages at one scale, what else finds room."""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial
from itertools import takewhile

from reportlab.platypus import Flowable, Spacer

from booklet.content.blocks import Block, CutStage, Section
from booklet.drawing.shapes.scale import ROUND_SCALES, Scale
from booklet.measure.cache import cached_on
from booklet.pages.boxes import Rule
from booklet.pages.cut_stage import stage_box, stage_height
from booklet.pages.flow import Column, break_story, column_height, stacked, story_height
from booklet.pages.head import continued_head, section_head
from booklet.pages.openings import OPENING, Fit, Rooms, fits
from booklet.pages.setup import PageSetup, scales_within
from booklet.pages.story import story

# The space between two stages, a rule in it, and how much more it may become where a page has room.
_BEFORE_RULE, _RULE, _AFTER_RULE, _MORE_GAP = 7.0, 0.4, 4.0, 12.0
_STAGE_GAP = _BEFORE_RULE + _RULE + _AFTER_RULE
# A figure is at least so wide, in points, to carry its letters; one that is wider than the page is no choice.
_LEAST_WIDTH = 126.0


@cached_on
def sheet_ways(setup: PageSetup, section: Section) -> tuple[tuple[Column, ...], ...]:
    """The ways to lay a sheet on pages, on one and on two, each at the largest scale that they allow."""
    stages = [block for block in section.blocks if isinstance(block, CutStage)]
    scales = _scales(setup, stages)
    above = _above(setup, section, stages)
    width, height = setup.grid.text_width, setup.grid.text_height
    rooms = Rooms(
        first=height - story_height([*above, Spacer(0, 0)], width),
        later=height - story_height([*continued_head(setup, section), Spacer(0, 0)], width),
        gap=_STAGE_GAP,
    )
    ways = fits(
        lambda stage, scale: stage_height(setup, stages[stage], scales[scale]),
        len(stages),
        len(scales),
        rooms,
    )
    pages = [_pages(setup, section, stages, scales[way.scale], way) for way in ways]
    if any(column_height(column) > height for way in pages for column in way):
        return (_cut_apart(setup, section, stages, scales[ways[-1].scale]),)
    return tuple(pages)


def _cut_apart(
    setup: PageSetup, section: Section, stages: Sequence[CutStage], scale: Scale
) -> tuple[Column, ...]:
    """A sheet with a stage that no page holds, such as one of sixty cuts: on as many pages as it takes."""
    width, height = setup.grid.text_width, setup.grid.text_height
    parts: list[Flowable] = [*_above(setup, section, stages)]
    for stage in stages:
        parts += [stage_box(setup, stage, scale), Rule(setup.palette.rule, _RULE, _BEFORE_RULE, _AFTER_RULE)]
    after = story(setup, _after(section, stages), width)
    return break_story([*parts[:-1], *after], width, height, partial(continued_head, setup, section))


def _scales(setup: PageSetup, stages: Sequence[CutStage]) -> list[Scale]:
    """The scales at which the widest figure of the sheet is no wider than the page and can be read."""
    figures = [stage.picture.figure for stage in stages]
    within = scales_within(setup, figures, setup.grid.text_width)
    first, _ = next(within, (ROUND_SCALES[-1], 0.0))
    legible = takewhile(lambda each: each[1] >= _LEAST_WIDTH, within)
    return [first, *(scale for scale, _ in legible)]


def _above(setup: PageSetup, section: Section, stages: Sequence[CutStage]) -> list[Flowable]:
    """The head, and what stands before the first stage."""
    width = setup.grid.text_width
    first = section.blocks.index(stages[0])
    return [*section_head(setup, section, width), *story(setup, section.blocks[:first], width)]


def _pages(
    setup: PageSetup, section: Section, stages: Sequence[CutStage], scale: Scale, way: Fit
) -> tuple[Column, ...]:
    """The pages of a sheet; what may follow its stages stands on the last page that has room for it.

    Within a sheet that is turned over nothing stands between its stages.
    """
    width = setup.grid.text_width
    after: list[Sequence[Flowable]] = [story(setup, (block,), width) for block in _after(section, stages)]
    pages: list[Column] = []
    for number, places in reversed(list(enumerate(way.split))):
        above = continued_head(setup, section) if number else _above(setup, section, stages)
        shown = [stage_box(setup, stages[place], scale) for place in places]
        column, after = _page(setup, above, shown, after)
        after = after if len(way.split) <= OPENING else []
        pages.append(column)
    return tuple(reversed(pages))


def _after(section: Section, stages: Sequence[CutStage]) -> Sequence[Block]:
    return section.blocks[section.blocks.index(stages[-1]) + 1 :]


def _page(
    setup: PageSetup,
    above: Sequence[Flowable],
    stages: Sequence[Flowable],
    after: Sequence[Sequence[Flowable]],
) -> tuple[Column, list[Sequence[Flowable]]]:
    """A page whose stages stand a little apart, with what finds room below them; and what finds none."""
    width, height = setup.grid.text_width, setup.grid.text_height
    tail: list[Flowable] = []
    rest: list[Sequence[Flowable]] = []

    def laid(more: float) -> Column:
        between = Rule(setup.palette.rule, _RULE, _BEFORE_RULE + more, _AFTER_RULE + more / 2)
        shown = [part for stage in stages for part in (between, stage)][1:]
        return stacked([*above, *shown, *tail], width)

    for more in after:
        tail += more
        if column_height(laid(0.0)) > height:
            del tail[-len(more) :]
            rest.append(more)
    spare = height - column_height(laid(0.0))
    return laid(min(max(spare, 0.0) / (2 * len(stages)), _MORE_GAP)), rest
