"""The words of the picture of a whole kit."""

from __future__ import annotations

from booklet.content.spans import Line, Number, Own, Part, PieceRef, PocketRef, SheetRef, line, quiet


class EnglishOverview:
    """The words of the overview in English."""

    title = line("The whole kit")

    def lead(self, pieces: Number) -> Line:
        """What the picture shows."""
        return line(
            "Each of the ",
            pieces,
            " pieces is a strand of its own paper: from its sheet or the box, through"
            " its pocket, to its layout.",
        )

    def alt(self, kit: Own, pieces: Number, pockets: Number, layouts: Number) -> Line:
        """What the picture shows, for a person who cannot see it; each piece is told by itself."""
        return line(
            kit,
            ": ",
            pieces,
            " pieces, each a line from its sheet or the box through one of ",
            pockets,
            " pockets to one of ",
            layouts,
            " layouts. The list tells them one by one.",
        )

    def from_sheet(self, piece: PieceRef, name: Own, sheet: SheetRef) -> Line:
        """A piece that is cut, and from which sheet."""
        return line(piece, " ", name, ", from sheet ", sheet)

    def from_box(self, name: Own) -> Line:
        """A piece that comes ready-cut."""
        return line(name, ", from the box")

    def goes(self, piece: Line, pocket: PocketRef | None, layout: Own) -> Line:
        """A piece, and by which pocket to which layout it goes; without one it waits in the pile."""
        by: Part = line(" in pocket ", pocket) if pocket else line(" in the pile")
        return line(piece, ",", by, ", to ", layout)

    # What is followed through the picture.

    how_to_follow = line("Point at or tap a strand, a sheet, a pocket or a page to follow it.")
    all = line("All of it")
    sources = line("Sheets and box")
    pockets = line("Pockets")
    layouts = line("Layouts")

    def numbered(self, number: SheetRef | Number, name: Own) -> Line:
        """A sheet or a layout by its number and its name."""
        return line(number, " ", name)

    def is_spare(self, piece: Line) -> Line:
        """A piece that no layout uses."""
        return line(piece, ", ", quiet("spare"))
