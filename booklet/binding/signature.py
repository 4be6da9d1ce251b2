"""The order of the pages on press sheets: folded and nested in signatures, or flat leaves.

A folded sheet carries four pages, two to a side.  The sheets of a signature are folded once, nested and
stitched through the fold; several signatures lie behind one another in the book.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.binding.errors import PageCountError
from booklet.measure.dataclass import dataclass

PAGES_PER_SHEET = 4
# So many sheets of 80 g paper are folded and stapled as one at home: a thicker pile does not lie flat, and an
# office stapler fails at it (common practice, no source).
MOST_FOLDED = 16
# How many to fold at a time instead.
USUAL_SIGNATURE = 8


@dataclass(frozen=True)
class PressSide:
    """One side of a press sheet: the numbers, from 1, of the pages left and right of the fold."""

    left: int
    right: int


@dataclass(frozen=True)
class PressSheet:
    """One press sheet: its place in the nest (0 outermost), its two sides, its signature (0 the first).

    The front is the side that looks outwards once the sheet is folded.
    """

    number: int
    front: PressSide
    back: PressSide
    signature: int = 0


@dataclass(frozen=True)
class Leaf:
    """A leaf that is not folded: the pages on its front and its back; None where the back stays blank."""

    front: int
    back: int | None


def saddle_stitched(page_count: int, sheets_in_signature: int | None = None) -> tuple[PressSheet, ...]:
    """The press sheets of a booklet of `page_count` pages, outermost of the first signature first.

    Without `sheets_in_signature` all sheets are nested in one signature.  With it every signature has so
    many sheets, but the last, which has those that are left: full signatures come first, since a binder
    folds and counts equal ones, and a thin last one is the least in the way.

    Sheet s of a signature of N pages carries its pages (N - 2s, 1 + 2s) on its front and (2 + 2s, N - 1 - 2s)
    on its back, so that the two pages of every side add up to N + 1.  Raises PageCountError unless there is
    a positive multiple of four pages, and at least one sheet to a signature.
    """
    if page_count <= 0 or page_count % PAGES_PER_SHEET:
        raise PageCountError(
            f"{page_count} pages do not fill whole press sheets: a folded booklet has a multiple of "
            f"{PAGES_PER_SHEET} pages"
        )
    sheets = page_count // PAGES_PER_SHEET
    each = sheets if sheets_in_signature is None else sheets_in_signature
    if each <= 0:
        raise PageCountError(f"a signature of {each} sheets: it has at least one")
    return tuple(_signatures(sheets, each))


def _signatures(sheets: int, each: int) -> Iterator[PressSheet]:
    for signature, first in enumerate(range(0, sheets, each)):
        nested = min(each, sheets - first)
        before = first * PAGES_PER_SHEET
        for number in range(nested):
            yield _press_sheet(number, nested * PAGES_PER_SHEET, before, signature)


def _press_sheet(number: int, page_count: int, before: int, signature: int) -> PressSheet:
    """A sheet of a signature of so many pages, with so many pages before it in the booklet."""
    first = before + 1 + 2 * number
    last = before + page_count - 2 * number
    return PressSheet(number, PressSide(last, first), PressSide(first + 1, last - 1), signature)


def flat_leaves(page_count: int) -> tuple[Leaf, ...]:
    """The leaves of a booklet that is not folded: page 1 on the front of the first, page 2 on its back.

    Of an odd number of pages the last leaf's back stays blank.  Raises PageCountError for no pages.
    """
    if page_count <= 0:
        raise PageCountError(f"{page_count} pages: a booklet has at least one")
    return tuple(
        Leaf(front, front + 1 if front < page_count else None) for front in range(1, page_count + 1, 2)
    )
