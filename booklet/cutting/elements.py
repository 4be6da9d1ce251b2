"""Cut-apart sheets: the printed elements must come out whole, each in a piece of its own."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations

from booklet.cutting.labels import check_name
from booklet.cutting.model import Cut, Fate, Piece
from booklet.cutting.orientation import Orientation, strip
from booklet.kit.fields import Face
from booklet.kit.finding import Finding, SpecPath, error, warning
from booklet.kit.sheet import SCRAP, Element, Sheet
from booklet.kit.words import quoted
from booklet.measure.exact import Fraction
from booklet.measure.geometry import ExactRect, rect_at_origin
from booklet.measure.length import Size, Unit
from booklet.measure.words import exact_length, exact_size

# The longest name that a spec can give.
_LONGEST_NAME = 60


def element_rect(element: Element) -> ExactRect:
    """Where an element is printed on the front."""
    return ExactRect(element.left, element.top, element.size.width, element.size.height)


def elements_in(sheet: Sheet, part: ExactRect) -> tuple[Element, ...]:
    """The elements that lie wholly in a part of the front, in the order of the spec."""
    return tuple(element for element in sheet.elements if part.contains(element_rect(element)))


def check_elements(sheet: Sheet, index: int, size: Size, unit: Unit) -> Iterator[Finding]:
    """What is wrong with the print itself, before any cut.  `size` is the sheet's."""
    whole = rect_at_origin(size)
    path: SpecPath = ("sheets", index, "elements")
    for number, element in enumerate(sheet.elements):
        yield from check_name(element.name, (*path, number, "name"))
        if not whole.contains(element_rect(element)):
            found = f"{quoted(element.name)} lies partly or wholly off the sheet of {exact_size(size, unit)}"
            yield error("element-off-sheet", (*path, number), found, "correct its left, top or size")
    for (_, first), (number, second) in combinations(enumerate(sheet.elements), 2):
        if element_rect(first).overlaps(element_rect(second)):
            found = f"{quoted(second.name)} overlaps {quoted(first.name)}"
            yield error("elements-overlap", (*path, number), found, "correct the left, top or size of one")
    if sheet.is_cut_apart and sheet.cuts and sheet.lay.face is Face.BACK:
        found = "the register marks are on the front, which lies face down"
        yield warning(
            "marks-face-down", ("sheets", index, "lay", "face"), found, "lay the sheet with its front up"
        )


def check_between(
    sheet: Sheet, part: ExactRect, lying: Orientation, cuts: Sequence[Cut], unit: Unit
) -> Iterator[Finding]:
    """The cuts that run through a printed element, of a piece that is `part` of the front and lies so."""
    width = lying.seen_size(part.size).width
    for cut in cuts:
        inside = strip(part, lying, Fraction(0), cut.reading)
        outside = strip(part, lying, cut.reading, width)
        for element in sheet.elements:
            printed = element_rect(element)
            if inside.overlaps(printed) and outside.overlaps(printed):
                shown = exact_length(cut.reading, unit)
                found = f"the cut at {shown} runs through the printed element {quoted(element.name)}"
                yield error("cut-through-element", cut.where, found, "cut between the elements")


def name_strip(
    sheet: Sheet, part: ExactRect, said: str | None, position: int, where: SpecPath
) -> tuple[str, list[Finding]]:
    """The name of a strip of a sheet: the spec's, or its one element's; with what is wrong.

    `position` counts the strips of the step from 0 at the scale's zero; `where` is where the name is said,
    or the step.  On a sheet without elements the spec's name stands.
    """
    inside = elements_in(sheet, part)
    if said is None:
        return _own_name(inside, position, where)
    if said == SCRAP and inside:
        found = f"this scrap holds {_listed(inside)}"
        return said, [error("element-in-scrap", where, found, "name the piece after its element")]
    return said, []


def _own_name(inside: Sequence[Element], position: int, where: SpecPath) -> tuple[str, list[Finding]]:
    if not inside:
        return SCRAP, []
    if len(inside) == 1:
        return inside[0].name, []
    cure = "name the pieces in leaves, so that this one can be taken and cut on"
    unnamed = error("strip-unnamed", where, f"piece {position + 1} holds {_listed(inside)}", cure)
    return " and ".join(element.name for element in inside)[:_LONGEST_NAME].rstrip(), [unnamed]


def check_cut_out(sheet: Sheet, pieces: Iterable[Piece], known: Iterable[Finding]) -> Iterator[Finding]:
    """After the last cut every printed element is a piece of its own, under its own name.

    Elements that a cut runs through, that lie off the sheet or in scrap are found by the other checks; so is
    a strip that was never named, if it is among the `known` findings.
    """
    unnamed = {finding.where for finding in known if finding.id == "strip-unnamed"}
    for piece in pieces:
        if piece.fate is Fate.SCRAP:
            continue
        held = elements_in(sheet, piece.part)
        if len(held) > 1 and piece.where not in unnamed:
            found = f"{quoted(piece.name)} still holds {_listed(held)}"
            yield error("element-not-cut-out", piece.where, found, "take it and cut on between its elements")
        elif len(held) == 1 and held[0].name != piece.name:
            found = f"{quoted(held[0].name)} lies in the piece that is called {quoted(piece.name)}"
            yield error("element-not-cut-out", piece.where, found, "name the piece after its element")
        elif not held:
            yield from _check_borrowed_name(sheet, piece)


def _check_borrowed_name(sheet: Sheet, piece: Piece) -> Iterator[Finding]:
    namesakes = [element for element in sheet.elements if element.name == piece.name]
    if namesakes and not any(piece.part.overlaps(element_rect(element)) for element in namesakes):
        name = quoted(piece.name)
        found = f"no printed {name} lies in the piece that is called {name}"
        yield error("element-not-in-piece", piece.where, found, "give the piece another name")


def _listed(elements: Iterable[Element]) -> str:
    return ", ".join(quoted(element.name) for element in elements)
