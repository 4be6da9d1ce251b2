"""The bars of `booklet proof`, each measured, and met or NOT met.

    python -m tests.benchmarks.bench_bars [--every] [--only BAR ...]

    numbers     what is printed on both demos is found, and traced to what each number says
    lengths     how far a drawn length lies from its number at most, in millimetres on paper
    alarms      untouched booklets of the demos, and of `tests/variations.py`, that do not hold
    tamperings  finished files with a number, a length or an order altered (`tests/tampering`)
    changes     single changes of what a spec states twice (`tests/changes.py`)
    time        `booklet proof` against `booklet make`, as whole processes one after the other

Of tamperings and changes a few of each kind are taken, as far apart as they can be; `--every` takes all.
What is harmless, as nothing looks or is otherwise, counts neither way.  Ends with 1 where a bar is not met.
"""

from __future__ import annotations

import argparse
import os
import subprocess
import sys
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from multiprocessing import get_context
from pathlib import Path
from statistics import median
from tempfile import TemporaryDirectory
from time import perf_counter

from booklet.measure.exact import Fraction
from booklet.proof.claim import Claim, Kind
from booklet.proof.measured import TOLERANCE
from booklet.proof.numerals import tokens
from booklet.proof.proof import Proof
from tests.benchmarks import bench_changes, bench_proof
from tests.changes import KINDS as CHANGES
from tests.changes import spread_over
from tests.spec_data import DEMOS, demo_data, loaded_data
from tests.stated_again import twice_stated
from tests.tampering.kinds import KINDS, Alters
from tests.tampering.proved import Made, booklet_of, caught_by, made, whole_proof
from tests.variations import VARIATIONS
from tests.verdicts import Fate

ROOT = Path(__file__).resolve().parents[2]
PROCESSES = 2
OF_EACH_KIND = 6
PAIRS = 5
# At most so many times as long as `booklet make` may `booklet proof` take.
MOST_TIMES = 3.0
_AS_IT_IS = "as it is"


@dataclass(frozen=True)
class Bar:
    """What was measured, in words, and whether it is as it is to be; then what is not, one by one."""

    measured: str
    is_met: bool
    amiss: tuple[str, ...] = ()

    @property
    def lines(self) -> str:
        """The bar as it is printed."""
        head = f"{'met' if self.is_met else 'NOT met':8} {self.measured}"
        return "\n".join((head, *(f"{'':11}{each}" for each in self.amiss)))


# Numbers and lengths of an untouched booklet.


def numbers_bar(name: str, booklet: Made, proof: Proof) -> Bar:
    """Whether as many numbers are printed as are found, and as come from where they say."""
    printed = sum(_count(page.text) for page in booklet.pages)
    found = sum(page.found for page in proof.pages)
    traced = _claimed(claim for claim in proof.claims if claim.is_traced)
    pages, words = (
        _claimed(claim for claim in proof.claims if claim.source is None and claim.kind is kind)
        for kind in (Kind.PAGE, Kind.WORDS)
    )
    told = f"numbers: {name}: {printed} printed, {found} found, {traced} traced"
    return Bar(
        f"{told}; {pages} page numbers and {words} in words of the program are from no line of a spec",
        printed == found == traced,
        tuple(f"p. {page.page}: {len(page.missing)} claims missing" for page in proof.pages if page.missing),
    )


def _claimed(claims: Iterable[Claim]) -> int:
    """How many numbers claims have."""
    return sum(_count(claim.said) for claim in claims)


def _count(text: str) -> int:
    """How many numbers a text has."""
    return sum(isinstance(token, Fraction) for token in tokens(text))


def lengths_bar(name: str, proof: Proof) -> Bar:
    """Whether every length is drawn, and near enough to its number."""
    # A figure as a whole is found or not: how far its parts are off is not told.
    whole = [one for one in proof.lengths if one.claim.key.endswith(" as drawn")]
    single = [one for one in proof.lengths if one not in whole]
    farthest = max((one.off or 0.0 for one in single), default=0.0)
    told = f"lengths: {name}: {len(single)} measured, the farthest {farthest:.4f} mm from its number"
    return Bar(
        f"{told} (bar: under {TOLERANCE} mm); {len(whole)} figures found as drawn",
        bool(single) and all(one.off is not None and one.off < TOLERANCE for one in proof.lengths),
        tuple(f"p. {one.claim.page}: {one.claim.key}: {one.off}" for one in proof.lengths if not one.holds),
    )


def numbers() -> Iterator[Bar]:
    """The numbers of both demos."""
    for demo in DEMOS:
        yield numbers_bar(demo, made(demo), whole_proof(made(demo)))


def lengths() -> Iterator[Bar]:
    """The lengths of both demos."""
    for demo in DEMOS:
        yield lengths_bar(demo, whole_proof(made(demo)))


# False alarms.


def alarms() -> Iterator[Bar]:
    """Both demos as they are, and typed in every other way that means the same and changes their data."""
    asked = [(demo, _AS_IT_IS) for demo in DEMOS]
    asked += [(demo, name) for name in VARIATIONS for demo in DEMOS if _changes(name, demo)]
    with get_context("fork").Pool(PROCESSES) as pool:
        yield alarms_bar(pool.imap(_alarm, asked))


