"""What the designer calls things, as spans: a title where there is one, else the name as words."""

from __future__ import annotations

from booklet.content.spans import Own, SheetRef, Weight
from booklet.cutting.model import CutSheet
from booklet.kit.finding import SpecPath
from booklet.kit.kit import Kit, capitalised, layout_title, paper_title, sheet_title, supply_title
from booklet.sorting.ledger import LedgerEntry


def kit_name(kit: Kit, weight: Weight = Weight.NORMAL) -> Own:
    """The kit's title."""
    return Own(kit.title, ("title",), weight)


def month_name(kit: Kit) -> Own | None:
    """The kit's month, None where the spec says none."""
    return Own(kit.month, ("month",)) if kit.month else None


def sheet_name(kit: Kit, index: int, weight: Weight = Weight.NORMAL) -> Own:
    """What a sheet is called, by its index among the kit's sheets."""
    sheet = kit.sheets[index]
    source: SpecPath = ("sheets", index, "id")
    if sheet.title:
        source = ("sheets", index, "title")
    elif kit.papers[sheet.paper].title:
        source = ("papers", sheet.paper, "title")
    return Own(sheet_title(kit, sheet), source, weight)


def paper_name(kit: Kit, paper: str) -> Own:
    """What a paper is called."""
    title = ("title",) if kit.papers[paper].title else ()
    return Own(paper_title(kit, paper), ("papers", paper, *title))


def sheet_ref(sheet: CutSheet) -> SheetRef:
    """A sheet by its number."""
    return SheetRef(sheet.number, sheet.sheet.id)


def layout_name(kit: Kit, index: int, weight: Weight = Weight.NORMAL) -> Own:
    """What a layout is called, by its index among the kit's layouts."""
    layout = kit.layouts[index]
    return Own(layout_title(layout), ("layouts", index, "title" if layout.title else "id"), weight)


def supply_name(kit: Kit, index: int, weight: Weight = Weight.NORMAL) -> Own:
    """What a supply is called, by its index among the kit's supplies."""
    supply = kit.supplies[index]
    source = ("supplies", index, "title" if supply.title else "id")
    return Own(supply_title(supply), source, weight)


def ready_name(kit: Kit, index: int, weight: Weight = Weight.NORMAL) -> Own:
    """What a ready-cut piece is called, by its index among those of the kit."""
    return Own(capitalised(kit.ready[index].name), ("ready", index, "name"), weight)


def piece_name(entry: LedgerEntry, weight: Weight = Weight.NORMAL) -> Own:
    """What a piece is called, as it was typed."""
    return Own(entry.name, entry.where, weight)
