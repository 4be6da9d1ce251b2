"""Carry out the cuts of a spec: sheet -> stages, strips, pieces, with every finding.

A kit with mistakes still gives pieces, as far as its cuts make sense, so that one run finds them all.  The
loader has checked that its papers and the words for their edges are known.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from booklet.cutting.checks import check_readings, check_sizes
from booklet.cutting.elements import check_between, check_cut_out, check_elements, name_strip
from booklet.cutting.labels import check_name, letter
from booklet.cutting.model import Cut, CutSheet, Fate, Piece, Stage, Strip
from booklet.cutting.orientation import lay, strip
from booklet.cutting.take import Bench, Cutter, take, useful_names
from booklet.kit.fields import Edge
from booklet.kit.finding import Finding, SpecPath, error
from booklet.kit.kit import Kit, sheet_size, trimmer_limits
from booklet.kit.references import edge_words
from booklet.kit.sheet import SCRAP, CutStep, Sheet
from booklet.kit.words import nearest, quoted
from booklet.measure.exact import Fraction
from booklet.measure.geometry import ExactRect, rect_at_origin

# The pieces on the bench after the last cut, by their key.
_Final = dict[tuple[int, int, ExactRect], Piece]


def cut_kit(kit: Kit) -> tuple[CutSheet, ...]:
    """Cut every sheet of the kit, in the order of the spec."""
    numbers = sheet_numbers(kit)
    return tuple(cut_sheet(kit, index, numbers[index]) for index in range(len(kit.sheets)))


def sheet_numbers(kit: Kit) -> tuple[int, ...]:
    """The number printed on each sheet: cut sheets first, then cut-aparts, then those left whole."""

    def rank(index: int) -> tuple[int, int]:
        sheet = kit.sheets[index]
        return (2 if sheet.cuts == () else 1 if sheet.is_cut_apart else 0, index)

    order = sorted(range(len(kit.sheets)), key=rank)
    number = {index: place for place, index in enumerate(order, start=1)}
    return tuple(number[index] for index in range(len(kit.sheets)))


def cut_sheet(kit: Kit, index: int, number: int) -> CutSheet:
    """Carry out one sheet's cut steps.  Lengths are in the kit's unit; nothing is rounded."""
    sheet = kit.sheets[index]
    size = sheet_size(kit, sheet)
    whole = _whole_sheets(kit, sheet, index, number)
    cutter = Cutter(sheet, index, number, trimmer_limits(kit), kit.unit)
    bench = Bench(whole).noting(
        [*check_name(sheet.id, ("sheets", index, "id")), *check_elements(sheet, index, size, kit.unit)]
    )
    for position, step in enumerate(sheet.cuts or ()):
        bench = _carry_out(cutter, bench, step, ("sheets", index, "cuts", position))
    directed = is_directed(kit, sheet)
    live = bench.live if directed else tuple(_as_stated(sheet, piece) for piece in bench.live)
    if sheet.cuts is None:
        bench = replace(bench, unmade=tuple(sheet.sizes), uncut=(sheet.id,))
    pieces, findings = _mark_spare(cutter, live, bench.unmade)
    bench = bench.noting([*findings, *check_cut_out(sheet, pieces, bench.findings)])
    final = {piece.key: piece for piece in pieces}
    stages = tuple(_settled_stage(stage, final) for stage in bench.stages)
    cut_on = tuple(piece for stage in stages for piece in stage.taken)
    if sheet.cuts is not None:
        bench = bench.noting(check_sizes(sheet, index, pieces + cut_on, bench.unmade, directed, kit.unit))
    said_once = tuple(dict.fromkeys(bench.findings))
    return CutSheet(
        sheet, index, number, size, _settled(whole, final), stages, pieces, said_once,
        bench.unmade, bench.uncut,
    )  # fmt: skip


def zero_edge(kit: Kit, sheet: Sheet) -> Edge:
    """The edge of the front that the sheet's lay puts at the scale's zero."""
    return edge_words(kit.papers[sheet.paper])[sheet.lay.left]


def is_directed(kit: Kit, sheet: Sheet) -> bool:
    """Whether a face of the sheet shows it when a piece is turned."""
    return kit.papers[sheet.paper].has_direction


def _as_stated(sheet: Sheet, piece: Piece) -> Piece:
    """A piece of plain paper stands as the spec states it, whichever way round it was cut."""
    stated = sheet.sizes.get(piece.name)
    turned = stated is not None and piece.part.size != stated and piece.part.size.turned == stated
    return replace(piece, is_turned=turned)


def _whole_sheets(kit: Kit, sheet: Sheet, index: int, number: int) -> tuple[Piece, ...]:
    size = sheet_size(kit, sheet)
    part = rect_at_origin(size)
    lying = lay(sheet.lay.face, zero_edge(kit, sheet))
    label = str(number)
    return tuple(
        Piece(label, sheet.id, index, copy, part, lying, Fate.KEPT, ("sheets", index))
        for copy in range(sheet.count)
    )


def _carry_out(cutter: Cutter, bench: Bench, step: CutStep, where: SpecPath) -> Bench:
    taken, bench = take(cutter, bench, step, where)
    if not taken:
        return replace(bench, unmade=(*bench.unmade, *step.leaves), uncut=(*bench.uncut, *step.take))
    lying = taken[0].lying.turned(step.turn)
    seen = lying.seen_size(taken[0].size)
    readings, found = check_readings(step.at, seen, cutter.limits, cutter.unit, where, cutter.sheet)
    bench = bench.noting(found)
    if not readings:
        return _rename(bench, taken, step)
    cuts = tuple(
        Cut(bench.cuts + order, reading, cutter.sheet.is_cut_apart, (*where, "at", at))
        for order, (at, reading) in enumerate(readings, start=1)
    )
    for piece in taken:
        turned = piece.lying.turned(step.turn)
        bench = bench.noting(check_between(cutter.sheet, piece.part, turned, cuts, cutter.unit))
    bounds = [Fraction(0), *sorted(cut.reading for cut in cuts), seen.width]
    strips, bench = _strips(cutter, bench, step, taken, list(pairwise(bounds)), where)
    stage = Stage(len(bench.stages) + 1, taken, step.turn, lying, seen, cuts, strips, step.tip, where)
    left = tuple(piece for piece in bench.live if piece not in taken)
    made = tuple(piece for strip_ in strips for piece in strip_.pieces)
    return replace(bench, live=left + made, stages=(*bench.stages, stage), cuts=bench.cuts + len(cuts))


def _rename(bench: Bench, taken: tuple[Piece, ...], step: CutStep) -> Bench:
    """No reading can be cut: go on as if the first piece named were the whole; later steps may take it."""
    if not step.leaves or step.leaves[0] == SCRAP:
        return bench
    name = step.leaves[0]
    return replace(bench, live=tuple(replace(p, name=name) if p in taken else p for p in bench.live))


def _strips(
    cutter: Cutter,
    bench: Bench,
    step: CutStep,
    taken: tuple[Piece, ...],
    spans: Sequence[tuple[Fraction, Fraction]],
    where: SpecPath,
) -> tuple[tuple[Strip, ...], Bench]:
    """Name what lies between the readings, strip by strip from the zero outwards."""
    said, findings = _said(cutter, step, len(spans), where)
    bench = bench.noting(findings)
    strips = []
    for position, (start, end) in enumerate(spans):
        path: SpecPath = (*where, "leaves", position) if position < len(step.leaves) else where
        pieces = []
        for piece in taken:
            lying = piece.lying.turned(step.turn)
            part = strip(piece.part, lying, start, end)
            name, findings = name_strip(cutter.sheet, part, said[position], position, path)
            fate = Fate.SCRAP if name == SCRAP else Fate.KEPT
            label, bench = _label(cutter, bench.noting(findings), fate)
            pieces.append(Piece(label, name, cutter.index, piece.copy, part, lying, fate, path))
        strips.append(Strip(start, end, tuple(pieces)))
    return tuple(strips), bench


def _label(cutter: Cutter, bench: Bench, fate: Fate) -> tuple[str, Bench]:
    """The next label; scrap has none, and leaves no gap in the letters."""
    if fate is Fate.SCRAP:
        return "", bench
    return f"{cutter.number}{letter(bench.letters)}", replace(bench, letters=bench.letters + 1)


def _said(
    cutter: Cutter, step: CutStep, strips: int, where: SpecPath
) -> tuple[list[str | None], list[Finding]]:
    """The name that the spec says for each strip; None where a printed element names it.

    A reading that cannot be cut, reported elsewhere, may leave one name too many.
    """
    unsaid = None if cutter.sheet.is_cut_apart else SCRAP
    said = [*step.leaves, *[unsaid] * strips][:strips]
    if len(step.leaves) in {strips, len(step.at) + 1} or (cutter.sheet.is_cut_apart and not step.leaves):
        return said, []
    return said, [_wrong_count(step, strips, where)]


def _wrong_count(step: CutStep, strips: int, where: SpecPath) -> Finding:
    cuts = "1 cut leaves" if strips == 2 else f"{strips - 1} cuts leave"
    found = f"{len(step.leaves)} names" if len(step.leaves) != 1 else "1 name"
    return error(
        "leaves-count",
        (*where, "leaves") if step.leaves else where,
        f"{found} for {strips} pieces",
        f"{cuts} {strips} pieces: name each from the scale's zero outwards, or call it scrap",
    )


def _mark_spare(
    cutter: Cutter, live: tuple[Piece, ...], unmade: Sequence[str]
) -> tuple[tuple[Piece, ...], list[Finding]]:
    """Mark the pieces that the spec says are left over, the last of each name first."""
    pieces = list(live)
    findings = []
    for position, name in enumerate(cutter.sheet.spare):
        matching = [i for i, p in enumerate(pieces) if p.name == name and p.fate is Fate.KEPT]
        if matching:
            pieces[matching[-1]] = replace(pieces[matching[-1]], fate=Fate.SPARE)
        elif name not in unmade:
            where = ("sheets", cutter.index, "spare", position)
            findings.append(_spare_missing(name, pieces, where))
    return tuple(pieces), findings


def _spare_missing(name: str, pieces: Sequence[Piece], where: SpecPath) -> Finding:
    count = sum(piece.name == name and piece.fate is Fate.SPARE for piece in pieces)
    if count:
        found = (
            f"only {count} of {quoted(name)} is cut"
            if count == 1
            else f"only {count} of {quoted(name)} are cut"
        )
        return error("spare-missing", where, found, "say it once for each piece that is spare")
    near = nearest(name, (piece.name for piece in pieces if piece.fate is Fate.KEPT))
    cure = f"did you mean {quoted(near)}?" if near else f"the sheet gives {useful_names(pieces)}"
    return error("spare-missing", where, f"no piece {quoted(name)} is left over", cure)


def _settled_stage(stage: Stage, final: _Final) -> Stage:
    """A stage whose pieces know what became of them in the end."""
    strips = tuple(replace(strip_, pieces=_settled(strip_.pieces, final)) for strip_ in stage.strips)
    return replace(stage, taken=_settled(stage.taken, final), strips=strips)


def _settled(pieces: tuple[Piece, ...], final: _Final) -> tuple[Piece, ...]:
    return tuple(final.get(piece.key) or replace(piece, fate=Fate.CUT_AGAIN) for piece in pieces)
