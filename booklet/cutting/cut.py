"""Carry out the cuts of a spec: sheet -> stages, strips, pieces, with everything that is wrong said.

A kit with mistakes still gives pieces, as far as its cuts make sense, so that one run finds them all.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from difflib import get_close_matches
from fractions import Fraction
from itertools import pairwise

from booklet.cutting.checks import check_readings, check_sizes
from booklet.cutting.elements import name_strip
from booklet.cutting.labels import letter
from booklet.cutting.model import Cut, CutSheet, Fate, Piece, Stage, Strip
from booklet.cutting.orientation import Rect, lay, strip
from booklet.kit.fields import Edge
from booklet.kit.finding import Finding, SpecPath, error
from booklet.kit.kit import Kit, TrimmerLimits, sheet_size, trimmer_limits
from booklet.kit.sheet import SCRAP, CutStep, Sheet
from booklet.measure.length import Unit
from booklet.measure.words import plain_size


def cut_kit(kit: Kit) -> tuple[CutSheet, ...]:
    """Cut every sheet of the kit, in the order of the spec."""
    numbers = sheet_numbers(kit)
    return tuple(cut_sheet(kit, index, numbers[index]) for index in range(len(kit.sheets)))


def sheet_numbers(kit: Kit) -> tuple[int, ...]:
    """The number printed on each sheet: cut sheets first, then cut-aparts, then those left whole."""

    def rank(index: int) -> tuple[int, int]:
        sheet = kit.sheets[index]
        return (2 if not sheet.cuts else 1 if sheet.is_cut_apart else 0, index)

    order = sorted(range(len(kit.sheets)), key=rank)
    return tuple(order.index(index) + 1 for index in range(len(kit.sheets)))


def cut_sheet(kit: Kit, index: int, number: int) -> CutSheet:
    """Carry out one sheet's cut steps.  Lengths are in the kit's unit; nothing is rounded."""
    sheet = kit.sheets[index]
    size = sheet_size(kit, sheet)
    whole = _whole_sheets(kit, sheet, index, number)
    bench = _Bench(live=whole, stages=(), findings=(), cuts=0, letters=0)
    cutter = _Cutter(sheet, index, number, trimmer_limits(kit), kit.unit)
    for step_index, step in enumerate(sheet.cuts):
        bench = _carry_out(cutter, bench, step, ("sheets", index, "cuts", step_index))
    pieces, spare_findings = _mark_spare(cutter, bench.live)
    directed = kit.papers[sheet.paper].front.has_direction or kit.papers[sheet.paper].back.has_direction
    findings = bench.findings + spare_findings + check_sizes(sheet, index, pieces, directed, kit.unit)
    stages = _settle(bench.stages, pieces)
    return CutSheet(sheet, index, number, size, whole, stages, pieces, findings)


@dataclass(frozen=True)
class _Cutter:
    """What stays the same while one sheet is cut."""

    sheet: Sheet
    index: int
    number: int
    limits: TrimmerLimits
    unit: Unit


@dataclass(frozen=True)
class _Bench:
    """What lies on the bench between two steps, and what has happened so far."""

    live: tuple[Piece, ...]
    stages: tuple[Stage, ...]
    findings: tuple[Finding, ...]
    cuts: int
    letters: int

    def finding(self, *found: Finding) -> _Bench:
        return replace(self, findings=self.findings + found)


def zero_edge(kit: Kit, sheet: Sheet) -> Edge:
    """The edge of the front that the sheet's lay puts at the scale's zero."""
    named = {name: edge for edge, name in kit.papers[sheet.paper].edges.items()}
    return named.get(sheet.lay.left) or Edge(sheet.lay.left)


def _whole_sheets(kit: Kit, sheet: Sheet, index: int, number: int) -> tuple[Piece, ...]:
    size = sheet_size(kit, sheet)
    part = Rect(Fraction(0), Fraction(0), size.width, size.height)
    lying = lay(sheet.lay.face, zero_edge(kit, sheet))
    label = str(number)
    return tuple(
        Piece(label, sheet.id, index, copy, part, lying, Fate.KEPT, ("sheets", index))
        for copy in range(sheet.count)
    )


def _carry_out(cutter: _Cutter, bench: _Bench, step: CutStep, where: SpecPath) -> _Bench:
    taken, findings = _take(cutter, bench, step, where)
    bench = bench.finding(*findings)
    if not taken:
        return bench
    lying = taken[0].lying.turned(step.turn)
    seen = lying.seen_size(taken[0].size)
    readings, reading_findings = check_readings(
        step.at, seen, cutter.limits, cutter.unit, where, cutter.sheet
    )
    bench = bench.finding(*reading_findings)
    cuts = tuple(
        Cut(bench.cuts + order, reading, cutter.sheet.is_cut_apart, (*where, "at", at))
        for order, (at, reading) in enumerate(readings, start=1)
    )
    bounds = [Fraction(0), *sorted(cut.reading for cut in cuts), seen.width]
    strips, bench = _strips(cutter, bench, step, taken, list(pairwise(bounds)), where)
    stage = Stage(len(bench.stages) + 1, taken, step.turn, lying, seen, cuts, strips, step.tip, where)
    left = tuple(piece for piece in bench.live if piece not in taken)
    made = tuple(piece for strip_ in strips for piece in strip_.pieces)
    return replace(bench, live=left + made, stages=(*bench.stages, stage), cuts=bench.cuts + len(cuts))


def _take(
    cutter: _Cutter, bench: _Bench, step: CutStep, where: SpecPath
) -> tuple[tuple[Piece, ...], list[Finding]]:
    """The live pieces that a step names, and what is wrong with taking them."""
    if not step.take:
        return _take_sheet(bench, where)
    taken: list[Piece] = []
    for position, name in enumerate(step.take):
        found = next((p for p in bench.live if p.name == name and p not in taken and _is_whole(p)), None)
        if found is None:
            return (), [_nothing_to_take(bench, name, taken, (*where, "take", position))]
        taken.append(found)
    return tuple(taken), list(_check_together(cutter, step, taken, where))


def _is_whole(piece: Piece) -> bool:
    return piece.fate is not Fate.SCRAP


def _take_sheet(bench: _Bench, where: SpecPath) -> tuple[tuple[Piece, ...], list[Finding]]:
    if not bench.stages:
        return bench.live, []
    names = _quoted(dict.fromkeys(piece.name for piece in bench.live if _is_whole(piece)))
    return (), [error("cut-takes-nothing", where, "the sheet is cut already", f"say take: one of {names}")]


def _nothing_to_take(bench: _Bench, name: str, taken: Sequence[Piece], where: SpecPath) -> Finding:
    names = list(dict.fromkeys(p.name for p in bench.live if _is_whole(p)))
    if name in {piece.name for piece in taken}:
        count = sum(piece.name == name for piece in taken)
        return error("cut-takes-missing", where, f"only {count} of {name!r} on the bench", "take fewer")
    near = get_close_matches(name, names, 1)
    cure = f"did you mean {near[0]!r}?" if near else f"what lies there is {_quoted(names)}"
    return error("cut-takes-missing", where, f"no piece {name!r} lies on the bench here", cure)


def _check_together(
    cutter: _Cutter, step: CutStep, taken: Sequence[Piece], where: SpecPath
) -> Iterator[Finding]:
    seen = [piece.lying.turned(step.turn).seen_size(piece.size) for piece in taken]
    if any(size != seen[0] for size in seen):
        sizes = ", ".join(plain_size(size, cutter.unit) for size in dict.fromkeys(seen))
        yield error(
            "cut-together-sizes", (*where, "take"), f"pieces of {sizes} are cut together", "take equal pieces"
        )
    if len(taken) > cutter.limits.together:
        most = cutter.limits.together
        yield error(
            "cut-together-many",
            (*where, "take"),
            f"{len(taken)} papers are cut in one pass, the trimmer takes {most}",
            f"take at most {most} at a time",
        )


def _strips(
    cutter: _Cutter,
    bench: _Bench,
    step: CutStep,
    taken: tuple[Piece, ...],
    spans: list[tuple[Fraction, Fraction]],
    where: SpecPath,
) -> tuple[tuple[Strip, ...], _Bench]:
    """Name what lies between the readings, strip by strip from the zero outwards."""
    names, findings = _names(cutter, step, taken, spans, where)
    bench = bench.finding(*findings)
    strips = []
    for position, (start, end) in enumerate(spans):
        pieces = []
        for piece in taken:
            lying = piece.lying.turned(step.turn)
            part = strip(piece.part, lying, start, end)
            name, label, bench = _christen(cutter, bench, names[position])
            fate = Fate.SCRAP if name == SCRAP else Fate.KEPT
            path = (*where, "leaves", position) if step.leaves else where
            pieces.append(Piece(label, name, cutter.index, piece.copy, part, lying, fate, path))
        strips.append(Strip(start, end, tuple(pieces)))
    return tuple(strips), bench


def _christen(cutter: _Cutter, bench: _Bench, name: str) -> tuple[str, str, _Bench]:
    if name == SCRAP:
        return name, "", bench
    label = f"{cutter.number}{letter(bench.letters)}"
    return name, label, replace(bench, letters=bench.letters + 1)


def _names(
    cutter: _Cutter,
    step: CutStep,
    taken: tuple[Piece, ...],
    spans: list[tuple[Fraction, Fraction]],
    where: SpecPath,
) -> tuple[list[str], list[Finding]]:
    """One name a strip: as the spec says, or from the printed element that lies in it."""
    findings: list[Finding] = []
    said: list[str | None] = list(step.leaves) or [None] * len(spans)
    if len(said) != len(spans):
        findings.append(_wrong_count(step, len(spans), where))
        said = (said + [SCRAP] * len(spans))[: len(spans)]
    if not cutter.sheet.is_cut_apart and not step.leaves:
        findings.append(_wrong_count(step, len(spans), where))
        return [SCRAP] * len(spans), findings
    names = []
    lying = taken[0].lying.turned(step.turn)
    for position, (start, end) in enumerate(spans):
        part = strip(taken[0].part, lying, start, end)
        name, found = name_strip(cutter.sheet, part, said[position], (*where, "leaves", position))
        names.append(name)
        findings += found
    return names, findings


def _wrong_count(step: CutStep, strips: int, where: SpecPath) -> Finding:
    cuts = "1 cut leaves" if strips == 2 else f"{strips - 1} cuts leave"
    found = f"{len(step.leaves)} names" if len(step.leaves) != 1 else "1 name"
    return error(
        "leaves-count",
        (*where, "leaves") if step.leaves else where,
        f"{found} for {strips} pieces",
        f"{cuts} {strips} pieces: name each from the scale's zero outwards, or call it scrap",
    )


def _mark_spare(cutter: _Cutter, live: tuple[Piece, ...]) -> tuple[tuple[Piece, ...], tuple[Finding, ...]]:
    """Mark the pieces that the spec says are left over, the last of each name first."""
    pieces = list(live)
    findings = []
    for position, name in enumerate(cutter.sheet.spare):
        matching = [i for i, p in enumerate(pieces) if p.name == name and p.fate is Fate.KEPT]
        if matching:
            pieces[matching[-1]] = replace(pieces[matching[-1]], fate=Fate.SPARE)
            continue
        names = list(dict.fromkeys(p.name for p in live if _is_whole(p)))
        near = get_close_matches(name, names, 1)
        cure = f"did you mean {near[0]!r}?" if near else f"the sheet gives {_quoted(names)}"
        where = ("sheets", cutter.index, "spare", position)
        findings.append(error("spare-missing", where, f"no piece {name!r} is left over", cure))
    return tuple(pieces), tuple(findings)


def _settle(stages: tuple[Stage, ...], pieces: tuple[Piece, ...]) -> tuple[Stage, ...]:
    """Tell every piece of every stage what became of it in the end."""
    fates = {piece.key: piece.fate for piece in pieces}

    def settled(piece: Piece) -> Piece:
        return replace(piece, fate=fates.get(piece.key, Fate.CUT_AGAIN))

    return tuple(
        replace(
            stage,
            taken=tuple(settled(piece) for piece in stage.taken),
            strips=tuple(
                replace(strip_, pieces=tuple(settled(piece) for piece in strip_.pieces))
                for strip_ in stage.strips
            ),
        )
        for stage in stages
    )


def _quoted(names: Iterable[str]) -> str:
    return ", ".join(repr(name) for name in names) or "nothing"
