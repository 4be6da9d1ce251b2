"""Plan the cuts of one paper: from the pieces wanted and the sheets that are there to steps, or to a proof.

The goals in their order: all pieces; fewest sheets; fewest cuts; fewest takes and settings; readings on
marks, safe to hold and within reach; scrap in one large piece.
"""

from __future__ import annotations

from collections.abc import Sequence
from functools import partial

from booklet.cutting.planner.arrange import FoundPattern
from booklet.cutting.planner.assign import SheetAssignment, assign_to_sheets, fill_sheet
from booklet.cutting.planner.assignment_search import AssignmentSearch
from booklet.cutting.planner.effort import Effort
from booklet.cutting.planner.explain import explain_no_plan
from booklet.cutting.planner.metrics import concerns_of, measure_steps, total_metrics
from booklet.cutting.planner.one_sheet import find_pattern
from booklet.cutting.planner.patterns import PatternLeaf, PatternNode
from booklet.cutting.planner.question import Question, check_question, pose, without_lost_partners
from booklet.cutting.planner.stacking import with_stacking
from booklet.cutting.planner.steps import GridScale, NamePool, cut_steps, in_cutting_order, within_reach
from booklet.cutting.planner.wanted import NoPlan, Plan, Settings, SheetPlan, SheetStock, Wanted
from booklet.measure.dataclass import replace
from booklet.measure.length import Size

# The part of the effort that one way to stack strips may take.
_STACKING = 50


def plan_cuts(wanted: Sequence[Wanted], stocks: Sequence[SheetStock], settings: Settings) -> Plan | NoPlan:
    """Find edge-to-edge cuts that yield all pieces wanted from the fewest of the sheets.

    A `NoPlan` is proved.  A `Plan` that is not is what was found where the effort of the settings ran out
    first.  Raises ValueError for an invalid question.
    """
    return find_plan(wanted, stocks, settings) or explain_no_plan(wanted, stocks, settings)


def find_plan(wanted: Sequence[Wanted], stocks: Sequence[SheetStock], settings: Settings) -> Plan | None:
    """The plan alone, None where there provably is none: the verdict without its explanation.

    Raises ValueError for an invalid question.
    """
    check_question(wanted, stocks)
    if not wanted:
        return Plan((), total_metrics(()))
    answers = [
        _stacked(_answer(question, wanted, stocks, settings), wanted, settings)
        for question in pose(wanted, stocks)
    ]
    plans = [answer for answer in answers if answer is not None]
    return min(plans, key=_rank, default=None)


def _rank(answer: Plan) -> tuple[int, ...]:
    metrics = answer.metrics
    return (len(answer.left_out), metrics.sheets, metrics.cuts, metrics.settings + metrics.turns)


def _stacked(answer: Plan | None, wanted: Sequence[Wanted], settings: Settings) -> Plan | None:
    """The answer with strips cut in one pass where that takes fewer passes, sheet by sheet."""
    if answer is None:
        return None
    sheets = tuple(_stack_sheet(sheet, wanted, settings) for sheet in answer.sheets)
    return replace(answer, sheets=sheets, metrics=total_metrics(sheet.metrics for sheet in sheets))


