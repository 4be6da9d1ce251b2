"""The words of the cover, the welcome, the box and the pile."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.content.spans import (
    Extent,
    Length,
    Line,
    Number,
    Own,
    SheetRef,
    joined,
    line,
    strong,
)
from booklet.content.words.english.basics import BASICS


class EnglishFront:
    """The words before cutting in English."""

    # The cover.

    cover_part = line("Cover")

    def made_by(self, publisher: Own, month: Own | None) -> Line:
        """Whose kit this is, and of which month."""
        return line(publisher, "  ·  ", month) if month else line(publisher)

    def title_and_month(self, title: Own, month: Own | None) -> Line:
        """What the file is called."""
        return line(title, ", ", month) if month else line(title)

    subject = line("Cutting and assembly instructions")

    def cover_count(self, layouts: Number, pieces: Number) -> Line:
        """How much there is to make, of how much."""
        counted = BASICS.counted(layouts, " layout"), ", ", BASICS.counted(pieces, " piece")
        return line(*counted, ": cutting and assembly")

    def finished_pages(self, titles: Sequence[Own]) -> Line:
        """What the picture of a spread, or of one page, shows."""
        if len(titles) == 1:
            return line("The finished page ", titles[0])
        return line("The finished pages ", BASICS.listed(titles), ", side by side")

    # The welcome.

    welcome = line("Welcome")
    usual_welcome = line(
        "All that lies in this box becomes finished pages, and this booklet goes with you from the first cut "
        "to the last photograph."
    )

    def way(self, has_cuts: bool, is_piled: bool) -> tuple[Line, ...]:
        """The way from the box to the finished pages, in a few steps."""
        order = ", in the order of the pile" if is_piled else ""
        cut = line(strong("Cut"), f" every sheet{order}.")
        file = line(strong("File"), " each piece at once in the pocket that stands beside its cut.")
        sort = line(strong("Sort"), " the pieces into the pockets.")
        make = line(strong("Make"), " the layouts by number, each from its pocket, and tick off as you go.")
        return (cut, file, make) if has_cuts else (sort, make)

    contents = line("In this booklet")
    layouts = line("The layouts")

    def cutting(self, sheets: Line) -> Line:
        """Where the sheets are cut."""
        return line("Cutting: ", sheets)

    def cutting_apart(self, sheets: Line) -> Line:
        """Where the printed sheets are cut apart."""
        return line("Cutting apart: ", sheets)

    def sheets(self, sheets: Sequence[SheetRef]) -> Line:
        """Sheets by rising numbers: `sheets 1, 3 and 5 to 8`."""
        runs: list[list[SheetRef]] = []
        for sheet in sheets:
            if runs and sheet.number == runs[-1][-1].number + 1:
                runs[-1].append(sheet)
            else:
                runs.append([sheet])
        parts = [part for run in runs for part in ([line(run[0], " to ", run[-1])] if len(run) > 2 else run)]
        return self._sheets(len(sheets), BASICS.listed(parts))

    def true_size(self, length: Length) -> Line:
        """What the bar is for, and what to do where it is not true."""
        return line(
            strong("Is this page its true size?"),
            " The bar below measures ",
            length,
            ". If a ruler says otherwise, print again at 100 %, without fitting to the page.",
        )

    def bar(self, length: Length) -> Line:
        """What the picture of the bar shows."""
        return line("A bar of ", length, " to lay a ruler on")

    # The box and the pile.

    before_cutting = line("Before you cut")
    box = line("In the box")
    box_and_pile = line("The box and the pile")

    def sheet_count(self, count: Number, size: Extent | None) -> Line:
        """How many sheets there are, and their size where all have one."""
        one = count.value == 1
        sized = line(", " if one else ", each ", size) if size else ()
        return line(count, " sheet" if one else " sheets", sized, ".")

    stack_first = line("Stack the sheets like this before you begin.")
    cut_from_top = line(
        strong("Cut from the top down:"),
        " each sheet then lies as it is to be cut.",
    )

    def whole_below(self, sheets: Sequence[SheetRef], first: Own) -> Line:
        """Which sheets stay whole at the foot of the pile, the base of this layout on top."""
        them = BASICS.capital(self.sheets(sheets))
        stay = " stays whole and waits" if len(sheets) == 1 else " stay whole and wait"
        on_top = " on top" if len(sheets) > 1 else ""
        return line(them, stay, " below, the base of ", first, on_top, ".")

    def pile(self, sheets: Sequence[SheetRef]) -> Line:
        """What the picture of the pile shows."""
        return line("The pile from the top down: ", self.sheets_in_order(sheets))

    def sheets_in_order(self, sheets: Sequence[SheetRef]) -> Line:
        """Sheets in the order in which they lie."""
        return self._sheets(len(sheets), BASICS.listed(sheets))

    def _sheets(self, count: int, listed: Line) -> Line:
        return line("sheet " if count == 1 else "sheets ", listed)

    def sheet_entry(
        self, sheet: SheetRef, name: Own, count: Number | None, size: Extent | None, lies: Line
    ) -> Line:
        """A sheet of the pile: number and name, how many alike, its size where sizes differ, how it lies."""
        counted = line(", ", count, " sheets") if count else ()
        sized = line(", ", size) if size else ()
        return line(sheet, "\u00a0\u00a0", name, counted, sized, ", ", lies)

    def with_letter(self, said: Line, letter: str) -> Line:
        """A paper of a list, with the letter that it bears where there is no colour."""
        return line(said, ", ", strong(letter))

    def paper_letters(self, letters: Sequence[tuple[str, Own]]) -> Line:
        """What the letters on papers are for, where there is no colour; each with its paper."""
        listed = joined([line(strong(letter), "\u00a0is ", paper) for letter, paper in letters], ", ")
        return line("Papers that look alike in black bear a letter in the pictures: ", listed, ".")

    whole = line("whole")

    def sheet_tip(self, sheet: SheetRef, name: Own, tip: Own) -> Line:
        """The designer's tip for a sheet that is not cut."""
        return line("Sheet ", sheet, ", ", name, ": ", tip)

    ready_cut = line("Ready-cut")

    def ready_count(self, count: Number, spare: Number | None) -> Line:
        """How many pieces there are, and how many of them no layout takes."""
        counted = BASICS.counted(count, " piece")
        return line(counted, ", ", spare, " to spare") if spare else counted

    def ready_piece(self, name: Own) -> Line:
        """What the picture of a ready-cut piece shows."""
        return line("Ready-cut: ", name)
