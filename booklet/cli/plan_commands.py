"""What `booklet plan` does: cut steps found for sheets, printed ready to paste."""

from __future__ import annotations

import codecs
import sys
from argparse import Namespace
from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from booklet.cli.asked import load_asked
from booklet.cli.exits import Exit
from booklet.cli.progress import planning_progress
from booklet.cli.review_command import review
from booklet.kit.errors import UsageError
from booklet.measure.dataclass import dataclass, replace

if TYPE_CHECKING:
    from booklet.cli.plan_words import FoundCuts
    from booklet.cutting.planner.kit_plan import PlannedKit, SheetAnswer
    from booklet.cutting.planner.together import SheetShare
    from booklet.kit.finding import Finding
    from booklet.kit.kit import Kit
    from booklet.kit.load import LoadedKit


@dataclass(frozen=True)
class _SheetReport:
    """The answer for one sheet: its cuts carried out, or why there are none."""

    found: FoundCuts | None
    why_not: str = ""
    findings: tuple[Finding, ...] = ()


def plan(options: Namespace) -> Exit:
    """Print cut steps for the sheets that say `cuts: plan`, or for all that are cut freely."""
    from booklet.cli.report import tell_findings
    from booklet.cutting.planner.kit_plan import plan_kit
    from booklet.kit.bundled import find_spec

    if options.price is not None and not options.review:
        raise UsageError("--price belongs to --review")
    loaded = load_asked(options)
    if options.review:
        return review(loaded, options.price)
    if options.write:
        return _write(find_spec(options.kit), loaded)
    if options.together:
        return _together(loaded)
    with planning_progress(loaded.kit) as begun:
        planned = plan_kit(loaded.kit, begun)
    answers = list(_planned(loaded.kit, planned, written_too=options.all))
    for one in answers:
        if one.found is not None:
            print("\n".join(_pasteable(loaded, one.found)))
        elif one.why_not:
            print(f"# {one.why_not}")
    if not answers:
        print("no sheet says cuts: plan; with --all those with written cuts are planned too", file=sys.stderr)
    return tell_findings([finding for one in answers for finding in one.findings], loaded.source)


def _planned(kit: Kit, planned: PlannedKit, *, written_too: bool) -> Iterator[_SheetReport]:
    from booklet.cutting.cut import cut_sheet, sheet_numbers
    from booklet.cutting.planner.kit_plan import is_to_be_planned
    from booklet.cutting.planner.written import KeptCuts, plan_written

    numbers = sheet_numbers(kit)
    for index, sheet in enumerate(kit.sheets):
        if is_to_be_planned(sheet):
            yield _carried_out(kit, index, planned.answers[index])
        elif written_too and sheet.cuts:
            anew = plan_written(kit, cut_sheet(kit, index, numbers[index]))
            if isinstance(anew, KeptCuts):
                yield _SheetReport(None, f"{sheet.id}: as written; it is {anew.why}")
            else:
                yield _carried_out(kit, index, anew)


def _carried_out(kit: Kit, index: int, answer: SheetAnswer) -> _SheetReport:
    from booklet.cli.plan_words import FoundCuts
    from booklet.cutting.cut import cut_sheet, sheet_numbers
    from booklet.kit.kit import with_sheet

    cuts = answer.cuts or answer.most
    if not cuts:
        return _SheetReport(None, "", answer.findings)
    changed = with_sheet(kit, index, replace(kit.sheets[index], cuts=cuts))
    done = cut_sheet(changed, index, sheet_numbers(kit)[index])
    if not answer.cuts:
        # The answer says which pieces are missing.
        return _SheetReport(FoundCuts(done, proved=False, most=True), "", answer.findings)
    return _SheetReport(FoundCuts(done, answer.proved), "", (*answer.findings, *done.findings))


def _together(loaded: LoadedKit) -> Exit:
    """Print, for sheets of one paper, which piece comes from which sheet and how each is cut."""
    from booklet.cli.report import tell_findings
    from booklet.cutting.planner.together import plan_together

    answers = plan_together(loaded.kit)
    for one in answers:
        needed = sum(share.answer is not None for share in one.shares)
        if one.shares:
            proof = "fewer cannot do" if one.proved else "fewer were not found to do"
            print(f"# {one.paper}: {needed} of {len(one.shares)} sheets; {proof}")
        for share in one.shares:
            print("\n".join(_share_lines(loaded, share)))
    if not answers:
        print("no paper has two sheets that say cuts: plan", file=sys.stderr)
    return tell_findings([finding for one in answers for finding in one.findings], loaded.source)