def _stack_sheet(sheet: SheetPlan, wanted: Sequence[Wanted], settings: Settings) -> SheetPlan:
    yielded = [replace(piece, count=_yield(sheet, piece.name)) for piece in wanted]
    of_sheet = without_lost_partners([piece for piece in yielded if piece.count])
    stock = SheetStock(sheet.stock, sheet.size)
    little = replace(settings, effort=settings.effort // _STACKING)

    def plan_one(pieces: Sequence[Wanted]) -> SheetPlan | None:
        for question in pose(pieces, [stock]):
            answer = _answer(question, pieces, [stock], little)
            if answer is not None and answer.proved:
                return answer.sheets[0]
        return None

    return replace(with_stacking(of_sheet, sheet, settings, plan_one), proved=sheet.proved)


def _answer(
    question: Question, wanted: Sequence[Wanted], stocks: Sequence[SheetStock], settings: Settings
) -> Plan | None:
    """The best for one way of posing the question; None where there provably is nothing."""
    scale = GridScale(question.unit, settings)
    search = AssignmentSearch(
        question.kinds,
        question.borders,
        question.sheets,
        Effort(settings.effort),
        find_pattern,
        partial(_objections, question, scale),
    )
    assignment = assign_to_sheets(search)
    if assignment.patterns is None and assignment.settled:
        return None
    if assignment.patterns is None:
        assignment = _some_of_them(search, assignment)
    sheets = _sheets(question, assignment, stocks, scale)
    metrics = total_metrics(sheet.metrics for sheet in sheets)
    left_out = _left_out(sheets, wanted)
    return Plan(sheets, metrics, left_out, proved=not left_out and assignment.least >= metrics.sheets)


def _some_of_them(search: AssignmentSearch, assignment: SheetAssignment) -> SheetAssignment:
    """One sheet after the other filled as well as can be found, some pieces left out."""
    filling = replace(search, effort=Effort(search.effort.limit))
    left, patterns = filling.fields.whole, list[tuple[int, FoundPattern]]()
    for at, size in enumerate(filling.sheets):
        most = fill_sheet(filling, left, size) if left else None
        if most is not None:
            bundle, pattern = most
            patterns.append((at, pattern))
            left -= bundle
    return SheetAssignment(tuple(patterns), assignment.least, False)


def _sheets(
    question: Question, assignment: SheetAssignment, stocks: Sequence[SheetStock], scale: GridScale
) -> tuple[SheetPlan, ...]:
    names = _names(question)
    stock_of = [stock for stock in stocks for _ in range(stock.count)]
    return tuple(
        _sheet(question, found, stock_of[at], scale, names) for at, found in assignment.patterns or ()
    )


def _sheet(
    question: Question,
    found: FoundPattern,
    stock: SheetStock,
    scale: GridScale,
    names: NamePool,
) -> SheetPlan:
    pattern = _in_cutting_order(question, found.pattern, scale)
    whole = None
    if isinstance(pattern, PatternLeaf) and pattern.kind is not None:
        whole = names.give(pattern.kind, 1)
    steps = cut_steps(pattern, scale, names)
    metrics = measure_steps(steps, stock.size)
    concerns = concerns_of(steps, stock.size, scale.settings)
    return SheetPlan(stock.name, stock.size, steps, metrics, concerns, whole, found.fewest)


def _names(question: Question) -> NamePool:
    return NamePool([dict(piece_class.names) for piece_class in question.classes])


def _in_cutting_order(question: Question, pattern: PatternNode, scale: GridScale) -> PatternNode:
    """Pairs are ordered as one and parted after, so that nothing comes between the two."""
    ordered = in_cutting_order(pattern, scale, question.borders)
    return within_reach(question.undo_pairs(ordered), scale)


def _objections(question: Question, scale: GridScale, pattern: PatternNode) -> int:
    """How many cuts of a pattern are beyond the scale's reach or leave nothing safe to hold."""
    steps = cut_steps(_in_cutting_order(question, pattern, scale), scale, _names(question))
    size = Size(pattern.width * scale.unit, pattern.height * scale.unit)
    concerns = concerns_of(steps, size, scale.settings)
    return concerns.beyond_reach + concerns.unsafe


def _left_out(sheets: Sequence[SheetPlan], wanted: Sequence[Wanted]) -> tuple[str, ...]:
    """The names of pieces that the sheets do not yield, each as often as it is missing."""
    return tuple(
        piece.name
        for piece in wanted
        for _ in range(piece.count - sum(_yield(sheet, piece.name) for sheet in sheets))
    )


def _yield(sheet: SheetPlan, name: str) -> int:
    taken = sum(step.leaves.count(name) * len(step.take or ("",)) for step in sheet.steps)
    return taken + (sheet.whole == name)
