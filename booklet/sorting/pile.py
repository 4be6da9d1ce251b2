"""The pile: in which order the sheets are stacked before the first cut."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.cutting.model import CutSheet
from booklet.kit.kit import Assembly, Kit
from booklet.sorting.ledger import Ledger


def pile(kit: Kit, cut: Sequence[CutSheet], ledger: Ledger) -> tuple[CutSheet, ...]:
    """The sheets from the top of the pile down.

    As stated in the spec; else the sheets to cut in cutting order, then those left whole in the order in
    which their layouts are assembled.
    """
    by_id = {sheet.sheet.id: sheet for sheet in cut}
    if kit.pile is not None:
        stated = [by_id[name] for name in kit.pile if name in by_id]
        return (*stated, *(sheet for sheet in cut if sheet not in stated))
    last = kit.assembly is Assembly.LAST

    def rank(sheet: CutSheet) -> tuple[int, int, int]:
        if sheet.stages:
            return (0, sheet.number, 0)
        entry = ledger.of_piece(sheet.whole[0])
        layout = entry.use.layout_index if entry and entry.use else len(kit.layouts)
        return (1, -layout if last else layout, sheet.number)

    return tuple(sorted(cut, key=rank))
