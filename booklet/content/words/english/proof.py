"""The words of the sheet that a person signs before the booklet is printed."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.content.spans import Length, Line, Own, Part, joined, line, quiet, strong
from booklet.measure.length import TIMES

_TOPICS = {
    "numbers": "Numbers on the pages",
    "lengths": "Things drawn, measured",
    "content": "Pages with all that they are to show",
    "halves": "Places of the print file",
    "kit": "Findings on the kit",
    "sums": "Sums that must close",
    "page-boxes": "Sizes of pages",
    "fonts-embedded": "Typefaces in the file",
    "image-resolution": "Pictures",
    "line-width": "Lines",
    "type-size": "Letters, their size",
    "contrast": "Letters, their contrast",
    "safe-margin": "Letters and lines, their margin",
}
_MARGINS = {"hold": "more than the hold", "reach": "to the scale's end", "edge": "from an edge"}


class EnglishProof:
    """The words of the sheet to sign in English."""

    def title(self, kit: Own) -> Line:
        """The title of the sheet for a kit."""
        return line("Proof of ", kit)

    subject = line("What was proved of the finished booklet, to be signed before print")

    def result(self, failed: int, unchecked: int) -> Line:
        """What it comes to."""
        if failed:
            return line(strong(f"{failed} failed."), " Do not print it as it is.")
        if unchecked:
            return line(strong("Nothing failed, but not all could be checked."))
        return line(strong("Nothing failed, and nothing was left unchecked."))

    def of_edition(self, edition: str) -> Line:
        """Which edition it is about."""
        return line(f"Edition {edition}.")

    summary = line("Summary")
    summary_heads = (line("What"), line("Looked at"), line("Held"), line("Failed"), line("Not checked"))

    def topic(self, id: str, file: str) -> Line:
        """What was looked at, and in which file."""
        return line(_TOPICS[id], quiet(f", {file}") if file else ())

    failed = line("What failed")

    def more(self, count: int) -> Line:
        """What a list leaves out."""
        return line(f"and {count} more")

    parts = line("Sheets and layouts")
    parts_heads = (
        line("Measured"),
        line("Read"),
        line("Signed"),
        line("No."),
        line("Name"),
        line("Page"),
        line("Numbers"),
        line("Drawn"),
        line("Farthest"),
        line("Sums"),
        line("Room left"),
    )

    sheets = line("Sheets")
    layouts = line("Layouts")

    def matched(self, matched: int, count: int) -> Line:
        """How many of a part's numbers are as claimed."""
        return line(f"{matched} of {count}")

    def sums_close(self, close: int, count: int) -> Line:
        """How many sums close."""
        return line(f"{close} close" if close == count else f"{count - close} do not close")

    def margin(self, room: Length, id: str) -> Line:
        """How much room is left to what limit."""
        return line(room, f" {_MARGINS[id]}")

    none = line("\u2013")

    sums = line("Sums")
    sums_heads = (line("Of"), line("What"), line("Sum"), line("Closes"))

    def strips(self, stage: int) -> Line:
        """The strips of a stage."""
        return line(f"strips, stage {stage}")

    area = line("area of all pieces")
    pieces = line("pieces kept, in the ledger")
    used = line("pieces taken")
    supply = line("used, and left over")
    yes = line("yes")
    no = line(strong("no"))

    def added(self, parts: Sequence[Line], total: Line, left: Line) -> Line:
        """Parts and what they add up to; what is left over stands last."""
        said = [joined(parts, " + "), *([line(left, quiet(" left"))] if left else [])]
        return line(joined(said, " + "), " = ", total)

    def part(self, count: int, value: Line) -> Line:
        """So many times a value."""
        return line(f"{count}\u00a0{TIMES}\u00a0", value) if count > 1 else value

    def least_supply(self, supply: Line, left: Line) -> Line:
        """The supply that is nearest to running out."""
        return line("The least supply: ", left, " left of ", supply, ".")

    own = line("Numbers in the author's own words, to be read")

    def own_number(self, page: int, said: Part, place: str) -> Line:
        """A text with a number that the author wrote, where it stands, and where it is typed."""
        return line(f"p.\u00a0{page}: ", said, quiet(f"  ({place})"))

    files = line("Files")
    files_heads = (line("File"), line("Pages"), line("SHA-256"))
    signing = line("Signed")
    sign_heads = (line("What"), line("Name"), line("Date"), line("Signature"))
    sign_text = line("Measured with a ruler on the printed page, read through, released for print.")

    pages = line("The pages")
    pages_note = line(
        "A number in a thin frame is as the kit has it; one in a heavy, broken frame is not. "
        "Rest on a frame to see where it comes from."
    )

    def page_caption(self, page: int, numbers: int, lengths: int, failed: int) -> Line:
        """What was held on a page."""
        said = f"Page {page}: {numbers} numbers and {lengths} things drawn are held"
        return line(f"{said}, {failed} failed." if failed else f"{said}.")
