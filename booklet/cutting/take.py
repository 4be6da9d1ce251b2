"""One sheet while it is cut: what lies on the bench, and which of it a cut step takes."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field

from booklet.cutting.finish import NOTHING_DONE
from booklet.cutting.labels import letter
from booklet.cutting.model import Fate, Piece, Stage, TableWork
from booklet.kit.finding import Finding, SpecPath, error
from booklet.kit.kit import TrimmerLimits
from booklet.kit.sheet import CutStep, Sheet
from booklet.kit.words import nearest, quoted
from booklet.measure.exact import Fraction
from booklet.measure.length import Size, Unit
from booklet.measure.words import exact_length, exact_size


@dataclass
class Bench:
    """One sheet while it is cut: what lies on the bench between two steps, and what has happened so far.

    `where` is the way in the spec to the step that is carried out, or to the sheet.  Of the steps that were
    not carried out, `unmade` are the names that they were to leave, `uncut` those that they were to take.
    """

    sheet: Sheet
    index: int
    number: int
    size: Size
    limits: TrimmerLimits
    unit: Unit
    live: tuple[Piece, ...]
    where: SpecPath
    stages: list[Stage] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)
    cuts: int = 0
    letters: int = 0
    unmade: list[str] = field(default_factory=list)
    uncut: list[str] = field(default_factory=list)
    works: list[TableWork] = field(default_factory=list)

    def report(
        self, id: str, found: str, cure: str, *keys: str | int, kind: Callable[..., Finding] = error
    ) -> None:
        """Note a finding at these keys of the step, or of the sheet."""
        self.findings.append(kind(id, (*self.where, *keys), found, cure))

    def shown(self, length: Fraction) -> str:
        """A length as a message shows it."""
        return exact_length(length, self.unit)

    def label(self, fate: Fate) -> str:
        """The next label; scrap has none, and leaves no gap in the letters."""
        if fate is Fate.SCRAP:
            return ""
        self.letters += 1
        return f"{self.number}{letter(self.letters - 1)}"


def take(bench: Bench, step: CutStep) -> tuple[Piece, ...]:
    """The live pieces that a step takes, all of one size as they will lie; none where it makes no sense."""
    taken = _named(bench, step) if step.take else _whole(bench)
    if not taken:
        return ()
    seen = [piece.lying.turned(step.turn).seen_size(piece.part.size) for piece in taken]
    where = (*bench.where, "take") if step.take else ("sheets", bench.index, "count")
    if len(sizes := dict.fromkeys(seen)) > 1:
        found = f"pieces of {', '.join(exact_size(size, bench.unit) for size in sizes)} are cut together"
        cure = "take pieces that are equal as they lie"
        bench.findings.append(error("cut-together-sizes", where, found, cure))
    most = bench.limits.together
    if len(taken) > most:
        found = f"{len(taken)} papers are cut in one pass, the trimmer takes {most} (trimmer: together)"
        cure = f"take at most {most} at a time"
        bench.findings.append(error("cut-together-many", where, found, cure))
    return tuple(piece for piece, size in zip(taken, seen, strict=True) if size == seen[0])


def _named(bench: Bench, step: CutStep) -> tuple[Piece, ...]:
    taken: list[Piece] = []
    for position, name in enumerate(step.take):
        found = next((p for p in bench.live if p.name == name and p not in taken and p.is_useful), None)
        if found is None:
            if name not in bench.unmade:
                bench.report("cut-takes-missing", *_nothing_to_take(bench, name, taken), "take", position)
            return ()
        taken.append(found)
    return tuple(taken)


def _whole(bench: Bench) -> tuple[Piece, ...]:
    if not bench.stages:
        return bench.live
    cure = f"say take: one of {useful_names(bench.live)}"
    bench.report("cut-takes-nothing", "the sheet is cut already", cure)
    return ()


def _nothing_to_take(bench: Bench, name: str, taken: Sequence[Piece]) -> tuple[str, str]:
    """What was found, and its cure."""
    count = sum(piece.name == name for piece in taken)
    if count:
        return f"only {count} of {quoted(name)} on the bench", "take fewer, or cut more of them first"
    return nothing_here(bench, name)


def nothing_here(bench: Bench, name: str) -> tuple[str, str]:
    """That no piece of a name lies on the bench, and its cure."""
    near = nearest(name, (piece.name for piece in bench.live if piece.is_useful))
    cure = f"did you mean {quoted(near)}?" if near else f"what lies there is {useful_names(bench.live)}"
    return f"no piece {quoted(name)} lies on the bench here", cure


def reports_finished(bench: Bench, pieces: Iterable[Piece], key: str) -> bool:
    """Whether one has corners or holes made already, which what is cut off would take with it."""
    finished = next((piece for piece in pieces if piece.finish != NOTHING_DONE), None)
    if finished is None:
        return False
    found = f"{quoted(finished.name)} is rounded or punched already"
    bench.report("work-too-early", found, "cut it first, then round and punch", key)
    return True


def useful_names(pieces: Iterable[Piece], none: str = "nothing") -> str:
    """The names of pieces for a message, each once."""
    return ", ".join(dict.fromkeys(quoted(piece.name) for piece in pieces if piece.is_useful)) or none
