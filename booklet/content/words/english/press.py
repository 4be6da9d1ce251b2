"""The words for a print shop: the lines beside the pages, and the page that tells how they are printed."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.content.spans import Extent, Length, Line, Own, joined, line


def _counted(count: int, what: str) -> str:
    return f"{count} {what}" if count == 1 else f"{count} {what}s"


# By the names in the registry of characterisation data; what they are, from memory.
_CONDITIONS = {
    "FOGRA39": "offset on coated paper, ISO 12647-2:2004, paper types 1 and 2",
    "FOGRA51": "offset on coated paper, ISO 12647-2:2013, print substrate 1",
    "FOGRA52": "offset on uncoated paper, ISO 12647-2:2013, print substrate 5",
    "CGATS TR 001": "web offset on coated publication paper, SWOP",
    "CGATS TR 006": "sheet-fed offset on coated paper, GRACoL 2006",
    "CGATS21-2-CRPC6": "offset on coated paper, CGATS 21-2, reference condition 6",
}


class EnglishPress:
    """The words for a print shop in English."""

    # Beside the pages.

    def slug_of_page(self, edition: str, page: int, pages: int) -> str:
        """What stands beside a single page, after the title."""
        return f"{_edition(edition)}  ·  page {page} of {pages}"

    def slug_of_sheet(self, edition: str, sheet: int, sheets: int, is_front: bool, signature: int) -> str:
        """What stands beside a side of a press sheet, after the title; all numbers count from 1."""
        side = "front" if is_front else "back"
        return f"{_edition(edition)}  ·  sheet {sheet} of {sheets}, {side}  ·  signature {signature}"

    # The page for the printer.

    def title(self, kit: Own) -> Line:
        """The title of the page."""
        return line("To print ", kit)

    subject = line("How the booklet is printed, folded and stapled, for the print shop")

    def of_edition(self, edition: str) -> Line:
        """Which edition it is about."""
        return line(f"Edition {edition}. ") if edition else ()

    lead = line(
        "Print one of the two files, not both: the single pages, or the press sheets laid out for you."
    )
    heads = (line("What"), line("How"))
    files, paper, print_, finish = line("Files"), line("Paper"), line("Print"), line("Fold, staple, trim")

    pages_file, sheets_file = line("Single pages"), line("Press sheets")

    def pages_said(self, name: str, pages: int) -> Line:
        """What the file of single pages holds."""
        return line(f"{name}: {pages} pages in reading order, the covers first and last, all of one paper")

    def sheets_said(self, name: str, sheets: int, sheet: str, size: Extent) -> Line:
        """What the file of press sheets holds; `sheet` is what their paper is called, if it is."""
        named = f"{sheet}, " if sheet else ""
        return line(f"{name}: {_counted(sheets, 'sheet')}, front and back in turn, each {named}", size)

    standard = line("Standard")

    def standard_said(self, version: str) -> Line:
        """Which standard the files keep to."""
        return line(f"{version}, PDF 1.4; checked by booklet press before they were written")

    size = line("Finished size")

    def size_said(self, size: Extent) -> Line:
        """The size once trimmed."""
        return line(size, ", width by height")

    bleed = line("Bleed")

    def bleed_said(self, bleed: Length) -> Line:
        """How far pages are printed beyond their trim."""
        return line(bleed, " on all four sides; marks stand outside it")

    stock = line("Paper")
    stock_said = line("the same for all sheets; readers write on it with a pen, so rather matt than glossy")
    caliper = line("Caliper")

    def caliper_said(self, caliper: str) -> Line:
        """How thick the paper is."""
        return line(caliper, " a sheet; on another paper the creep is another one")

    no_caliper = line("not stated when the files were made, so that nothing was moved for creep")
    grain = line("Grain")
    grain_said = line("parallel to the spine, so that the fold does not crack and pages lie flat")

    inks = line("Inks")
    inks_said = line("cyan, magenta, yellow, black on both sides; four plates, no spot colour, no varnish")
    condition = line("Condition")

    def condition_means(self, identifier: str) -> str:
        """What a registered condition is; the files say it too."""
        return _CONDITIONS[identifier]

    def condition_said(self, identifier: str, meaning: str) -> Line:
        """What the inks were mixed for."""
        return line(f"{identifier}: {meaning}. It is named in the files, which hold no profile")

    ink_limit = line("Total ink")

    def ink_limit_said(self, percent: str) -> Line:
        """The most ink in a place."""
        return line(f"at most {percent} % anywhere, black letters on a colour counted")

    black = line("Black")
    black_said = line("letters and black lines are black alone and overprint: leave overprinting on")
    trapping = line("Trapping")
    trapping_said = line("none done; white letters are left out of their ground")
    pictures = line("Pictures")

    def pictures_said(self, dots: int) -> Line:
        """How fine pictures are."""
        return line(f"in the four inks; where they are largest, at most {dots} dots to the inch")

    fonts = line("Typefaces")

    def fonts_said(self, names: Sequence[str]) -> Line:
        """Which faces lie in the files."""
        return line("embedded: ", joined(names, ", "))

    fold = line("Fold")
    fold_said = line("each sheet once, in its middle at the dashed marks; the front lies outside")
    nest = line("Nest")

    def nest_said(self, sheets: int, outside: tuple[int, int], inside: tuple[int, int]) -> Line:
        """How the sheets of one signature lie in each other, by what their first and last sides bear."""
        return line(
            f"all {_counted(sheets, 'sheet')} in one: sheet 1 outside, with pages {outside[0]} and "
            f"{outside[1]}; sheet {sheets} inmost, with pages {inside[0]} and {inside[1]} open in its middle"
        )

    def signatures_said(self, signatures: int, each: int, last: int) -> Line:
        """How the sheets of several signatures lie in each other; the last one may have fewer."""
        fewer = "" if last == each else f", the last of {_counted(last, 'sheet')}"
        return line(
            f"{signatures} signatures of {_counted(each, 'sheet')}{fewer}, behind one another in the order "
            "of their numbers; in each the sheet with the lowest number lies outside"
        )

    creep = line("Creep")

    def creep_said(self, most: str) -> Line:
        """How far the inmost pages were moved."""
        return line("done in the press sheets: pages of the inmost move towards the fold by ", most)

    no_creep = line("none done: say the caliper with --caliper, or let your own layout do it")
    staples = line("Staples")

    def staples_said(self, from_end: Length, signatures: int) -> Line:
        """Where the staples sit."""
        where = "" if signatures == 1 else " of each signature"
        return line(f"two through the fold{where}, from outside, each ", from_end, " from head or foot")

    trim = line("Trim")
    trim_said = line("head, foot and face, once folded and stapled")


def _edition(edition: str) -> str:
    return f"  ·  edition {edition}" if edition else ""
