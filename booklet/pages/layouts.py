"""The layouts: on one opening both pages of a spread, finished and measured; on the next their steps."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import partial
from itertools import zip_longest

from reportlab.platypus import Flowable

from booklet.drawing.layouts.gap_dimensions import GAP_TAG
from booklet.drawing.shapes.figure import Figure, groups
from booklet.drawing.shapes.scale import ROUND_SCALES, Scale
from booklet.kit.kit import layout_title
from booklet.kit.spreads import spread_of, spreads
from booklet.measure.cache import cached_on
from booklet.pages.book import Book
from booklet.pages.flow import Beside, FigureBox, Gap, Rule, Stack
from booklet.pages.head import continued_head, page_head
from booklet.pages.layout_figures import finished_at, map_at, placing_at, steps_of
from booklet.pages.page import Block, Page, PageName, Start, flow, lay_on_one, story_height
from booklet.pages.sentences import photo_words
from booklet.pages.step_line import StepLine, step_line
from booklet.pages.symbol_words import key_beside, key_column, symbols_on
from booklet.pages.type import words
from booklet.placing.model import PlacedLayout


@dataclass(frozen=True)
class _Setting:
    """How the steps are set: in smaller type or not, and the space between two, in points."""

    is_small: bool
    gap: float


_AIRY, _USUAL, _CLOSE, _TIGHT = (
    _Setting(False, 5.0),
    _Setting(False, 3.6),
    _Setting(False, 2.4),
    _Setting(True, 2.4),
)
_SETTINGS = (_AIRY, _USUAL, _CLOSE, _TIGHT)
_BESIDE = 14.0
_BETWEEN = 12.0
# A numbered figure is drawn at least this large, so that its numbers have room (1:6 of 12 in is 2 in).
_LEAST_PLACING = 140.0
_LEAST_MAP = 100.0
_LEAST_COLUMN = 72.0
# Room for a stated scale.
_STATED = 42.0


def layout_blocks(book: Book) -> tuple[Block, ...]:
    """The pages of every spread, and of every layout that stands alone, each on its own opening."""
    blocks: list[Block] = []
    for spread in spreads(book.kit):
        layouts = [book.resolved.layouts[index] for index in spread]
        blocks += _spread_blocks(book, layouts) if len(spread) > 1 else [_single_block(book, layouts[0])]
    return (_with_section_mark(blocks[0]), *blocks[1:])


def layout_figures(book: Book) -> tuple[Figure, ...]:
    """The finished look and the placing figure of every layout, as they stand on the pages."""
    return tuple(figure for layout in book.resolved.layouts for figure in _pair(book, layout))


def _spread_blocks(book: Book, layouts: Sequence[PlacedLayout]) -> list[Block]:
    shown = tuple(_look_page(book, layout) for layout in layouts)
    steps = [_step_pages(book, layout) for layout in layouts]
    facing = tuple(page for pair in zip_longest(*steps) for page in pair if page is not None)
    return [Block(shown, Start.LEFT), Block(facing, Start.LEFT)]


def _single_block(book: Book, layout: PlacedLayout) -> Block:
    return Block((_look_page(book, layout), *_step_pages(book, layout)), Start.LEFT)


def _with_section_mark(block: Block) -> Block:
    first, *others = block.pages
    return replace(block, pages=(replace(first, section="Layouts"), *others))


def _running(book: Book, layout: PlacedLayout) -> str:
    return layout_title(book.kit.layouts[layout.index])


# The finished look, and below it the measured figure.


def _look_page(book: Book, layout: PlacedLayout) -> Page:
    look, placing = _pair(book, layout)
    story = [
        *_head(book, layout.index),
        _row(book, layout, look, _about_look(book, layout, look)),
        Gap(_BETWEEN),
        _row(book, layout, placing, _about_placing(book, layout, placing)),
    ]
    title = layout_title(book.kit.layouts[layout.index])
    width, height = book.grid.text_width, book.grid.text_height
    laid = lay_on_one(story, width, height, title)
    return Page(laid, _running(book, layout), title, 1, f"layout-{layout.id}")


@cached_on
def _head(book: Book, index: int) -> tuple[Flowable, ...]:
    """The head of a layout's first page: made once to find what it leaves, and to print."""
    spec = book.kit.layouts[index]
    kicker = f"Layout {index + 1}  ·  pocket {spec.pocket}"
    return tuple(page_head(book, kicker, layout_title(spec), spec.story))


@dataclass(frozen=True)
class _Fit:
    """The scales of a page's finished look and of its numbered figure, and whether that shows measures."""

    look: Scale
    placing: Scale
    is_measured: bool


