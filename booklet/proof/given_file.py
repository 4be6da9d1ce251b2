"""A finished file as it is given: is it a whole PDF that opens, of this kit, of this edition?"""

from __future__ import annotations

from io import BytesIO

import pikepdf
from pypdfium2 import PdfiumError

from booklet.kit.errors import UsageError
from booklet.kit.words import quoted
from booklet.measure.dataclass import dataclass
from booklet.proof.pdf_beginning import begins_like_pdf
from booklet.proof.reader import read_metadata
from booklet.proof.stated_edition import stated_edition

# The standard of exchange that a file states (ISO 15930-4, 6.1).
_STANDARD = "GTS_PDFXVersion"


@dataclass(frozen=True)
class Wanted:
    """What a file is to be: the booklet's title, its edition, and how many `leaves` it has, each a page or a
    side of the print file.
    """

    title: str
    edition: str
    leaves: int
    leaf: str


def check_given(name: str, data: bytes, wanted: Wanted) -> None:
    """Refuse a file that is not the booklet of this edition.

    Raises UsageError, with the reason, for what is no PDF, is damaged or encrypted, is the booklet of another
    kit or of another edition of this one, is in black or for a print shop, or has lost pages.
    """
    leaves = count_pages(name, data)
    try:
        title, keywords, standard = (read_metadata(data, key) for key in ("Title", "Keywords", _STANDARD))
    except PdfiumError as error:
        raise UsageError(f"{name} is damaged: {error}") from None
    if title != wanted.title:
        found = quoted(title) if title else "a PDF without a title"
        raise UsageError(f"{name} is {found}, expected the booklet of {quoted(wanted.title)}")
    stated = stated_edition(keywords)
    ours = f"the kit as it is now makes edition {wanted.edition} of {wanted.leaves} {wanted.leaf}s"
    again = "make it again with `booklet make`"
    if not stated.in_colour:
        raise UsageError(f"{name} names no edition, {ours}: {again}")
    if standard:
        raise UsageError(
            f"{name} is for a print shop, in inks and with marks that a proof does not read: prove the files "
            "of `booklet make`, which have the same pages"
        )
    if stated.is_black:
        raise UsageError(
            f"{name} is in black, where a proof cannot tell the things in a figure apart: prove the file in "
            "colour, which shows the same numbers in the same places"
        )
    if stated.in_colour != wanted.edition:
        raise UsageError(f"{name} is edition {stated.in_colour} of {leaves} {wanted.leaf}s, {ours}: {again}")
    if leaves != wanted.leaves:
        found = f"{name} is of this edition, but has {leaves} {wanted.leaf}s"
        raise UsageError(f"{found}, expected {wanted.leaves}: {again}")


def count_pages(name: str, data: bytes) -> int:
    """How many pages a PDF has that is whole and not encrypted.  Raises UsageError for any other file."""
    if not data:
        raise UsageError(f"{name} is an empty file, expected a PDF")
    if not begins_like_pdf(data):
        raise UsageError(f"{name} is no PDF: it does not begin like one")
    try:
        with pikepdf.open(BytesIO(data), attempt_recovery=False, suppress_warnings=True) as document:
            is_encrypted, pages = document.is_encrypted, int(document.Root.Pages.Count)
    except pikepdf.PasswordError:
        raise UsageError(f"{name} is encrypted, and opens with a password alone") from None
    except (pikepdf.PdfError, AttributeError, TypeError, ValueError) as error:
        raise UsageError(f"{name} is damaged, expected a whole PDF: {_reason(error)}") from None
    if is_encrypted:
        raise UsageError(f"{name} is encrypted, expected the file as `booklet make` wrote it")
    return pages


def _reason(error: Exception) -> str:
    """What qpdf says, without its name for the bytes."""
    return (
        str(error).rpartition(">")[2].lstrip(" :")
        if isinstance(error, pikepdf.PdfError)
        else "it has no pages"
    )
