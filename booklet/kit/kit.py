"""The kit: everything in one box, and how its booklet is to be printed."""

from __future__ import annotations

from dataclasses import field
from enum import Enum
from typing import Annotated, NamedTuple

from booklet.kit.fields import CoverWords, Edge, HexColour, Name, PositiveLength, SizeField, WordsField
from booklet.kit.hands import Hand, HeldSide
from booklet.kit.layout import Layout, in_one_kit
from booklet.kit.paper import Paper
from booklet.kit.pockets import Pocket
from booklet.kit.rules import After, Limits, Meaning
from booklet.kit.sheet import ReadyCut, Sheet
from booklet.kit.supply import Supply
from booklet.measure.dataclass import dataclass, replace
from booklet.measure.exact import Fraction
from booklet.measure.length import Size, Unit, convert

# What `Trimmer` says is usual, the metric one in millimetres.
_INCH_TRIMMER = {"mark": Fraction(1, 8), "reach": Fraction(15), "blade": Fraction(12), "hold": Fraction(1)}
_METRIC_TRIMMER = {"mark": Fraction(1), "reach": Fraction(380), "blade": Fraction(310), "hold": Fraction(25)}

# More sheets, with those of the bases, fit no box.
MOST_SHEETS = 99


class PageFormat(Enum):
    """The size of the booklet's page, which decides the sheet that it is printed on at home."""

    HALF_LETTER = "half letter"
    A5 = "a5"
    LETTER = "letter"
    A4 = "a4"
    SQUARE_6_IN = "square 6 in"
    SQUARE_15_CM = "square 15 cm"

    @property
    def is_metric(self) -> bool:
        """Whether it belongs to a land of A4 rather than of Letter."""
        return self in (PageFormat.A5, PageFormat.A4, PageFormat.SQUARE_15_CM)


class Assembly(Enum):
    """Which layout is assembled first, which the stacking order follows."""

    FIRST = "first layout first"
    LAST = "last layout first"


class ScaleZero(Enum):
    """At which side of the trimmer its scale begins: there the stop is, and the paper's edge lies at it."""

    LEFT = "left"
    RIGHT = "right"


@dataclass(frozen=True, kw_only=True)
class Trimmer:
    """The member's trimmer and hands.

    Left out, they are what is usual for a personal trimmer (common practice, no source): marks of 1/8 in or
    1 mm, 12 in or 310 mm of blade, a scale of 15 in or 380 mm, 1 in or 25 mm of hold, three papers together.
    """

    mark: Annotated[
        PositiveLength | None,
        Meaning("the finest division of its scale: tested is that every reading lies on one"),
    ] = None
    reach: Annotated[
        PositiveLength | None,
        Meaning("the largest reading of its scale: tested is that no cut is set beyond it"),
    ] = None
    blade: Annotated[
        PositiveLength | None,
        Meaning("the longest cut of its blade: tested is how long the paper in hand lies along it"),
    ] = None
    hold: Annotated[
        PositiveLength | None,
        Meaning(
            "the least paper that a hand must have to hold beside the blade: tested is, at each "
            "cut, the wider part of the paper in hand, so a narrow strip may come off a wide paper"
        ),
    ] = None
    together: Annotated[
        int,
        Limits(1, 10),
        Meaning("how many papers it cuts in one pass: tested is what a cut takes"),
    ] = 3
    hand: Annotated[
        Hand | None,
        Meaning(
            "the hand that runs the blade: the other one holds the paper, at its own side of the "
            "blade; tested is that this part is as wide as `hold`"
        ),
    ] = None
    zero: Annotated[
        ScaleZero,
        Meaning("the side at which its scale begins: readings and pieces count from there"),
    ] = ScaleZero.LEFT