def _pair(book: Book, layout: PlacedLayout) -> tuple[Figure, Figure]:
    """The finished look and the numbered figure, both at the scales that suit the facing page as well."""
    spread = spread_of(book.kit, layout.index)
    fitting = [_fit(book, index) for index in spread]
    look = max((fit.look for fit in fitting), key=lambda scale: scale.reduction)
    placing = max((fit.placing for fit in fitting), key=lambda scale: scale.reduction)
    draw = placing_at if _fit(book, layout.index).is_measured else map_at
    return finished_at(book, layout, look), draw(book, layout.index, placing)


@cached_on
def _fit(book: Book, index: int) -> _Fit:
    """The finished look as large as a round scale allows beside the measured figure at its least size.

    A figure with more measures than there is room for goes without them: the steps give them all.
    """
    layout = book.resolved.layouts[index]
    room = book.grid.text_height - story_height(_head(book, index), book.grid.text_width) - _BETWEEN
    looks = list(_look_scales(book, layout, room))
    for scale, high in looks:
        placing = _largest_placing(book, layout, room - high)
        if placing is not None:
            return _Fit(scale, placing, is_measured=True)
    smallest = _smallest(book, layout, _LEAST_PLACING)
    for scale, high in looks:
        if map_at(book, layout.index, smallest).height <= room - high:
            return _Fit(scale, smallest, is_measured=False)
    return _Fit(ROUND_SCALES[-1], ROUND_SCALES[-1], is_measured=False)


def _look_scales(book: Book, layout: PlacedLayout, room: float) -> Iterator[tuple[Scale, float]]:
    """The scales at which a finished look leaves room for words beside it, and its height at each."""
    for scale in ROUND_SCALES:
        wide, high = scale.size(layout.size, book.unit)
        if wide + _BESIDE + _LEAST_COLUMN <= book.grid.text_width and high <= room:
            yield scale, high


def _largest_placing(book: Book, layout: PlacedLayout, room: float) -> Scale | None:
    """The largest scale of the measured figure; only those are drawn to which the smallest gives hope."""
    widest = book.grid.text_width - _BESIDE - _LEAST_COLUMN
    around_wide, around_high = _around(book, layout)
    for scale in ROUND_SCALES[: ROUND_SCALES.index(_smallest(book, layout, _LEAST_PLACING)) + 1]:
        wide, high = scale.size(layout.size, book.unit)
        if wide + around_wide > widest or high + around_high > room:
            continue
        figure = placing_at(book, layout.index, scale)
        if figure.height <= room and figure.width <= widest:
            return scale
    return None


def _around(book: Book, layout: PlacedLayout) -> tuple[float, float]:
    """How much wider and higher the smallest measured figure is than its page; larger ones hardly differ."""
    smallest = _smallest(book, layout, _LEAST_PLACING)
    figure = placing_at(book, layout.index, smallest)
    wide, high = smallest.size(layout.size, book.unit)
    return figure.width - wide, figure.height - high


def _row(book: Book, layout: PlacedLayout, figure: Figure, about: Flowable) -> Flowable:
    """A figure and the words about it; on a left page the figure stands at the fold, by its facing one."""
    room = book.grid.text_width - figure.width - _BESIDE
    columns: list[tuple[Flowable, float]] = [(FigureBox(figure), figure.width), (about, room)]
    if book.kit.layouts[layout.index].facing is not None:
        columns.reverse()
    return Beside(columns, _BESIDE)


def _about_look(book: Book, layout: PlacedLayout, figure: Figure) -> Flowable:
    styles = book.styles
    parts: list[Flowable] = [words("The finished page", styles.small_bold), words(figure.scale, styles.small)]
    photographs = photo_words(book.resolved, layout)
    if photographs:
        parts += [Gap(6.0), words("Photographs", styles.small_bold), words(photographs, styles.small)]
    return Stack(parts, 1.0)


def _about_placing(book: Book, layout: PlacedLayout, figure: Figure) -> Flowable:
    styles = book.styles
    said = "The numbers are those of the steps, which tell every distance."
    if _fit(book, layout.index).is_measured:
        said = (
            "The numbers are those of the steps. A value beside an arrow is the distance from the page's edge"
            " at which the arrow begins."
        )
    if any(group.tag == GAP_TAG for group, _ in groups(figure.shapes)):
        said += " One on the page itself is measured between the edges that its arrows touch."
    return Stack(
        [
            words("Where it goes", styles.small_bold),
            words(figure.scale, styles.small),
            Gap(6.0),
            words(said, styles.small),
        ],
        1.0,
    )


