"""Many mutants, one after another, and the figures of all."""

from __future__ import annotations

import re
import sys
import time
from collections import Counter
from collections.abc import Iterator
from contextlib import suppress
from dataclasses import asdict, dataclass, field
from pathlib import Path

import hypothesis
from hypothesis import HealthCheck, Phase, settings

from tests.fuzz.judge import Fault, faults
from tests.fuzz.mutants import Mutant, mutants, starter
from tests.fuzz.run import CPU_SECONDS, Outcome, run_mutant, warm_up

# Of so many mutants that `check` refuses, one is given to `make` all the same.
_REFUSED_EVERY = 10
_SHOWN = 3
_TOLD_EVERY = 500


@dataclass
class Figures:
    """What came of a campaign."""

    count: int = 0
    unread: int = 0
    refused: int = 0
    made: int = 0
    all_files: int = 0
    slowest: dict[str, float] = field(default_factory=lambda: {"check": 0.0, "make": 0.0})
    largest: dict[str, float] = field(default_factory=lambda: {"check": 0.0, "make": 0.0})
    seconds: float = 0.0
    faulty: int = 0
    kinds: Counter[str] = field(default_factory=Counter)
    shown: dict[str, list[str]] = field(default_factory=dict)

    def add(self, number: int, mutant: Mutant, outcome: Outcome, found: list[Fault], figures: bool) -> None:
        """Count one mutant and what was found of it."""
        self.count += 1
        self.unread += outcome.check.exit == 1 and "found " in outcome.check.out.partition("\n")[0]
        self.refused += outcome.check.exit == 1
        self.made += outcome.make is not None and outcome.make.exit == 0
        self.all_files += outcome.make is not None and outcome.make.exit == 0 and figures
        for name, told in (("check", outcome.check), ("make", outcome.make)):
            if told is not None:
                self.slowest[name] = max(self.slowest[name], told.seconds)
                self.largest[name] = max(self.largest[name], told.megabytes)
                self.seconds += told.seconds
        self.faulty += bool(found)
        for fault in found:
            self.kinds[fault.kind] += 1
            alike = f"{fault.kind}: {re.sub(r'[0-9]+', '#', fault.shown)[-160:]}"
            self.shown.setdefault(alike, []).append(f"{number} ({mutant.kit}: {'; '.join(mutant.changes)})")

    def lines(self) -> Iterator[str]:
        """The figures, and each kind of fault with some of the mutants that show it."""
        yield (
            f"{self.count} mutants: {self.refused} refused by check ({self.unread} not even read as a kit), "
            f"{self.made} made, {self.all_files} of them with all files"
        )
        yield (
            ", ".join(
                f"{name}: at most {self.slowest[name]:.1f} s and {self.largest[name]:.0f} MB"
                for name in self.slowest
            )
            + f"; {self.seconds:.0f} s of the processor in all"
        )
        yield f"{self.faulty} at fault"
        yield from (f"  {count} {kind}" for kind, count in self.kinds.most_common())
        for alike, numbers in sorted(self.shown.items(), key=lambda each: -len(each[1])):
            yield f"{len(numbers)} x {alike}"
            yield from (f"      {number}" for number in numbers[:_SHOWN])


def run_campaign(
    count: int,
    seed: int,
    figures_every: int,
    *,
    make_every: int = 1,
    seconds: int = CPU_SECONDS,
    minutes: float | None = None,
    keep: Path | None = None,
) -> Figures:
    """Send mutants through `check` and `make`; the same seed gives the same ones, in the same order.

    Of `make_every` that are sound one is made, of `figures_every` one with all its files, each command within
    so many `seconds` of the processor.  `minutes` ends it early; with `keep`
    each mutant at fault is kept in that folder.
    """
    warm_up(starter())
    totals = Figures()
    ends = time.monotonic() + 60 * minutes if minutes else None

    @hypothesis.seed(seed)
    @settings(
        max_examples=count,
        phases=[Phase.generate],
        database=None,
        deadline=None,
        derandomize=False,
        suppress_health_check=list(HealthCheck),
    )
    @hypothesis.given(mutants())
    def each(mutant: Mutant) -> None:
        if ends is not None and time.monotonic() > ends:
            raise KeyboardInterrupt
        number = totals.count
        figures = number % figures_every == 0
        outcome = run_mutant(
            mutant,
            figures=figures,
            is_made=number % make_every == 0,
            is_made_if_refused=number % _REFUSED_EVERY == 0,
            seconds=seconds,
        )
        found = list(faults(mutant.text, outcome, figures, seconds))
        totals.add(number, mutant, outcome, found, figures)
        if totals.count % _TOLD_EVERY == 0:
            print(f"{totals.count} mutants, {totals.faulty} at fault", file=sys.stderr, flush=True)
        if found and keep is not None:
            _keep(keep / f"{seed}-{number}", mutant, outcome, found)

    with suppress(KeyboardInterrupt):  # what was found until then is told
        each()
    return totals


def _keep(folder: Path, mutant: Mutant, outcome: Outcome, found: list[Fault]) -> None:
    folder.mkdir(parents=True, exist_ok=True)
    (folder / "kit.yaml").write_bytes(mutant.text.encode("utf-8", "surrogatepass"))
    told = [f"{fault.kind}: {fault.shown}" for fault in found]
    told += [str(mutant.changes), mutant.picture, str(asdict(outcome.check)), str(outcome.make)]
    (folder / "told.txt").write_text("\n\n".join(told), encoding="utf-8", errors="backslashreplace")
