"""Taking pieces from the bench: which ones a cut step means, and whether they can be cut together."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

from booklet.cutting.model import Fate, Piece, Stage
from booklet.kit.finding import Finding, SpecPath, error
from booklet.kit.kit import TrimmerLimits
from booklet.kit.sheet import CutStep, Sheet
from booklet.kit.words import nearest, quoted
from booklet.measure.length import Unit
from booklet.measure.words import exact_size


@dataclass(frozen=True)
class Cutter:
    """What stays the same while one sheet is cut."""

    sheet: Sheet
    index: int
    number: int
    limits: TrimmerLimits
    unit: Unit


@dataclass(frozen=True)
class Bench:
    """What lies on the bench between two steps, and what has happened so far.

    Of the steps that were not carried out, `unmade` are the names that they were to leave, `uncut` those that
    they were to take.
    """

    live: tuple[Piece, ...]
    stages: tuple[Stage, ...] = ()
    findings: tuple[Finding, ...] = ()
    cuts: int = 0
    letters: int = 0
    unmade: tuple[str, ...] = ()
    uncut: tuple[str, ...] = ()

    def noting(self, found: Iterable[Finding]) -> Bench:
        """The same bench with more findings."""
        return replace(self, findings=(*self.findings, *found))


def take(cutter: Cutter, bench: Bench, step: CutStep, where: SpecPath) -> tuple[tuple[Piece, ...], Bench]:
    """The live pieces that a step takes, all of one size as they will lie; none where it makes no sense."""
    taken, refused = _named(bench, step, where) if step.take else _whole(bench, where)
    bench = bench.noting(refused)
    if not taken:
        return (), bench
    path: SpecPath = (*where, "take") if step.take else ("sheets", cutter.index, "count")
    bench = bench.noting(_check_together(cutter, step, taken, path))
    first, *_ = seen = [piece.lying.turned(step.turn).seen_size(piece.size) for piece in taken]
    return tuple(piece for piece, size in zip(taken, seen, strict=True) if size == first), bench


def _named(bench: Bench, step: CutStep, where: SpecPath) -> tuple[tuple[Piece, ...], list[Finding]]:
    taken: list[Piece] = []
    for position, name in enumerate(step.take):
        found = next((p for p in bench.live if p.name == name and p not in taken and is_useful(p)), None)
        if found is None:
            if name in bench.unmade:
                return (), []
            return (), [_nothing_to_take(bench, name, taken, (*where, "take", position))]
        taken.append(found)
    return tuple(taken), []


def _whole(bench: Bench, where: SpecPath) -> tuple[tuple[Piece, ...], list[Finding]]:
    if not bench.stages:
        return bench.live, []
    cure = f"say take: one of {useful_names(bench.live)}"
    return (), [error("cut-takes-nothing", where, "the sheet is cut already", cure)]


def _nothing_to_take(bench: Bench, name: str, taken: Sequence[Piece], where: SpecPath) -> Finding:
    count = sum(piece.name == name for piece in taken)
    if count:
        found = f"only {count} of {quoted(name)} on the bench"
        return error("cut-takes-missing", where, found, "take fewer, or cut more of them first")
    near = nearest(name, (piece.name for piece in bench.live if is_useful(piece)))
    cure = f"did you mean {quoted(near)}?" if near else f"what lies there is {useful_names(bench.live)}"
    return error("cut-takes-missing", where, f"no piece {quoted(name)} lies on the bench here", cure)


def _check_together(
    cutter: Cutter, step: CutStep, taken: Sequence[Piece], where: SpecPath
) -> Iterator[Finding]:
    seen = dict.fromkeys(piece.lying.turned(step.turn).seen_size(piece.size) for piece in taken)
    if len(seen) > 1:
        found = f"pieces of {', '.join(exact_size(size, cutter.unit) for size in seen)} are cut together"
        yield error("cut-together-sizes", where, found, "take pieces that are equal as they lie")
    most = cutter.limits.together
    if len(taken) > most:
        found = f"{len(taken)} papers are cut in one pass, the trimmer takes {most}"
        yield error("cut-together-many", where, found, f"take at most {most} at a time")


def is_useful(piece: Piece) -> bool:
    """Whether a piece is more than scrap."""
    return piece.fate is not Fate.SCRAP


def useful_names(pieces: Iterable[Piece]) -> str:
    """The names of pieces for a message, each once."""
    return ", ".join(dict.fromkeys(quoted(piece.name) for piece in pieces if is_useful(piece))) or "nothing"
