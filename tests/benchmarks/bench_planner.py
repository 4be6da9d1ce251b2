"""How the planner does: published verdicts, sheets known to be cuttable, and an independent solver beside it.

    python -m tests.benchmarks.bench_planner [--data DIRECTORY] [--only PART ...]

The published instances are read from edge-to-edge-decisions.json in DIRECTORY (or in what KIT_BENCH_DATA
names; by default a folder beside the project).  Where the file is absent, that is said and the rest goes on.
Times are CPU seconds of this machine; verdicts and effort are the same anywhere.  Each bar has one function
that gives its figures: `verdict_figures`, `refusal_figures`, `cuts_figures`, `sound_figures`,
`together_figures`, `kit_figures`.
"""

from __future__ import annotations

import argparse
import json
import os
import sys
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from functools import partial
from pathlib import Path
from random import Random
from statistics import median
from time import process_time
from typing import Any, TypeVar

from booklet.cutting.planner import Plan, Settings, SheetStock, Wanted, plan_cuts
from booklet.cutting.planner.boxes import fill_table
from booklet.cutting.planner.decide import decide
from booklet.cutting.planner.effort import Effort
from booklet.cutting.planner.explain import explain_no_plan
from booklet.cutting.planner.kinds import PieceKind
from booklet.cutting.planner.kit_plan import plan_kit
from booklet.cutting.planner.plan import find_plan
from booklet.kit.kit import Kit
from booklet.measure.length import Size
from tests.cutting.planner.by_hand import what_is_wrong
from tests.cutting.planner.solver import can_be_packed
from tests.kits import layout, make_kit, sheet

ROOT = Path(__file__).resolve().parents[2]
DATA_FILE = "edge-to-edge-decisions.json"
EFFORT = 2_000_000_000
EIGHTHS = 96  # a sheet of 12 in in eighths
SOLVER_SECONDS = 10.0
WHOLE = Size(Fraction(12), Fraction(12))
TRIMMER = Settings(mark=Fraction(1, 8), hold=Fraction(3, 4), reach=Fraction(12))

T = TypeVar("T")


def timed(work: Callable[[], T]) -> tuple[T, float]:
    """What the work gives, and the seconds of CPU it took."""
    start = process_time()
    result = work()
    return result, process_time() - start


def cut_up(rng: Random, number: int, scrap: int) -> list[tuple[int, int]]:
    """`number` pieces of a 12 in sheet in eighths, cut from it edge to edge, `scrap` parts thrown away."""
    parts = [(EIGHTHS, EIGHTHS)]
    while len(parts) < number + scrap:
        parts.sort(key=lambda part: -part[0] * part[1])
        wide, tall = parts.pop(min(int(rng.random() ** 2 * len(parts)), len(parts) - 1))
        if max(wide, tall) < 8:
            parts.append((wide, tall))
        elif tall < 8 or (wide >= 8 and rng.random() * (wide + tall) < wide):
            at = rng.randint(4, wide - 4)
            parts += [(at, tall), (wide - at, tall)]
        else:
            at = rng.randint(4, tall - 4)
            parts += [(wide, at), (wide, tall - at)]
    rng.shuffle(parts)
    return parts[:number]


def as_kinds(pieces: Sequence[tuple[int, int]], turns: bool) -> list[PieceKind]:
    """The pieces with alike ones counted together."""
    return [PieceKind(*piece, pieces.count(piece), turns) for piece in sorted(set(pieces))]


@dataclass
class Bars:
    """What is asked of the planner, and what of it failed."""

    failed: list[str]

    def ask(self, holds: bool, what: str) -> None:
        """Note and print whether a bar is met."""
        print(f"  {'met   ' if holds else 'FAILED'}  {what}")
        if not holds:
            self.failed.append(what)


def data_folder() -> Path:
    """Where the published instances lie."""
    return Path(os.environ.get("KIT_BENCH_DATA", ROOT.parent / "shared" / "data"))


