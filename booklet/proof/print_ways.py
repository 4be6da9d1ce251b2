"""Which edge of the print is to lie at the top, as a place states it, against how the piece lies."""

from __future__ import annotations

from collections.abc import Iterator

from booklet.content.assembly.ways import shows_its_way
from booklet.cutting.orientation import Orientation, has_edge
from booklet.drawing.papers.piece_print import ledger_entry_of
from booklet.kit.fields import Edge
from booklet.kit.finding import Finding, error, warning
from booklet.kit.kit import Kit, paper_title, sheet_size
from booklet.kit.layout import Layout
from booklet.kit.references import edge_words
from booklet.kit.words import any_of, nearest, quoted
from booklet.placing.model import Placed, PlacedLayout
from booklet.placing.resolved import ResolvedKit
from booklet.sorting.ledger import LedgerEntry
from booklet.sorting.remnants import paper_of

# The turn in the hand that brings an edge to the top.
_TO_TOP = {
    Edge.RIGHT: "a quarter anticlockwise",
    Edge.BOTTOM: "half round",
    Edge.LEFT: "a quarter clockwise",
}


def check_print_up(resolved: ResolvedKit) -> Iterator[Finding]:
    """Each piece whose print lies otherwise than its place states; equal ones of a row once."""
    for spec, layout in zip(resolved.kit.layouts, resolved.layouts, strict=True):
        items = (layout.base, *sorted(layout.items, key=lambda item: item.id))
        faults = (_fault(spec, layout, item, resolved) for item in items)
        yield from dict.fromkeys(fault for fault in faults if fault is not None)


def _stated(spec: Layout, item: Placed) -> str | None:
    """The edge of its print that an item's place, or the layout's base, states to be up."""
    if not item.step_number:
        return spec.base.up
    return getattr(spec.steps[item.step_number - 1], "up", None)


def _fault(spec: Layout, layout: PlacedLayout, item: Placed, resolved: ResolvedKit) -> Finding | None:
    """What is wrong with the edge that is stated of an item; None where all is well, or none is stated."""
    word, kit, where = _stated(spec, item), resolved.kit, (*item.path, "up")
    entry = ledger_entry_of(item, layout, resolved) if word is not None else None
    if word is None or entry is None:
        return None
    name, paper = paper_of(kit, entry), kit.papers[paper_of(kit, entry)]
    words = edge_words(paper)
    if word not in words:
        near = nearest(word, words)
        cure = f"did you mean {quoted(near)}?" if near else f"say {any_of(list(words))}"
        return error("up-unknown", where, f"{paper_title(kit, name)} has no edge {quoted(word)}", cure)
    if not shows_its_way(kit, entry, item.face):
        found = f"the {item.face.value} of {quoted(entry.name)} looks the same whichever edge is up"
        return warning("up-not-seen", where, found, "leave it out")
    if _lacks_border(kit, entry, words[word], is_own=word in paper.edges.values()):
        found = f"{quoted(entry.name)} is cut without the {word}"
        return error("up-not-there", where, found, "correct the piece or the edge")
    at = Orientation(item.face, item.turn).seen_at(words[word])
    if at is Edge.TOP:
        return None
    found = f"the edge of {quoted(entry.name)} that is to be up, {quoted(word)}, lies at the {at.value}"
    return error("print-not-up", where, found, f"turn it {_TO_TOP[at]} from there, or correct the edge")


def _lacks_border(kit: Kit, entry: LedgerEntry, edge: Edge, *, is_own: bool) -> bool:
    """Whether a word of the paper's own means a printed border that was cut off the piece."""
    if not is_own or entry.piece is None:
        return False
    sheet = kit.sheets[entry.piece.sheet_index]
    printed = {border.edge for border in kit.papers[sheet.paper].front.borders}
    return edge in printed and not has_edge(entry.piece.part, edge, sheet_size(kit, sheet))
