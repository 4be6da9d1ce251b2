"""Carry out the cuts of a spec: sheet -> stages, strips, pieces, with every finding.

A kit with mistakes still gives pieces, as far as its cuts make sense, so that one run finds them all.  The
loader has checked that its papers and the words for their edges are known.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from booklet.cutting.checks import check_edges, check_lay, check_readings, check_sizes
from booklet.cutting.elements import check_between, check_cut_out, check_elements, elements_in, name_strip
from booklet.cutting.labels import check_name
from booklet.cutting.model import Cut, CutSheet, Fate, Piece, Stage, Strip
from booklet.cutting.orientation import Orientation, lay, strip
from booklet.cutting.table_work import work_at_table
from booklet.cutting.take import Bench, reports_finished, take, useful_names
from booklet.kit.finding import SpecPath
from booklet.kit.kit import Kit, sheet_size, trimmer_limits
from booklet.kit.references import edge_words
from booklet.kit.sheet import SCRAP, CutStep, Sheet
from booklet.kit.words import nearest, quoted
from booklet.measure.dataclass import replace
from booklet.measure.exact import Fraction
from booklet.measure.geometry import ExactRect, rect_at_origin

# The pieces on the bench after the last cut, by their key.
_Final = dict[tuple[int, int, ExactRect], Piece]


def cut_kit(kit: Kit) -> tuple[CutSheet, ...]:
    """Cut every sheet of the kit, in the order of the spec."""
    numbers = sheet_numbers(kit)
    return tuple(cut_sheet(kit, index, numbers[index]) for index in range(len(kit.sheets)))


def cut_kit_again(kit: Kit, before: Kit, cut: Sequence[CutSheet]) -> tuple[CutSheet, ...]:
    """Cut every sheet of a kit but those that are `cut` already: as they were in a kit `before`.

    A sheet is cut by what itself, its place, its number, its paper and the kit's own measures say.
    """
    if measures_of(kit) != measures_of(before):
        return cut_kit(kit)
    numbers = sheet_numbers(kit)
    known = {(sheet.index, sheet.number): sheet for sheet in cut}
    done: list[CutSheet] = []
    for index, number in enumerate(numbers):
        then = known.get((index, number))
        is_same = then is not None and then.sheet == kit.sheets[index]
        done.append(then if then is not None and is_same else cut_sheet(kit, index, number))
    return tuple(done)


def measures_of(kit: Kit) -> tuple[object, ...]:
    """What of a kit says how any of its sheets is cut."""
    return kit.sheet, kit.unit, kit.trimmer, kit.papers


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
    size, top = sheet_size(kit, sheet), ("sheets", index)
    whole = _whole_sheets(kit, sheet, index, number)
    bench = Bench(sheet, index, number, size, trimmer_limits(kit), kit.unit, whole, top)
    bench.findings += check_name(sheet.id, (*top, "id"))
    check_elements(bench)
    check_lay(bench, edge_words(kit.papers[sheet.paper]))
    may_turn = not is_directed(kit, sheet)
    for position, step in enumerate(sheet.cuts or ()):
        bench.where = (*top, "cuts", position)
        if isinstance(step, CutStep):
            _carry_out(bench, step)
            continue
        _turn_as_stated(bench, may_turn=may_turn)
        work_at_table(bench, step)
    bench.where = top
    _turn_as_stated(bench, may_turn=may_turn)
    if sheet.cuts is None:
        bench.unmade = [*sheet.sizes, *(element.name for element in sheet.printed)]
        bench.uncut = [sheet.id]
    _mark_spare(bench)
    pieces = bench.live
    final = {piece.key: piece for piece in pieces}
    stages = tuple(_settled_stage(stage, final) for stage in bench.stages)
    works = tuple(
        replace(work, taken=_settled(work.taken, final), left=_settled(work.left, final))
        for work in bench.works
    )
    cut_on = tuple(piece for stage in stages for piece in stage.taken)
    cut_on += tuple(piece for work in works for piece in work.taken)
    if sheet.cuts is not None:
        check_cut_out(bench, pieces)
        check_sizes(bench, pieces + cut_on, may_turn=may_turn)
        check_edges(bench, pieces + cut_on, edge_words(kit.papers[sheet.paper]))
    return CutSheet(
        sheet, index, number, size, _settled(whole, final), stages, pieces,
        tuple(dict.fromkeys(bench.findings)), tuple(bench.unmade), tuple(bench.uncut),
        works,
    )  # fmt: skip


def first_lying(kit: Kit, sheet: Sheet) -> Orientation:
    """How a sheet first lies in the trimmer."""
    words = edge_words(kit.papers[sheet.paper])
    place, word = next(iter(sheet.lay.said.items()))
    return lay(sheet.lay.face, words[word], place)


def is_directed(kit: Kit, sheet: Sheet) -> bool:
    """Whether a face of the sheet shows it when a piece is turned."""
    return kit.papers[sheet.paper].has_direction


def _turn_as_stated(bench: Bench, *, may_turn: bool) -> None:
    """Let pieces of plain paper stand as the spec states them."""
    if may_turn:
        bench.live = tuple(_as_stated(bench.sheet, piece) for piece in bench.live)


def _as_stated(sheet: Sheet, piece: Piece) -> Piece:
    """A plain piece of plain paper stands as the spec states it, whichever way round it was cut."""
    stated = sheet.sizes.get(piece.name)
    if stated is None or elements_in(sheet, piece.part):
        return piece
    turned = piece.part.size != stated and piece.part.size.turned == stated
    return replace(piece, is_turned=turned)


def _whole_sheets(kit: Kit, sheet: Sheet, index: int, number: int) -> tuple[Piece, ...]:
    size = sheet_size(kit, sheet)
    part = rect_at_origin(size)
    lying = first_lying(kit, sheet)
    label = str(number)
    return tuple(
        Piece(label, sheet.id, index, copy, part, lying, Fate.KEPT, ("sheets", index))
        for copy in range(sheet.count)
    )


def _carry_out(bench: Bench, step: CutStep) -> None:
    taken = take(bench, step)
    if not taken:
        bench.unmade += [name for names in step.leaves for name in names]
        bench.uncut += step.take
        return
    reports_finished(bench, taken, "take")
    lying = taken[0].lying.turned(step.turn)
    seen = lying.seen_size(taken[0].part.size)
    readings = check_readings(bench, step.at, seen)
    if not readings:
        _rename(bench, taken, step)
        return
    cuts = tuple(
        Cut(bench.cuts + order, reading, bench.sheet.is_cut_apart, (*bench.where, "at", at))
        for order, (at, reading) in enumerate(readings, start=1)
    )
    for piece in taken:
        check_between(bench, piece.part, piece.lying.turned(step.turn), cuts)
    bounds = [Fraction(0), *sorted(cut.reading for cut in cuts), seen.width]
    strips = _strips(bench, step, taken, list(pairwise(bounds)))
    number = len(bench.stages) + 1
    bench.stages.append(Stage(number, taken, step.turn, lying, seen, cuts, strips, step.tip, bench.where))
    left = tuple(piece for piece in bench.live if piece not in taken)
    bench.live = left + tuple(piece for strip_ in strips for piece in strip_.pieces)
    bench.cuts += len(cuts)


def _rename(bench: Bench, taken: tuple[Piece, ...], step: CutStep) -> None:
    """No reading can be cut: go on as if the first piece named were the whole; later steps may take it."""
    name = step.leaves[0][0] if step.leaves else SCRAP
    if name != SCRAP:
        bench.live = tuple(replace(p, name=name) if p in taken else p for p in bench.live)


def _strips(
    bench: Bench, step: CutStep, taken: tuple[Piece, ...], spans: Sequence[tuple[Fraction, Fraction]]
) -> tuple[Strip, ...]:
    """Name what lies between the readings, strip by strip from the zero outwards."""
    strips = []
    said = _said(bench, step, len(spans))
    for position, (start, end) in enumerate(spans):
        names = _by_paper(bench, said[position], len(taken), position)
        pieces = []
        for piece, (own, path) in zip(taken, names, strict=True):
            lying = piece.lying.turned(step.turn)
            part = strip(piece.part, lying, start, end, bench.limits.zero)
            name = name_strip(bench, part, own, position, path)
            fate = Fate.SCRAP if name == SCRAP else Fate.KEPT
            pieces.append(Piece(bench.label(fate), name, bench.index, piece.copy, part, lying, fate, path))
        strips.append(Strip(start, end, tuple(pieces)))
    return tuple(strips)


def _by_paper(
    bench: Bench, said: Sequence[str], papers: int, position: int
) -> list[tuple[str | None, SpecPath]]:
    """For each paper of a strip the name that is said, and where; None where its printed element names it."""
    if not said:
        return [(None, bench.where)] * papers
    path: SpecPath = (*bench.where, "leaves", position)
    if len(said) == 1:
        return [(said[0], path)] * papers
    if len(said) != papers:
        found = f"{len(said)} names for {papers} paper{'s' if papers > 1 else ''} cut in one pass"
        cure = "give one name for all, or one for each paper in the order in which they are taken"
        bench.report("leaves-papers", found, cure, "leaves", position)
    last = len(said) - 1
    return [(said[min(paper, last)], (*path, min(paper, last))) for paper in range(papers)]


def _said(bench: Bench, step: CutStep, strips: int) -> list[tuple[str, ...]]:
    """The names that the spec says for each strip; none where printed elements name it.

    A reading that cannot be cut, reported elsewhere, may leave one name too many.
    """
    apart, count = bench.sheet.is_cut_apart, len(step.leaves)
    if count not in {strips, len(step.at) + 1} and not (apart and not count):
        cuts = "1 cut leaves" if strips == 2 else f"{strips - 1} cuts leave"
        names = f"{count} names" if count != 1 else "1 name"
        cure = f"{cuts} {strips} pieces: name each from the scale's zero outwards, or call it scrap"
        keys = ("leaves",) if step.leaves else ()
        bench.report("leaves-count", f"{names} for {strips} pieces", cure, *keys)
    unsaid: tuple[str, ...] = () if apart else (SCRAP,)
    return [*step.leaves, *[unsaid] * strips][:strips]


def _mark_spare(bench: Bench) -> None:
    """Mark the pieces that the spec says are left over, the last of each name first."""
    pieces = list(bench.live)
    for position, name in enumerate(bench.sheet.spare):
        matching = [i for i, p in enumerate(pieces) if p.name == name and p.fate is Fate.KEPT]
        if matching:
            pieces[matching[-1]] = replace(pieces[matching[-1]], fate=Fate.SPARE)
        elif name not in bench.unmade:
            bench.report("spare-missing", *_spare_missing(name, pieces), "spare", position)
    bench.live = tuple(pieces)


def _spare_missing(name: str, pieces: Sequence[Piece]) -> tuple[str, str]:
    """What was found, and its cure."""
    count = sum(piece.name == name and piece.fate is Fate.SPARE for piece in pieces)
    if count:
        found = f"only {count} of {quoted(name)} {'is' if count == 1 else 'are'} cut"
        return found, "say it once for each piece that is spare"
    near = nearest(name, (piece.name for piece in pieces if piece.fate is Fate.KEPT))
    cure = f"did you mean {quoted(near)}?" if near else f"the sheet gives {useful_names(pieces)}"
    return f"no piece {quoted(name)} is left over", cure


def _settled_stage(stage: Stage, final: _Final) -> Stage:
    """A stage whose pieces know what became of them in the end."""
    strips = tuple(replace(strip_, pieces=_settled(strip_.pieces, final)) for strip_ in stage.strips)
    return replace(stage, taken=_settled(stage.taken, final), strips=strips)


def _settled(pieces: tuple[Piece, ...], final: _Final) -> tuple[Piece, ...]:
    return tuple(final.get(piece.key) or replace(piece, fate=Fate.CUT_AGAIN) for piece in pieces)
