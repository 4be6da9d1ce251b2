"""Finished booklets broken on purpose, one change at a time: which the proof catches, which slip through.

    python -m tests.benchmarks.bench_proof [--every] [--only KIND ...] [--kit KIT ...]

A change is caught where the proof of the tampered file does not hold, and harmless where every page looks
the same, dot for dot.  The rest is missed, and is listed with the check that is to catch it.  Twelve changes
of each kind are taken, as far apart as they can be; `--every` takes every one there is.
"""

from __future__ import annotations

import argparse
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from tests.changes import spread_over
from tests.spec_data import DEMOS
from tests.tampering.kinds import KINDS, Alters, Kind
from tests.tampering.proved import Made, caught_by, looks_same, made, proof_of
from tests.tampering.record import Tampering

# So many changes of each kind are taken of all kits together.
SHARE = 12
CAUGHT, HARMLESS, MISSED = "caught", "harmless", "MISSED"


@dataclass(frozen=True)
class Judged:
    """A tampering with the booklet of a kit, what became of it, and why."""

    kit: str
    tampering: Tampering
    verdict: str
    why: str

    @property
    def words(self) -> str:
        """Where it is, and what it is."""
        return f"{self.kit} p. {self.tampering.page}: {self.tampering.words}"


def verdict_on(booklet: Made, kind: Kind, tampering: Tampering) -> tuple[str, str]:
    """Whether the proof catches a change, or it is harmless; and by what, or what is to catch it."""
    found = caught_by(proof_of(booklet, kind, tampering))
    if found:
        return CAUGHT, ", ".join(found)
    if looks_same(booklet, kind, tampering):
        return HARMLESS, "the same pages"
    return MISSED, f"to be caught by: {kind.check}"


def judge(kind: Kind, kits: Sequence[str], share: int | None) -> Iterator[Judged]:
    """Each change of a kind with its verdict; so many of all, or every one."""
    found = [(kit, tampering) for kit in kits for tampering in made(kit).tamperings(kind)]
    for kit, tampering in found if share is None else spread_over(found, share):
        yield Judged(kit, tampering, *verdict_on(made(kit), kind, tampering))


def run(kind: Kind, kits: Sequence[str], share: int | None) -> Counter[str]:
    """Print each change of a kind with its verdict, and count the verdicts."""
    counts: Counter[str] = Counter()
    for one in judge(kind, kits, share):
        counts[one.verdict] += 1
        print(f"{one.verdict:8}  {kind.name:18}  {one.words}\n{'':30} {one.why}", flush=True)
    return counts


def main() -> None:
    """Print every change with its verdict, how many there are of each by kind, and the sums."""
    reader = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    reader.add_argument("--every", action="store_true", help="take every change there is")
    reader.add_argument("--only", nargs="+", choices=sorted(KINDS), default=list(KINDS), metavar="KIND")
    reader.add_argument("--kit", nargs="+", default=list(DEMOS))
    options = reader.parse_args()
    totals = {
        name: run(KINDS[name], options.kit, None if options.every else SHARE)
        for name in KINDS
        if name in options.only
    }
    print(f"\n{'kind':18}  {CAUGHT:>8}  {HARMLESS:>8}  {MISSED:>8}")
    for name, counts in totals.items():
        print(f"{name:18}  {counts[CAUGHT]:8}  {counts[HARMLESS]:8}  {counts[MISSED]:8}")
    for what in Alters:
        mine = sum((counts for name, counts in totals.items() if KINDS[name].alters is what), Counter())
        harmful = mine[CAUGHT] + mine[MISSED]
        print(f"of tamperings that alter {what.value}: caught {mine[CAUGHT]} of {harmful}")


if __name__ == "__main__":
    main()