# The steps.


def _step_pages(book: Book, layout: PlacedLayout) -> tuple[Page, ...]:
    scale, setting = _fitting(book, layout)
    spec = book.kit.layouts[layout.index]
    story: list[Flowable] = [
        *_step_head(book, layout.index),
        _small_figures(book, layout.index, scale),
        Gap(8.0),
        *_step_lines(book, layout, setting),
        *_tip(book, spec.tip),
    ]
    what = f"Layout {layout.index + 1}, {layout_title(spec)}"
    return flow(story, book.grid, PageName(_running(book, layout)), partial(continued_head, book, what))


@cached_on
def _step_head(book: Book, index: int) -> tuple[Flowable, ...]:
    spec = book.kit.layouts[index]
    kicker = f"Layout {index + 1}  ·  pocket {spec.pocket}  ·  put it together"
    heading = words(layout_title(spec), book.styles.subtitle)
    return words(kicker, book.styles.kicker), heading, Rule(book.palette.accent, 0.9, 3.0, 7.0)


def _tip(book: Book, tip: str | None) -> list[Flowable]:
    return [Gap(4.0), words(tip, book.styles.note)] if tip else []


def _fitting(book: Book, layout: PlacedLayout) -> tuple[Scale, _Setting]:
    """The largest scale of the small figures, and the airiest setting, at which every step is on the page."""
    width = book.grid.text_width
    fixed = story_height(_step_head(book, layout.index), width) + 8.0
    tip = story_height(_tip(book, book.kit.layouts[layout.index].tip), width)
    scales = list(_map_scales(book, layout))
    for scale in scales:
        figures = _small_figures(book, layout.index, scale).wrap(width, 1000)[1]
        for setting in _SETTINGS:
            steps = story_height(_step_lines(book, layout, setting), width)
            if fixed + figures + steps + tip <= book.grid.text_height:
                return scale, setting
    return scales[-1], _TIGHT


def _map_scales(book: Book, layout: PlacedLayout) -> Iterator[Scale]:
    """The round scales at which the map and the finished look stand side by side; one in any case."""
    for scale in ROUND_SCALES[: ROUND_SCALES.index(_smallest(book, layout, _LEAST_MAP)) + 1]:
        if _may_stand_twice(book, layout, scale):
            yield scale


def _smallest(book: Book, layout: PlacedLayout, least: float) -> Scale:
    """The smallest round scale at which a page is at least so long, in points, and two stand side by side."""
    longest = max(layout.size.width, layout.size.height)
    fitting = [scale for scale in ROUND_SCALES if _may_stand_twice(book, layout, scale)] or ROUND_SCALES[-1:]
    legible = [scale for scale in fitting if scale.points(longest, book.unit) >= least]
    return legible[-1] if legible else fitting[0]


def _may_stand_twice(book: Book, layout: PlacedLayout, scale: Scale) -> bool:
    wide, _ = scale.size(layout.size, book.unit)
    return 2 * (wide + 3) + _BESIDE <= book.grid.text_width


@cached_on
def _small_figures(book: Book, index: int, scale: Scale) -> Flowable:
    """The map and the finished look, the scale, and the key of the symbols: made once to try and to print."""
    placing, look = map_at(book, index, scale), finished_at(book, book.resolved.layouts[index], scale)
    room = book.grid.text_width - placing.width - look.width - 2 * _BESIDE
    columns: list[tuple[Flowable, float]] = [
        (FigureBox(placing), placing.width),
        (FigureBox(look), look.width),
    ]
    stated = words(scale.words, book.styles.small)
    symbols = symbols_on(steps_of(book, index))
    if room >= _LEAST_COLUMN:
        return Beside([*columns, (Stack([stated, *key_column(book, symbols)], 2.0), room)], _BESIDE)
    apart = book.grid.text_width - placing.width - look.width
    return Stack([Beside(columns, apart), key_beside(book, symbols, stated, _STATED)], 3.0)


def _step_lines(book: Book, layout: PlacedLayout, setting: _Setting) -> list[Flowable]:
    """The steps, after each of them the setting's gap."""
    lines = _set_lines(book, layout.index, setting.is_small)
    return [part for line in lines for part in (line, Gap(setting.gap))]


@cached_on
def _set_lines(book: Book, index: int, is_small: bool) -> tuple[StepLine, ...]:
    """The steps in one size of type: set once, for every gap that is tried and for the page."""
    style = book.styles.step_tight if is_small else book.styles.step
    return tuple(step_line(book, step, style) for step in steps_of(book, index))