def instances(folder: Path) -> Iterator[dict[str, Any]]:
    """The published decision instances, if the file is there."""
    path = folder / DATA_FILE
    if not path.is_file():
        print(f"  {path} is absent: no published verdicts compared")
        return
    yield from json.loads(path.read_text(encoding="utf-8"))["instances"]


@dataclass(frozen=True)
class VerdictFigures:
    """CPU seconds of verdicts on published instances of 15 to 23 pieces; which of all are wrong or open."""

    median: float
    largest: float
    wrong: tuple[str, ...]
    undecided: tuple[str, ...]


@dataclass(frozen=True)
class RefusalFigures:
    """CPU seconds of refusals of 11 to 14 pieces: of the verdict alone, and of the advice after it."""

    verdict_median: float
    verdict_largest: float
    advice_median: float
    advice_largest: float
    without_advice: int
    asked: int


@dataclass(frozen=True)
class CutsFigures:
    """Plans of 16 to 30 pieces: cuts against those of the plan that is known; how many leave pieces out."""

    ratio_median: float
    ratio_largest: float
    over_a_tenth: int
    left_out: int
    asked: int
    seconds_largest: float


@dataclass(frozen=True)
class SoundFigures:
    """Sheets known to be cuttable: how many are planned on one sheet, and what is wrong when cut by hand."""

    asked: int
    planned: int
    wrong: tuple[str, ...]
    median: float
    largest: float


@dataclass(frozen=True)
class TogetherFigures:
    """Six sheets that 39 pieces fill without scrap: how many questions were answered so, and CPU seconds."""

    asked: int
    found: int
    largest: float


@dataclass(frozen=True)
class KitFigures:
    """A kit of ten hard sheets: CPU seconds to plan all, sheets planned, refused, and left undecided."""

    seconds: float
    planned: int
    refused: int
    undecided: int


def verdict_figures(folder: Path) -> VerdictFigures:
    """The decision instances of the file, each with its pieces' direction fixed and free."""
    times, wrong, undecided = list[float](), list[str](), list[str]()
    for instance in instances(folder):
        for freedom in ("fixed", "turned"):
            kinds = [PieceKind(w, h, count, freedom == "turned") for w, h, count in instance["pieces"]]
            number = sum(kind.count for kind in kinds)
            width, height = instance["sheet"]
            effort = Effort(EFFORT)
            decision, seconds = timed(partial(decide, kinds, width, height, effort))
            name = f"{instance['name']} {freedom}"
            print(
                f"  {name:22} {number:3} pieces  {said(decision.verdict):9} published "
                f"{said(instance[freedom]):4} {seconds:7.3f} s  effort {effort.spent:,}"
            )
            if decision.verdict is None:
                undecided.append(name)
            elif decision.verdict != instance[freedom]:
                wrong.append(name)
            if 15 <= number <= 23:
                times.append(seconds)
    largest = max(times, default=0.0)
    return VerdictFigures(median(times) if times else 0.0, largest, tuple(wrong), tuple(undecided))


def refusal_figures() -> RefusalFigures:
    """Sheets cut up into 11 to 14 pieces, some then made a mark larger, up to the first that is refused."""
    rng, verdicts, advices, without = Random(11), list[float](), list[float](), 0
    for case in range(16):
        number, turns = 11 + case // 4, case % 2 == 1
        asked = _refused(cut_up(rng, number, case % 3), turns)
        if asked is None:
            continue
        wanted, stock = _wanted(asked, turns), [SheetStock("sheet", WHOLE)]
        plan, seconds = timed(partial(find_plan, wanted, stock, TRIMMER))
        advice, more = timed(partial(explain_no_plan, wanted, stock, TRIMMER))
        if plan is None:
            verdicts.append(seconds)
            advices.append(more)
            without += not advice.helps
    return RefusalFigures(
        median(verdicts), max(verdicts), median(advices), max(advices), without, len(verdicts)
    )


