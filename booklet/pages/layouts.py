"""The layouts: for each spread one opening with the finished looks, one with the steps of both pages."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache
from itertools import zip_longest

from reportlab.platypus import Flowable, Paragraph

from booklet.drawing.affine import Box
from booklet.drawing.figure import Figure
from booklet.drawing.scale import ROUND_SCALES, Scale
from booklet.kit.kit import layout_title
from booklet.pages.book import Book
from booklet.pages.flow import Beside, FigureBox, Gap, Rule, Stack
from booklet.pages.head import page_head
from booklet.pages.layout_figures import finished_at, largest_scale, placing_at
from booklet.pages.page import Block, Page, PageName, Start, flow, story_height
from booklet.pages.pocket_list import pocket_list
from booklet.pages.sentences import photo_words, step_words
from booklet.pages.spreads import spreads
from booklet.pages.step_line import step_line
from booklet.pages.type import words
from booklet.placing.model import PlacedLayout

_STEP_GAP = 4.6
_LEAST_STEP_GAP = 2.4
_BESIDE = 14.0
# No finished look beside the steps is drawn smaller than this wide, in points.
_LEAST_LOOK = 64.0
_LARGEST_PLACING, _SMALLEST_PLACING = 3, 6


def layout_blocks(book: Book) -> tuple[Block, ...]:
    """The pages of every spread, and of every layout that stands alone, each on its own opening."""
    blocks: list[Block] = []
    for number, spread in enumerate(spreads(book.kit)):
        layouts = [book.worked.layouts[index] for index in spread]
        blocks += _spread_blocks(book, layouts) if len(spread) > 1 else [_single_block(book, layouts[0])]
        if number == 0:
            blocks[0] = _with_section_mark(blocks[0])
    return tuple(blocks)


def layout_figures(book: Book) -> tuple[Figure, ...]:
    """The placing figure and the finished look of every layout, as they stand on the pages."""
    return tuple(
        figure
        for layout in book.worked.layouts
        for figure in (_finished(book, layout), _assembly(book, layout)[0])
    )


def _spread_blocks(book: Book, layouts: Sequence[PlacedLayout]) -> list[Block]:
    looks = tuple(page for layout in layouts for page in _look_pages(book, layout))
    steps = [_step_pages(book, layout) for layout in layouts]
    facing = tuple(page for pair in zip_longest(*steps) for page in pair if page is not None)
    return [Block(looks, Start.LEFT), Block(facing, Start.LEFT)]


def _single_block(book: Book, layout: PlacedLayout) -> Block:
    first, *more = _step_pages(book, layout)
    return Block((first, *_look_pages(book, layout), *more), Start.LEFT)


def _with_section_mark(block: Block) -> Block:
    first, *others = block.pages
    return replace(block, pages=(replace(first, section="Layouts"), *others))


# The finished look.


def _look_pages(book: Book, layout: PlacedLayout) -> tuple[Page, ...]:
    figure = _finished(book, layout)
    story: list[Flowable] = [
        *_head(book, layout),
        _towards_fold(book, layout, figure),
        Gap(5.0),
        _beneath(book, layout, figure),
        Gap(9.0),
        *pocket_list(book, layout),
    ]
    title = layout_title(book.kit.layouts[layout.index])
    name = PageName(_running(book, layout), title, 1, f"layout-{layout.id}")
    return flow(story, book.grid, name)


@lru_cache(maxsize=64)
def _finished(book: Book, layout: PlacedLayout) -> Figure:
    room = book.grid.text_height - story_height(_head(book, layout), book.grid.text_width) - 100.0
    scale = largest_scale(book, layout, Box(0, 0, book.grid.text_width, room))
    return finished_at(book, layout, scale)


def _head(book: Book, layout: PlacedLayout) -> list[Flowable]:
    spec = book.kit.layouts[layout.index]
    kicker = f"Layout {layout.index + 1}  ·  pocket {spec.pocket}"
    return page_head(book, kicker, layout_title(spec), spec.story)


def _towards_fold(book: Book, layout: PlacedLayout, figure: Figure) -> Flowable:
    """The look of a left page stands at the fold, as its facing one does: the two read as a spread."""
    room = book.grid.text_width - figure.width
    faces_right = book.kit.layouts[layout.index].facing is not None
    if not faces_right:
        return FigureBox(figure)
    return Beside([(Gap(0.0), room), (FigureBox(figure), figure.width)], 0.0)


def _running(book: Book, layout: PlacedLayout) -> str:
    return layout_title(book.kit.layouts[layout.index])


def _beneath(book: Book, layout: PlacedLayout, figure: Figure) -> Flowable:
    """The photographs it takes, and at the right the figure's scale."""
    scale = words(figure.scale, book.styles.small_right)
    photos = words(photo_words(book.worked, layout), book.styles.small)
    width = book.grid.text_width
    return Beside([(photos, width - 70.0), (scale, 62.0)], 8.0)


