"""Find all disjoint pairs of bundles between two sorted lists, in time near the number of pairs found.

Bundles that agree in their first fields stand together in the sorted list, so each list is a tree whose
nodes are runs of it.  Both trees are descended at once, field by field, and only pairs of runs that leave
enough of the field's kind for both go on; at the leaves every pair is disjoint.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from booklet.cutting.planner.effort import Effort
from booklet.cutting.planner.kinds import Fields
from booklet.measure.dataclass import dataclass

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    Ints = NDArray[np.int64]

# Pairs of runs carried along at once: enough for the per-call cost to vanish, a few megabytes of memory.
_CARRIED = 1 << 17


@dataclass(frozen=True)
class Layer:
    """One depth of a tree: for each run and each count of the next kind, the run below it or -1.

    `counts` are those that any run has.  `waste` is the least waste among a run's bundles, `shapes` the bits
    of all box shapes that they have.
    """

    below: Ints
    counts: tuple[int, ...]
    waste: Ints
    shapes: tuple[Ints, Ints]


@dataclass(frozen=True)
class Tree:
    """The runs of one sorted list of bundles, from the whole list down to single bundles."""

    layers: tuple[Layer, ...]


def build_tree(fields: Fields, codes: Ints, waste: Ints, shapes: tuple[Ints, Ints]) -> Tree:
    """The tree over `codes`, which are sorted; the first layer branches on the last kind's count."""
    import numpy as np

    layers: list[Layer] = []
    if not len(codes):
        return Tree(())
    starts = np.zeros(1, np.int64)
    for kind in reversed(range(len(fields.kinds))):
        unit = fields.units[kind]
        prefixes = codes // unit
        ends = np.flatnonzero(np.concatenate(([True], prefixes[1:] != prefixes[:-1])))
        parents = np.searchsorted(starts, ends, side="right") - 1
        counts = (codes[ends] & fields.masks[kind]) // unit
        below = np.full((len(starts), fields.kinds[kind].count + 1), -1, np.int64)
        below[parents, counts] = np.arange(len(ends))
        layers.append(
            Layer(
                below,
                tuple(np.unique(counts).tolist()),
                np.minimum.reduceat(waste, ends),
                (np.bitwise_or.reduceat(shapes[0], ends), np.bitwise_or.reduceat(shapes[1], ends)),
            )
        )
        starts = ends
    return Tree(tuple(layers))


def disjoint_pairs(
    fields: Fields, one: Tree, other: Tree, slack: int, effort: Effort
) -> Iterator[tuple[Ints, Ints]]:
    """Index pairs of bundles that can be had together and waste at most `slack` in boxes of one shape.

    Where `one` is `other`, each pair comes once.
    """
    import numpy as np

    top = np.zeros(1, np.int64)
    yield from _descend(fields, one, other, 0, (top, top), slack, effort)


def _descend(
    fields: Fields,
    one: Tree,
    other: Tree,
    depth: int,
    runs: tuple[Ints, Ints],
    slack: int,
    effort: Effort,
) -> Iterator[tuple[Ints, Ints]]:
    import numpy as np

    while depth < len(one.layers):
        if len(runs[0]) > _CARRIED:
            for start in range(0, len(runs[0]), _CARRIED):
                part = runs[0][start : start + _CARRIED], runs[1][start : start + _CARRIED]
                yield from _descend(fields, one, other, depth, part, slack, effort)
            return
        count = fields.kinds[len(fields.kinds) - 1 - depth].count
        below = list(_below(one, other, depth, runs, count, slack))
        if not below:
            return
        runs = np.concatenate([pair[0] for pair in below]), np.concatenate([pair[1] for pair in below])
        effort.spend(len(runs[0]) * 10)
        depth += 1
    if len(runs[0]):
        yield runs


def _below(
    one: Tree, other: Tree, depth: int, runs: tuple[Ints, Ints], count: int, slack: int
) -> Iterator[tuple[Ints, Ints]]:
    """The pairs of runs one field further down that still can be had together."""
    mine, theirs = one.layers[depth], other.layers[depth]
    for taken in mine.counts:
        first_below = mine.below[runs[0], taken]
        for more in (more for more in theirs.counts if more <= count - taken):
            firsts, seconds = first_below, theirs.below[runs[1], more]
            keep = (firsts >= 0) & (seconds >= 0)
            if one is other:
                keep &= firsts <= seconds
            firsts, seconds = firsts[keep], seconds[keep]
            keep = mine.waste[firsts] + theirs.waste[seconds] <= slack
            keep &= (
                mine.shapes[0][firsts] & theirs.shapes[0][seconds]
                | mine.shapes[1][firsts] & theirs.shapes[1][seconds]
            ) != 0
            yield firsts[keep], seconds[keep]
