"""Papers that the kit describes and nothing is made of: often the sign of a wrong paper elsewhere."""

from __future__ import annotations

from collections.abc import Iterator

from booklet.kit.finding import Finding, note
from booklet.kit.kit import Kit
from booklet.kit.words import quoted


def check_papers_used(kit: Kit) -> Iterator[Finding]:
    """A note for each paper that no sheet and no ready-cut piece is of."""
    used = {sheet.paper for sheet in kit.sheets} | {piece.paper for piece in kit.ready}
    for name in kit.papers:
        if name not in used:
            found = f"no sheet and no ready-cut piece is of the paper {quoted(name)}"
            cure = "leave it out, or correct the paper of a sheet"
            yield note("paper-unused", ("papers", name), found, cure)
