"""The sheets whose cuts the spec leaves to the planner: a kit with their steps filled in.

Failures become findings; all other checks treat a planned sheet as any other.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from booklet.cutting.begun import Begun, not_told
from booklet.cutting.cut import cut_sheet, measures_of
from booklet.cutting.labels import check_name
from booklet.cutting.planner.apart import NoCutError, TooManyStepsError, cuts_apart
from booklet.cutting.planner.plan import find_plan, plan_cuts
from booklet.cutting.planner.request import (
    PieceDemand,
    as_cuts,
    request_for,
    sheet_orientation,
    stated_pieces,
    trimmer_settings,
)
from booklet.cutting.planner.wanted import NoPlan, Plan, Settings
from booklet.kit.finding import Finding, Severity, SpecPath, error
from booklet.kit.kit import Kit, sheet_size, trimmer_limits
from booklet.kit.sheet import MOST_CUTS, CutStep, Sheet, Wishes
from booklet.kit.words import any_of, nearest, quoted
from booklet.measure.dataclass import dataclass, replace
from booklet.measure.geometry import rect_at_origin

# The most effort for one sheet, and for all the sheets of a kit, among which it is shared out alike.
SHEET_EFFORT, KIT_EFFORT = 1_000_000_000, 2_000_000_000


@dataclass(frozen=True)
class PlannedKit:
    """The kit with planned steps in place of `cuts: plan`, the answer for each sheet, and the kit as written.

    A sheet that cannot be planned keeps its cuts as None.
    """

    kit: Kit
    answers: tuple[SheetAnswer, ...]
    written: Kit

    @property
    def findings(self) -> tuple[tuple[Finding, ...], ...]:
        """For each sheet what keeps it from being planned."""
        return tuple(answer.findings for answer in self.answers)


@dataclass(frozen=True)
class SheetAnswer:
    """The cuts found for one sheet, None if they do not give all pieces, and what is wrong.

    `proved`: no cuts are fewer; else they are the best found.  `most`: the best found where some pieces are
    left out.
    """

    cuts: tuple[CutStep, ...] | None
    findings: tuple[Finding, ...] = ()
    proved: bool = True
    most: tuple[CutStep, ...] | None = None


def is_to_be_planned(sheet: Sheet) -> bool:
    """Whether the spec leaves the sheet's cuts to the planner."""
    return sheet.cuts is None


