"""The words of the last pages: room to write, the keepsake, the back cover."""

from __future__ import annotations

from booklet.content.spans import Extent, Line, line, strong
from booklet.kit.kit import PageFormat

_SHEETS = {
    PageFormat.HALF_LETTER: "Letter",
    PageFormat.A5: "A4",
    PageFormat.LETTER: "Tabloid",
    PageFormat.A4: "A3",
    PageFormat.SQUARE_6_IN: "Legal",
    PageFormat.SQUARE_15_CM: "A3",
}


class EnglishClosing:
    """The words of the last pages in English."""

    to_write_in = line("To write in")
    notes = line("Notes")

    to_keep = line("To keep")
    keepsake = line("The finished album")
    keepsake_lead = line("Glue in a snapshot of it, and keep this booklet with those of the other months.")
    made_by = line("Made by, and when")

    def frame(self, size: Extent) -> Line:
        """What the empty frame is for."""
        return line("An empty frame for a snapshot of ", size)

    back_part = line("Printing at home")
    strips = line("All papers of this kit as strips")
    page_lost = line(
        strong("A page lost?"),
        " Print it again from the file of single pages: at 100 %, without fitting to the page.",
    )

    def whole_booklet(self, page: PageFormat) -> Line:
        """How to print the whole booklet at home."""
        return line(
            strong("The whole booklet at home?"),
            f" Take the file for home printing: on {_SHEETS[page]}, on both sides, flipped on the short "
            "edge, or on the long one if the file was made for that. Keep the printed sheets in the order in "
            "which they come out. Fold them in the middle, and staple along the fold.",
        )

    typefaces = line(
        "Set in Booklet Sans and Booklet Serif, derived from Source Sans 3 and Source Serif 4 under the SIL "
        "Open Font License."
    )
