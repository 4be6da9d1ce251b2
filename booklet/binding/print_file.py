"""The print file for home: every side of every press sheet, or fronts and backs apart for two passes."""

from __future__ import annotations

from collections.abc import Sequence
from enum import Enum

from booklet.binding.binding import Binding
from booklet.binding.lay import impose
from booklet.binding.marks import home_marks
from booklet.binding.sides import ImposedSheet, ImposedSide
from booklet.binding.write import Marks, assemble, describe, opened_pages, saved


class OutputStack(Enum):
    """How a printer that prints one side at a time lays down the sheets.

    Face down they come to lie in order under their blank backs, and go back as they lie, the last sheet on
    top; face up the stack is turned over as one, which brings the first sheet to the top.
    """

    FACE_DOWN = "face-down"
    FACE_UP = "face-up"


def print_file(read_pdf: bytes, binding: Binding, marks: Marks = home_marks) -> bytes:
    """Arrange a booklet in reading order for a printer that prints both sides.

    Returns a PDF with the front and the back of each press sheet in turn, the outermost of the first
    signature first, its bytes the same for the same input.

    Raises PageCountError, StockTooSmallError, CreepError, PageSizeError or UnreadablePagesError.
    """
    with opened_pages(read_pdf) as source:
        sheets = impose(len(source.pages), binding)
        target = assemble(source, both_sides(sheets), binding, marks)
        describe(target, source, binding.flip)
        return saved(target)


def print_files_by_hand(
    read_pdf: bytes, binding: Binding, stack: OutputStack, marks: Marks = home_marks
) -> tuple[bytes, bytes]:
    """Fronts and backs as two files, the backs in the order in which the sheets are taken in again.

    A back that stays blank is a blank page, so that each sheet meets its own.  Raises as `print_file` does.
    """
    with opened_pages(read_pdf) as source:
        sheets = impose(len(source.pages), binding)
        files = []
        for sides in ([sheet.front for sheet in sheets], backs_by_hand(sheets, stack)):
            target = assemble(source, sides, binding, marks)
            describe(target, source, None)
            files.append(saved(target))
        fronts, backs = files
        return fronts, backs


def both_sides(sheets: Sequence[ImposedSheet]) -> list[ImposedSide]:
    """Front and back of each sheet in turn."""
    return [side for sheet in sheets for side in sheet.sides]


def backs_by_hand(sheets: Sequence[ImposedSheet], stack: OutputStack) -> list[ImposedSide]:
    """The backs in the order in which the sheets are taken in again, from the top of the stack."""
    backs = [sheet.back for sheet in sheets]
    return backs[::-1] if stack is OutputStack.FACE_DOWN else backs
