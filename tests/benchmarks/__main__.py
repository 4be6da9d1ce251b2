"""What every command costs, beside the least that its work can cost: each measured, and met or NOT met.

    python -m tests.benchmarks [--only ROW ...] [--rounds N] [--against CHECKOUT]

    make      `make` of the larger demo kit, against a process that only draws the same pages (bench_make)
    check     `check` of it, against a process that only imports its libraries and one that only starts
    again     a changed sheet, and a changed layout, from its spec to its picture, warm (bench_again)
    memory    what one more `make` in one process keeps
    figures   the size of its SVG figures, and what it takes to write them (bench_svg)
    verdicts  published instances of 15 to 23 pieces decided, right (bench_planner, as all below)
    refusals  what cannot be cut, refused, with advice
    cuts      cuts of plans of 16 to 30 different pieces, against a plan that is known
    sound     200 sheets that can be cut, all planned, and cut by a simulator that shares no code
    together  six sheets that 39 pieces fill, planned at once
    kit       a kit of ten hard sheets

With another checkout its `make` and `check` are run too, one after the other with ours, and the ratios are
printed.  Times are of the processor.  Ends with 1 where a row is not met.
"""

from __future__ import annotations

import argparse
import gc
import sys
import tempfile
from collections.abc import Callable, Iterator
from contextlib import redirect_stderr, redirect_stdout
from dataclasses import dataclass
from io import StringIO
from pathlib import Path
from statistics import median

from tests.benchmarks import bench_again, bench_make, bench_planner, bench_svg

KIT = "hill-line"
# What `check` may take beyond a process that only imports what it reads a spec with.
CHECK_GOAL = 2.0
# What a process may grow by, in MiB, with each `make` once the first few are done.
MEMORY_GOAL = 1.0
_LIBRARIES = "import yaml.cyaml, pydantic_core, PIL.Image, pyclipper, dataclasses, argparse"
_CHECK = ("-m", "booklet", "check", KIT)


@dataclass(frozen=True)
class Row:
    """What was measured, in words, and whether it is as it is to be; None where there is no goal for it."""

    measured: str
    is_met: bool | None = None


def make_row(rounds: int) -> Iterator[Row]:
    made, floor, calls = bench_make.bench_make(KIT, rounds)
    ratio = made / floor
    said = f"make {made:.2f} s, its {calls} calls on a bare canvas {floor:.2f} s: {ratio:.2f} times"
    yield Row(f"{said}, wanted {bench_make.GOAL:g}", ratio <= bench_make.GOAL)


def check_row(rounds: int) -> Iterator[Row]:
    commands = (_CHECK, ("-c", _LIBRARIES), ("-c", "pass"))
    for command in commands:
        bench_make.cpu(sys.executable, *command)  # so that all is compiled
    runs = [[bench_make.cpu(sys.executable, *command) for command in commands] for _ in range(2 * rounds)]
    check, libraries, alone = (median(each) for each in zip(*runs, strict=True))
    said = f"check {check:.2f} s, its libraries alone {libraries:.2f} s, Python alone {alone:.3f} s"
    ratio = check / libraries
    yield Row(f"{said}: {ratio:.2f} times its libraries, wanted {CHECK_GOAL:g}", ratio <= CHECK_GOAL)


def again_rows(rounds: int) -> Iterator[Row]:
    for kind, times in bench_again.bench_again(KIT, rounds).items():
        whole, goal = median(times.values()), bench_again.GOALS[kind]
        slowest = max(times, key=lambda anchor: times[anchor])
        said = (
            f"a changed {kind} {whole:.0f} ms, the median of {len(times)}; {slowest} {times[slowest]:.0f} ms"
        )
        yield Row(f"{said}; wanted {goal:g} ms", whole <= goal)


def memory_row(rounds: int) -> Iterator[Row]:
    from booklet.cli.main import main

    sizes: list[float] = []
    with tempfile.TemporaryDirectory() as folder:
        for _ in range(rounds + 2):
            with redirect_stdout(StringIO()), redirect_stderr(StringIO()):
                main(["make", KIT, "--out", folder])
            gc.collect()
            pages = int(Path("/proc/self/statm").read_text().split()[1])
            sizes.append(pages * 4096 / 2**20)
    grown = (sizes[-1] - sizes[1]) / rounds
    said = f"{sizes[-1]:.0f} MiB after {len(sizes)} makes in one process, {grown:.2f} MiB more with each"
    yield Row(f"{said}, wanted {MEMORY_GOAL:g}", grown <= MEMORY_GOAL)


def figures_row(rounds: int) -> Iterator[Row]:
    found = bench_svg.measure_figures(KIT, rounds)
    said = f"{found.count} figures of {found.size / 1e6:.2f} MB, written in {found.cpu:.0f} ms"
    yield Row(f"{said}, wanted {bench_svg.GOAL / 1e6:g} MB", found.size <= bench_svg.GOAL)


