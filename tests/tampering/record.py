"""One change to a finished PDF, and the file that has it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from io import BytesIO

import pikepdf
from pikepdf import Pdf


@dataclass(frozen=True)
class Tampering:
    """A change to a finished PDF: the page (from 1), what of it is changed, and how that is done."""

    page: int
    words: str
    change: Callable[[Pdf], None] = field(repr=False)


def tampered(data: bytes, tampering: Tampering) -> bytes:
    """A finished PDF with the change."""
    return _saved(data, tampering.change)


def rewritten(data: bytes) -> bytes:
    """A finished PDF all of whose pages were parsed and written again, with no change."""

    def parse_and_write(pdf: Pdf) -> None:
        for page in pdf.pages:
            instructions = pikepdf.parse_content_stream(page)
            page.Contents = pdf.make_stream(pikepdf.unparse_content_stream(instructions))

    return _saved(data, parse_and_write)


def _saved(data: bytes, change: Callable[[Pdf], None]) -> bytes:
    out = BytesIO()
    with Pdf.open(BytesIO(data)) as pdf:
        change(pdf)
        pdf.save(out, static_id=True)
    return out.getvalue()
