"""Sheets of one paper planned together: which piece comes from which sheet.

A name stands for pieces from one sheet, so that a reader can tell them apart; the fewest sheets are found
first, and then names are assigned to them.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from itertools import islice

from booklet.cutting.planner.effort import Effort, OutOfEffortError
from booklet.cutting.planner.kit_plan import SheetAnswer, is_to_be_planned, not_planned, refuse, try_sheet
from booklet.cutting.planner.plan import plan_cuts
from booklet.cutting.planner.request import (
    PieceDemand,
    as_wanted,
    possible_pairs,
    stated_pieces,
    trimmer_settings,
)
from booklet.cutting.planner.wanted import NoPlan, Plan, SheetStock
from booklet.kit.finding import Finding, error
from booklet.kit.kit import Kit, sheet_size, with_sheet
from booklet.kit.sheet import Wishes
from booklet.measure.dataclass import dataclass, replace
from booklet.measure.exact import Fraction

# The ways to assign names to sheets that are planned before more sheets are taken.
_TRIED = 60
# The choices of a sheet for one name that are looked at in all.
_LOOKED_AT = 20_000
# What planning one sheet may take on one of these ways; those that can be had mostly take little.
_SHARE_EFFORT = 50_000_000

# For each piece the sheet that it comes from, by its place among those planned together.
_SheetOfName = Mapping[str, int]


@dataclass(frozen=True)
class SheetShare:
    """What one sheet gives, and its cuts; nothing where it is not needed."""

    index: int
    pieces: tuple[PieceDemand, ...]
    answer: SheetAnswer | None


@dataclass(frozen=True)
class PaperPlan:
    """The sheets of one paper; `proved` says that fewer cannot do.  No shares where there is no plan."""

    paper: str
    shares: tuple[SheetShare, ...]
    proved: bool
    findings: tuple[Finding, ...] = ()


def plan_together(kit: Kit) -> tuple[PaperPlan, ...]:
    """Every paper with more than one sheet that says `cuts: plan`; their `sizes` are taken together."""
    free = [i for i, sheet in enumerate(kit.sheets) if is_to_be_planned(sheet) and not sheet.is_cut_apart]
    papers = dict.fromkeys(kit.sheets[index].paper for index in free)
    groups = ([index for index in free if kit.sheets[index].paper == paper] for paper in papers)
    return tuple(_plan_group(kit, group) for group in groups if len(group) > 1)


def _plan_group(kit: Kit, group: Sequence[int]) -> PaperPlan:
    paper, where = kit.sheets[group[0]].paper, ("sheets", group[0], "cuts")
    several = [index for index in group if kit.sheets[index].count > 1]
    if several:
        found = "sheets that are cut together all give the same"
        cure = "give each sheet an id of its own to plan them together"
        counted = error("plan-together-count", ("sheets", several[0], "count"), found, cure)
        return PaperPlan(paper, (), proved=False, findings=(counted,))
    pieces = tuple({piece.name: piece for index in group for piece in stated_pieces(kit, index)}.values())
    refused = tuple(dict.fromkeys(found for index in group for found in refuse(kit, index, pieces)))
    if refused:
        return PaperPlan(paper, (), proved=False, findings=refused)
    wishes = _wishes(kit, group, {piece.name for piece in pieces})
    wanted = [as_wanted(kit.papers[paper], piece, wishes) for piece in pieces]
    stocks = [SheetStock(kit.sheets[index].id, sheet_size(kit, kit.sheets[index])) for index in group]
    answer = plan_cuts(wanted, stocks, trimmer_settings(kit))
    refusal = not_planned(answer, where)
    if isinstance(answer, NoPlan) or refusal is not None:
        return PaperPlan(paper, (), proved=False, findings=(refusal,) if refusal else ())
    for sheet_of in islice(_assignments(kit, group, pieces, answer), _TRIED):
        shares = _planned_shares(kit, group, pieces, sheet_of)
        if shares is not None:
            least = sum(share.answer is not None for share in shares) == answer.metrics.sheets
            return PaperPlan(paper, shares, proved=least and answer.proved)
    found = "no way was found to give all pieces of each name from one sheet"
    cure = "give the pieces that come from two sheets two names"
    return PaperPlan(paper, (), proved=False, findings=(error("plan-together-names", where, found, cure),))


def _wishes(kit: Kit, group: Sequence[int], names: set[str]) -> Wishes:
    """The wishes of all the sheets for these pieces."""
    edge = {
        name: word for index in group for name, word in kit.sheets[index].wishes.edge.items() if name in names
    }
    pairs = [pair for index in group for pair in kit.sheets[index].wishes.beside]
    return Wishes(edge=edge, beside=possible_pairs(pairs, names))


def _assignments(
    kit: Kit, group: Sequence[int], pieces: Sequence[PieceDemand], answer: Plan
) -> Iterator[_SheetOfName]:
    """The planner's own if no name is on two sheets, else those that the areas allow, few sheets first."""
    own: dict[str, set[int]] = {}
    places = {kit.sheets[index].id: place for place, index in enumerate(group)}
    for sheet in answer.sheets:
        given = [sheet.whole] if sheet.whole else [name for step in sheet.steps for name in step.leaves]
        for name in given:
            own.setdefault(str(name), set()).add(places[sheet.stock])
    if all(len(own[piece.name]) == 1 for piece in pieces):
        yield {piece.name: next(iter(own[piece.name])) for piece in pieces}
        return
    areas = [sheet_size(kit, kit.sheets[index]).area for index in group]
    largest = sorted(pieces, key=lambda piece: (-piece.size.area * piece.count, piece.name))
    effort = Effort(_LOOKED_AT)
    try:
        for number in range(answer.metrics.sheets, len(group) + 1):
            yield from _by_area(largest, areas[:number], {}, effort)
    except OutOfEffortError:
        return


def _by_area(
    pieces: Sequence[PieceDemand], room: Sequence[Fraction], so_far: dict[str, int], effort: Effort
) -> Iterator[dict[str, int]]:
    if not pieces:
        yield so_far
        return
    effort.spend(1)
    piece, *rest = pieces
    area = piece.size.area * piece.count
    # Of sheets that are as empty as each other one is enough.
    for at in {left: at for at, left in reversed(list(enumerate(room)))}.values():
        if area <= room[at]:
            left = [*room[:at], room[at] - area, *room[at + 1 :]]
            yield from _by_area(rest, left, {**so_far, piece.name: at}, effort)


def _planned_shares(
    kit: Kit, group: Sequence[int], pieces: Sequence[PieceDemand], sheet_of: _SheetOfName
) -> tuple[SheetShare, ...] | None:
    """Each sheet with what it is to give, planned; None where one of them cannot give it."""
    shares = []
    for at, index in enumerate(group):
        own = tuple(piece for piece in pieces if sheet_of[piece.name] == at)
        if not own:
            shares.append(SheetShare(index, (), None))
            continue
        names = {piece.name for piece in own}
        sheet = replace(kit.sheets[index], wishes=_wishes(kit, group, names), cuts=())
        answer = try_sheet(with_sheet(kit, index, sheet), index, own, _SHARE_EFFORT)
        if answer is None:
            return None
        shares.append(SheetShare(index, own, answer))
    return tuple(shares)
