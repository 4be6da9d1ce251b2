"""What becomes of a single change to a demo kit: caught, harmless, or neither.

A change is caught where the check finds what it does not find in the demo itself.  Else it is harmless where
both booklets show the same pages, dot for dot; or where what a member ends up with is the same: every page
with the same things in the same places and the same way up, the same work done to them, filed in the same
pockets.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass, fields
from enum import Enum
from functools import cache
from io import BytesIO
from itertools import combinations

import pypdfium2

from booklet.content.assembly.ways import shows_its_way
from booklet.cutting.orientation import Orientation, has_edge
from booklet.drawing.papers.piece_print import ledger_entry_of
from booklet.kit.errors import BookletError, SpecError
from booklet.kit.fields import Edge, Face
from booklet.kit.kit import sheet_size
from booklet.kit.steps import Column, Photo, Place, PlaceGroup, Row, Stack, Step, Write
from booklet.pages.booklet import make_booklet, write_booklet
from booklet.placing.model import ItemKind, Placed, PlacedLayout
from booklet.placing.resolved import ResolvedKit
from booklet.placing.visible import upright_bounds
from booklet.proof.findings import kit_findings
from booklet.sorting.ledger import LedgerEntry
from booklet.sorting.remnants import paper_of
from tests.changes import Change, demo_as_typed
from tests.spec_data import resolved_data

DOTS_PER_POINT = 0.6
# The steps of which all that matters is where their things lie in the end.
_LAYING = Place | Photo | Write | Row | Column | Stack | PlaceGroup


class Fate(Enum):
    """What became of a change."""

    CAUGHT = "caught"
    HARMLESS = "harmless"
    MISSED = "missed"


@dataclass(frozen=True)
class Verdict:
    """What became of a change, and why."""

    fate: Fate
    why: str


def verdict_on(change: Change, *, draws: bool) -> Verdict:
    """Whether the check catches a change, or it is harmless; the pages are compared too where it `draws`."""
    try:
        resolved = resolved_data(change.data)
    except SpecError as refused:
        return Verdict(Fate.CAUGHT, f"refused: {refused.problems[0].found}")
    new = _counted(resolved) - _counted_demo(change.demo)
    if new:
        return Verdict(Fate.CAUGHT, ", ".join(new))
    if _outcome(resolved) == _outcome_of_demo(change.demo):
        return Verdict(Fate.HARMLESS, "the same finished pages from the same pockets")
    if draws:
        try:
            if _pages(resolved) == _pages_of_demo(change.demo):
                return Verdict(Fate.HARMLESS, "the same pages")
        except BookletError as refused:
            return Verdict(Fate.CAUGHT, f"refused by make: {refused}")
    return Verdict(Fate.MISSED, "nothing is found, and what comes of it differs")


@cache
def _demo(name: str) -> ResolvedKit:
    return resolved_data(demo_as_typed(name))


@cache
def _counted_demo(name: str) -> Counter[str]:
    return _counted(_demo(name))


def _counted(resolved: ResolvedKit) -> Counter[str]:
    return Counter(finding.id for finding in kit_findings(resolved))


@cache
def _pages_of_demo(name: str) -> tuple[bytes, ...]:
    return _pages(_demo(name))


def _pages(resolved: ResolvedKit) -> tuple[bytes, ...]:
    """The dots of every page of the booklet."""
    document = pypdfium2.PdfDocument(BytesIO(write_booklet(make_booklet(resolved), False)))
    return tuple(bytes(page.render(scale=DOTS_PER_POINT).to_numpy().tobytes()) for page in document)


@cache
def _outcome_of_demo(name: str) -> object:
    return _outcome(_demo(name))


def _outcome(resolved: ResolvedKit) -> object:
    """What a member ends up with: the pieces in their pockets, and the pages."""
    filed = Counter((entry.name, entry.size, entry.pocket, entry.spare) for entry in resolved.ledger.entries)
    pages = [(layout.id, *_page(resolved, layout)) for layout in resolved.layouts]
    return filed, pages, resolved.kit.supplies, resolved.kit.ready


def _page(resolved: ResolvedKit, layout: PlacedLayout) -> Iterator[object]:
    """What lies on a page, what of it lies above what, the work done, what is used up; in no order."""
    looks = {item.id: _look(resolved, layout, item) for item in (layout.base, *layout.items)}
    yield Counter(map(_key, looks.values()))
    yield Counter(
        (_key(looks[lower.id]), _key(looks[upper.id]))
        for lower, upper in combinations(layout.items, 2)
        if upright_bounds(lower).overlaps(upright_bounds(upper))
    )
    yield Counter(_key(_work(one.step)) for one in layout.steps if not isinstance(one.step, _LAYING))
    yield Counter((use.supply, use.amount, use.optional) for use in layout.supplies)


def _key(look: object) -> str:
    """What looks the same has the same; an exact length shows itself whole."""
    return repr(look)


def _work(step: Step) -> object:
    """What a step says of its work, without the designer's words beside it."""
    values = {field.name: getattr(step, field.name) for field in fields(step)}
    return type(step).__name__, {key: value for key, value in values.items() if key not in ("say", "tip")}


def _look(resolved: ResolvedKit, layout: PlacedLayout, item: Placed) -> object:
    """Where an item lies and what is seen of it, but for where in its paper's pattern it was cut."""
    lies = (item.kind, item.rect, item.tilt, item.pivot, item.finish, item.count, item.supply, item.outline)
    entry = ledger_entry_of(item, layout, resolved)
    if item.kind not in (ItemKind.PIECE, ItemKind.BASE) or entry is None:
        return lies
    name = paper_of(resolved.kit, entry)
    face = resolved.kit.papers[name].face(item.face)
    way = _way(resolved, entry, item)
    printed: list[object] = []
    if entry.piece is not None:
        sheet = resolved.kit.sheets[entry.piece.sheet_index]
        whole = sheet_size(resolved.kit, sheet)
        turned_over = Orientation(item.face)
        edges = {edge: has_edge(entry.piece.part, edge, whole) for edge in Edge}
        printed = [(one, edges[turned_over.edge_at(one.edge)]) for one in face.borders]
        printed += [entry.name] if sheet.is_cut_apart and item.face is Face.FRONT else []
        printed += [entry.piece.part] if face.image else []
    return (*lies, face, way, printed)


def _way(resolved: ResolvedKit, entry: LedgerEntry, item: Placed) -> object:
    """Where the top of its print lies; only in which direction that is where half a turn does not show."""
    top = Orientation(item.face, item.turn).seen_at(Edge.TOP)
    if not shows_its_way(resolved.kit, entry, item.face):
        return None
    return top if shows_its_way(resolved.kit, entry, item.face, is_half=True) else top.is_upright
