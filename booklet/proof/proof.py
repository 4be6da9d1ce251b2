"""A whole booklet proved: its numbers against the kit, its print file against its pages."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import AbstractContextManager, contextmanager
from functools import cached_property, partial

from booklet.binding.binding import Binding
from booklet.binding.lay import impose
from booklet.binding.print_file import both_sides
from booklet.binding.sides import ImposedSide
from booklet.binding.stock import STOCK_OF
from booklet.measure.dataclass import dataclass, replace
from booklet.pages.booklet import LaidBooklet
from booklet.placing.resolved import ResolvedKit
from booklet.proof.claim import Claim
from booklet.proof.claims import PlaceWords, claims
from booklet.proof.content import Unlaid, unlaid
from booklet.proof.file_checks import FileCheck, print_checks, reading_checks
from booklet.proof.file_reader import FinishedFile, read_file, read_file_and_pictures
from booklet.proof.lengths import measured
from booklet.proof.measured import Measured, Shown, shown_figures
from booklet.proof.pictures import PagePicture
from booklet.proof.print_file import WrongPlace, wrong_places
from booklet.proof.read_back import PageProof, read_back
from booklet.proof.streams import unread_pages


@dataclass(frozen=True)
class Proof:
    """What was found: every claim, a picture of each page, what of the content is on no page, each page of
    the reading file, each drawn length, the places of the print file that bear another page, those of its
    sides that cannot be read, what print needs of both files.
    """

    claims: tuple[Claim, ...]
    pictures: tuple[PagePicture, ...]
    unlaid: tuple[Unlaid, ...]
    pages: tuple[PageProof, ...]
    lengths: tuple[Measured, ...]
    misplaced: tuple[WrongPlace, ...]
    unread_sides: tuple[int, ...]
    checks: tuple[FileCheck, ...]

    @cached_property
    def wrong(self) -> frozenset[str]:
        """The keys of claims that lack their text on the page, or print another number than they mean."""
        return frozenset(claim.key for page in self.pages for claim in (*page.missing, *page.misprinted))

    @cached_property
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
        is_whole = not (self.unlaid or self.misplaced or self.unread_sides or self.untraced)
        return is_read and is_printable and is_whole


@dataclass(frozen=True, eq=False)
class Expected:
    """What the finished files of a booklet are to show: texts, figures, the sides of the print file; and what
    its pages leave out.
    """

    resolved: ResolvedKit
    claims: tuple[Claim, ...]
    figures: tuple[Shown, ...]
    unlaid: tuple[Unlaid, ...]
    sides: tuple[ImposedSide, ...]


def expected_of(
    laid: LaidBooklet, resolved: ResolvedKit, place_words: PlaceWords, binding: Binding
) -> Expected:
    """What the files of a booklet are to show, bound so; `place_words` says a place as the spec calls it."""
    claimed = claims(laid, resolved, place_words)
    sides = both_sides(impose(len(laid.pages), binding))
    return Expected(resolved, claimed, shown_figures(laid), tuple(unlaid(laid)), tuple(sides))


@dataclass(frozen=True)
class PrintProof:
    """What was found of the print file: wrong places, sides that cannot be read, what print needs of it."""

    misplaced: tuple[WrongPlace, ...] = ()
    unread_sides: tuple[int, ...] = ()
    checks: tuple[FileCheck, ...] = ()


# How some work is done, on another core where there is one: what is yielded waits for the result.
Work = Callable[[], PrintProof]
Apart = Callable[[Work], AbstractContextManager[Work]]


@contextmanager
def at_once(work: Work) -> Iterator[Work]:
    """Do some work here, when its result is asked for."""
    yield work


def prove(expected: Expected, reading: bytes, printed: bytes | None, apart: Apart = at_once) -> Proof:
    """Prove the finished files of a booklet; without a print file its reading file alone.

    The print file is proved by `apart`.  What is amiss within a file is found; raises pypdfium2.PdfiumError
    or pikepdf.PdfError for what is no PDF.
    """
    file, pictures = read_file_and_pictures(reading)
    with apart(partial(prove_print, expected, file, printed)) as of_print:
        unread = unread_pages(reading, file.pages)
        proved = prove_reading(expected, file)
        pages = tuple(replace(page, is_read=page.page not in unread) for page in proved.pages)
        proved = replace(proved, pictures=pictures, pages=pages)
        return with_print(proved, of_print())


def prove_reading(expected: Expected, file: FinishedFile) -> Proof:
    """Prove what was read of a reading file."""
    trimmed, _ = STOCK_OF[expected.resolved.kit.page]
    return Proof(
        claims=expected.claims,
        pictures=(),
        unlaid=expected.unlaid,
        pages=read_back(expected.claims, file.pages),
        lengths=measured(expected.resolved, expected.figures, file.pages),
        misplaced=(),
        unread_sides=(),
        checks=reading_checks(file, trimmed.upright),
    )


def prove_print(expected: Expected, file: FinishedFile, printed: bytes | None) -> PrintProof:
    """Prove a print file, if there is one, by the reading file as it was read."""
    if printed is None:
        return PrintProof()
    sides = read_file(printed)
    return PrintProof(
        tuple(wrong_places(file.pages, sides.pages, expected.sides)),
        tuple(sorted(unread_pages(printed, sides.pages))),
        print_checks(sides, expected.sides),
    )


def with_print(proved: Proof, of_print: PrintProof) -> Proof:
    """A proof of a reading file with that of its print file."""
    return replace(
        proved,
        misplaced=of_print.misplaced,
        unread_sides=of_print.unread_sides,
        checks=(*proved.checks, *of_print.checks),
    )
