"""A pattern: one sheet taken apart edge to edge, as a tree, in whole grid units of the sheet's front."""

from __future__ import annotations

from typing import TypeAlias

from booklet.measure.dataclass import dataclass


@dataclass(frozen=True)
class PatternLeaf:
    """A piece of `kind`, or scrap where that is None."""

    width: int
    height: int
    kind: int | None


@dataclass(frozen=True)
class PatternSplit:
    """A rectangle cut into `parts`: left to right by upright cuts, else top to bottom by level ones."""

    width: int
    height: int
    upright: bool
    parts: tuple[PatternNode, ...]


PatternNode: TypeAlias = PatternLeaf | PatternSplit


def join_parts(upright: bool, parts: tuple[PatternNode, ...]) -> PatternNode:
    """The rectangle that the parts make, parts cut in the same direction taken up into it."""
    flat: list[PatternNode] = []
    for part in parts:
        if isinstance(part, PatternSplit) and part.upright == upright:
            flat.extend(part.parts)
        else:
            flat.append(part)
    if len(flat) == 1:
        return flat[0]
    if upright:
        return PatternSplit(sum(part.width for part in flat), flat[0].height, True, tuple(flat))
    return PatternSplit(flat[0].width, sum(part.height for part in flat), False, tuple(flat))


def pattern_leaves(node: PatternNode) -> tuple[PatternLeaf, ...]:
    """All leaves, scrap included, left to right and top to bottom within each split."""
    if isinstance(node, PatternLeaf):
        return (node,)
    return tuple(leaf for part in node.parts for leaf in pattern_leaves(part))


def count_scraps(node: PatternNode) -> int:
    """The number of scrap rectangles."""
    return sum(leaf.kind is None for leaf in pattern_leaves(node))
