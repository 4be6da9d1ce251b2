"""What can be done when pieces are spoiled: the steps that cut them again from what the kit leaves over.

A piece that cannot come from its own paper may come from another whose face has the same colour: close
enough to stand in for it.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence

from booklet.cutting.model import CutSheet
from booklet.cutting.planner import (
    NoPlan,
    PlannedStep,
    SheetStock,
    Wanted,
    concerns_of,
    plan_cuts,
)
from booklet.cutting.planner.request import trimmer_settings
from booklet.kit.fields import Face
from booklet.kit.kit import Kit
from booklet.measure.dataclass import dataclass, replace
from booklet.sorting.ledger import Ledger, LedgerEntry
from booklet.sorting.remnants import Remnant, can_be_recut, paper_of, print_shown, remnants

# Enough to plan a few pieces on a few scraps; a person waits for the answer.
_EFFORT = 200_000_000


@dataclass(frozen=True)
class Recut:
    """One remnant and the steps that cut pieces from it; no steps where it is such a piece as it is.

    `names` are those of the pieces, `face` the face of the remnant's paper that is to be seen where another
    paper stands in.  `unsafe` says that some cut leaves less to hold than a hand should.
    """

    remnant: Remnant
    names: tuple[str, ...]
    steps: tuple[PlannedStep, ...]
    face: Face | None = None
    unsafe: bool = False


@dataclass(frozen=True)
class Rescue:
    """How spoiled pieces are replaced, and which cannot be."""

    recuts: tuple[Recut, ...]
    lost: tuple[LedgerEntry, ...]


@dataclass(frozen=True)
class _RescueState:
    """What is left over, and what has been decided so far."""

    kit: Kit
    left: tuple[Remnant, ...]
    recuts: tuple[Recut, ...] = ()


def replace_spoiled(
    kit: Kit, sheets: Sequence[CutSheet], ledger: Ledger, spoiled: Sequence[LedgerEntry]
) -> Rescue:
    """How to replace spoiled pieces: by spare ones, from their own paper, from another of the same colour."""
    bench = _RescueState(kit, remnants(kit, sheets, ledger, spoiled))
    bench, missing = _take_spares(bench, spoiled)
    for paper in dict.fromkeys(paper_of(kit, entry) for entry in missing):
        own = [one for one in missing if paper_of(kit, one) == paper and can_be_recut(kit, one)]
        bench, done = _cut_from(bench, own, paper, None)
        missing = _without(missing, done)
    for face, paper, like in _other_papers(kit, missing):
        bench, done = _cut_from(bench, [one for one in like if one in missing], paper, face)
        missing = _without(missing, done)
    return Rescue(bench.recuts, tuple(missing))


def _without(entries: Iterable[LedgerEntry], done: Sequence[LedgerEntry]) -> list[LedgerEntry]:
    return [entry for entry in entries if not any(entry is one for one in done)]


def _take_spares(
    bench: _RescueState, spoiled: Sequence[LedgerEntry]
) -> tuple[_RescueState, list[LedgerEntry]]:
    """A piece of the same name that no layout takes needs no cut."""
    missing = []
    for entry in spoiled:
        same = next((one for one in bench.left if one.spare == entry.name), None)
        if same is None:
            missing.append(entry)
        else:
            one = replace(same, count=1)
            bench = _using(bench, [Recut(one, (entry.name,), ())])
    return bench, missing


def _using(bench: _RescueState, recuts: Sequence[Recut]) -> _RescueState:
    """The bench with these done: what they use is no longer left over."""
    used = Counter(replace(recut.remnant, count=1) for recut in recuts)
    left = [replace(one, count=one.count - used[replace(one, count=1)]) for one in bench.left]
    return _RescueState(bench.kit, tuple(one for one in left if one.count), (*bench.recuts, *recuts))


def _cut_from(
    bench: _RescueState, entries: Sequence[LedgerEntry], paper: str, face: Face | None
) -> tuple[_RescueState, list[LedgerEntry]]:
    """As many of the pieces as remnants of a paper give, the largest first."""
    left = [one for one in bench.left if one.paper == paper and one.can_be_cut]
    turns = not bench.kit.papers[paper].has_direction
    done: list[LedgerEntry] = []
    found: tuple[Recut, ...] = ()
    for entry in sorted(entries, key=lambda entry: -entry.size.area):
        recuts = _planned(bench.kit, [*done, entry], left, turns, face)
        if recuts is not None:
            done, found = [*done, entry], recuts
    return _using(bench, found), done


def _planned(
    kit: Kit, entries: Sequence[LedgerEntry], left: Sequence[Remnant], turns: bool, face: Face | None
) -> tuple[Recut, ...] | None:
    """Steps that cut all these pieces from what is left of one paper; None if none are found."""
    counts = Counter(entry.name for entry in entries)
    sizes = {entry.name: entry.size for entry in entries}
    wanted = [Wanted(name, sizes[name], count, turns) for name, count in counts.items()]
    stocks = [SheetStock(str(at), one.size, one.count) for at, one in enumerate(left)]
    settings = replace(trimmer_settings(kit), effort=_EFFORT)
    answer = plan_cuts(wanted, stocks, settings)
    if isinstance(answer, NoPlan) or answer.left_out:
        return None
    recuts = []
    for sheet in answer.sheets:
        remnant = replace(left[int(sheet.stock)], count=1)
        names = [name for step in sheet.steps for name in step.leaves * len(step.take or ("",))]
        given = (sheet.whole,) if sheet.whole else tuple(name for name in names if name in counts)
        unsafe = bool(sheet.steps) and concerns_of(sheet.steps, sheet.size, settings).unsafe > 0
        recuts.append(Recut(remnant, given, sheet.steps, face, unsafe))
    return tuple(recuts)


def _other_papers(kit: Kit, missing: Sequence[LedgerEntry]) -> Iterator[tuple[Face, str, list[LedgerEntry]]]:
    """Each face of each paper, and the missing pieces of other papers that show its colour."""
    for name, paper in kit.papers.items():
        for face, printed in ((Face.FRONT, paper.front), (Face.BACK, paper.back)):
            like = [
                entry
                for entry in missing
                if paper_of(kit, entry) != name
                and can_be_recut(kit, entry)
                and not printed.image
                and printed.colours[0] == print_shown(kit, entry).colours[0]
            ]
            if like:
                yield face, name, like
