"""A finished file as it is given: is it a whole PDF that opens, of this kit, of this edition?"""

from __future__ import annotations

import re
from dataclasses import dataclass
from io import BytesIO

import pikepdf
from pypdfium2 import PdfiumError

from booklet.content.edition import IN_BLACK
from booklet.kit.errors import UsageError
from booklet.kit.words import quoted
from booklet.proof.reader import read_metadata

# Readers look for these words within so many bytes of a file's beginning (ISO 32000-1, annex H; from memory).
_BEGINNING, _LOOKED_AT = b"%PDF-", 1024
_EDITION = re.compile(rf"\bedition ([0-9a-f]+)({IN_BLACK})?\b")


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
    kit or of another edition of this one or is in black, or has lost pages.
    """
    leaves = count_pages(name, data)
    try:
        title, keywords = read_metadata(data, "Title"), read_metadata(data, "Keywords")
    except PdfiumError as error:
        raise UsageError(f"{name} is damaged: {error}") from None
    if title != wanted.title:
        found = quoted(title) if title else "a PDF without a title"
        raise UsageError(f"{name} is {found}, expected the booklet of {quoted(wanted.title)}")
    found_edition = _EDITION.search(keywords)
    ours = f"the kit as it is now makes edition {wanted.edition} of {wanted.leaves} {wanted.leaf}s"
    again = "make it again with `booklet make`"
    if found_edition is None:
        raise UsageError(f"{name} names no edition, {ours}: {again}")
    if found_edition[2]:
        raise UsageError(
            f"{name} is in black, where a proof cannot tell the things in a figure apart: prove the file in "
            "colour, which shows the same numbers in the same places"
        )
    if found_edition[1] != wanted.edition:
        raise UsageError(f"{name} is edition {found_edition[1]} of {leaves} {wanted.leaf}s, {ours}: {again}")
    if leaves != wanted.leaves:
        found = f"{name} is of this edition, but has {leaves} {wanted.leaf}s"
        raise UsageError(f"{found}, expected {wanted.leaves}: {again}")


def count_pages(name: str, data: bytes) -> int:
    """How many pages a PDF has that is whole and not encrypted.  Raises UsageError for any other file."""
    if not data:
        raise UsageError(f"{name} is an empty file, expected a PDF")
    if _BEGINNING not in data[:_LOOKED_AT]:
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
