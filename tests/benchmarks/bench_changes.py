"""Sixty single changes to the demo kits: which are caught, which change nothing, which slip through.

    python -m tests.benchmarks.bench_changes [--every] [--only KIND ...]

Each change is what a hand mistypes: a reading a mark off, a size, a pocket, a count, a face, a turn, the name
of something else.  A change is caught where the check finds what it does not find in the demo itself.  Else
it is harmless where both booklets show the same pages, dot for dot; or where what a member ends up with is
the same: every page with the same things in the same places and the same way up, filed in the same pockets.
The rest is listed as not found.  `--every` takes every change there is instead of sixty and draws no pages.
"""

from __future__ import annotations

import argparse
from collections import Counter
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from functools import cache
from io import BytesIO
from typing import Any

import pypdfium2

from booklet.content.assembly.ways import shows_its_way
from booklet.cutting.orientation import Orientation, has_edge
from booklet.drawing.papers.piece_print import ledger_entry_of
from booklet.kit.errors import BookletError, SpecError
from booklet.kit.fields import Edge, Face
from booklet.kit.finding import SpecPath
from booklet.kit.kit import sheet_size
from booklet.measure.exact import Fraction
from booklet.measure.length import Size, Unit, parse_length, parse_size
from booklet.pages.booklet import make_booklet, write_booklet
from booklet.placing.model import ItemKind, Placed, PlacedLayout
from booklet.placing.resolved import ResolvedKit
from booklet.proof.findings import kit_findings
from booklet.sorting.ledger import LedgerEntry
from booklet.sorting.remnants import paper_of
from tests.spec_data import DEMOS, Data, changed, demo_data, places, resolved_data, typed, unit_of

# How many changes of each kind make up the sixty.
SHARES = {"reading": 10, "size": 9, "pocket": 6, "count": 10, "face": 6, "turn": 9, "reference": 10}
DOTS_PER_POINT = 0.6
# The keys whose names are changed, each to the next that stands under the same key.
_NAMING = (
    *("paper", "take", "base", "place", "snip", "raise", "facing", "foam", "add"),
    *("on", "above", "below", "tucked"),
)


@dataclass(frozen=True)
class Change:
    """One value of one demo kit that is typed otherwise; None where it is left out."""

    kind: str
    demo: str
    where: SpecPath
    old: Any
    new: Any

    @property
    def words(self) -> str:
        """The change in one line."""
        place = " > ".join(str(key + 1) if isinstance(key, int) else key for key in self.where)
        return f"{self.demo}: {place}: {self.old or 'nothing'} -> {self.new or 'nothing'}"


@dataclass(frozen=True)
class Verdict:
    """What became of a change."""

    is_found: bool
    is_harmless: bool
    why: str


# The changes.


def all_changes(kind: str) -> list[Change]:
    """Every change of a kind to either demo, in the order of the specs."""
    return [
        Change(kind, demo, where, old, new)
        for demo in DEMOS
        for where, old, new in _KINDS[kind](demo_data(demo))
    ]