def verdicts_rows(_rounds: int) -> Iterator[Row]:
    with redirect_stdout(StringIO()):
        found = bench_planner.verdict_figures(bench_planner.data_folder())
    if not found.largest:
        yield Row("the published instances are not at hand", False)
        return
    yield Row(f"published verdicts: wrong {len(found.wrong)}", not found.wrong)
    yield Row(f"published verdicts: not reached {len(found.undecided)}", not found.undecided)
    said = f"verdicts on 15 to 23 pieces {found.median:.2f} s in the median, {found.largest:.1f} s at most"
    yield Row(f"{said}; wanted 0.14 and 2", found.median <= 0.14 and found.largest <= 2.0)


def refusals_rows(_rounds: int) -> Iterator[Row]:
    found = bench_planner.refusal_figures()
    said = f"{found.asked} refusals {found.verdict_median:.3f} s each, at most {found.verdict_largest:.2f} s"
    yield Row(f"{said}; wanted 0.1 s in the median", found.verdict_median <= 0.1)
    said = f"advice {found.advice_median:.2f} s, at most {found.advice_largest:.2f} s"
    is_met = found.advice_largest <= 1.0 and not found.without_advice
    yield Row(f"{said}, none in {found.without_advice}; wanted within 1 s", is_met)


def cuts_rows(_rounds: int) -> Iterator[Row]:
    found = bench_planner.cuts_figures()
    said = f"cuts of {found.asked} plans {found.ratio_median:.2f} times those known"
    yield Row(f"{said}, at most {found.ratio_largest:.2f}; wanted at most 1.1", not found.over_a_tenth)
    yield Row(f"plans that leave pieces out: {found.left_out}", not found.left_out)


def sound_rows(_rounds: int) -> Iterator[Row]:
    found = bench_planner.sound_figures()
    yield Row(f"{found.planned} of {found.asked} sheets planned", found.planned == found.asked)
    yield Row(f"wrong when they are cut: {len(found.wrong)}", not found.wrong)


def together_rows(_rounds: int) -> Iterator[Row]:
    found = bench_planner.together_figures()
    said = f"six sheets filled by 39 pieces: {found.found} of {found.asked}, {found.largest:.1f} s at most"
    yield Row(said, found.found == found.asked)


def kit_rows(_rounds: int) -> Iterator[Row]:
    found = bench_planner.kit_figures()
    said = f"ten hard sheets {found.seconds:.0f} s: {found.planned} planned, {found.refused} refused"
    yield Row(f"{said}, {found.undecided} undecided")


def against_rows(rounds: int, checkout: Path) -> Iterator[Row]:
    """Our `make` and `check` in pairs with those of another checkout."""
    for command in ("make", "check"):
        ours, theirs = (_run(command, folder) for folder in (bench_make.ROOT, checkout))
        ours(), theirs()
        pairs = [(ours(), theirs()) for _ in range(rounds)]
        ratio = median(mine / other for mine, other in pairs)
        yield Row(f"{command}: {ratio:.2f} times that of {checkout}")


def _run(command: str, folder: Path) -> Callable[[], float]:
    kit = str(folder / "kit_specs" / f"{KIT}.yaml")
    if command == "make":
        return lambda: bench_make.make_seconds(kit, folder)
    return lambda: bench_make.cpu(sys.executable, "-m", "booklet", "check", kit, cwd=folder)


ROWS: dict[str, Callable[[int], Iterator[Row]]] = {
    "make": make_row,
    "check": check_row,
    "again": again_rows,
    "memory": memory_row,
    "figures": figures_row,
    "verdicts": verdicts_rows,
    "refusals": refusals_rows,
    "cuts": cuts_rows,
    "sound": sound_rows,
    "together": together_rows,
    "kit": kit_rows,
}


def main() -> int:
    """Print the rows that are asked for, and say by the exit code whether all are met."""
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks", description=__doc__.split("\n")[0])
    parser.add_argument("--only", nargs="+", choices=ROWS, default=list(ROWS), metavar="ROW")
    parser.add_argument("--rounds", type=int, default=5)
    parser.add_argument("--against", type=Path, metavar="CHECKOUT")
    asked = parser.parse_args()
    is_met = True
    for name in asked.only:
        for row in ROWS[name](asked.rounds):
            is_met &= row.is_met is not False
            met = {True: "met", False: "NOT met", None: ""}[row.is_met]
            print(f"{met:7}  {row.measured}", flush=True)
    if asked.against:
        for row in against_rows(asked.rounds, asked.against.resolve()):
            print(f"         {row.measured}", flush=True)
    return 0 if is_met else 1


if __name__ == "__main__":
    sys.exit(main())
