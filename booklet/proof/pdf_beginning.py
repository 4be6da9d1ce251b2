"""How a PDF begins, without a library that reads it."""

from __future__ import annotations

# Readers look for these words within so many bytes of a file's beginning (ISO 32000-1, annex H; from memory).
_BEGINNING, LOOKED_AT = b"%PDF-", 1024


def begins_like_pdf(data: bytes) -> bool:
    """Whether these bytes, at least `LOOKED_AT` of a longer file, begin like a PDF."""
    return _BEGINNING in data[:LOOKED_AT]