def spread_over(changes: Sequence[Change], number: int) -> list[Change]:
    """So many of them, as far apart as they can be taken."""
    return [changes[(2 * place + 1) * len(changes) // (2 * number)] for place in range(number)]


_Site = tuple[SpecPath, Any, Any]


def _mark(data: Data) -> Fraction:
    return Fraction(1, 8) if unit_of(data) is Unit.INCH else Fraction(1, 10)


def _readings(data: Data) -> Iterator[_Site]:
    for where, value in places(data["sheets"], ("sheets",)):
        if "at" in where and isinstance(value, str):
            yield where, value, typed(parse_length(value, unit_of(data)) + _mark(data))


def _sizes(data: Data) -> Iterator[_Site]:
    for where, value in places(data):
        if isinstance(value, str) and ("sizes" in where or where[-1] in ("size", "sheet", "photo", "write")):
            try:
                size = parse_size(value, unit_of(data))
            except ValueError:
                continue
            yield where, value, typed(Size(size.width + _mark(data), size.height))


def _pockets(data: Data) -> Iterator[_Site]:
    for where, value in places(data):
        if isinstance(value, str) and ("pockets" in where or where[-1] == "pocket"):
            yield where, value, str(int(value) % 4 + 1)


def _counts(data: Data) -> Iterator[_Site]:
    for where, value in places(data):
        if isinstance(value, str) and where and where[-1] in ("count", "spare") and value.isdigit():
            yield where, value, str(int(value) + 1)
            if int(value) > 1:
                yield where, value, str(int(value) - 1)


def _faces(data: Data) -> Iterator[_Site]:
    for where, value in places(data):
        if isinstance(value, dict) and ("place" in value or (where and where[-1] == "lay")):
            old = value.get("face", "front")
            yield (*where, "face"), value.get("face"), "front" if old == "back" else "back"


def _turns(data: Data) -> Iterator[_Site]:
    others = {"clockwise": ["anticlockwise", "half", None], "half": ["clockwise", None]}
    for where, value in places(data):
        if where and where[-1] == "turn":
            for other in others[value]:
                yield where, value, other


def _references(data: Data) -> Iterator[_Site]:
    """A name by the next other one that stands under the same key."""
    for key in _NAMING:
        sites = [(where, value) for where, value in places(data) if where and where[-1] == key]
        sites = [(where, value) for where, value in sites if isinstance(value, str)]
        names = list(dict.fromkeys(value for _, value in sites))
        for where, value in sites:
            if len(names) > 1:
                yield where, value, names[(names.index(value) + 1) % len(names)]


_KINDS: dict[str, Callable[[Data], Iterator[_Site]]] = {
    "reading": _readings,
    "size": _sizes,
    "pocket": _pockets,
    "count": _counts,
    "face": _faces,
    "turn": _turns,
    "reference": _references,
}


# The verdicts.


def verdict_on(change: Change, *, draws: bool) -> Verdict:
    """Whether the check catches a change, or it is harmless."""
    try:
        resolved = resolved_data(changed(demo_data(change.demo), change.where, change.new))
    except SpecError as refused:
        return Verdict(True, False, f"refused: {refused.problems[0].found}")
    new = _counted(resolved) - _counted_demo(change.demo)
    if new:
        return Verdict(True, False, ", ".join(new))
    if draws:
        try:
            if _pages(resolved) == _pages_of_demo(change.demo):
                return Verdict(False, True, "the same pages")
        except BookletError as refused:
            return Verdict(True, False, f"refused by make: {refused}")
    if _outcome(resolved) == _outcome(_demo(change.demo)):
        return Verdict(False, True, "the same finished pages from the same pockets")
    return Verdict(False, False, "nothing is found, and the pages differ")


@cache
def _demo(name: str) -> ResolvedKit:
    return resolved_data(demo_data(name))


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


def _outcome(resolved: ResolvedKit) -> object:
    """What a member ends up with: the pieces in their pockets, and the pages."""
    filed = Counter((entry.name, entry.size, entry.pocket, entry.spare) for entry in resolved.ledger.entries)
    pages = [
        (layout.id, *(_look(resolved, layout, item) for item in (layout.base, *layout.items)))
        for layout in resolved.layouts
    ]
    uses = [layout.supplies for layout in resolved.layouts]
    return filed, pages, uses, resolved.kit.supplies, resolved.kit.ready


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


# The list.


def main() -> None:
    """Print every change with its verdict, and how many there are of each."""
    reader = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    reader.add_argument("--every", action="store_true", help="take every change there is, draw no pages")
    reader.add_argument("--only", nargs="+", choices=sorted(SHARES), default=list(SHARES), metavar="KIND")
    options = reader.parse_args()
    totals: Counter[str] = Counter()
    for kind in options.only:
        changes = all_changes(kind)
        for change in changes if options.every else spread_over(changes, SHARES[kind]):
            verdict = verdict_on(change, draws=not options.every)
            said = "caught" if verdict.is_found else "harmless" if verdict.is_harmless else "NOT FOUND"
            totals[said] += 1
            print(f"{said:9}  {kind:9}  {change.words}\n{'':22} {verdict.why}", flush=True)
    print(", ".join(f"{number} {said}" for said, number in totals.items()))


if __name__ == "__main__":
    main()
