"""What is written on a strip of a cutting figure."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class StripLabel:
    """The letters of a strip's pieces, one for each paper, and lines of words under them, the first first.

    Scrap has no letters.  Lines are left out from the last one on where they have no room.
    """

    letters: tuple[str, ...]
    lines: tuple[str, ...] = ()
