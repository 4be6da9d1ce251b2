"""Scissors through the printed words of a cut-apart's element, as the booklet draws them."""

from __future__ import annotations

from collections.abc import Iterator

from booklet.drawing.papers.kit_papers import KitPapers
from booklet.drawing.papers.piece_print import middle_of, part_taken
from booklet.kit.element import PrintedElement
from booklet.kit.finding import Finding, warning
from booklet.kit.words import quoted
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction
from booklet.measure.geometry import ExactRect
from booklet.measure.length import Size
from booklet.placing.details import Snipped, TrimmedRound
from booklet.placing.model import PlacedLayout, PlacedStep
from booklet.placing.resolved import ResolvedKit, uses_of
from booklet.sorting.ledger import LedgerEntry


@dataclass(frozen=True)
class _Printed:
    """An element's words and what a layout takes of the element, both on the front of its sheet."""

    element: str
    words: ExactRect
    part: ExactRect


def check_words_cut(resolved: ResolvedKit) -> Iterator[Finding]:
    """Each snip and each trim that runs through an element's words."""
    for layout in resolved.layouts:
        for step in layout.steps:
            for detail in step.details:
                if isinstance(detail, Snipped):
                    yield from _check_snip(resolved, layout, step, detail)
                elif isinstance(detail, TrimmedRound) and detail.size is not None:
                    yield from _check_trim(resolved, layout, step, detail.piece, detail.size)


def _check_snip(
    resolved: ResolvedKit, layout: PlacedLayout, step: PlacedStep, snipped: Snipped
) -> Iterator[Finding]:
    printed = _printed(resolved, layout, snipped.use)
    if printed is None:
        return
    areas = [part.area for part in snipped.parts]
    hull = Size(max(area.right for area in areas), max(area.bottom for area in areas))
    whole = middle_of(printed.part, hull)
    left = [ExactRect(whole.x + area.x, whole.y + area.y, area.width, area.height) for area in areas]
    if sum(area.overlaps(printed.words) for area in left) > 1:
        found = f"a snip runs through the printed words of {quoted(printed.element)}"
        yield warning("snip-through-words", (*step.path, "at"), found, "snip beside the words")


def _check_trim(
    resolved: ResolvedKit, layout: PlacedLayout, step: PlacedStep, piece: str, size: Size
) -> Iterator[Finding]:
    uses = (number for number, use in enumerate(uses_of(resolved, layout.index)) if use.name == piece)
    number = next(uses, None)
    printed = _printed(resolved, layout, number) if number is not None else None
    if printed is not None and not middle_of(printed.part, size).contains(printed.words):
        found = f"the trim runs through the printed words of {quoted(printed.element)}"
        yield warning("trim-through-words", (*step.path, "size"), found, "leave more of it")


def _printed(resolved: ResolvedKit, layout: PlacedLayout, number: int) -> _Printed | None:
    """The words of the element that a layout's use takes, as the booklet draws them: as large as they fit.

    None of what is no element, bears no words, or lies otherwise than it is printed.
    """
    whole = number
    while (before := uses_of(resolved, layout.index)[whole].part_of) is not None:
        whole = before
    entry = resolved.ledger.of_use(layout.index, whole)
    element = _element(resolved, entry)
    words = KitPapers(resolved.kit, resolved.images).words(element) if element is not None else None
    if words is None or entry is None or entry.piece is None or entry.piece.is_turned:
        return None
    box = [Fraction(length) / resolved.kit.unit.points for length in (*words[:2], words.width, words.height)]
    part = part_taken(layout, number, resolved, entry.piece.part)
    return _Printed(entry.name, ExactRect(*box), part)


def _element(resolved: ResolvedKit, entry: LedgerEntry | None) -> PrintedElement | None:
    """The printed element that a piece holds, where it holds one."""
    if entry is None or entry.piece is None:
        return None
    part = entry.piece.part
    for element in resolved.kit.sheets[entry.piece.sheet_index].printed:
        if element.name == entry.name and part.contains(element.rect):
            return element
    return None
