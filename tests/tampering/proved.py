"""Booklets made once, what they claim, their finished files, and what the proof finds in tampered ones."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from functools import cache, cached_property
from io import BytesIO
from pathlib import Path

import pypdfium2
from pikepdf import Dictionary, Pdf

from booklet.binding.binding import home_binding
from booklet.binding.print_file import print_file
from booklet.kit.bundled import find_spec
from booklet.kit.load import LoadedKit, load_kit, parse_kit
from booklet.measure.length import Unit
from booklet.placing.resolved import resolve_kit
from booklet.proof.file_reader import FinishedFile, read_file, read_file_page
from booklet.proof.printed import Page
from booklet.proof.proof import (
    Expected,
    Proof,
    expected_of,
    prove,
    prove_print,
    prove_reading,
    with_print,
)
from tests.once import laid_once, read_once, written_once
from tests.tampering.kinds import Kind, Of
from tests.tampering.record import Tampering, tampered
from tests.tampering.streams import Sheet, read_sheets

# So deep in forms lies what is tampered with: on a page a finished page, on a side a page and in it another.
_DEPTHS = {Of.READING: 1, Of.PRINT: 2}
_DOTS_PER_POINT = 150 / 72


@dataclass(frozen=True, eq=False)
class Made:
    """A booklet: its unit, what it claims, and its finished files."""

    unit: Unit
    expected: Expected = field(repr=False)
    files: dict[Of, bytes] = field(repr=False)

    @cached_property
    def read(self) -> FinishedFile:
        """The untouched reading file, read back."""
        return read_once(self.files[Of.READING])

    @cached_property
    def proof(self) -> Proof:
        """What the proof finds in the untouched reading file."""
        return prove_reading(self.expected, self.read)

    @property
    def pages(self) -> tuple[Page, ...]:
        """Its pages."""
        return self.read.pages

    def tamperings(self, kind: Kind) -> list[Tampering]:
        """Every tampering of a kind, in the order of the pages."""
        return list(kind.all_of(sheets_of(self, kind.of), self.unit))


@cache
def sheets_of(booklet: Made, of: Of) -> tuple[Sheet, ...]:
    """A finished file as the streams that draw it."""
    return read_sheets(booklet.files[of], _DEPTHS[of])


@cache
def made(spec: str) -> Made:
    """The booklet of a demo kit by its name, or of a spec by its text."""
    return booklet_of(parse_kit(spec, "plain.yaml", Path()) if "\n" in spec else load_kit(find_spec(spec)))


def booklet_of(loaded: LoadedKit) -> Made:
    """The booklet of a spec that is loaded."""
    resolved = resolve_kit(loaded)
    laid = laid_once(resolved)
    reading = written_once(laid)
    binding = home_binding(loaded.kit.page)
    printed = print_file(reading, binding)
    expected = expected_of(laid, resolved, loaded.source.words, binding)
    files = {Of.READING: reading, Of.PRINT: printed}
    return Made(loaded.kit.unit, expected, files)


def whole_proof(booklet: Made) -> Proof:
    """What the proof finds in both finished files of a booklet."""
    return prove(booklet.expected, booklet.files[Of.READING], booklet.files[Of.PRINT])


def proof_of(booklet: Made, kind: Kind, tampering: Tampering) -> Proof:
    """What the proof finds in a tampered file.

    Where pages keep their places, the one that is changed is read again and proved by what it is to show.
    """
    file, number = booklet.files[kind.of], tampering.page
    if kind.of is Of.PRINT:
        sides = tampered(file, tampering)
        return with_print(booklet.proof, prove_print(booklet.expected, booklet.read, sides))
    if kind.moves_pages:
        return prove_reading(booklet.expected, read_file(tampered(file, tampering)))
    data = tampered(_others_bare(file, number), tampering)
    return prove_reading(on_page(booklet.expected, number), read_file_page(data, number))


@cache
def _others_bare(data: bytes, number: int) -> bytes:
    """A finished file of which one page bears what it bore and the others nothing, soon saved and read.

    What is done to one page of a reading file asks no other.
    """
    out = BytesIO()
    with Pdf.open(BytesIO(data)) as pdf:
        for at, page in enumerate(pdf.pages, 1):
            if at != number:
                page.Contents, page.Resources = pdf.make_stream(b""), Dictionary()
        pdf.save(out, static_id=True)
    return out.getvalue()


def on_page(expected: Expected, number: int) -> Expected:
    """What one page is to show."""
    return replace(
        expected,
        claims=tuple(claim for claim in expected.claims if claim.page == number),
        figures=tuple(figure for figure in expected.figures if figure.page == number),
    )


def some(found: Sequence[Tampering], number: int) -> Sequence[Tampering]:
    """So many of them from all over."""
    return found[:: max(1, len(found) // number)][:number]


def missed(booklet: Made, kind: Kind, tamperings: Sequence[Tampering]) -> list[str]:
    """Those of some tamperings that the proof does not find, in words."""
    assert tamperings
    return [each.words for each in tamperings if proof_of(booklet, kind, each).holds]


def page_read_back(data: bytes, number: int) -> Page:
    """One page of a finished file, by its number from 1."""
    (page,) = read_file_page(data, number).pages
    return page


def caught_by(proof: Proof) -> tuple[str, ...]:
    """The parts of a proof that found something."""
    parts = {
        "missing": any(page.missing for page in proof.pages),
        "unclaimed": any(page.unclaimed for page in proof.pages),
        "length": not all(length.holds for length in proof.lengths),
        "place of the print file": bool(proof.misplaced),
        "check of the file": not all(check.holds for check in proof.checks),
    }
    found = tuple(part for part, is_wrong in parts.items() if is_wrong)
    return found or (() if proof.holds else ("another check",))


def looks_same(booklet: Made, kind: Kind, tampering: Tampering) -> bool:
    """Whether every page of a tampered file is the same, dot for dot, at 150 to the inch."""
    before = booklet.files[kind.of]
    after = tampered(before, tampering)
    numbers = None if kind.moves_pages else [tampering.page]
    return _dots(before, numbers) == _dots(after, numbers)


def _dots(data: bytes, numbers: list[int] | None) -> list[bytes]:
    document = pypdfium2.PdfDocument(data)
    try:
        asked = numbers or range(1, len(document) + 1)
        return [document[at - 1].render(scale=_DOTS_PER_POINT).to_numpy().tobytes() for at in asked]
    finally:
        document.close()