def alarms_bar(found: Iterable[tuple[str, Sequence[str]]]) -> Bar:
    """Whether no untouched booklet fails: each with what the proof found."""
    judged = list(found)
    wrong = tuple(f"{name}: {', '.join(parts)}" for name, parts in judged if parts)
    return Bar(f"false alarms: {len(wrong)} of {len(judged)} untouched booklets", not wrong, wrong)


def _changes(name: str, demo: str) -> bool:
    """Whether a variation types a demo otherwise at all."""
    data = demo_data(demo)
    other = VARIATIONS[name](demo_data(demo))
    return str(other) != str(data)


def _alarm(asked: tuple[str, str]) -> tuple[str, Sequence[str]]:
    demo, name = asked
    data = demo_data(demo) if name == _AS_IT_IS else VARIATIONS[name](demo_data(demo))
    return f"{demo}, {name}", caught_by(whole_proof(booklet_of(loaded_data(data))))


# What is to be caught.


def tamperings(share: int | None) -> Iterator[Bar]:
    """Altered numbers, lengths and orders in the files of both demos, so many of each kind or all."""
    for demo in DEMOS:
        made(demo)  # here, so that no process has to make it again
    for what in (Alters.NUMBER, Alters.LENGTH, Alters.ORDER):
        kinds = [kind.name for kind in KINDS.values() if kind.alters is what]
        with get_context("fork").Pool(PROCESSES) as pool:
            found = pool.imap(partial(_tampered, share=share), kinds)
            judged = [one for of_kind in found for one in of_kind]
        yield caught_bar(f"tamperings that alter {what.value}", judged)


def _tampered(name: str, share: int | None) -> list[tuple[str, str]]:
    found = bench_proof.judge(KINDS[name], DEMOS, share)
    return [(one.verdict.lower(), f"{name}: {one.words}") for one in found]


def changes(share: int | None) -> Iterator[Bar]:
    """Changes of what the specs of both demos state twice, so many of each kind or all."""
    of_kinds = [twice_stated(kind) for kind in CHANGES]
    asked = [one for found in of_kinds for one in (found if share is None else spread_over(found, share))]
    judged = bench_changes.judge(asked, draws=True)
    told = "kit changes of what is stated twice"
    yield caught_bar(told, [(one.verdict.fate.value, one.change.words) for one in judged])


def caught_bar(told: str, judged: Sequence[tuple[str, str]]) -> Bar:
    """Whether all that does harm is caught: each change as what became of it, and its words."""
    caught, harmless, missed = (
        [words for fate, words in judged if fate == one.value]
        for one in (Fate.CAUGHT, Fate.HARMLESS, Fate.MISSED)
    )
    harm = len(caught) + len(missed)
    return Bar(
        f"{told}: {len(caught)} of {harm} caught, and {len(harmless)} harmless",
        bool(caught) and not missed,
        tuple(f"missed: {words}" for words in missed),
    )


# Time.


@dataclass(frozen=True)
class Spent:
    """The seconds that a process and its own processes took, of the processor and on the clock."""

    cpu: float
    wall: float


def time() -> Iterator[Bar]:
    """`booklet proof` and `booklet make` of the same kit in turn."""
    kit = DEMOS[0]
    with TemporaryDirectory() as folder:
        pairs = [
            (_spent("make", kit, "--out", folder), _spent("proof", kit, "--out", folder))
            for _ in range(PAIRS)
        ]
    yield time_bar(kit, pairs)


def time_bar(kit: str, pairs: Sequence[tuple[Spent, Spent]]) -> Bar:
    """Whether a proof takes few times as long as a `make`: the median of pairs of runs, make first."""
    cpu = median(proof.cpu / make.cpu for make, proof in pairs)
    wall = median(proof.wall / make.wall for make, proof in pairs)
    told = f"time: proof of {kit} takes {cpu:.2f} times the processor of make, {wall:.2f} times the clock"
    return Bar(f"{told} (bar: at most {MOST_TIMES})", max(cpu, wall) <= MOST_TIMES)


def _spent(*arguments: str) -> Spent:
    """What a command takes as a whole process."""
    before, start = os.times(), perf_counter()
    command = [sys.executable, "-m", "booklet", *arguments]
    subprocess.run(command, cwd=ROOT, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL, check=True)
    wall, after = perf_counter() - start, os.times()
    cpu = after.children_user + after.children_system - before.children_user - before.children_system
    return Spent(cpu, wall)


def main() -> int:
    """Print every bar that is asked for."""
    reader = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    reader.add_argument("--every", action="store_true", help="take every tampering and every change")
    names = ("time", "numbers", "lengths", "alarms", "changes", "tamperings")
    reader.add_argument("--only", nargs="+", choices=names, default=names, metavar="BAR")
    options = reader.parse_args()
    share = None if options.every else OF_EACH_KIND
    bars: dict[str, Callable[[], Iterator[Bar]]] = {
        "time": time,
        "numbers": numbers,
        "lengths": lengths,
        "alarms": alarms,
        "changes": partial(changes, share),
        "tamperings": partial(tamperings, share),
    }
    are_met = []
    for name in names:
        for bar in bars[name]() if name in options.only else ():
            print(bar.lines, flush=True)
            are_met.append(bar.is_met)
    return 0 if all(are_met) else 1


if __name__ == "__main__":
    sys.exit(main())
