"""What a pocket holds, in rows: pieces alike stand in one."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import groupby

from booklet.kit.spreads import pockets_of, spreads
from booklet.measure.dataclass import dataclass
from booklet.placing.resolved import ResolvedKit, parts_of
from booklet.sorting.ledger import LedgerEntry


@dataclass(frozen=True)
class PocketGroup:
    """What a pocket holds for a spread, or for a layout that lies alone; `layouts` are their indexes.

    Their bases that wait in the pile come first: whoever takes up the pocket takes them as well.
    """

    pocket: str
    layouts: tuple[int, ...]
    rows: tuple[tuple[LedgerEntry, ...], ...]


def pocket_groups(resolved: ResolvedKit) -> tuple[PocketGroup, ...]:
    """Every pocket in order, and in it every spread that it serves, in the order of the spec."""
    return tuple(group for pocket in pockets_of(resolved.kit) for group in _groups(resolved, pocket))


def rows_of_layout(resolved: ResolvedKit, index: int) -> tuple[tuple[LedgerEntry, ...], ...]:
    """The pieces that a layout takes by itself, in rows as in its pocket."""
    taken = [entry for entry in resolved.ledger.entries if entry.use and entry.use.layout_index == index]
    return tuple(_rows(resolved, taken))


def _groups(resolved: ResolvedKit, pocket: str) -> Iterator[PocketGroup]:
    for spread in spreads(resolved.kit):
        mine = tuple(index for index in spread if resolved.kit.layouts[index].pocket == pocket)
        if mine:
            used = [entry for entry in resolved.ledger.entries if entry.use]
            taken = [entry for entry in used if entry.use and entry.use.layout_index in mine]
            yield PocketGroup(pocket, mine, tuple(_rows(resolved, taken)))


def _rows(resolved: ResolvedKit, entries: Sequence[LedgerEntry]) -> Iterator[tuple[LedgerEntry, ...]]:
    """Pieces of one name that are used alike together: from the pile, from sheets, from the box."""
    by_source = sorted(entries, key=lambda entry: (not entry.waits_in_pile, not entry.label))
    for _, alike in groupby(by_source, key=lambda entry: _likeness(resolved, entry)):
        yield tuple(alike)


def _likeness(resolved: ResolvedKit, entry: LedgerEntry) -> tuple[object, ...]:
    optional = entry.use is not None and entry.use.optional
    return (entry.name, entry.size, optional, parts_of(resolved, entry))
