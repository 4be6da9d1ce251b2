"""A whole booklet proved: its numbers against the kit, its print file against its pages."""

from __future__ import annotations

from dataclasses import dataclass, replace

from booklet.binding.stock import STOCK_OF
from booklet.pages.booklet import LaidBooklet
from booklet.placing.resolved import ResolvedKit
from booklet.proof.claim import Claim
from booklet.proof.claims import PlaceWords, claims
from booklet.proof.content import Unlaid, unlaid
from booklet.proof.editions import page_digests
from booklet.proof.file_checks import FileCheck, print_checks, reading_checks
from booklet.proof.file_reader import FinishedFile, read_file
from booklet.proof.lengths import measured
from booklet.proof.measured import Measured, Shown, shown_figures
from booklet.proof.print_file import WrongHalf, wrong_halves
from booklet.proof.read_back import PageProof, read_back
from booklet.proof.streams import unread_pages


@dataclass(frozen=True)
class Proof:
    """What was found: every claim, a digest of each page, what of the content is on no page, each page of the
    reading file, each drawn length, the wrong halves of the print file, those of its sides that cannot be
    read, what print needs of both files.
    """

    claims: tuple[Claim, ...]
    digests: tuple[str, ...]
    unlaid: tuple[Unlaid, ...]
    pages: tuple[PageProof, ...]
    lengths: tuple[Measured, ...]
    halves: tuple[WrongHalf, ...]
    unread_sides: tuple[int, ...]
    checks: tuple[FileCheck, ...]

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
        is_printable = all(check.holds for check in self.checks)
        is_whole = not (self.unlaid or self.halves or self.unread_sides or self.untraced)
        return is_read and is_printable and is_whole


@dataclass(frozen=True, eq=False)
class Expected:
    """What the finished files of a booklet are to show: texts and figures; and what its pages leave out."""

    resolved: ResolvedKit
    claims: tuple[Claim, ...]
    figures: tuple[Shown, ...]
    unlaid: tuple[Unlaid, ...]


def expected_of(laid: LaidBooklet, resolved: ResolvedKit, place_words: PlaceWords) -> Expected:
    """What the files of a booklet are to show; `place_words` says a place as the spec calls it."""
    claimed = claims(laid, resolved, place_words)
    return Expected(resolved, claimed, shown_figures(laid), tuple(unlaid(laid)))


def prove(expected: Expected, reading: bytes, printed: bytes | None) -> Proof:
    """Prove the finished files of a booklet; without a print file its reading file alone.

    What is amiss within a file is found; raises pypdfium2.PdfiumError or pikepdf.PdfError for what is no PDF.
    """
    file = read_file(reading)
    sides = read_file(printed) if printed is not None else None
    proved, unread = prove_files(expected, file, sides), unread_pages(reading, file.pages)
    return replace(
        proved,
        digests=page_digests(reading),
        pages=tuple(replace(page, is_read=page.page not in unread) for page in proved.pages),
        unread_sides=tuple(sorted(unread_pages(printed, sides.pages))) if printed and sides else (),
    )


def prove_files(expected: Expected, file: FinishedFile, sides: FinishedFile | None) -> Proof:
    """Prove what was read of a reading file and, if there is one, of a print file."""
    trimmed, sheet = STOCK_OF[expected.resolved.kit.page]
    checks = reading_checks(file, trimmed.upright)
    return Proof(
        claims=expected.claims,
        digests=(),
        unlaid=expected.unlaid,
        pages=read_back(expected.claims, file.pages),
        lengths=measured(expected.resolved, expected.figures, file.pages),
        halves=tuple(wrong_halves(file.pages, sides.pages)) if sides is not None else (),
        unread_sides=(),
        checks=checks if sides is None else (*checks, *print_checks(sides, sheet.landscape)),
    )
