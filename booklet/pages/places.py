"""On which pages of a laid-out booklet something stands: a section, what an anchor names."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.pages.boxes import anchors_in
from booklet.pages.compose import Page


def section_pages(pages: Sequence[Page], anchor: str) -> tuple[int, ...]:
    """The numbers of the pages that show a part of the section of this anchor, in order."""
    return tuple(
        number
        for number, page in enumerate(pages, 1)
        if any(part.section.anchor == anchor for part in page.parts)
    )


def anchored_pages(pages: Sequence[Page], anchor: str) -> tuple[int, ...]:
    """The numbers of the pages on which a block or a row of this anchor stands, in order."""
    return tuple(
        number
        for number, page in enumerate(pages, 1)
        if any(anchor in anchors_in(placed.flowable) for placed in page.column)
    )
