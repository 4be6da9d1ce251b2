"""The cutting pages, sheet by sheet, and their figures."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.cutting.model import CutSheet
from booklet.drawing.shapes.figure import Figure
from booklet.pages.book import Book
from booklet.pages.cut_blocks import sheet_blocks
from booklet.pages.cut_pages import drawn_sheet
from booklet.pages.cut_rows import MoreRow
from booklet.pages.cut_words import listed
from booklet.pages.page import Block


def cut_sheets(book: Book) -> tuple[CutSheet, ...]:
    """The sheets that are cut into pieces, in the order in which they are cut; no cut-aparts."""
    return _in_order(book, cut_apart=False)


def cut_apart_sheets(book: Book) -> tuple[CutSheet, ...]:
    """The printed sheets that are cut apart, in the order in which they are cut."""
    return _in_order(book, cut_apart=True)


def _in_order(book: Book, *, cut_apart: bool) -> tuple[CutSheet, ...]:
    chosen = [s for s in book.resolved.sheets if s.stages and s.sheet.is_cut_apart is cut_apart]
    return tuple(sorted(chosen, key=lambda sheet: sheet.number))


def numbers_said(numbers: Sequence[int]) -> str:
    """Rising numbers, those that follow each other said by the first and the last: `1, 3 and 5 to 8`."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and number == runs[-1][-1] + 1:
            runs[-1].append(number)
        else:
            runs.append([number])
    return listed([part for run in runs for part in _run_said(run)])


def _run_said(run: Sequence[int]) -> list[str]:
    return [f"{run[0]} to {run[-1]}"] if len(run) > 2 else [str(number) for number in run]


def cutting_blocks(book: Book) -> tuple[Block, ...]:
    """The pages of every sheet that is cut, each sheet on an opening of its own or on less."""
    return sheet_blocks(book, cut_sheets(book))


def cut_figures(book: Book) -> tuple[Figure, ...]:
    """The figures of all sheets that are cut, in the order of the pages, which show the same ones."""
    figures: list[Figure] = []
    for sheet in (*cut_sheets(book), *cut_apart_sheets(book)):
        drawn = drawn_sheet(book, sheet.index)
        for row in drawn.plan.stages:
            figures += (drawn.figures[row.stage.number], *row.views)
        figures += [view for row in drawn.plan.rows if isinstance(row, MoreRow) for view in row.views]
    return tuple(figures)
