"""What is wanted, in whole units of a common grid: kinds of pieces, and bundles of them as one number.

A bundle (how many of each kind) is coded in one integer: every kind has a field just wide enough for its
count and one guard bit above it, so that bundles are added, taken apart and compared in whole-number steps,
singly or many at a time.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from booklet.measure.dataclass import dataclass

# The widest code that whole numbers of the machine can hold, many at a time.
WORD_BITS = 63


@dataclass(frozen=True)
class PieceKind:
    """`count` equal pieces, `width` by `height` grid units; `turns` if a quarter turn is allowed."""

    width: int
    height: int
    count: int
    turns: bool

    @property
    def area(self) -> int:
        """Of one piece, in square grid units."""
        return self.width * self.height

    @property
    def orientations(self) -> tuple[tuple[int, int], ...]:
        """The ways in which one piece may lie: width by height, upright first."""
        if self.turns and self.width != self.height:
            return ((self.width, self.height), (self.height, self.width))
        return ((self.width, self.height),)

    def counted(self, count: int) -> PieceKind:
        """The same kind, `count` pieces of it."""
        return PieceKind(self.width, self.height, count, self.turns)

    def goes_in(self, width: int, height: int) -> bool:
        """Whether one piece fits the rectangle, in an orientation that it may take."""
        return any(across <= width and down <= height for across, down in self.orientations)


def bits_of(count: int) -> int:
    """The bits of the field of a kind with `count` pieces, guard bit included."""
    return count.bit_length() + 1


@dataclass(frozen=True)
class Fields:
    """Where the count of each kind stands in a bundle's code."""

    kinds: tuple[PieceKind, ...]
    units: tuple[int, ...]
    masks: tuple[int, ...]
    guards: int
    whole: int
    bits: int

    def count(self, bundle: int, kind: int) -> int:
        """How many pieces of `kind` are in the bundle."""
        return (bundle & self.masks[kind]) // self.units[kind]

    def members(self, bundle: int) -> Iterator[tuple[int, int]]:
        """Each kind in the bundle with its count."""
        for kind, mask in enumerate(self.masks):
            counted = bundle & mask
            if counted:
                yield kind, counted // self.units[kind]

    def area(self, bundle: int) -> int:
        """The area of all pieces in the bundle, in square grid units."""
        return sum(self.kinds[kind].area * count for kind, count in self.members(bundle))

    def size(self, bundle: int) -> int:
        """The number of pieces in the bundle."""
        return sum(count for _, count in self.members(bundle))

    def translated(self, other: Fields, kinds: Sequence[int], bundle: int) -> int:
        """A bundle in other fields, whose kinds have these numbers here, in these fields."""
        return sum(self.units[kinds[at]] * count for at, count in other.members(bundle))


def fields_of(kinds: Sequence[PieceKind]) -> Fields:
    """Lay out the fields of a bundle's code."""
    units, masks, guards, whole, at = [], [], 0, 0, 0
    for kind in kinds:
        bits = bits_of(kind.count) - 1
        units.append(1 << at)
        masks.append(((1 << bits) - 1) << at)
        guards |= 1 << (at + bits)
        whole += kind.count << at
        at += bits + 1
    return Fields(tuple(kinds), tuple(units), tuple(masks), guards, whole, at)


def sums_within(lengths: Iterable[tuple[Iterable[int], int]], most: int) -> int:
    """All sums that the lengths can make up to `most`, as the set bits of one number (0 always is one).

    Each entry is the lengths that one piece may show along this side, and how many such pieces there are.
    """
    reached = 1
    limit = (1 << (most + 1)) - 1
    for shown, count in lengths:
        choices = tuple(shown)
        for _ in range(count):
            before = reached
            for length in choices:
                reached |= (before << length) & limit
            if reached == before:
                break
    return reached


def positions(kinds: Sequence[PieceKind], most: int, upright: bool) -> tuple[int, ...]:
    """The distances up to `most` at which a cut may be needed, 0 first: sums of sides of pieces.

    Any edge-to-edge pattern can be pushed towards one corner until every piece rests on a piece or on the
    edge, so no other distance matters (normal patterns: Herz 1972; Christofides and Whitlock 1977; from
    memory).  `upright` asks along the width, else along the height.
    """
    sides = (
        ([(size[0] if upright else size[1]) for size in kind.orientations], kind.count) for kind in kinds
    )
    reached = sums_within(sides, most)
    return tuple(at for at in range(most + 1) if reached >> at & 1)
