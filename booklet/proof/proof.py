"""A whole booklet proved: its numbers against the kit, its print file against its pages."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from booklet.pages.booklet import LaidBooklet
from booklet.placing.resolved import ResolvedKit
from booklet.proof.claim import Claim
from booklet.proof.claims import PlaceWords, claims
from booklet.proof.content import Unlaid, unlaid
from booklet.proof.editions import page_digests
from booklet.proof.lengths import Measured, measured
from booklet.proof.print_file import WrongHalf, wrong_halves
from booklet.proof.printed import Page
from booklet.proof.read_back import PageProof, read_back
from booklet.proof.reader import read_pages


@dataclass(frozen=True)
class Proof:
    """What was found: every claim, a digest of each page, what of the content is on no page, each page of the
    reading file, each drawn length, the wrong halves of the print file.
    """

    claims: tuple[Claim, ...]
    digests: tuple[str, ...]
    unlaid: tuple[Unlaid, ...]
    pages: tuple[PageProof, ...]
    lengths: tuple[Measured, ...]
    halves: tuple[WrongHalf, ...]

    @property
    def numbers(self) -> tuple[Claim, ...]:
        """The claims that a person checks: numbers, and letters of pieces."""
        return tuple(claim for claim in self.claims if claim.has_number)

    @property
    def untraced(self) -> tuple[Claim, ...]:
        """Numbers that are to come from the kit, and come from no place in it."""
        return tuple(claim for claim in self.claims if not claim.is_traced)

    @property
    def holds(self) -> bool:
        """Whether nothing is wrong."""
        is_read = all(page.holds for page in self.pages) and all(length.holds for length in self.lengths)
        return is_read and not (self.unlaid or self.halves or self.untraced)


def prove(
    laid: LaidBooklet,
    resolved: ResolvedKit,
    place_words: PlaceWords,
    reading: bytes,
    printed: bytes | None,
) -> Proof:
    """Prove the finished files of a booklet; without a print file its reading file alone.

    Raises pypdfium2.PdfiumError for what cannot be read as a PDF.
    """
    sides = read_pages(printed) if printed is not None else None
    proved = prove_pages(claims(laid, resolved, place_words), read_pages(reading), sides)
    return replace(proved, digests=page_digests(reading), unlaid=tuple(unlaid(laid)))


def prove_pages(claimed: Sequence[Claim], pages: Sequence[Page], sides: Sequence[Page] | None) -> Proof:
    """Prove pages that were read back, and the sides of a print file if there is one, by claims alone."""
    halves = wrong_halves(pages, sides) if sides is not None else ()
    proved, lengths = read_back(claimed, pages), measured(claimed, pages)
    return Proof(tuple(claimed), (), (), proved, lengths, tuple(halves))
