"""The words of the index: on which pages each thing of a kit is cut, sorted and used."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.content.spans import Line, Own, Part, joined, line, quiet
from booklet.content.things import ThingKind

_KINDS = {
    ThingKind.PIECE: "piece",
    ThingKind.SHEET: "sheet",
    ThingKind.LAYOUT: "layout",
    ThingKind.POCKET: "pocket",
    ThingKind.SUPPLY: "supply",
}


class EnglishIndex:
    """The words of the index in English."""

    subject = line("On which page of the booklet each thing is")
    heads = (
        line("Name"),
        line("What"),
        line("Label"),
        line("Cut"),
        line("Sorted"),
        line("Used"),
    )

    def title(self, kit: Own) -> Line:
        """The title of the index of a kit."""
        return line("Index of ", kit)

    def edition(self, edition: str, pages: int) -> Line:
        """Which edition it is about."""
        return line(f"Edition {edition}, {pages} pages. The numbers are those of the pages.")

    def kind(self, kind: ThingKind) -> Line:
        """What a thing is."""
        return line(quiet(_KINDS[kind]))

    def name(self, kind: ThingKind, name: Own) -> Line:
        """What a thing is called; a pocket is known by its number alone."""
        return line("Pocket ", name) if kind is ThingKind.POCKET else line(name)

    def several(self, parts: Sequence[Part]) -> Line:
        """Labels, or numbers of pages, one after another."""
        return joined(parts, ", ")
