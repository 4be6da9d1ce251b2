"""The words of the companion: the booklet on a screen, step by step."""

from __future__ import annotations

from booklet.content.spans import Line, Number, SheetRef, line
from booklet.content.words.english.basics import BASICS
from booklet.measure.length import Unit


class EnglishCompanion:
    """What the companion says besides the booklet, in English."""

    true_on_paper = line("True to size where this page is printed at 100 %.")

    # The parts of the companion.

    start = line("Start")
    cut = line("Cut")
    pieces = line("Pieces")
    pages = line("Pages")
    booklet = line("Booklet")
    settings = line("Settings")
    parts = line("Parts of this companion")

    # Step by step.

    pile = line("The pile, the next sheet on top")
    layouts = line("The pages, in the order of assembly")
    back = line("Back")
    next = line("Next")
    done = line("Done")
    turn_again = line("Show the turn again")
    read_aloud = line("Read aloud")
    stop_reading = line("Stop reading")
    print_this = line("Print this")
    scrap_off = line("comes off")
    all_cut = line("All sheets are cut.")
    all_made = line("All pages are made.")
    to_pieces = line("See what lies in the pockets")
    to_pages = line("Go on to the pages")

    def sheet(self, sheet: SheetRef) -> Line:
        """A sheet by its number."""
        return line("Sheet ", sheet)

    def cut_of(self, number: Number, last: Number) -> Line:
        """Which cut of a sheet it is."""
        return line("Cut ", number, " of ", last)

    def step_of(self, number: Number, last: Number) -> Line:
        """Which step of a layout it is."""
        return line("Step ", number, " of ", last)

    def page(self, number: Number) -> Line:
        """A layout by its number."""
        return line("Page ", number)

    # Start.

    begin_cutting = line("Cut the sheets")
    go_on_cutting = line("Go on cutting")
    begin_pages = line("Make the pages")
    go_on_pages = line("Go on with the pages")
    cuts_done = line("Cuts done")
    pieces_filed = line("Pieces filed")
    steps_done = line("Steps done")
    read_first = line("Read first")
    how_to_go_on = line(
        "Tap the right half of a picture to go on and the left half to go back, swipe, or use the arrow "
        "keys. Done, or the Enter key, ticks off what was made and goes on."
    )

    # Pieces.

    search = line("Search by name, label or page")
    only_missing = line("Only what is missing")
    missing = line("Missing")
    nothing_missing = line("All there")
    nothing_found = line("Nothing of that name.")

    # Settings.

    measures = line("Measures")

    def in_unit(self, unit: Unit) -> Line:
        """A choice of units."""
        return BASICS.capital(line(BASICS.unit(unit)))

    other_unit_note = line(
        "To the nearest mark of such a trimmer or ruler; ≈ stands before what lies between two marks. The "
        "pictures of the booklet, and words of its designer, keep the unit of the kit."
    )
    zero = line("The trimmer’s zero")
    zero_left = line("At the left")
    zero_right = line("At the right")
    zero_note = line(
        "With the zero at the other side every sheet lies half round, so that the same print comes off. The "
        "pages of the booklet keep the kit’s own side."
    )
    large_type = line("Large type")
    ticks = line("Ticks")
    clear = line("Clear all ticks and places")
    really_clear = line("All ticks of this kit will be gone.")
    clear_now = line("Clear them")
    keep = line("Keep them")
    cleared = line("All ticks are cleared.")
    not_kept = line("This browser keeps nothing for a file: ticks are lost when it is closed.")