@dataclass(frozen=True, kw_only=True)
class Kit:
    """One month's kit."""

    title: CoverWords
    publisher: CoverWords
    sheet: SizeField
    papers: Annotated[dict[Name, Paper], Limits(most=99)]
    sheets: Annotated[tuple[Sheet, ...], Limits(1, MOST_SHEETS)]
    layouts: Annotated[tuple[Layout, ...], Limits(most=99), After(in_one_kit)] = ()
    month: CoverWords | None = None
    unit: Unit = Unit.INCH
    page: PageFormat = PageFormat.HALF_LETTER
    accent: HexColour = "#1d5c7a"
    trimmer: Trimmer = Trimmer()
    ready: Annotated[tuple[ReadyCut, ...], Limits(most=99)] = ()
    supplies: Annotated[tuple[Supply, ...], Limits(most=99)] = ()
    bring: Annotated[tuple[WordsField, ...], Limits(most=60)] = ()
    assembly: Assembly = Assembly.FIRST
    pile: Annotated[tuple[Name, ...], Limits(most=99)] | None = None
    welcome: WordsField | None = None
    cautions: Annotated[tuple[WordsField, ...], Limits(most=60)] = ()
    pocket_tips: Annotated[dict[Pocket, WordsField], Limits(most=99)] = field(default_factory=dict)

    def supply(self, id: str | None) -> Supply | None:
        """The supply of this id; None where the kit lists none."""
        return next((supply for supply in self.supplies if supply.id == id), None)


def with_sheet(kit: Kit, index: int, sheet: Sheet) -> Kit:
    """The kit with another sheet in the place of the one with this index."""
    return replace(kit, sheets=(*kit.sheets[:index], sheet, *kit.sheets[index + 1 :]))


def sheet_size(kit: Kit, sheet: Sheet) -> Size:
    """The size of one sheet: its own, or the kit's."""
    return sheet.size or kit.sheet


def paper_title(kit: Kit, paper: str) -> str:
    """What a paper is called in print: its title, or its name with a capital."""
    return kit.papers[paper].title or capitalised(paper)


def sheet_title(kit: Kit, sheet: Sheet) -> str:
    """What a sheet is called in print: its own title, its paper's, or its id with a capital."""
    return sheet.title or kit.papers[sheet.paper].title or capitalised(sheet.id)


def layout_title(layout: Layout) -> str:
    """What a layout is called in print."""
    return layout.title or capitalised(layout.id)


def supply_title(supply: Supply) -> str:
    """What a supply is called in print."""
    return supply.title or capitalised(supply.id)


def capitalised(identifier: str) -> str:
    """An id as words for print: `low-tide` -> `Low tide`."""
    words = identifier.replace("-", " ").replace("_", " ")
    return words[:1].upper() + words[1:]


class TrimmerLimits(NamedTuple):
    """A trimmer with every value filled in, lengths in the kit's unit; `zero` is the side of its stop."""

    mark: Fraction
    reach: Fraction
    blade: Fraction
    hold: Fraction
    together: int
    held: HeldSide
    zero: Edge


def usual_mark(unit: Unit) -> Fraction:
    """The finest division of a usual trimmer in this unit."""
    return _usual_trimmer(unit)["mark"]


def _usual_trimmer(unit: Unit) -> dict[str, Fraction]:
    """The measures of a usual trimmer in this unit, by the keys of the spec."""
    if unit is Unit.INCH:
        return _INCH_TRIMMER
    return {key: convert(value, Unit.MILLIMETRE, unit) for key, value in _METRIC_TRIMMER.items()}


def trimmer_limits(kit: Kit) -> TrimmerLimits:
    """The kit's trimmer, with what the spec leaves out filled in for its unit."""
    usual = _usual_trimmer(kit.unit)
    said = {key: getattr(kit.trimmer, key) for key in usual}
    chosen = {key: usual[key] if said[key] is None else said[key] for key in usual}
    return TrimmerLimits(
        **chosen,
        together=kit.trimmer.together,
        held=_held_side(kit.trimmer),
        zero=Edge(kit.trimmer.zero.value),
    )


def _held_side(trimmer: Trimmer) -> HeldSide:
    """The part that is held: a hand holds what lies at its own side of the blade; one side is at the zero."""
    if trimmer.hand is None:
        return HeldSide.WIDER
    held_at_left = trimmer.hand is Hand.RIGHT
    return HeldSide.AT_ZERO if held_at_left is (trimmer.zero is ScaleZero.LEFT) else HeldSide.BEYOND_BLADE
