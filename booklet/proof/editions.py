"""Two editions of a booklet held against each other: which numbers changed, which pages to read again."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from hashlib import sha256

import pypdfium2 as pdfium

# A page is compared as a picture of so many dots to the point, without the strip of its foot that bears the
# folio, in points: a page that only moves is no other.
_DOTS, _FOOT = 1.5, 34


def page_digests(pdf: bytes) -> tuple[str, ...]:
    """A digest of what each page of a booklet shows above its folio; the same picture, the same digest."""
    document = pdfium.PdfDocument(pdf)
    try:
        return tuple(_digest_at(document, at) for at in range(len(document)))
    finally:
        document.close()


def _digest_at(document: pdfium.PdfDocument, at: int) -> str:
    try:
        return _digest(document[at])
    except pdfium.PdfiumError:
        return "cannot be read"


def _digest(page: pdfium.PdfPage) -> str:
    picture = page.render(scale=_DOTS, crop=(0, _FOOT, 0, 0))
    return sha256(bytes(picture.buffer)).hexdigest()[:16]


@dataclass(frozen=True)
class Changed:
    """A number of both editions that says something else now."""

    key: str
    before: str
    now: str


@dataclass(frozen=True)
class Changes:
    """What is different in a later edition: numbers by their keys, and pages by what they show.

    `again` are the pages, by their number now, that no page of the earlier edition shows alike; `moved` those
    that another page showed, with its number then.
    """

    changed: tuple[Changed, ...]
    came: tuple[str, ...]
    went: tuple[str, ...]
    again: tuple[int, ...]
    moved: Mapping[int, int]


@dataclass(frozen=True)
class Edition:
    """What a booklet says, by the keys of its claims, and a digest of each of its pages."""

    said: Mapping[str, str]
    pages: Sequence[str]


def compare(before: Edition, now: Edition) -> Changes:
    """What is different in the later of two editions."""
    both = [key for key in now.said if key in before.said]
    then = {digest: number for number, digest in reversed(list(enumerate(before.pages, 1)))}
    alike = {number: then[digest] for number, digest in enumerate(now.pages, 1) if digest in then}
    return Changes(
        tuple(
            Changed(key, before.said[key], now.said[key]) for key in both if before.said[key] != now.said[key]
        ),
        tuple(key for key in now.said if key not in before.said),
        tuple(key for key in before.said if key not in now.said),
        tuple(number for number in range(1, len(now.pages) + 1) if number not in alike),
        {number: then for number, then in alike.items() if then != number},
    )
