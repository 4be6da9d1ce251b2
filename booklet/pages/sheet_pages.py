"""A sheet at the trimmer on its pages: how it lies, its stages at one scale, what else finds room."""

from __future__ import annotations

from collections.abc import Sequence

from reportlab.platypus import Flowable

from booklet.content.blocks import Block, CutStage, Section
from booklet.drawing.shapes.scale import ROUND_SCALES, Scale
from booklet.pages.boxes import spaced
from booklet.pages.cut_stage import stage_height, stage_story
from booklet.pages.flow import Column, column_height, stacked, story_height
from booklet.pages.head import continued_head, section_head
from booklet.pages.openings import Fit, Rooms, fits
from booklet.pages.setup import PageSetup
from booklet.pages.story import story

# The space between two stages, and how much more it may become where a page has room.
_STAGE_GAP, _MORE_GAP = 9.0, 12.0
# A figure is at least so wide, in points, to carry its letters; one that is wider than the page is no choice.
_LEAST_WIDTH = 126.0


def sheet_ways(setup: PageSetup, section: Section) -> tuple[tuple[Column, ...], ...]:
    """The ways to lay a sheet on pages, on one and on two, each at the largest scale that they allow."""
    stages = [block for block in section.blocks if isinstance(block, CutStage)]
    scales = _scales(setup, stages)
    above = _above(setup, section, stages)
    width, height = setup.grid.text_width, setup.grid.text_height
    rooms = Rooms(
        first=height - story_height(above, width) - _STAGE_GAP,
        later=height - story_height(continued_head(setup, section), width) - _STAGE_GAP,
        gap=_STAGE_GAP,
    )
    ways = fits(
        lambda stage, scale: stage_height(setup, stages[stage], scales[scale]),
        len(stages),
        len(scales),
        rooms,
    )
    return tuple(_pages(setup, section, stages, scales[way.scale], way) for way in ways)


def _scales(setup: PageSetup, stages: Sequence[CutStage]) -> list[Scale]:
    """The scales at which the widest figure of the sheet is no wider than the page and can be read."""
    found: list[Scale] = []
    for scale in ROUND_SCALES:
        widest = max(setup.measure(stage.picture.figure, scale)[0] for stage in stages)
        if widest <= setup.grid.text_width and (widest >= _LEAST_WIDTH or not found):
            found.append(scale)
    return found


def _above(setup: PageSetup, section: Section, stages: Sequence[CutStage]) -> list[Flowable]:
    """The head, and what stands before the first stage."""
    width = setup.grid.text_width
    first = section.blocks.index(stages[0])
    return [*section_head(setup, section, width), *story(setup, section.blocks[:first], width)]


def _pages(
    setup: PageSetup, section: Section, stages: Sequence[CutStage], scale: Scale, way: Fit
) -> tuple[Column, ...]:
    """The pages of a sheet; what may follow its stages stands on the last page that has room for it."""
    width = setup.grid.text_width
    after: list[Sequence[Flowable]] = [story(setup, (block,), width) for block in _after(section, stages)]
    pages: list[Column] = []
    for number, places in reversed(list(enumerate(way.split))):
        above = continued_head(setup, section) if number else _above(setup, section, stages)
        shown = [
            part
            for place in places
            for part in stage_story(setup, stages[place], scale, begins=place == places[0])
        ]
        column, after = _page(setup, above, shown, after)
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

    def laid(gap: float) -> Column:
        return stacked([*above, *(spaced(stage, gap, 0.0) for stage in stages), *tail], width)

    for more in after:
        tail += more
        if column_height(laid(_STAGE_GAP)) > height:
            del tail[-len(more) :]
            rest.append(more)
    spare = height - column_height(laid(_STAGE_GAP))
    return laid(_STAGE_GAP + min(max(spare, 0.0) / (len(stages) + 1), _MORE_GAP)), rest