# The steps.


def _step_pages(book: Book, layout: PlacedLayout) -> tuple[Page, ...]:
    figure, gap = _assembly(book, layout)
    spec = book.kit.layouts[layout.index]
    story: list[Flowable] = [
        *_step_head(book, layout),
        _figure_row(book, layout, figure),
        Gap(8.0),
        *_step_lines(book, layout, gap),
    ]
    if spec.tip:
        story += [Gap(4.0), words(spec.tip, book.styles.note)]
    return flow(story, book.grid, PageName(_running(book, layout)))


def _step_head(book: Book, layout: PlacedLayout) -> list[Flowable]:
    title = layout_title(book.kit.layouts[layout.index])
    kicker = Paragraph(f"Layout {layout.index + 1}  ·  put it together", book.styles.kicker)
    heading = words(title, book.styles.subtitle)
    return [kicker, heading, Rule(book.palette.accent, weight=0.9, before=3.0, after=7.0)]


@lru_cache(maxsize=64)
def _assembly(book: Book, layout: PlacedLayout) -> tuple[Figure, float]:
    """The placing figure at the largest round scale at which all steps fit below it, and their distance."""
    width = book.grid.text_width
    fixed = story_height(_step_head(book, layout), width) + 8.0
    scales = [scale for scale in ROUND_SCALES if _LARGEST_PLACING <= scale.reduction <= _SMALLEST_PLACING]
    for gap in (_STEP_GAP, _LEAST_STEP_GAP):
        steps = story_height(_step_lines(book, layout, gap), width)
        tip = book.kit.layouts[layout.index].tip
        below = steps + (story_height([words(tip, book.styles.note)], width) + 4.0 if tip else 0.0)
        for scale in scales:
            figure = placing_at(book, layout.index, scale)
            fits = figure.width <= width and fixed + figure.height + below <= book.grid.text_height
            if fits and _look_beside(book, layout, figure) is not None:
                return figure, gap
    return placing_at(book, layout.index, scales[-1]), _LEAST_STEP_GAP


def _step_lines(book: Book, layout: PlacedLayout, gap: float) -> list[Flowable]:
    return [step_line(book, step, gap) for step in step_words(book.worked, layout)]


def _figure_row(book: Book, layout: PlacedLayout, figure: Figure) -> Flowable:
    """The placing figure, beside it a small finished look and the scale."""
    room = book.grid.text_width - figure.width - _BESIDE
    scale = _look_beside(book, layout, figure)
    aside: list[Flowable] = []
    if scale is not None:
        aside = [FigureBox(finished_at(book, layout, scale)), words(scale.words, book.styles.small)]
    placing = words(f"Numbers: {figure.scale}", book.styles.small)
    return Beside([(FigureBox(figure), figure.width), (Stack([*aside, placing], 4.0), room)], _BESIDE)


def _look_beside(book: Book, layout: PlacedLayout, figure: Figure) -> Scale | None:
    """The largest round scale at which a finished look stands beside the placing figure, if one does."""
    room = book.grid.text_width - figure.width - _BESIDE
    scale = largest_scale(book, layout, Box(0, 0, room, figure.height - 30.0))
    wide, _ = scale.size(layout.size, book.unit)
    return scale if _LEAST_LOOK <= wide <= room else None
