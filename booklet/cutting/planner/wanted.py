"""The planner's question and its answers, in exact lengths of the kit's unit."""

from __future__ import annotations

from booklet.kit.fields import Edge, Turn
from booklet.kit.hands import HeldSide
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction
from booklet.measure.length import Size, Unit


@dataclass(frozen=True)
class Wish:
    """A fixed wish for a wanted piece.

    `edge`: it must lie at that edge of the sheet's front, the border side of the print for instance.
    `beside`: it must lie next to the piece of that name in one strip, so that one setting cuts both.
    """

    edge: Edge | None = None
    beside: str | None = None


@dataclass(frozen=True)
class Wanted:
    """`count` pieces of one name and size, as they lie on the upright front unless they `may_turn`."""

    name: str
    size: Size
    count: int = 1
    may_turn: bool = False
    wish: Wish | None = None


@dataclass(frozen=True)
class SheetStock:
    """Sheets of the one paper that is planned: `count` of one size."""

    name: str
    size: Size
    count: int = 1


@dataclass(frozen=True)
class Settings:
    """The trimmer and the hand, in the kit's unit.

    `mark`: the scale's finest division.  `hold`: the narrowest strip that the hand may be asked to hold, if
    it can be at the side `held`.
    `reach`: the largest reading.  `together`: how many papers one pass of the blade may cut.
    `unit`: in which an explanation words its lengths.
    `effort`: how much work may be done, in steps; a hundred million take about a second.
    """

    mark: Fraction
    hold: Fraction
    reach: Fraction
    together: int = 2
    unit: Unit = Unit.INCH
    effort: int = 1_000_000_000
    held: HeldSide = HeldSide.WIDER


@dataclass(frozen=True)
class PlannedStep:
    """Take the sheet (None) or equal parts, turn them or not, cut at the readings in this order.

    `leaves` names what then lies between neighbouring readings, from the scale's zero outwards: a wanted
    piece, a part that is cut further, or "scrap".  Of parts taken together each leaves one of each name.
    """

    take: tuple[str, ...] | None
    turn: Turn | None
    at: tuple[Fraction, ...]
    leaves: tuple[str, ...]


@dataclass(frozen=True)
class Metrics:
    """What carrying out the steps costs and leaves; areas in square units of the kit's.

    `cuts`: passes of the blade.  `settings`: readings that differ from the one before.  `turns`: takes with
    a turn.  Equal parts that are cut together count once.
    """

    sheets: int
    cuts: int
    settings: int
    turns: int
    scrap_area: Fraction
    largest_scrap: Fraction


@dataclass(frozen=True)
class Concerns:
    """What a trimmer or a hand may object to, in numbers of cuts.

    `beyond_reach`: readings that the scale does not have.  `off_marks`: readings between two marks.
    `unsafe`: cuts at which neither side is as wide as the safe hold.
    """

    beyond_reach: int = 0
    off_marks: int = 0
    unsafe: int = 0


@dataclass(frozen=True)
class SheetPlan:
    """One sheet of a stock and its steps; where the sheet as it is is a piece, its name is `whole`.

    `proved`: no edge-to-edge cuts give these pieces, each pair lying so, in less cuts, those of every paper
    counted; what is saved by cutting several papers in one pass is always the best found.
    """

    stock: str
    size: Size
    steps: tuple[PlannedStep, ...]
    metrics: Metrics
    concerns: Concerns
    whole: str | None = None
    proved: bool = True


@dataclass(frozen=True)
class Plan:
    """Cuts that yield every piece from proved fewest sheets; or, not `proved`, the best within the effort.

    Then `left_out` names pieces that it does not yield.
    """

    sheets: tuple[SheetPlan, ...]
    metrics: Metrics
    left_out: tuple[str, ...] = ()
    proved: bool = True


@dataclass(frozen=True)
class NoPlan:
    """No edge-to-edge cuts yield all pieces: the proof's reason, the pieces that fail, what would help."""

    reason: str
    failing: tuple[str, ...]
    helps: tuple[str, ...]
