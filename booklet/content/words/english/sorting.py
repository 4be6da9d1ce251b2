"""The words of the pockets, the photo planner and the pockets' labels."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.content.spans import (
    Extent,
    Line,
    Number,
    Own,
    Part,
    PieceRef,
    PocketRef,
    joined,
    line,
    quiet,
)
from booklet.content.words.english.basics import BASICS
from booklet.measure.length import TIMES, Unit


class EnglishSorting:
    """The words of sorting in English."""

    part = line("Sorting")
    title = line("What each pocket holds")
    lead = line("Check a pocket against this list before you begin its layouts.")

    piece = line("Piece")

    def pocket(self, pocket: PocketRef) -> Line:
        """A pocket by its name."""
        return line("Pocket ", pocket)

    def pocket_title(self, layouts: Sequence[Own]) -> Line:
        """The layouts that a pocket serves, beside its picture."""
        return BASICS.listed(layouts)

    def labels(self, labels: Sequence[PieceRef]) -> Line:
        """The labels of pieces of one sheet, the sheet's number said once; what is ready-cut has none."""
        return joined(labels, ", ") if labels else line(quiet("box"))

    def pieces(
        self,
        labels: Line,
        name: Own,
        count: Number | None,
        *,
        is_optional: bool,
        is_in_pile: bool,
    ) -> Line:
        """Pieces of one name: beside the box how many, and whether the layout may do without."""
        counted: list[Part] = [count, f"\u00a0{TIMES} "] if count else []
        said: list[Part] = [*counted, labels, "\u00a0\u00a0", name]
        if is_in_pile:
            said.append(quiet(" (pile)"))
        if is_optional:
            said.append(quiet(" (if you like)"))
        return line(*said)

    missing = line("Not in its pocket?")
    missing_note = line("Note its label here, and look again where its sheet was cut.")

    # The photo planner.

    planner = line("Photo planner")

    def planner_lead(self, unit: Unit) -> Line:
        """What the planner is for, and in which unit the sizes are."""
        return line(
            f"Note beside each frame which photograph it will hold. Sizes are in {BASICS.unit(unit)}."
        )

    def photo(self, size: Extent) -> Line:
        """What the picture of a photograph shows."""
        return line("A photograph of ", size)

    def photo_place(self, layout: Own, size: Extent) -> Line:
        """Where a photograph goes, and how large it is there."""
        return line(layout, "\u00a0\u00a0", size)

    # Labels.

    to_cut_out = line("To cut out")
    labels_title = line("Pocket labels")
    labels_lead = line(
        "Print or copy this page, cut along the dashed lines, and stick a label on each pocket."
    )

    def and_more(self, count: Number) -> Line:
        """So many layouts besides those that a label names."""
        return line("and ", count, " more")
