"""Whether what the booklet calls by a title can be told apart by it."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from booklet.kit.finding import Finding, SpecPath, warning
from booklet.kit.kit import Kit, layout_title, paper_title, supply_title
from booklet.kit.words import quoted
from booklet.measure.typography import typographic

# Where the spec has a thing, its name there, and what it is called in print.
_Titled = tuple[SpecPath, str, str]


def check_titles(kit: Kit) -> Iterator[Finding]:
    """A warning for each paper, supply and layout that is printed under the title of an earlier one."""
    papers: list[_Titled] = [(("papers", name), name, paper_title(kit, name)) for name in kit.papers]
    supplies: list[_Titled] = [
        (("supplies", at), one.id, supply_title(one)) for at, one in enumerate(kit.supplies)
    ]
    layouts: list[_Titled] = [
        (("layouts", at), one.id, layout_title(one)) for at, one in enumerate(kit.layouts)
    ]
    yield from _alike("papers", papers)
    yield from _alike("supplies", supplies)
    yield from _alike("layouts", layouts)


def _alike(things: str, titled: Iterable[_Titled]) -> Iterator[Finding]:
    first: dict[str, str] = {}
    for where, name, title in titled:
        # Spaces and capitals do not tell two titles apart for whoever looks one up.
        seen = " ".join(typographic(title).split()).casefold()
        earlier = first.setdefault(seen, name)
        if earlier != name:
            found = f"the {things} {quoted(earlier)} and {quoted(name)} are both printed as {quoted(title)}"
            yield warning("title-twice", where, found, "give one of them a title of its own")