def _refused(pieces: list[tuple[int, int]], turns: bool) -> list[tuple[int, int]] | None:
    """The pieces with as many of them a mark larger as it takes until they no longer go on the sheet."""
    for number in range(1, len(pieces) + 1):
        larger = [(w + (at < number), h + (at < number)) for at, (w, h) in enumerate(pieces)]
        if sum(w * h for w, h in larger) > EIGHTHS * EIGHTHS:
            return None
        if decide(as_kinds(larger, turns), EIGHTHS, EIGHTHS, Effort(EFFORT)).verdict is False:
            return larger
    return None


def _wanted(pieces: Sequence[tuple[int, int]], turns: bool) -> list[Wanted]:
    return [
        Wanted(f"piece {i}", Size(Fraction(w, 8), Fraction(h, 8)), 1, turns)
        for i, (w, h) in enumerate(pieces)
    ]


def cuts_figures() -> CutsFigures:
    """Sheets cut up into 16 to 30 different pieces; the trimmer holds what they are cut up into."""
    settings = replace(TRIMMER, hold=Fraction(1, 2))
    rng, ratios, times, left_out = Random(16), list[float](), list[float](), 0
    for number in range(16, 32, 2):
        for turns in (False, True):
            scrap = number // 2 % 4
            pieces = cut_up(rng, number, scrap)
            stock = [SheetStock("sheet", WHOLE)]
            answer, seconds = timed(partial(plan_cuts, _wanted(pieces, turns), stock, settings))
            times.append(seconds)
            if isinstance(answer, Plan) and not answer.left_out:
                ratios.append(answer.metrics.cuts / (number + scrap - 1))
            else:
                left_out += 1
    over = sum(ratio > 1.1 for ratio in ratios)
    return CutsFigures(median(ratios), max(ratios), over, left_out, len(times), max(times))


def sound_figures(number: int = 200) -> SoundFigures:
    """Sheets cut up at random into 4 to 16 pieces, planned in full, and cut by hand square by square."""
    rng, times, planned, wrong = Random(1977), list[float](), 0, list[str]()
    for case in range(number):
        turns = case % 2 == 1
        wanted = _wanted(cut_up(rng, 4 + case % 13, case % 4), turns)
        answer, seconds = timed(partial(plan_cuts, wanted, [SheetStock("sheet", WHOLE, 2)], TRIMMER))
        times.append(seconds)
        planned += isinstance(answer, Plan) and answer.metrics.sheets == 1 and not answer.left_out
        if isinstance(answer, Plan):
            wrong += [f"sheet {case}: {what}" for what in what_is_wrong(answer, wanted)]
    return SoundFigures(number, planned, tuple(wrong), median(times), max(times))


def together_figures() -> TogetherFigures:
    """Six sheets cut up into 39 pieces without scrap, all wanted at once."""
    times, found = list[float](), 0
    for seed in (1, 2, 3):
        rng = Random(seed)
        pieces = [piece for sheet in range(6) for piece in cut_up(rng, 6 + sheet % 2, 0)]
        for turns in (False, True):
            stock = [SheetStock("sheet", WHOLE, 6)]
            answer, seconds = timed(partial(plan_cuts, _wanted(pieces, turns), stock, TRIMMER))
            times.append(seconds)
            found += isinstance(answer, Plan) and answer.metrics.sheets == 6 and not answer.left_out
    return TogetherFigures(len(times), found, max(times))


def kit_figures() -> KitFigures:
    """Ten sheets of 16 to 25 pieces, two of them made larger after they were cut up, in one kit."""
    planned, seconds = timed(partial(plan_kit, hard_kit()))
    answers = [answer for answer in planned.answers if answer.cuts or answer.findings]
    ids = [found.id for answer in answers for found in answer.findings]
    return KitFigures(
        seconds,
        sum(answer.cuts is not None for answer in answers),
        ids.count("plan-impossible"),
        ids.count("plan-not-found"),
    )


