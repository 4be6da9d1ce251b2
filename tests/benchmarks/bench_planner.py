"""How the planner does: published verdicts, sheets known to be cuttable, and an independent solver beside it.

    python -m tests.benchmarks.bench_planner [--data DIRECTORY] [--only PART ...]

The published instances are read from edge-to-edge-decisions.json in DIRECTORY (or in what KIT_BENCH_DATA
names; by default a folder beside the project).  Where the file is absent, that is said and the rest goes on.
Times are of this machine; verdicts and effort are the same anywhere.
"""

from __future__ import annotations

import argparse
import json
import os
import sys
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import partial
from pathlib import Path
from random import Random
from statistics import median
from time import perf_counter
from typing import Any, TypeVar

from booklet.cutting.planner import Plan, Settings, SheetStock, Wanted, plan_cuts
from booklet.cutting.planner.boxes import fill_table
from booklet.cutting.planner.decide import decide
from booklet.cutting.planner.effort import Effort
from booklet.cutting.planner.kinds import PieceKind
from booklet.measure.length import Size
from tests.cutting.planner.solver import can_be_packed

ROOT = Path(__file__).resolve().parents[2]
DATA_FILE = "edge-to-edge-decisions.json"
EFFORT = 2_000_000_000
EIGHTHS = 96  # a sheet of 12 in in eighths
SOLVER_SECONDS = 10.0

T = TypeVar("T")


def timed(work: Callable[[], T]) -> tuple[T, float]:
    """What the work gives, and the seconds it took."""
    start = perf_counter()
    result = work()
    return result, perf_counter() - start


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


def instances(folder: Path) -> Iterator[dict[str, Any]]:
    """The published decision instances, if the file is there."""
    path = folder / DATA_FILE
    if not path.is_file():
        print(f"  {path} is absent: no published verdicts compared")
        return
    yield from json.loads(path.read_text(encoding="utf-8"))["instances"]


def published(bars: Bars, folder: Path) -> None:
    """The decision instances of the file, each with its pieces' direction fixed and free."""
    print("Published verdicts")
    wrong, open_small, decided, asked, e_times = [], [], 0, 0, []
    for instance in instances(folder):
        width, height = instance["sheet"]
        for freedom in ("fixed", "turned"):
            kinds = [PieceKind(w, h, count, freedom == "turned") for w, h, count in instance["pieces"]]
            number = sum(kind.count for kind in kinds)
            effort = Effort(EFFORT)
            decision, seconds = timed(partial(decide, kinds, width, height, effort))
            name = f"{instance['name']} {freedom}"
            print(
                f"  {name:22} {number:3} pieces  {said(decision.verdict):9} published "
                f"{said(instance[freedom]):4} {seconds:7.3f} s  effort {effort.spent:,}"
            )
            asked, decided = asked + 1, decided + (decision.verdict is not None)
            if decision.verdict is None and number <= 15:
                open_small.append(name)
            if decision.verdict is not None and decision.verdict != instance[freedom]:
                wrong.append(name)
            if name.startswith("E"):
                e_times.append(seconds)
    if not asked:
        return
    print(
        f"  {decided} of {asked} decided; E instances within 0.14 s: "
        f"{sum(t <= 0.14 for t in e_times)} of {len(e_times)}, median {median(e_times):.3f} s"
    )
    bars.ask(not wrong, f"no verdict differs from the published one {wrong or ''}")
    bars.ask(not open_small, f"every verdict up to 15 pieces is reached {open_small or ''}")


def said(verdict: bool | None) -> str:
    """A verdict in words."""
    return {True: "yes", False: "no", None: "undecided"}[verdict]


def known_to_be_cuttable(bars: Bars, _: Path) -> None:
    """100 sheets cut up at random into 4 to 12 pieces, planned in full: steps and all."""
    print("100 sheets known to be cuttable, 4 to 12 pieces, 0 to 3 parts thrown away")
    rng, times, solved, as_few = Random(1977), list[float](), 0, 0
    settings = Settings(mark=Fraction(1, 8), hold=Fraction(3, 4), reach=Fraction(12))
    for case in range(100):
        pieces = cut_up(rng, 4 + case % 9, case % 4)
        wanted = [
            Wanted(f"piece {i}", Size(Fraction(w, 8), Fraction(h, 8)), 1, case % 2 == 1)
            for i, (w, h) in enumerate(pieces)
        ]
        stock = [SheetStock("sheet", Size(Fraction(12), Fraction(12)), 2)]
        answer, seconds = timed(partial(plan_cuts, wanted, stock, settings))
        solved += isinstance(answer, Plan) and answer.metrics.sheets == 1
        as_few += isinstance(answer, Plan) and answer.metrics.cuts <= len(pieces) + case % 4 - 1
        times.append(seconds)
    print(f"  solved {solved}; median {median(times):.3f} s, most {max(times):.3f} s")
    print(f"  {as_few} plans take no more cuts than the sheet was cut up with")
    bars.ask(solved == 100, "all solved")
    bars.ask(median(times) < 0.2, "median under 0.2 s")
    bars.ask(max(times) <= 3, "none over 3 s")


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
    "cuttable": known_to_be_cuttable,
    "solver": against_solver,
    "classic": classic,
}


def main(arguments: Sequence[str] | None = None) -> int:
    """Run the parts asked for; 1 if a bar is missed."""
    parser = argparse.ArgumentParser(description="Benchmark the cutting planner.")
    default = os.environ.get("KIT_BENCH_DATA", str(ROOT.parent / "shared" / "data"))
    parser.add_argument("--data", type=Path, default=Path(default))
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
