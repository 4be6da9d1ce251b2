"""Cuts as written next to the best found: sheet by sheet, and paper by paper."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.cutting.cut import cut_sheet
from booklet.cutting.model import CutSheet, sheet_work
from booklet.cutting.planner.plan import plan_cuts
from booklet.cutting.planner.request import as_wanted, cut_pieces, trimmer_settings
from booklet.cutting.planner.wanted import NoPlan, Plan, SheetStock
from booklet.cutting.planner.written import KeptCuts, freed_sheet, plan_written
from booklet.kit.finding import Severity
from booklet.kit.kit import Kit, sheet_size, with_sheet
from booklet.kit.sheet import CutStep, Sheet
from booklet.measure.dataclass import dataclass, replace


@dataclass(frozen=True)
class SheetReview:
    """A sheet as it is cut, and as found; None where that is no better, or `why` none was looked for."""

    written: CutSheet
    found: CutSheet | None
    why: str | None = None


@dataclass(frozen=True)
class PaperReview:
    """Sheets of one paper that are cut: how many there are, and a plan of all their pieces together.

    `plan` is None where no plan takes fewer sheets; `proved` says that none can.
    """

    paper: str
    sheets: int
    plan: Plan | None
    proved: bool

    @property
    def saved(self) -> int:
        """How many sheets fewer there need be in a kit."""
        return self.sheets - self.plan.metrics.sheets if self.plan else 0


def review_sheets(kit: Kit, cut: Sequence[CutSheet]) -> tuple[SheetReview, ...]:
    """Every sheet that is cut, in the order of the spec."""
    return tuple(_review_sheet(kit, one) for one in cut if one.stages)


def _review_sheet(kit: Kit, cut: CutSheet) -> SheetReview:
    answer = plan_written(kit, cut)
    if isinstance(answer, KeptCuts):
        return SheetReview(cut, None, answer.why)
    if not answer.cuts:
        return SheetReview(cut, None)
    found = _cut_so(kit, cut, answer.cuts)
    if any(finding.severity is Severity.ERROR for finding in found.findings) or _rank(found) >= _rank(cut):
        return SheetReview(cut, None)
    return SheetReview(cut, found)


def _cut_so(kit: Kit, cut: CutSheet, cuts: tuple[CutStep, ...]) -> CutSheet:
    changed = replace(kit.sheets[cut.index], cuts=cuts)
    return cut_sheet(with_sheet(kit, cut.index, changed), cut.index, cut.number)


def _rank(cut: CutSheet) -> tuple[int, int]:
    done = sheet_work(cut)
    return done.cuts, done.settings + done.turns


def review_papers(kit: Kit, cut: Sequence[CutSheet]) -> tuple[PaperReview, ...]:
    """Every paper with more than one sheet that is cut freely and no name on two of them."""
    freed = [(one, freed_sheet(kit, one)) for one in cut if one.stages]
    free = [(one, sheet) for one, sheet in freed if isinstance(sheet, Sheet)]
    papers = dict.fromkeys(sheet.paper for _, sheet in free)
    groups = ((paper, [pair for pair in free if pair[1].paper == paper]) for paper in papers)
    return tuple(
        _review_paper(kit, paper, group)
        for paper, group in groups
        if sum(sheet.count for _, sheet in group) > 1 and _names_once(group)
    )


def _names_once(group: Sequence[tuple[CutSheet, Sheet]]) -> bool:
    """Whether each name is given by one sheet only: anything else is an error of the kit."""
    names = [piece.name for cut, _ in group for piece in cut_pieces(cut)]
    return len(set(names)) == len(names)


def _review_paper(kit: Kit, paper: str, group: Sequence[tuple[CutSheet, Sheet]]) -> PaperReview:
    """All pieces of the paper, planned together on all its sheets, each lying upright."""
    number = sum(sheet.count for _, sheet in group)
    stocks = [SheetStock(sheet.id, sheet_size(kit, sheet), sheet.count) for _, sheet in group]
    wanted = [
        as_wanted(kit.papers[paper], piece, sheet.wishes) for cut, sheet in group for piece in cut_pieces(cut)
    ]
    answer = plan_cuts(wanted, stocks, trimmer_settings(kit))
    if isinstance(answer, NoPlan) or answer.left_out:
        return PaperReview(paper, number, None, proved=False)
    fewer = answer if answer.metrics.sheets < number else None
    return PaperReview(paper, number, fewer, proved=isinstance(answer, Plan))