def hard_kit() -> Kit:
    """The kit of `kit_figures`."""
    rng, sheets = Random(10), list[dict[str, Any]]()
    for at in range(10):
        pieces = cut_up(rng, 16 + at, 2)
        larger = [(w + more, h + more) for (w, h), more in zip(pieces, (3, 2), strict=False)] + pieces[2:]
        sizes = {f"piece {at}-{i}": f"{w / 8} x {h / 8}" for i, (w, h) in enumerate(larger)}
        sheets.append({**sheet(id=f"sheet {at}"), "cuts": "plan", "sizes": sizes, "spare": list(sizes)})
    return make_kit(*sheets, sheet(id="base"), layouts=[layout("base")])


def published(bars: Bars, folder: Path) -> None:
    """Verdicts on instances that others have published."""
    print("Published verdicts")
    figures = verdict_figures(folder)
    if not figures.largest:
        return
    print(f"  15 to 23 pieces: median {figures.median:.3f} s, largest {figures.largest:.3f} s of CPU")
    bars.ask(not figures.wrong, f"no verdict differs from the published one {figures.wrong or ''}")
    bars.ask(not figures.undecided, f"every verdict is reached {figures.undecided or ''}")
    bars.ask(figures.median <= 0.14, "median within 0.14 s")
    bars.ask(figures.largest <= 2, "none over 2 s")


def refusals(bars: Bars, _: Path) -> None:
    """What cannot be had, refused with advice."""
    print("Refusals of 11 to 14 pieces")
    figures = refusal_figures()
    print(f"  {figures.asked} refused; verdict {figures.verdict_median:.3f} s, at most")
    print(f"  {figures.verdict_largest:.3f} s; advice {figures.advice_median:.3f} s, at most")
    print(f"  {figures.advice_largest:.3f} s of CPU")
    bars.ask(figures.verdict_median <= 0.1, "the verdict at once: median within 0.1 s")
    bars.ask(figures.advice_median <= 1, "advice within a second in the median")
    bars.ask(not figures.without_advice, "each with advice")


def many_pieces(bars: Bars, _: Path) -> None:
    """Cuts of plans of many pieces."""
    print("Plans of 16 to 30 different pieces against the plan that is known")
    figures = cuts_figures()
    print(
        f"  cuts: median {figures.ratio_median:.3f}, largest {figures.ratio_largest:.3f} times; "
        f"slowest {figures.seconds_largest:.2f} s of CPU"
    )
    bars.ask(not figures.left_out, f"none leaves a piece out ({figures.left_out} do)")
    bars.ask(not figures.over_a_tenth, f"none has a tenth more cuts ({figures.over_a_tenth} do)")


def together(bars: Bars, _: Path) -> None:
    """Several sheets planned at once."""
    print("Six sheets and 39 pieces that fill them")
    figures = together_figures()
    print(f"  {figures.found} of {figures.asked} found; slowest {figures.largest:.2f} s of CPU")
    bars.ask(figures.found == figures.asked, "all found")


def whole_kit(bars: Bars, _: Path) -> None:
    """Many hard sheets in one kit."""
    print("A kit of ten hard sheets")
    figures = kit_figures()
    print(f"  {figures.seconds:.1f} s of CPU; planned {figures.planned}, refused {figures.refused}, ")
    print(f"  undecided {figures.undecided}")
    bars.ask(figures.seconds <= 60, "no more than a minute for all")


def said(verdict: bool | None) -> str:
    """A verdict in words."""
    return {True: "yes", False: "no", None: "undecided"}[verdict]


def known_to_be_cuttable(bars: Bars, _: Path) -> None:
    """200 sheets cut up at random into 4 to 16 pieces, planned in full: steps and all."""
    print("200 sheets known to be cuttable, 4 to 16 pieces, 0 to 3 parts thrown away")
    figures = sound_figures()
    print(f"  planned {figures.planned}; median {figures.median:.3f} s, most {figures.largest:.3f} s of CPU")
    bars.ask(figures.planned == figures.asked, "all planned on one sheet")
    bars.ask(not figures.wrong, f"each cut by hand gives its pieces {figures.wrong or ''}")
    bars.ask(figures.median < 0.2, "median under 0.2 s")
    bars.ask(figures.largest <= 5, "none over 5 s")


