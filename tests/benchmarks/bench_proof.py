"""Finished booklets broken on purpose, one change at a time: which the proof catches, which slip through.

    python -m tests.benchmarks.bench_proof [--every] [--only KIND ...] [--kit KIT ...]

A change is caught where the proof of the tampered file does not hold, and harmless where every page looks
the same, dot for dot.  The rest is missed, and is listed with the check that is to catch it.  Twelve changes
of each kind are taken, as far apart as they can be; `--every` takes every one there is.
"""

from __future__ import annotations

import argparse
from collections import Counter
from collections.abc import Sequence

from tests.spec_data import DEMOS
from tests.tampering.kinds import KINDS, Alters, Kind
from tests.tampering.proved import Made, caught_by, looks_same, made, proof_of
from tests.tampering.record import Tampering

# So many changes of each kind are taken of all kits together.
SHARE = 12
_CAUGHT, _HARMLESS, _MISSED = "caught", "harmless", "MISSED"


def spread_over(found: Sequence[tuple[str, Tampering]], number: int) -> Sequence[tuple[str, Tampering]]:
    """So many of them, as far apart as they can be taken; all where there are no more."""
    if len(found) <= number:
        return found
    return [found[(2 * place + 1) * len(found) // (2 * number)] for place in range(number)]


def verdict_on(booklet: Made, kind: Kind, tampering: Tampering) -> tuple[str, str]:
    """Whether the proof catches a change, or it is harmless; and by what, or what is to catch it."""
    found = caught_by(proof_of(booklet, kind, tampering))
    if found:
        return _CAUGHT, ", ".join(found)
    if looks_same(booklet, kind, tampering):
        return _HARMLESS, "the same pages"
    return _MISSED, f"to be caught by: {kind.check}"


def run(kind: Kind, kits: Sequence[str], *, takes_every: bool) -> Counter[str]:
    """Print each change of a kind with its verdict, and count the verdicts."""
    found = [(kit, tampering) for kit in kits for tampering in made(kit).tamperings(kind)]
    counts: Counter[str] = Counter()
    for kit, tampering in found if takes_every else spread_over(found, SHARE):
        verdict, why = verdict_on(made(kit), kind, tampering)
        counts[verdict] += 1
        print(f"{verdict:8}  {kind.name:18}  {kit} p. {tampering.page}: {tampering.words}\n{'':30} {why}")
    return counts


def main() -> None:
    """Print every change with its verdict, how many there are of each by kind, and the sums."""
    reader = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    reader.add_argument("--every", action="store_true", help="take every change there is")
    reader.add_argument("--only", nargs="+", choices=sorted(KINDS), default=list(KINDS), metavar="KIND")
    reader.add_argument("--kit", nargs="+", default=list(DEMOS))
    options = reader.parse_args()
    totals = {
        name: run(KINDS[name], options.kit, takes_every=options.every)
        for name in KINDS
        if name in options.only
    }
    print(f"\n{'kind':18}  {_CAUGHT:>8}  {_HARMLESS:>8}  {_MISSED:>8}")
    for name, counts in totals.items():
        print(f"{name:18}  {counts[_CAUGHT]:8}  {counts[_HARMLESS]:8}  {counts[_MISSED]:8}")
    for what in Alters:
        mine = sum((counts for name, counts in totals.items() if KINDS[name].alters is what), Counter())
        harmful = mine[_CAUGHT] + mine[_MISSED]
        print(f"of tamperings that alter {what.value}: caught {mine[_CAUGHT]} of {harmful}")


if __name__ == "__main__":
    main()
