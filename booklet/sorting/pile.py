"""The pile: in which order the sheets are stacked before the first cut."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from booklet.cutting.model import CutSheet
from booklet.kit.finding import Finding, error
from booklet.kit.kit import Assembly, Kit
from booklet.kit.words import quoted
from booklet.sorting.ledger import Ledger


def pile(kit: Kit, cut: Sequence[CutSheet], ledger: Ledger) -> tuple[CutSheet, ...]:
    """The sheets from the top of the pile down, each once.

    As stated in the spec; what it leaves out follows.  Else the sheets to cut in cutting order, then those
    left whole in the order in which their layouts are assembled, then those that no layout uses.
    """
    follows = sorted(cut, key=lambda sheet: _rank(kit, sheet, ledger))
    by_id = {sheet.sheet.id: sheet for sheet in reversed(follows)}
    stated = [by_id[name] for name in dict.fromkeys(kit.pile or ()) if name in by_id]
    named = {sheet.index for sheet in stated}
    return (*stated, *(sheet for sheet in follows if sheet.index not in named))


def _rank(kit: Kit, sheet: CutSheet, ledger: Ledger) -> tuple[int, int, int]:
    if sheet.stages:
        return (0, 0, sheet.number)
    found = (ledger.of_piece(piece) for piece in sheet.whole)
    layouts = [entry.use.layout_index for entry in found if entry and entry.use]
    if not layouts:
        return (2, 0, sheet.number)
    first = -max(layouts) if kit.assembly is Assembly.LAST else min(layouts)
    return (1, first, sheet.number)


def check_pile(kit: Kit) -> Iterator[Finding]:
    """A pile that is stated leaves no sheet out."""
    missing = [quoted(sheet.id) for sheet in kit.sheets if kit.pile is not None and sheet.id not in kit.pile]
    if missing:
        yield error("pile-misses", ("pile",), f"the pile leaves out {', '.join(missing)}", "name every sheet")