def plan_kit(kit: Kit, begun: Begun = not_told, before: PlannedKit | None = None) -> PlannedKit:
    """Plan every sheet that says `cuts: plan`; the same kit gives the same steps.

    `begun` is told of each sheet before it is planned.  What was found for a kit `before` is not looked for
    again.
    """
    asked = [sheet.id for sheet in kit.sheets if is_to_be_planned(sheet)]
    known = dict(_known_answers(kit, before)) if before is not None else {}
    answers = []
    for index, sheet in enumerate(kit.sheets):
        if not is_to_be_planned(sheet) or index in known:
            answers.append(known.get(index, SheetAnswer(None)))
            continue
        begun(sheet.id, asked.index(sheet.id) + 1, len(asked))
        answers.append(_plan_stated(kit, index, min(SHEET_EFFORT, KIT_EFFORT // len(asked))))
    sheets = tuple(
        sheet if answer.cuts is None else replace(sheet, cuts=answer.cuts)
        for sheet, answer in zip(kit.sheets, answers, strict=True)
    )
    return PlannedKit(replace(kit, sheets=sheets), tuple(answers), kit)


def _known_answers(kit: Kit, before: PlannedKit) -> Iterator[tuple[int, SheetAnswer]]:
    """The answers for the sheets, by index, of which the same is asked in the same way as before."""
    then = before.written
    efforts = (sum(map(is_to_be_planned, each.sheets)) for each in (kit, then))
    if measures_of(kit) != measures_of(then) or len(set(efforts)) > 1:
        return
    for index, (sheet, old) in enumerate(zip(kit.sheets, then.sheets, strict=False)):
        is_same = is_to_be_planned(sheet) and sheet == old
        if is_same and stated_pieces(kit, index) == stated_pieces(then, index):
            yield index, before.answers[index]


def _plan_stated(kit: Kit, index: int, effort: int) -> SheetAnswer:
    if kit.sheets[index].is_cut_apart:
        return _plan_apart(kit, index)
    pieces = stated_pieces(kit, index)
    refused = tuple(refuse(kit, index, pieces))
    return SheetAnswer(None, refused) if refused else plan_sheet(kit, index, pieces, effort)


def _plan_apart(kit: Kit, index: int) -> SheetAnswer:
    """Cuts between the elements of a cut-apart sheet; where these are at fault, what is wrong with them."""
    sheet, where = kit.sheets[index], ("sheets", index, "cuts")
    at_fault = [found for found in cut_sheet(kit, index, 1).findings if found.severity is Severity.ERROR]
    if sheet.wishes != Wishes():
        found = "the places of the printed elements say where this sheet is cut"
        at_fault.append(error("wish-for-nothing", ("sheets", index, "wishes"), found, "leave the wishes out"))
    if at_fault:
        return SheetAnswer(None, tuple(at_fault))
    whole, lying = rect_at_origin(sheet_size(kit, sheet)), sheet_orientation(kit, index)
    try:
        cuts = cuts_apart(sheet.printed, whole, lying, trimmer_limits(kit), sheet.count)
    except NoCutError as error_:
        found = f"no cut from edge to edge parts {', '.join(map(quoted, error_.names))}"
        cure = "move one of them, so that a straight line runs between them from edge to edge"
        return SheetAnswer(None, (error("plan-impossible", where, found, cure),))
    except TooManyStepsError:
        return SheetAnswer(None, (_too_many(where, f"more than {MOST_CUTS}"),))
    return SheetAnswer(cuts, proved=False)


def plan_sheet(
    kit: Kit, index: int, pieces: tuple[PieceDemand, ...], effort: int = SHEET_EFFORT
) -> SheetAnswer:
    """Cuts that give these pieces, the counts over all copies of the sheet."""
    sheet, where = kit.sheets[index], ("sheets", index, "cuts")
    wanted, stock = request_for(kit, index, pieces)
    answer = plan_cuts(wanted, [stock], _settings(kit, sheet, effort))
    refused = not_planned(answer, where)
    if isinstance(answer, NoPlan):
        return SheetAnswer(None, (refused,) if refused else ())
    if refused is None:
        return _cuts_of(answer, sheet, where)
    most = next((as_cuts(planned.steps, sheet.count) for planned in answer.sheets), None)
    return SheetAnswer(None, (refused,), proved=False, most=most)


def try_sheet(kit: Kit, index: int, pieces: tuple[PieceDemand, ...], effort: int) -> SheetAnswer | None:
    """Cuts that give all these pieces, if any are found; why not is not asked."""
    sheet = kit.sheets[index]
    wanted, stock = request_for(kit, index, pieces)
    answer = find_plan(wanted, [stock], _settings(kit, sheet, effort))
    if answer is None or answer.left_out:
        return None
    found = _cuts_of(answer, sheet, ("sheets", index, "cuts"))
    return None if found.cuts is None else found


def _settings(kit: Kit, sheet: Sheet, effort: int) -> Settings:
    settings = trimmer_settings(kit, sheet.count)
    return replace(settings, effort=min(effort, settings.effort))


def not_planned(answer: Plan | NoPlan, where: SpecPath) -> Finding | None:
    """The finding for an answer that does not give all pieces."""
    if isinstance(answer, NoPlan):
        return _no_plan(answer, where)
    return _not_all(answer, where) if answer.left_out else None


def _cuts_of(answer: Plan, sheet: Sheet, where: SpecPath) -> SheetAnswer:
    (planned,) = answer.sheets
    if planned.whole is not None and planned.whole != sheet.id:
        found = f"{quoted(planned.whole)} is the whole sheet, which needs no cut"
        cure = f'leave out cuts and sizes, and call the piece by the sheet\'s id, "{sheet.id}"'
        return SheetAnswer(None, (error("plan-whole-sheet", where, found, cure),))
    most = max((len(planned.steps), *(len(step.at) for step in planned.steps)))
    if most > MOST_CUTS:
        return SheetAnswer(None, (_too_many(where, str(most)),))
    return SheetAnswer(as_cuts(planned.steps, sheet.count), proved=planned.proved)


def _too_many(where: SpecPath, count: str) -> Finding:
    found = f"the cuts found are more than a sheet can have: {count}"
    cure = f"a sheet has at most {MOST_CUTS} steps, and a step {MOST_CUTS} cuts; take fewer pieces from it"
    return error("plan-too-many-cuts", where, found, cure)


def _no_plan(answer: NoPlan, where: SpecPath) -> Finding:
    pieces = ", ".join(_counted(answer.failing))
    cure = f"{any_of(list(answer.helps))}" if answer.helps else "leave a piece out, or add a sheet"
    return error("plan-impossible", where, f"{answer.reason}: {pieces}", cure)


def _not_all(answer: Plan, where: SpecPath) -> Finding:
    if not answer.sheets:
        cure = "state fewer pieces, make them smaller, or write the cuts"
        return error("plan-not-found", where, "no cuts were found for any of the pieces", cure)
    pieces = ", ".join(_counted(answer.left_out))
    found = f"no cuts were found for all pieces; the best found leaves out {pieces}"
    return error("plan-not-found", where, found, "leave them out, make pieces smaller, or write the cuts")


def _counted(names: tuple[str, ...]) -> Iterator[str]:
    for name, count in Counter(names).items():
        yield f"{count} {quoted(name)}" if count > 1 else quoted(name)


def refuse(kit: Kit, index: int, pieces: tuple[PieceDemand, ...]) -> Iterator[Finding]:
    """What prevents planning: the sheet, the counts over all its copies, its wishes."""
    sheet, where = kit.sheets[index], ("sheets", index, "cuts")
    if not pieces:
        cure = "name each piece with its size under sizes"
        yield error("plan-nothing-wanted", where, "no piece is stated that the cuts are to give", cure)
    for piece in pieces:
        yield from check_name(piece.name, ("sheets", index, "sizes", piece.name))
        if piece.count % sheet.count:
            found = f"{piece.count} of {quoted(piece.name)} from {sheet.count} sheets that are cut together"
            cure = f"say some to be spare, up to a multiple of {sheet.count}"
            yield error("plan-uneven", ("sheets", index, "sizes", piece.name), found, cure)
    yield from _refuse_wishes(sheet, index, pieces)


def _refuse_wishes(sheet: Sheet, index: int, pieces: tuple[PieceDemand, ...]) -> Iterator[Finding]:
    wishes: SpecPath = ("sheets", index, "wishes")
    counts = {piece.name: piece.count // sheet.count for piece in pieces}
    for name in sheet.wishes.edge:
        yield from _unknown(name, counts, (*wishes, "edge", name))
    in_pairs = Counter(name for pair in sheet.wishes.beside for name in pair)
    for at, pair in enumerate(sheet.wishes.beside):
        where: SpecPath = (*wishes, "beside", at)
        for name in pair:
            yield from _unknown(name, counts, where)
        if any(counts.get(name, 1) > 1 or in_pairs[name] > 1 for name in pair):
            found = f"{quoted(pair[0])} beside {quoted(pair[1])}"
            cure = "wish it for two pieces that are cut once each, and each in one pair only"
            yield error("wish-not-for-two", where, found, cure)


def _unknown(name: str, counts: dict[str, int], where: SpecPath) -> Iterator[Finding]:
    if name not in counts:
        near = nearest(name, list(counts))
        cure = f"did you mean {quoted(near)}?" if near else "name a piece of this sheet's sizes"
        yield error("wish-for-nothing", where, f"no piece {quoted(name)} is stated under sizes", cure)
