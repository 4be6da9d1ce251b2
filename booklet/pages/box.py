"""What is in the box, what the member brings, what to take care of."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import zip_longest

from reportlab.platypus import Flowable, Table

from booklet.cutting.model import CutSheet
from booklet.drawing.papers.swatch import ready_swatch, sheet_swatch, supply_swatch
from booklet.drawing.shapes.figure import Figure
from booklet.drawing.shapes.scale import ROUND_SCALES, Scale
from booklet.kit.kit import capitalised, sheet_title, trimmer_limits
from booklet.kit.sheet import OutlineShape, ReadyCut
from booklet.kit.supply import Supply
from booklet.measure.exact import Fraction
from booklet.measure.length import Size, is_on_mark
from booklet.measure.words import print_length, print_size
from booklet.pages.book import Book
from booklet.pages.cautions import caution_story
from booklet.pages.cut_words import number_word
from booklet.pages.flow import FigureBox, Gap, TickBox
from booklet.pages.head import page_head, story_pages
from booklet.pages.lists import bare_table, heading, list_table
from booklet.pages.page import Block, story_height
from booklet.pages.type import Fragment, Prose, bold, line_break, run, words
from booklet.pages.welcome import welcome_block

_GUTTER = 14.0
# How large the largest swatch of the sheets may be, in points: the first with which all fits one page.
_SWATCHES = (80.0, 60.0, 44.0)
# How large those of ready-cut pieces may be, as a share of that.
_READY_SHARE = 0.9

# A swatch and what its words are set from.
_Cell = tuple[Figure, tuple[Fragment, ...]]

_USUAL_TOOLS = ("a paper trimmer, and scissors", "photo-safe adhesive", "a pencil, an eraser and a ruler")


def box_blocks(book: Book) -> tuple[Block, ...]:
    """The welcome on a left page, the box from its right page on, then tools and cautions."""
    papers = story_pages(book, _papers(book), "In the box", "box")
    tools = story_pages(book, _tools(book), "Tools and cautions", "tools")
    return (welcome_block(book), Block(papers), Block(tools))


# The papers.


def _papers(book: Book) -> list[Flowable]:
    """With the largest swatches that leave everything on one page, or else the smallest."""
    stories = (_papers_with(book, side) for side in _SWATCHES)
    width, height = book.grid.text_width, book.grid.text_height
    story: list[Flowable] = []
    for story in stories:
        if story_height(story, width) <= height:
            break
    return story


def _papers_with(book: Book, side: float) -> list[Flowable]:
    sheets = sorted(book.resolved.sheets, key=lambda sheet: sheet.number)
    scale = swatch_scale(book, [sheet.size for sheet in sheets], side)
    cells = [_sheet_cell(book, sheet, scale) for sheet in sheets]
    pictures = max(_READY_SHARE * side, *(figure.width for figure, _ in cells)) + 10.0
    head = page_head(book, "Before you cut", "In the box", _papers_lead(book, scale))
    story = [*head, _swatch_list(book, cells, pictures)]
    if book.kit.ready:
        scale = swatch_scale(book, [ready.size for ready in book.kit.ready], _READY_SHARE * side)
        story += heading(book, f"Ready-cut, shown at {_ratio(scale)}", before=8.0)
        cells = [_ready_cell(book, ready, scale) for ready in book.kit.ready]
        story.append(_swatch_list(book, cells, pictures))
    return story


def _papers_lead(book: Book, scale: Scale) -> str:
    count = sum(sheet.count for sheet in book.kit.sheets)
    said = f"{count} sheets" if count > 1 else "One sheet"
    backs = any(paper.front != paper.back for paper in book.kit.papers.values())
    corner = "; a turned corner shows the back" if backs else ""
    return f"{said} in all, shown at {_ratio(scale)}{corner}."


def _ratio(scale: Scale) -> str:
    return scale.words.removeprefix("Scale ")


def swatch_scale(book: Book, sizes: Sequence[Size], side: float) -> Scale:
    """The largest round scale at which none of these sizes is longer than `side` points."""
    longest = max(max(size.width, size.height) for size in sizes)
    fitting = (scale for scale in ROUND_SCALES if scale.points(longest, book.unit) <= side)
    return next(fitting, ROUND_SCALES[-1])


def _swatch_list(book: Book, cells: Sequence[_Cell], pictures: float) -> Table:
    """Two columns of a swatch, in a column `pictures` wide, and its words, read line by line."""
    width = (book.grid.text_width - _GUTTER) / 2
    pairs = list(zip_longest(cells[::2], cells[1::2]))
    rows = [[part for cell in pair for part in _swatch_row(book, cell)] for pair in pairs]
    for row in rows:
        row.insert(2, "")
    widths = (pictures, width - pictures, _GUTTER, pictures, width - pictures)
    commands = [
        ("TOPPADDING", (0, 0), (-1, -1), 2.0),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 2.0),
    ]
    return bare_table(book, rows, widths, commands=commands)


def _swatch_row(book: Book, cell: _Cell | None) -> list[str | Flowable]:
    if cell is None:
        return ["", ""]
    figure, fragments = cell
    return [FigureBox(figure), Prose.of(book.styles.small, *fragments)]


def _sheet_cell(book: Book, sheet: CutSheet, scale: Scale) -> _Cell:
    figure = sheet_swatch(book.kit, book.papers, sheet.index, scale, book.drawing)
    style, coloured = book.styles.small, f'<b><font color="{book.palette.accent.hex}">word</font></b>'
    number = run(str(sheet.number), style, coloured)
    title = bold(f"\u00a0\u00a0{sheet_title(book.kit, sheet.sheet)}", style)
    facts = [_with_unit(book, sheet.size)]
    if sheet.sheet.count > 1:
        facts.append(f"{number_word(sheet.sheet.count)}\u00a0sheets")
    if sheet.sheet.is_cut_apart:
        facts.append("to cut apart")
    return figure, (number, title, line_break(style), run(", ".join(facts), style))


def _with_unit(book: Book, size: Size) -> str:
    return f"{print_size(size, book.unit)}\u00a0{book.unit.value}"


def _ready_cell(book: Book, ready: ReadyCut, scale: Scale) -> _Cell:
    style = book.styles.small
    figure = ready_swatch(book.kit, book.papers, ready, scale, book.drawing)
    count = f"{ready.count} pieces" if ready.count > 1 else "1 piece"
    spare = f", {number_word(ready.spare)} to spare" if ready.spare else ""
    name = bold(capitalised(ready.name), style)
    size, counted = run(_outer_size(book, ready), style), run(f"{count}{spare}", style)
    return figure, (name, line_break(style), size, line_break(style), counted)


def _outer_size(book: Book, ready: ReadyCut) -> str:
    if ready.outline is OutlineShape.CIRCLE and ready.size.width == ready.size.height:
        return f"{print_length(ready.size.width, book.unit)}\u00a0{book.unit.value} across"
    return _with_unit(book, ready.size)


# Supplies, tools, cautions.


def _tools(book: Book) -> list[Flowable]:
    story = page_head(book, "Before you cut", "Tools and cautions")
    if book.kit.supplies:
        story += [*heading(book, "Also in the box", before=0.0), _supplies(book)]
    above = 10.0 if book.kit.supplies else 0.0
    story += [*heading(book, "What you bring", before=above), _bring(book), Gap(6.0)]
    story += [words(said, book.styles.small) for said in trimmer_words(book)]
    return [*story, *caution_story(book)]


def _supplies(book: Book) -> Table:
    width = book.grid.text_width
    rows = [_supply_row(book, supply) for supply in book.kit.supplies]
    return list_table(book, rows, (34.0, width * 0.45, width * 0.55 - 34.0))


def _supply_row(book: Book, supply: Supply) -> list[str | Flowable]:
    title = supply.title or capitalised(supply.id)
    return [
        FigureBox(supply_swatch(supply, book.drawing)),
        words(title, book.styles.small_bold),
        words(supply_words(book, supply), book.styles.small),
    ]


def supply_words(book: Book, supply: Supply) -> str:
    """How much of a supply is in the box, and its measures: `54 in, 3/8 wide`."""
    unit = book.unit
    parts = []
    if supply.length is not None:
        length = f"{print_length(supply.length, unit)}\u00a0{unit.value}"
        parts.append(f"{_count(book, supply.count)} × {length}" if supply.count else length)
    elif supply.count is not None:
        parts.append(_count(book, supply.count))
    if supply.width is not None:
        parts.append(f"{print_length(supply.width, unit)}\u00a0{unit.value} wide")
    if supply.size is not None:
        each = " each" if supply.count else ""
        parts.append(f"{print_size(supply.size, unit)}{each}")
    return ", ".join(parts)


def _count(book: Book, count: Fraction) -> str:
    return print_length(count, book.unit)


def _bring(book: Book) -> Table:
    tools = book.kit.bring or _USUAL_TOOLS
    rows = [[TickBox(book.palette.soft_ink, drop=0.0), words(tool, book.styles.small)] for tool in tools]
    return list_table(book, rows, (18.0, book.grid.text_width - 18.0))


def trimmer_words(book: Book) -> Iterator[str]:
    """What the kit asks of the trimmer, read off its cuts: longest reading, longest cut, marks."""
    stages = [stage for sheet in book.resolved.sheets for stage in sheet.stages]
    if not stages:
        return
    unit, limits = book.unit, trimmer_limits(book.kit)
    readings = [cut.reading for stage in stages for cut in stage.cuts]
    reach, blade = print_length(max(readings), unit), print_length(max(s.seen.height for s in stages), unit)
    yield (
        f"Your trimmer: the largest reading of this kit is {reach}\u00a0{unit.value}, "
        f"the longest cut {blade}\u00a0{unit.value}."
    )
    if all(is_on_mark(reading, limits.mark) for reading in readings):
        yield f"Every cut lies on a mark of {print_length(limits.mark, unit)}\u00a0{unit.value}."
