"""Tables for other programs: every piece, and every supply; each value as it would be typed in a spec."""

from __future__ import annotations

from booklet.cli.csv_text import csv_bytes, decimal_cell, length_cell
from booklet.kit.kit import layout_title, sheet_title
from booklet.measure.words import exact_size
from booklet.placing.resolved import ResolvedKit, parts_of
from booklet.placing.supplies import SupplyBalance, balance_supplies
from booklet.sorting.ledger import LedgerEntry

_SORTING = (
    "label",
    "name",
    "width",
    "height",
    "width in decimals",
    "height in decimals",
    "unit",
    "sheet",
    "source",
    "pocket",
    "layout",
    "optional",
    "parts",
)
_SUPPLIES = ("supply", "title", "unit", "in box", "used", "left", "layout", "amount", "from")


def sorting_csv(resolved: ResolvedKit) -> bytes:
    """Every piece of the kit in one row, in the order of the printed table.

    `source` is the sheet's title, or `ready-cut`; `layout` is empty for a piece that is spare, `optional` for
    one that no layout may do without; `parts` are what scissors make of it, with their sizes.
    """
    rows = (_sorting_row(resolved, entry) for entry in resolved.ledger.entries)
    return csv_bytes((_SORTING, *rows))


def _sorting_row(resolved: ResolvedKit, entry: LedgerEntry) -> tuple[str, ...]:
    kit = resolved.kit
    kind, index = entry.source
    cut = next((sheet for sheet in resolved.sheets if kind == "sheets" and sheet.index == index), None)
    return (
        entry.label,
        entry.name,
        length_cell(entry.size.width, kit.unit),
        length_cell(entry.size.height, kit.unit),
        decimal_cell(entry.size.width),
        decimal_cell(entry.size.height),
        kit.unit.value,
        str(cut.number) if cut else "",
        sheet_title(kit, cut.sheet) if cut else "ready-cut",
        entry.pocket or "",
        layout_title(kit.layouts[entry.use.layout_index]) if entry.use else "",
        "yes" if entry.use and entry.use.optional else "",
        "; ".join(f"{part.name} {exact_size(part.size, kit.unit)}" for part in parts_of(resolved, entry)),
    )


def supplies_csv(resolved: ResolvedKit) -> bytes:
    """What each layout uses of each supply, a row for each.

    A supply that no layout uses has one row without a layout; of a stencil or an ink no amount is said.
    What the member brings is `from` home: `in box` is then what the spec states of it.
    """
    balances = balance_supplies(resolved.kit, resolved.layouts)
    rows = (row for balance in balances for row in _supply_rows(resolved, balance))
    return csv_bytes((_SUPPLIES, *rows))


def _supply_rows(resolved: ResolvedKit, balance: SupplyBalance) -> list[tuple[str, ...]]:
    kit = resolved.kit
    supply = next(supply for supply in kit.supplies if supply.id == balance.supply)
    shown = [
        "" if amount is None else length_cell(amount, kit.unit)
        for amount in (balance.boxed, balance.used, balance.left)
    ]
    unit = kit.unit.value if balance.by_length else ""
    head = (supply.id, supply.title or "", unit, *shown)
    titles = {layout.id: layout_title(layout) for layout in kit.layouts}
    rows = [(*head, titles[id], length_cell(amount, kit.unit)) for id, amount in balance.per_layout]
    rows += [(*head, titles[id], "") for id in balance.lasting_in if id not in dict(balance.per_layout)]
    return [(*row, supply.origin.value) for row in rows or [(*head, "", "")]]