def against_solver(bars: Bars, _: Path) -> None:
    """The same questions to the planner and to a packing solver: cuttable sheets, and nearly so."""
    print("Pieces against time, beside OR-tools CP-SAT packing (seconds; it decides packing, not cutting)")
    print("  pieces  cuttable: planner  CP-SAT        one piece an eighth larger: planner  CP-SAT")
    rng, clashes = Random(1971), list[str]()
    for number in range(4, 15):
        pieces = cut_up(rng, number, 1)
        cells = []
        for larger in (0, 1):
            asked = [(pieces[0][0] + larger, pieces[0][1] + larger), *pieces[1:]]
            kinds = as_kinds(asked, turns=False)
            decision, seconds = timed(partial(decide, kinds, EIGHTHS, EIGHTHS, Effort(EFFORT)))
            ours = decision.verdict
            fixed = [(w, h, False) for w, h in asked]
            theirs, solver_seconds = timed(partial(can_be_packed, fixed, EIGHTHS, EIGHTHS, SOLVER_SECONDS))
            if (ours and theirs is False) or (not larger and not ours):
                clashes.append(f"{number} pieces, larger by {larger}: {said(ours)} against {said(theirs)}")
            cells.append(f"{seconds:8.3f} {said(ours):3}  {solver_seconds:8.3f} {said(theirs):9}")
        print(f"  {number:6}      {cells[0]}               {cells[1]}")
    bars.ask(not clashes, f"nothing is said to be cuttable that cannot be packed {clashes or ''}")


def classic(bars: Bars, _: Path) -> None:
    """Christofides and Whitlock (1977), problem 1: the most valuable cuttable bundle of a 15 x 10 sheet.

    Seven sizes, each with a value and the most that may be had of it; best value 244.  The sizes are from
    memory; that they give the published value confirms them.
    """
    print("Christofides and Whitlock (1977), problem 1")
    pieces = (
        (8, 4, 2, 66),
        (3, 7, 1, 35),
        (8, 2, 3, 24),
        (3, 4, 5, 17),
        (3, 3, 2, 11),
        (3, 2, 2, 8),
        (2, 1, 1, 2),
    )
    kinds = [PieceKind(w, h, count, False) for w, h, count, _ in pieces]
    table, seconds = timed(partial(fill_table, kinds, 15, 10, 150, Effort(EFFORT)))
    best = max(
        sum(count * pieces[kind][3] for kind, count in table.fields.members(int(code)))
        for code in table.codes
        if table.fits(int(code), 15, 10)
    )
    print(f"  best value {best} of {len(table.codes)} bundles, {seconds:.3f} s")
    bars.ask(best == 244, "the best value is 244")
    print("  gcut1 to gcut12: their piece lists are not at hand, so they are not asked")


PARTS: dict[str, Callable[[Bars, Path], None]] = {
    "published": published,
    "refusals": refusals,
    "many": many_pieces,
    "cuttable": known_to_be_cuttable,
    "together": together,
    "kit": whole_kit,
    "solver": against_solver,
    "classic": classic,
}


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the parts asked for; 1 if a bar is missed."""
    parser = argparse.ArgumentParser(description="Benchmark the cutting planner.")
    parser.add_argument("--data", type=Path, default=data_folder())
    parser.add_argument("--only", nargs="*", choices=list(PARTS), default=list(PARTS))
    options = parser.parse_args(arguments)
    bars = Bars([])
    for part in options.only:
        PARTS[part](bars, options.data)
        print()
    print("all bars met" if not bars.failed else f"bars missed: {len(bars.failed)}")
    return 1 if bars.failed else 0


if __name__ == "__main__":
    sys.exit(main())
