"""A name for every single piece of a kit, by which a page that remembers ticks knows it again."""

from __future__ import annotations

from collections.abc import Iterable

from booklet.measure.cache import cached_on
from booklet.placing.resolved import ResolvedKit
from booklet.sorting.ledger import LedgerEntry


@cached_on
def piece_ids(resolved: ResolvedKit) -> dict[int, str]:
    """The id of each entry of the ledger, by its place there.

    A piece that was cut goes by its label, one that comes ready-cut by its name.  Of several that share one
    the first has it alone: a cut slip names that.
    """
    taken: dict[str, int] = {}
    ids: dict[int, str] = {}
    for place, entry in enumerate(resolved.ledger.entries):
        known = entry.label or entry.name
        taken[known] = taken.get(known, 0) + 1
        ids[place] = known if taken[known] == 1 else f"{known} {taken[known]}"
    return ids


def ids_of(resolved: ResolvedKit, entries: Iterable[LedgerEntry]) -> tuple[str, ...]:
    """The ids of some entries of the ledger."""
    places = _places(resolved)
    return tuple(piece_ids(resolved)[places[id(entry)]] for entry in entries)


@cached_on
def _places(resolved: ResolvedKit) -> dict[int, int]:
    """The place of each entry.  By identity: pieces alike that come ready-cut are equal."""
    return {id(entry): place for place, entry in enumerate(resolved.ledger.entries)}
