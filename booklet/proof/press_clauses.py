"""What a file for a print shop is held to: the clauses of PDF/X-1a:2003, and what pages promise besides."""

from __future__ import annotations

from enum import Enum

from booklet.measure.dataclass import dataclass


class Clause(Enum):
    """A rule: its number in ISO 15930-4, where public descriptions give one, and what it asks for.

    Those with `house` in the place of a number are no part of the standard.
    """

    READABLE = ("", "a PDF that can be read")
    HEADER = ("6.1", "PDF 1.4 at most, without what came later: streams of objects, layers, JPEG 2000")
    IDENTITY = ("6.1", "the version PDF/X-1a:2003 and a title, a day of making and of change in Info")
    FILE_ID = ("6.1", "an ID in the trailer")
    OUTPUT_INTENT = ("6.2", "one output intent for PDF/X that names a registered condition")
    FONTS = ("6.3", "embedded typefaces")
    COMPRESSION = ("6.5", "no LZW and no JBIG2")
    TRAPPED = ("6.6", "Trapped stated as the name True or False")
    BOXES = ("6.8", "a TrimBox or ArtBox of each page itself, within BleedBox, CropBox and MediaBox")
    POSTSCRIPT = ("6.10", "no PostScript")
    ENCRYPTION = ("6.11", "no encryption")
    ANNOTATIONS = ("6.13", "no annotation within the BleedBox")
    TRANSPARENCY = ("6.16", "nothing transparent")
    ACTIONS = ("", "no actions and no JavaScript")
    COLOUR = ("", "colours in DeviceCMYK, DeviceGray, or spot colours of these")
    TRANSFER = ("", "no transfer curves")
    HALFTONE = ("", "no halftones by name")
    OPI = ("", "no OPI")
    FILES = ("", "no other files")
    INK = ("house", "ink within the limit everywhere, black letters on a colour counted")
    TEXT = ("house", "letters black alone, or white")
    OVERPRINT = ("house", "black that overprints, and nothing else that does")

    def __init__(self, number: str, asked: str) -> None:
        self.number = number
        self.asked = asked


@dataclass(frozen=True)
class Breach:
    """A clause that is broken: on which page, from 1, where it is of one, and what was found."""

    clause: Clause
    page: int | None
    found: str


def breach_text(breach: Breach) -> str:
    """`page 3: 6.3 embedded typefaces: found Helvetica without its file`."""
    where = f"page {breach.page}: " if breach.page is not None else ""
    number = f"{breach.clause.number} " if breach.clause.number else ""
    return f"{where}{number}{breach.clause.asked}: found {breach.found}"
