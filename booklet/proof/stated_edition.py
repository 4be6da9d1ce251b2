"""The edition that a file says it is of, among its keywords: as `edition_keywords` writes it."""

from __future__ import annotations

import re

from booklet.content.edition import IN_BLACK
from booklet.measure.dataclass import dataclass

_STATED = re.compile(rf"\bedition ([0-9a-f]+)({IN_BLACK})?\b(, draft)?")


@dataclass(frozen=True)
class StatedEdition:
    """The edition that a file says it is of: the name of that in colour, none where it says nothing."""

    in_colour: str = ""
    is_black: bool = False
    is_draft: bool = False

    @property
    def name(self) -> str:
        """The whole name of the edition."""
        return f"{self.in_colour}{IN_BLACK if self.is_black else ''}"


def stated_edition(keywords: str) -> StatedEdition:
    """The edition that the keywords of a file state."""
    found = _STATED.search(keywords)
    return StatedEdition(found[1], bool(found[2]), bool(found[3])) if found else StatedEdition()