def _share_lines(loaded: LoadedKit, share: SheetShare) -> list[str]:
    """A sheet's steps and the sizes that belong to it, or that it is not needed."""
    from booklet.cli.plan_words import FoundCuts
    from booklet.cutting.cut import cut_sheet, sheet_numbers
    from booklet.kit.kit import with_sheet
    from booklet.kit.typed import typed_sizes

    sheet = loaded.kit.sheets[share.index]
    if share.answer is None or share.answer.cuts is None:
        return [f"# {sheet.id}: not needed"]
    sizes = {piece.name: piece.size for piece in share.pieces}
    changed = replace(sheet, cuts=share.answer.cuts, sizes=sizes)
    number = sheet_numbers(loaded.kit)[share.index]
    done = cut_sheet(with_sheet(loaded.kit, share.index, changed), share.index, number)
    lines = _pasteable(loaded, FoundCuts(done, share.answer.proved))
    column = len(lines[1]) - len(lines[1].lstrip())
    return [*lines, f"{' ' * column}sizes: {typed_sizes(sizes, loaded.kit.unit)}"]


def _write(file: Path, loaded: LoadedKit) -> Exit:
    """Put the planned steps into the file, if all of them are found and the kit is as it was planned."""
    from booklet.cli.files import rewrite
    from booklet.cli.report import has_errors, tell_findings
    from booklet.cutting.planner.kit_plan import plan_kit

    old = file.read_bytes()
    with planning_progress(loaded.kit) as begun:
        planned = plan_kit(loaded.kit, begun)
    answers = list(_planned(loaded.kit, planned, written_too=False))
    findings = [finding for one in answers for finding in one.findings]
    found = [one.found for one in answers if one.found is not None]
    if not answers:
        print("no sheet says cuts: plan; nothing was written", file=sys.stderr)
    elif has_errors(findings):
        print("Nothing was written: not every sheet could be planned.", file=sys.stderr)
    else:
        as_planned = replace(loaded, kit=planned.kit)
        rewrite(file, old, _with_steps(as_planned, old, found))
        print(f"{file}: {', '.join(one.sheet.sheet.id for one in found)}")
    return tell_findings(findings, loaded.source)


def _with_steps(planned: LoadedKit, old: bytes, found: Sequence[FoundCuts]) -> bytes:
    """The spec's bytes with the steps in it, loaded again and found to be the kit that was planned."""
    from booklet.cli.plan_words import found_words
    from booklet.kit.edit import NewCuts, put_cuts
    from booklet.kit.load import parse_kit
    from booklet.placing.resolved import resolve_kit
    from booklet.proof.findings import kit_findings

    text, unit = old.decode("utf-8-sig"), planned.kit.unit
    new = {one.sheet.index: NewCuts(one.sheet.sheet.cut_steps, found_words(one, unit)) for one in found}
    written = put_cuts(text, planned.source, new, unit)
    again = parse_kit(written, planned.source.name, planned.images, planned.own)
    if again.kit != planned.kit or kit_findings(resolve_kit(again)) != kit_findings(resolve_kit(planned)):
        raise UsageError(f"{planned.source.name} would not read back as planned; it is left as it is")
    mark = codecs.BOM_UTF8 if old.startswith(codecs.BOM_UTF8) else b""
    return mark + written.encode()


def _pasteable(loaded: LoadedKit, found: FoundCuts) -> list[str]:
    """A sheet's steps in the form in which the sheet itself is written, a comment above them."""
    from booklet.cli.plan_words import found_words
    from booklet.kit.typed import block_cuts, flow_cuts

    cut, unit = found.sheet, loaded.kit.unit
    cuts = cut.sheet.cut_steps
    head = [f"# {cut.sheet.id}: {found_words(found, unit)}"]
    column = loaded.source.spot(("sheets", cut.index, "id")).column - 1
    if loaded.source.is_flow(("sheets", cut.index)):
        return [*head, f"cuts: {flow_cuts(cuts, unit)}"]
    return [*head, " " * column + "cuts:", *block_cuts(cuts, unit, column + 2)]
