"""The parts that scissors leave of a piece on its layout: what the ledger files whole."""

from __future__ import annotations

from collections.abc import Iterator

from booklet.kit.sheet import SCRAP
from booklet.kit.used import uses
from booklet.placing.details import Snipped, SnippedPart
from booklet.placing.model import PlacedLayout
from booklet.placing.resolved import ResolvedKit
from booklet.sorting.ledger import LedgerEntry


def parts_of(resolved: ResolvedKit, entry: LedgerEntry) -> tuple[SnippedPart, ...]:
    """The parts that a piece is snipped in on its layout, in order; none of a piece that stays whole.

    A part that is snipped again counts by its own parts.
    """
    if entry.use is None:
        return ()
    layout = resolved.layouts[entry.use.layout_index]
    return tuple(_parts(resolved, layout, entry.use.number))


def _parts(resolved: ResolvedKit, layout: PlacedLayout, number: int) -> Iterator[SnippedPart]:
    details = (detail for step in layout.steps for detail in step.details)
    snipped = next((one for one in details if isinstance(one, Snipped) and one.use == number), None)
    if snipped is None:
        return
    later: dict[str, list[int]] = {}
    for index, use in enumerate(uses(resolved.kit.layouts[layout.index], layout.index)):
        if use.part_of == number:
            later.setdefault(use.name, []).append(index)
    for part in snipped.parts:
        if part.name == SCRAP:
            continue
        taken = later.get(part.name, [])
        again = list(_parts(resolved, layout, taken.pop(0))) if taken else []
        yield from again or [part]
