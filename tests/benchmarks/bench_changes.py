"""Single changes to the demo kits: which are caught, which change nothing, which slip through.

    python -m tests.benchmarks.bench_changes [--every] [--only KIND ...] [--missed]

`tests/changes.py` says what is changed, `tests/verdicts.py` what is caught and what harmless.  What is missed
is told apart by `tests/stated_again.py`: stated twice, and then a check is lacking; or stated once, and then
the booklet is simply of another kit.  `--every` takes every change there is instead of a few of each kind,
and compares no pages; `--missed` prints only what is missed.  Verdicts are kept in `out/changes.json` as long
as neither the tool nor the demos change, so that a run that was stopped goes on where it was.
"""

from __future__ import annotations

import argparse
import json
from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from hashlib import sha256
from multiprocessing import get_context
from pathlib import Path

from tests.changes import KINDS, Change, all_changes, spread_over
from tests.stated_again import WHY_ONCE, stated_again
from tests.verdicts import Fate, Verdict, verdict_on

ROOT = Path(__file__).parents[2]
KEPT = ROOT / "out" / "changes.json"
OF_EACH_KIND = 6
PROCESSES = 2
# Verdicts are written down after so many.
_AT_ONCE = 100
_COLUMNS = ("caught", "harmless", "missed, stated twice", "missed, stated once")


@dataclass(frozen=True)
class Judged:
    """A change, what became of it, and where it is said again, if it is."""

    change: Change
    verdict: Verdict
    again: str | None

    @property
    def column(self) -> str:
        """Under which heading it is counted."""
        if self.verdict.fate is not Fate.MISSED:
            return str(self.verdict.fate.value)
        return "missed, stated twice" if self.again else "missed, stated once"


def main() -> None:
    """Print every change with its verdict, what is missed once more, and how many there are of each."""
    reader = argparse.ArgumentParser(description=(__doc__ or "").partition("\n")[0])
    reader.add_argument("--every", action="store_true", help="take every change there is, compare no pages")
    reader.add_argument("--only", nargs="+", choices=sorted(KINDS), default=list(KINDS), metavar="KIND")
    reader.add_argument("--missed", action="store_true", help="print only what is missed")
    options = reader.parse_args()
    changes: list[Change] = []
    for kind in options.only:
        found = all_changes(kind)
        changes += found if options.every else spread_over(found, OF_EACH_KIND)
    judged = []
    for one in judge(changes, draws=not options.every):
        judged.append(one)
        if one.verdict.fate is Fate.MISSED or not options.missed:
            print(
                f"{one.column:20}  {one.change.kind:13}  {one.change.words}\n{'':22} {_why(one)}", flush=True
            )
    print()
    print("\n".join(_totals(judged, options.only)))


def _why(one: Judged) -> str:
    if one.verdict.fate is not Fate.MISSED:
        return one.verdict.why
    return f"said again by: {one.again}" if one.again else f"said once: {WHY_ONCE[one.change.kind]}"


def _totals(judged: Sequence[Judged], kinds: Sequence[str]) -> Iterator[str]:
    """A line of totals for each kind, and one for all."""
    count = Counter((one.change.kind, one.column) for one in judged)
    yield f"{'':14}" + "".join(f"{column:>22}" for column in _COLUMNS)
    for kind in kinds:
        yield f"{kind:14}" + "".join(f"{count[kind, column]:>22}" for column in _COLUMNS)
    sums = [sum(count[kind, column] for kind in kinds) for column in _COLUMNS]
    yield f"{'all':14}" + "".join(f"{number:>22}" for number in sums)


# Verdicts, kept from one run to the next.


def judge(changes: Sequence[Change], *, draws: bool) -> Iterator[Judged]:
    """Every change with its verdict, in order; what is known from before is not judged again.

    Those that are not caught are compared page by page where it `draws`.
    """
    state = _state_of_things()
    kept: dict[str, list[str]] = {}
    if KEPT.exists():
        read = json.loads(KEPT.read_text(encoding="utf-8"))
        kept = read["verdicts"] if read["state"] == state else {}
    open_ones = [change for change in changes if _key(change, draws=draws) not in kept]
    with get_context("fork").Pool(PROCESSES) as pool:
        verdicts = pool.imap(partial(verdict_on, draws=draws), open_ones, chunksize=8)
        for number, change in enumerate(changes, start=1):
            key = _key(change, draws=draws)
            if key not in kept:
                verdict = next(verdicts)
                kept[key] = [verdict.fate.value, verdict.why]
            if number % _AT_ONCE == 0 or number == len(changes):
                KEPT.parent.mkdir(exist_ok=True)
                KEPT.write_text(json.dumps({"state": state, "verdicts": kept}), encoding="utf-8")
            fate, why = kept[key]
            yield Judged(change, Verdict(Fate(fate), why), stated_again(change))


def _key(change: Change, *, draws: bool) -> str:
    return f"{change.kind}: {change.words}{' with pages' if draws else ''}"


def _state_of_things() -> str:
    """A digest of all that a verdict follows from."""
    digest = sha256()
    judging = [ROOT / "tests" / f"{name}.py" for name in ("changes", "verdicts", "spec_data")]
    for path in [
        *sorted((ROOT / "booklet").rglob("*.py")),
        *sorted((ROOT / "kit_specs").iterdir()),
        *judging,
    ]:
        digest.update(path.read_bytes())
    return digest.hexdigest()


if __name__ == "__main__":
    main()
