"""Cut-apart sheets: the printed elements must come out whole, each in a piece of its own."""

from __future__ import annotations

from booklet.cutting.orientation import Rect
from booklet.kit.finding import Finding, SpecPath, error
from booklet.kit.sheet import SCRAP, Element, Sheet


def element_rect(element: Element) -> Rect:
    """Where an element is printed on the front."""
    return Rect(element.left, element.top, element.size.width, element.size.height)


def name_strip(sheet: Sheet, part: Rect, said: str | None, where: SpecPath) -> tuple[str, list[Finding]]:
    """The name of a strip of a sheet: the spec's, or its one element's; with what is wrong.

    On a sheet without elements the spec's name stands.
    """
    inside = [e for e in sheet.elements if part.contains(element_rect(e))]
    findings = [
        error(
            "cut-through-element",
            where[:-2],
            f"a cut runs through the printed element {element.name!r}",
            "cut between the elements",
        )
        for element in sheet.elements
        if element not in inside and part.overlaps(element_rect(element))
    ]
    if not sheet.is_cut_apart:
        return said or SCRAP, findings
    if said is None:
        return _own_name(inside, where, findings)
    if said == SCRAP and inside:
        held = ", ".join(repr(element.name) for element in inside)
        findings.append(error("element-in-scrap", where, f"this scrap holds {held}", "name the piece"))
    return said, findings


def _own_name(inside: list[Element], where: SpecPath, findings: list[Finding]) -> tuple[str, list[Finding]]:
    if not inside:
        return SCRAP, findings
    if len(inside) == 1:
        return inside[0].name, findings
    held = ", ".join(repr(element.name) for element in inside)
    strip = error(
        "strip-unnamed",
        where[:-2],
        f"piece {int(where[-1]) + 1} holds {held}",
        "name the pieces in leaves, so that this one can be taken and cut on",
    )
    return " and ".join(element.name for element in inside)[:60], [*findings, strip]
