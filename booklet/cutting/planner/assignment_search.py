"""The question of which pieces come from which sheets, and what is known about bundles on single sheets."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field

from booklet.cutting.planner.arrange import FoundPattern
from booklet.cutting.planner.effort import Effort
from booklet.cutting.planner.kinds import Fields, PieceKind, fields_of
from booklet.cutting.planner.patterns import PatternNode


@dataclass
class AssignmentSearch:
    """The question, the effort left for it, and the patterns found for bundles on sheets so far.

    `find` gives the pattern of one bundle on one sheet, or a placeholder where only the verdict
    is asked for.  `objections` counts the cuts of a pattern that the trimmer or the hand cannot make.
    """

    kinds: tuple[PieceKind, ...]
    borders: tuple[int, ...]
    sheets: tuple[tuple[int, int], ...]
    effort: Effort
    find: Callable[[AssignmentSearch, int, tuple[int, int]], FoundPattern | None]
    objections: Callable[[PatternNode], int] = lambda _: 0
    patterns: dict[tuple[int, tuple[int, int]], FoundPattern | None] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.used = tuple(at for at, kind in enumerate(self.kinds) if kind.count)
        self.fields: Fields = fields_of([self.kinds[at] for at in self.used])
        self.unsure = False


def cached_pattern(search: AssignmentSearch, bundle: int, size: tuple[int, int]) -> FoundPattern | None:
    """A pattern of this bundle on one sheet of this size, its kinds numbered as in the question.

    None if there is none; then `unsure` tells whether that is not proved.
    """
    if (bundle, size) not in search.patterns:
        search.patterns[bundle, size] = search.find(search, bundle, size)
    return search.patterns[bundle, size]
