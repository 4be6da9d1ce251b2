"""How prints lie on the pages: the edge that a place states to be up, and elements that lie face down."""

from __future__ import annotations

from collections.abc import Iterator

from booklet.content.assembly.ways import shows_its_way
from booklet.cutting.orientation import Orientation, has_edge
from booklet.drawing.papers.piece_print import ledger_entry_of
from booklet.kit.fields import Edge, Face
from booklet.kit.finding import Finding, error, warning
from booklet.kit.kit import Kit, paper_title, sheet_size
from booklet.kit.layout import Layout
from booklet.kit.paper import Pattern
from booklet.kit.references import edge_words
from booklet.kit.words import any_of, nearest, quoted
from booklet.placing.model import Placed
from booklet.placing.resolved import ResolvedKit
from booklet.sorting.ledger import LedgerEntry
from booklet.sorting.remnants import paper_of

# The turn in the hand that brings an edge to the top.
_TO_TOP = {
    Edge.RIGHT: "a quarter anticlockwise",
    Edge.BOTTOM: "half round",
    Edge.LEFT: "a quarter clockwise",
}


def check_print_ways(resolved: ResolvedKit) -> Iterator[Finding]:
    """Each piece whose print lies otherwise than its place states, or unseen; equal ones of a row once."""
    for spec, layout in zip(resolved.kit.layouts, resolved.layouts, strict=True):
        faults: list[Finding | None] = []
        for item in (layout.base, *sorted(layout.items, key=lambda item: item.id)):
            entry = ledger_entry_of(item, layout, resolved)
            if entry is not None:
                faults += [_way(spec, item, entry, resolved.kit), _face_down(item, entry, resolved.kit)]
        yield from dict.fromkeys(fault for fault in faults if fault is not None)


def _face_down(item: Placed, entry: LedgerEntry, kit: Kit) -> Finding | None:
    """Whether an element's words or picture lie down, where nothing is printed on its back."""
    if item.face is Face.FRONT or entry.piece is None:
        return None
    sheet = kit.sheets[entry.piece.sheet_index]
    printed = {one.name for one in sheet.printed if one.words or one.picture or sheet.artwork}
    back = kit.papers[sheet.paper].back
    if entry.name not in printed or back.image or back.borders or back.pattern is not Pattern.SOLID:
        return None
    found = f"the print of {quoted(entry.name)} lies face down, and its back is plain"
    return warning("element-face-down", (*item.path, "face"), found, "leave face: back out")


def _stated(spec: Layout, item: Placed) -> str | None:
    """The edge of its print that an item's place, or the layout's base, states to be up."""
    if not item.step_number:
        return spec.base.up
    return getattr(spec.steps[item.step_number - 1], "up", None)


def _way(spec: Layout, item: Placed, entry: LedgerEntry, kit: Kit) -> Finding | None:
    """What is wrong with the edge that is stated of an item; None where all is well, or none is stated."""
    word, where = _stated(spec, item), (*item.path, "up")
    if word is None:
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
