"""Cut-apart sheets: the printed elements must come out whole, each in a piece of its own."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import combinations

from booklet.cutting.labels import check_name
from booklet.cutting.model import Cut, Piece
from booklet.cutting.orientation import Orientation, beyond, strip
from booklet.cutting.take import Bench
from booklet.kit.element import PrintedElement
from booklet.kit.fields import LONGEST_NAME, Face
from booklet.kit.finding import SpecPath, error, warning
from booklet.kit.sheet import SCRAP, Sheet
from booklet.kit.words import quoted
from booklet.measure.exact import Fraction
from booklet.measure.geometry import ExactRect, Interval, rect_at_origin
from booklet.measure.length import Unit, convert
from booklet.measure.words import exact_size

# In inches: edges closer than this but not in line look like a mistake (common practice, no source).
NEAR_MISS = Fraction(1, 16)


def elements_in(sheet: Sheet, part: ExactRect) -> tuple[PrintedElement, ...]:
    """The elements that lie wholly in a part of the front, in the order of the spec."""
    return tuple(element for element in sheet.printed if part.contains(element.rect))


def check_elements(bench: Bench) -> None:
    """What is wrong with the print itself, before any cut."""
    sheet, whole = bench.sheet, rect_at_origin(bench.size)
    for element in sheet.printed:
        bench.findings += check_name(element.name, (*bench.where, *element.where))
        if not whole.contains(element.rect):
            size = exact_size(bench.size, bench.unit)
            found = f"{quoted(element.name)} lies partly or wholly off the sheet of {size}"
            bench.report("element-off-sheet", found, "correct its left, top or size", *element.entry)
    for first, second in combinations(sheet.printed, 2):
        if first.rect.overlaps(second.rect):
            found = f"{quoted(second.name)} overlaps {quoted(first.name)}"
            cure = "correct the left, top or size of one"
            bench.report("elements-overlap", found, cure, *second.entry)
    _check_meeting(bench, whole)
    if sheet.is_cut_apart and sheet.cuts and sheet.lay.face is Face.BACK:
        found = "the register marks are on the front, which lies face down"
        bench.report("marks-face-down", found, "lay the sheet with its front up", "lay", "face", kind=warning)


def _check_meeting(bench: Bench, whole: ExactRect) -> None:
    """Elements that all but meet, or that meet and all but end in one line: no cut is meant to part them."""
    printed, near = bench.sheet.printed, convert(NEAR_MISS, Unit.INCH, bench.unit)
    for number, element in enumerate(printed):
        others = {one.name: _lines_off(one.rect, element.rect) for one in printed[:number]}
        past = [abs(past) for past in beyond(element.rect, whole).values()]
        for other, off in (*others.items(), (None, past)):
            least = min((by for by in off if 0 < by < near), default=None)
            if least is not None:
                beside = "the sheet's edge" if other is None else quoted(other)
                both = f"{quoted(element.name)} and {beside}"
                found = f"edges of {both} are {bench.shown(least)} out of line"
                cure = "correct the left, top or size of one"
                bench.report("elements-nearly-meet", found, cure, *element.entry, kind=warning)


def _lines_off(one: ExactRect, other: ExactRect) -> list[Fraction]:
    """How far apart facing edges of two elements are; of two that meet, those beside each other too."""
    spans = (one.across, other.across), (one.down, other.down)
    return [*_off(*spans[0], *spans[1]), *_off(*spans[1], *spans[0])]


def _off(one: Interval, other: Interval, one_cross: Interval, other_cross: Interval) -> list[Fraction]:
    if min(one_cross.high, other_cross.high) <= max(one_cross.low, other_cross.low):
        return []
    apart = [other.low - one.high, one.low - other.high]
    beside = [abs(one_cross.low - other_cross.low), abs(one_cross.high - other_cross.high)]
    # Both ends out of line is a step that is meant; one end in line and the other nearly so is not.
    return apart + (beside if 0 in apart and 0 in beside else [])


def check_between(bench: Bench, part: ExactRect, lying: Orientation, cuts: Sequence[Cut]) -> None:
    """The cuts that run through a printed element, of a piece that is `part` of the front and lies so."""
    width, zero = lying.seen_size(part.size).width, bench.limits.zero
    for cut in cuts:
        inside = strip(part, lying, Fraction(0), cut.reading, zero)
        outside = strip(part, lying, cut.reading, width, zero)
        for element in bench.sheet.printed:
            if inside.overlaps(element.rect) and outside.overlaps(element.rect):
                shown = bench.shown(cut.reading)
                found = f"the cut at {shown} runs through the printed element {quoted(element.name)}"
                cure = "cut between the elements"
                bench.findings.append(error("cut-through-element", cut.where, found, cure))


def name_strip(bench: Bench, part: ExactRect, said: str | None, position: int, where: SpecPath) -> str:
    """The name of a strip of a sheet: the spec's, or its one element's.

    `position` counts the strips of the step from 0 at the scale's zero; `where` is where the name is said,
    or the step.  On a sheet without elements the spec's name stands.
    """
    inside = elements_in(bench.sheet, part)
    if said is None:
        return _own_name(bench, inside, position, where)
    if said == SCRAP and inside:
        found = f"this scrap holds {_listed(inside)}"
        bench.findings.append(error("element-in-scrap", where, found, "name the piece after its element"))
    return said


def _own_name(bench: Bench, inside: Sequence[PrintedElement], position: int, where: SpecPath) -> str:
    if len(inside) > 1:
        found = f"piece {position + 1} holds {_listed(inside)}"
        cure = "name the pieces in leaves, so that this one can be taken and cut on"
        bench.findings.append(error("strip-unnamed", where, found, cure))
    return " and ".join(element.name for element in inside)[:LONGEST_NAME].rstrip() or SCRAP


def check_cut_out(bench: Bench, pieces: Iterable[Piece]) -> None:
    """After the last cut every printed element is a piece of its own, under its own name.

    Elements that a cut runs through, that lie off the sheet or in scrap are found by the other checks; so is
    a strip that was never named.
    """
    unnamed = {finding.where for finding in bench.findings if finding.id == "strip-unnamed"}
    for piece in pieces:
        name, held = quoted(piece.name), elements_in(bench.sheet, piece.part)
        if not piece.is_useful:
            continue
        if len(held) > 1 and piece.where not in unnamed:
            found, cure = f"{name} still holds {_listed(held)}", "take it and cut on between its elements"
            bench.findings.append(error("element-not-cut-out", piece.where, found, cure))
        elif len(held) == 1 and held[0].name != piece.name:
            found = f"{quoted(held[0].name)} lies in the piece that is called {name}"
            cure = "name the piece after its element"
            bench.findings.append(error("element-not-cut-out", piece.where, found, cure))
        elif not held and _has_borrowed_name(bench.sheet, piece):
            found = f"no printed {name} lies in the piece that is called {name}"
            cure = "give the piece another name"
            bench.findings.append(error("element-not-in-piece", piece.where, found, cure))


def _has_borrowed_name(sheet: Sheet, piece: Piece) -> bool:
    namesakes = [element for element in sheet.printed if element.name == piece.name]
    return bool(namesakes) and not any(piece.part.overlaps(one.rect) for one in namesakes)


def _listed(elements: Iterable[PrintedElement]) -> str:
    return ", ".join(quoted(element.name) for element in elements)
