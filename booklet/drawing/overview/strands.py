"""The kit as a flow: each piece a strand from its sheet, or from the box, through its pocket to its layout.

Only what runs where, and in which order it lies there; no points.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cached_property
from itertools import groupby
from operator import attrgetter
from typing import Any

from booklet.kit.spreads import assembly_order, pockets_of
from booklet.measure.dataclass import dataclass
from booklet.placing.resolved import ResolvedKit
from booklet.sorting.ledger import LedgerEntry

# Where a piece comes from: `("sheets", index)` or `("ready", index)`.
Source = tuple[str, int]


@dataclass(frozen=True)
class Strand:
    """One piece of the kit, by its number in the ledger.

    A base that stays whole has no pocket; what no layout uses has no layout either.
    """

    number: int
    entry: LedgerEntry

    @property
    def source(self) -> Source:
        """The sheet that it is cut from, or the ready-cut piece that it is."""
        return self.entry.source

    @property
    def pocket(self) -> str | None:
        """The pocket in which it waits."""
        return self.entry.pocket

    @property
    def layout(self) -> int | None:
        """The layout that uses it, by its index."""
        return self.entry.use.layout_index if self.entry.use else None


@dataclass(frozen=True)
class Node:
    """What strands run from, through or to: a source, a pocket or a layout; and they, from the top down.

    In the middle `key` is None for strands that pass no pocket.
    """

    key: Source | str | int | None
    strands: tuple[Strand, ...]


@dataclass(frozen=True)
class Flow:
    """Three columns of nodes, each from the top down."""

    sources: tuple[Node, ...]
    pockets: tuple[Node, ...]
    layouts: tuple[Node, ...]

    @cached_property
    def strands(self) -> tuple[Strand, ...]:
        """All strands, in the order of the ledger."""
        return tuple(sorted((s for node in self.sources for s in node.strands), key=attrgetter("number")))


def flow_of(resolved: ResolvedKit) -> Flow:
    """What of a kit flows where.

    Sheets stand in the order of their numbers, then what comes ready-cut; pockets in theirs, layouts in that
    of assembly.  Strands lie so that few cross: at their source by where they go, from there on by where they
    come from.
    """
    strands = [Strand(number, entry) for number, entry in enumerate(resolved.ledger.entries)]
    order = _order(resolved)
    outwards = sorted(strands, key=lambda s: (order.source(s), *order.target(s), s.number))
    inwards = sorted(strands, key=lambda s: (*order.target(s), order.source(s), s.number))
    used = sorted((s for s in inwards if s.layout is not None), key=lambda s: order.layouts[s.layout])
    return Flow(_nodes(outwards, "source"), _nodes(inwards, "pocket"), _nodes(used, "layout"))


def _nodes(strands: Iterable[Strand], column: str) -> tuple[Node, ...]:
    """Strands that lie one below another, those that meet in a node together."""
    return tuple(Node(key, tuple(run)) for key, run in groupby(strands, attrgetter(column)))


@dataclass(frozen=True)
class _Order:
    """Which place each node has in its column."""

    sources: dict[Any, int]
    pockets: dict[Any, int]
    layouts: dict[Any, int]

    def source(self, strand: Strand) -> int:
        return self.sources[strand.source]

    def target(self, strand: Strand) -> tuple[int, ...]:
        """What waits in the pile passes above its layout's pocket; what is not used ends below them all."""
        if strand.layout is None:
            return (len(self.pockets),)
        pocket = self.pockets[strand.layout]
        return pocket, strand.pocket is not None, self.layouts[strand.layout]


def _order(resolved: ResolvedKit) -> _Order:
    kit = resolved.kit
    sheets: Sequence[Source] = [
        ("sheets", each.index) for each in sorted(resolved.sheets, key=attrgetter("number"))
    ]
    ready: Sequence[Source] = [("ready", index) for index in range(len(kit.ready))]
    pockets = _places(pockets_of(kit))
    of_layouts = {index: pockets[layout.pocket] for index, layout in enumerate(kit.layouts)}
    return _Order(_places([*sheets, *ready]), of_layouts, _places(assembly_order(kit)))


def _places(things: Iterable[Any]) -> dict[Any, int]:
    return {thing: at for at, thing in enumerate(things)}
