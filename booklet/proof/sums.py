"""Sums that must close, and how much room is left to the nearest limit: by sheet, by layout, by supply."""

from __future__ import annotations

from bisect import insort
from collections import Counter
from collections.abc import Iterator
from enum import Enum
from itertools import groupby

from booklet.cutting.checks import parts_in_hand
from booklet.cutting.model import CutSheet, Fate, Stage
from booklet.kit.kit import trimmer_limits
from booklet.kit.used import uses
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction
from booklet.placing.model import PlacedLayout
from booklet.placing.resolved import ResolvedKit
from booklet.placing.supplies import balance_supplies


class SumId(Enum):
    """What is added up."""

    STRIPS = "strips"
    AREA = "area"
    PIECES = "pieces"
    USED = "used"
    SUPPLY = "supply"


@dataclass(frozen=True)
class Part:
    """So many times a number."""

    count: int
    value: Fraction


@dataclass(frozen=True)
class Sum:
    """Parts that are to add up to a total, of a stage (from 1) or by a name, and what may be left over."""

    id: SumId
    parts: tuple[Part, ...]
    total: Fraction
    stage: int | None = None
    name: str = ""
    left: Fraction | None = None

    @property
    def closes(self) -> bool:
        """Whether the parts, and what is left over, are the total, and nothing lacks."""
        added = sum((part.count * part.value for part in self.parts), Fraction(0))
        return added + (self.left or 0) == self.total and (self.left is None or self.left >= 0)


class MarginId(Enum):
    """What a limit is nearest to."""

    HOLD = "hold"
    REACH = "reach"
    EDGE = "edge"


@dataclass(frozen=True)
class Margin:
    """How much room is left to a limit, in the kit's unit."""

    id: MarginId
    room: Fraction


# Sheets.


def sheet_sums(resolved: ResolvedKit, sheet: CutSheet) -> Iterator[Sum]:
    """Of each stage its strips, all pieces against the whole paper, and those kept against the ledger."""
    for stage in sheet.stages:
        runs = groupby(strip.end - strip.start for strip in stage.strips)
        parts = tuple(Part(len(list(run)), width) for width, run in runs)
        yield Sum(SumId.STRIPS, parts, stage.seen.width, stage.number)
    areas = Counter(piece.size.width * piece.size.height for piece in sheet.pieces)
    whole = sheet.size.width * sheet.size.height * len(sheet.whole)
    yield Sum(SumId.AREA, tuple(Part(count, area) for area, count in areas.items()), whole)
    entries = sum(entry.source == ("sheets", sheet.index) for entry in resolved.ledger.entries)
    kept = Counter(piece.name for piece in sheet.pieces if piece.fate in {Fate.KEPT, Fate.SPARE})
    yield Sum(SumId.PIECES, tuple(Part(1, Fraction(count)) for count in kept.values()), Fraction(entries))


def sheet_margin(resolved: ResolvedKit, sheet: CutSheet) -> Margin | None:
    """The nearest that the cuts of a sheet come to a limit of the scale or of the hand; None without cuts."""
    limits = trimmer_limits(resolved.kit)
    rooms = [Margin(MarginId.HOLD, held - limits.hold) for stage in sheet.stages for held in _held(stage)]
    rooms += [
        Margin(MarginId.REACH, limits.reach - cut.reading) for stage in sheet.stages for cut in stage.cuts
    ]
    return min(rooms, key=lambda margin: margin.room, default=None)


def _held(stage: Stage) -> Iterator[Fraction]:
    """At each cut the wider part of the paper in hand."""
    earlier: list[Fraction] = []
    for cut in stage.cuts:
        yield max(parts_in_hand(cut.reading, earlier, stage.seen))
        insort(earlier, cut.reading)


# Layouts.


def layout_sums(resolved: ResolvedKit, layout: PlacedLayout) -> Iterator[Sum]:
    """The pieces that a layout takes against those that the ledger gives it."""
    wanted = [use for use in uses(resolved.kit.layouts[layout.index], layout.index) if use.part_of is None]
    given = sum(resolved.ledger.of_use(layout.index, use.number) is not None for use in wanted)
    yield Sum(SumId.USED, (Part(1, Fraction(given)),), Fraction(len(wanted)))


def layout_margin(layout: PlacedLayout) -> Margin | None:
    """The least that a thing lies within an edge of its page that it does not touch; None where none does."""
    page = layout.base.rect
    rooms = [
        room
        for item in layout.items
        for room in (
            item.rect.x - page.x,
            item.rect.y - page.y,
            page.right - item.rect.right,
            page.bottom - item.rect.bottom,
        )
        if room > 0
    ]
    return Margin(MarginId.EDGE, min(rooms)) if rooms else None


# Supplies.


def supply_sums(resolved: ResolvedKit) -> Iterator[Sum]:
    """What the layouts use of each supply that is counted or measured, and what is left, against the box."""
    for balance in balance_supplies(resolved.kit, resolved.layouts):
        if balance.boxed is not None and balance.left is not None:
            parts = tuple(Part(1, amount) for _, amount in balance.per_layout)
            yield Sum(SumId.SUPPLY, parts, balance.boxed, name=balance.supply, left=balance.left)


def least_supply(resolved: ResolvedKit) -> Sum | None:
    """The supply of which the least is left, as a share of what the box holds; None without supplies."""
    counted = [one for one in supply_sums(resolved) if one.total and one.parts]
    return min(counted, key=lambda one: (one.left or Fraction(0)) / one.total, default=None)
