"""A name for every single piece of a kit, by which a page that remembers ticks knows it again."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import count

from booklet.measure.cache import cached_on
from booklet.placing.resolved import ResolvedKit
from booklet.sorting.ledger import LedgerEntry


@cached_on
def piece_ids(resolved: ResolvedKit) -> dict[int, str]:
    """The id of each entry of the ledger, by its place there.

    A piece that was cut goes by its label, one that comes ready-cut by its name.  Of several that share one
    the first has it alone: a cut slip names that.
    """
    entries = resolved.ledger.entries
    ids: dict[int, str] = {}
    taken: set[str] = set()
    # Labels first, then names, then those of which there are more than one.
    for place in sorted(range(len(entries)), key=lambda place: not entries[place].label):
        known = entries[place].label or entries[place].name
        if known not in taken:
            ids[place] = known
            taken.add(known)
    for place, entry in enumerate(entries):
        if place not in ids:
            numbered = (f"{entry.label or entry.name} {number}" for number in count(2))
            ids[place] = next(one for one in numbered if one not in taken)
            taken.add(ids[place])
    return ids


def ids_of(resolved: ResolvedKit, entries: Iterable[LedgerEntry]) -> tuple[str, ...]:
    """The ids of some entries of the ledger."""
    places = _places(resolved)
    return tuple(piece_ids(resolved)[places[id(entry)]] for entry in entries)


@cached_on
def _places(resolved: ResolvedKit) -> dict[int, int]:
    """The place of each entry.  By identity: pieces alike that come ready-cut are equal."""
    return {id(entry): place for place, entry in enumerate(resolved.ledger.entries)}
