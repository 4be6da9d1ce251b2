"""Which pages of a laid-out booklet tell of each thing of its kit."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from functools import cached_property

from booklet.content.blocks import CutSlip, CutStage
from booklet.content.cutting.sheets import cut_sheets
from booklet.content.names import layout_name, piece_name, sheet_name, supply_name
from booklet.content.spans import Line, Own, PieceRef
from booklet.content.things import KitThing, ThingKind
from booklet.content.ways import layout_anchor, pocket_anchor, sheet_anchor
from booklet.kit.spreads import assembly_order, pockets_of
from booklet.pages.booklet import LaidBooklet
from booklet.pages.boxes import all_in
from booklet.pages.places import anchored_pages, section_pages
from booklet.pages.text import TextBlock
from booklet.placing.resolved import ResolvedKit
from booklet.placing.supplies import balance_supplies
from booklet.sorting.ledger import LedgerEntry


def things_of(resolved: ResolvedKit, laid: LaidBooklet) -> tuple[KitThing, ...]:
    """Every sheet that is cut, every layout, pocket, piece and supply of a kit, with its pages.

    A sheet that stays whole is a piece, as it is on its layout.
    """
    told = _Told(laid)
    return (
        *_sheets(resolved, told),
        *_layouts(resolved, told),
        *_pockets(resolved, told),
        *_pieces(resolved, told),
        *_supplies(resolved, told),
    )


class _Told:
    """What is said on which pages."""

    def __init__(self, laid: LaidBooklet) -> None:
        self._pages = laid.pages

    def section(self, anchor: str) -> tuple[int, ...]:
        """The pages of a section."""
        return section_pages(self._pages, anchor)

    def anchored(self, anchor: str) -> tuple[int, ...]:
        """The pages on which a row of this anchor stands."""
        return anchored_pages(self._pages, anchor)

    def where(self, lines: Iterable[Line], pages: Iterable[int]) -> tuple[int, ...]:
        """Those of some pages on which one of these lines stands; all of them where none does."""
        every = tuple(pages)
        standing = {page for said in lines for page in self._by_line.get(said, ())}
        return tuple(page for page in every if page in standing) or every

    def labelled(self, label: str, pages: Iterable[int]) -> tuple[int, ...]:
        """Those of some pages that name a piece by its label; all of them where none does."""
        return self.where(self._by_label.get(label, ()), pages)

    @cached_property
    def _by_line(self) -> dict[Line, set[int]]:
        found: dict[Line, set[int]] = {}
        for number, page in enumerate(self._pages, 1):
            for placed in page.column:
                for each in all_in(placed.flowable):
                    if isinstance(each, TextBlock):
                        found.setdefault(each.said, set()).add(number)
        return found

    @cached_property
    def _by_label(self) -> dict[str, list[Line]]:
        found: dict[str, list[Line]] = {}
        for said in self._by_line:
            for span in said:
                if isinstance(span, PieceRef):
                    found.setdefault(span.label, []).append(said)
        return found

    @cached_property
    def cut_lines(self) -> dict[str, list[Line]]:
        """The lines of cut slips that name a piece, by its label."""
        found: dict[str, list[Line]] = {}
        for section in {part.section for page in self._pages for part in page.parts}:
            for block in section.blocks:
                for slip in _slips(block) if isinstance(block, CutStage) else ():
                    for row in slip.rows:
                        for span in row.said:
                            if isinstance(span, PieceRef):
                                found.setdefault(span.label, []).append(row.said)
        return found


def _slips(stage: CutStage) -> tuple[CutSlip, ...]:
    return (stage.slip, stage.work) if stage.work is not None else (stage.slip,)


def _sheets(resolved: ResolvedKit, told: _Told) -> Iterator[KitThing]:
    for sheet in cut_sheets(resolved):
        name = sheet_name(resolved.kit, sheet.index)
        pages = told.section(sheet_anchor(sheet.sheet.id))
        yield KitThing(ThingKind.SHEET, name, (str(sheet.number),), cut=pages)


def _layouts(resolved: ResolvedKit, told: _Told) -> Iterator[KitThing]:
    for place, index in enumerate(assembly_order(resolved.kit), 1):
        layout = resolved.kit.layouts[index]
        yield KitThing(
            ThingKind.LAYOUT,
            layout_name(resolved.kit, index),
            (str(place),),
            sorted=told.anchored(pocket_anchor(layout.pocket)),
            used=told.section(layout_anchor(layout.id)),
        )


def _pockets(resolved: ResolvedKit, told: _Told) -> Iterator[KitThing]:
    kit = resolved.kit
    for pocket in pockets_of(kit):
        served = [index for index, layout in enumerate(kit.layouts) if layout.pocket == pocket]
        yield KitThing(
            ThingKind.POCKET,
            Own(pocket, ("layouts", served[0], "pocket")),
            sorted=told.anchored(pocket_anchor(pocket)),
            used=_of_layouts(resolved, told, served),
        )


def _of_layouts(resolved: ResolvedKit, told: _Told, indexes: Iterable[int]) -> tuple[int, ...]:
    anchors = (layout_anchor(resolved.kit.layouts[index].id) for index in indexes)
    return tuple(sorted({page for anchor in anchors for page in told.section(anchor)}))


def _pieces(resolved: ResolvedKit, told: _Told) -> Iterator[KitThing]:
    alike: dict[tuple[str, tuple[str, int]], list[LedgerEntry]] = {}
    for entry in resolved.ledger.entries:
        alike.setdefault((entry.name, entry.source), []).append(entry)
    for entries in alike.values():
        pages = [_pages_of(resolved, told, entry) for entry in entries]
        cut, filed, used = (
            tuple(sorted({page for one in kind for page in one})) for kind in zip(*pages, strict=True)
        )
        labels = tuple(dict.fromkeys(entry.label for entry in entries if entry.label))
        yield KitThing(ThingKind.PIECE, piece_name(entries[0]), labels, cut, filed, used)


def _pages_of(
    resolved: ResolvedKit, told: _Told, entry: LedgerEntry
) -> tuple[tuple[int, ...], tuple[int, ...], tuple[int, ...]]:
    """The pages on which a piece is cut, filed and used."""
    cut: tuple[int, ...] = ()
    if entry.piece is not None:
        sheet = told.section(sheet_anchor(resolved.kit.sheets[entry.piece.sheet_index].id))
        cut = told.where(told.cut_lines.get(entry.label, ()), sheet)
    if entry.use is None:
        return cut, (), ()
    layout = resolved.kit.layouts[entry.use.layout_index]
    filed = told.anchored(pocket_anchor(layout.pocket))
    used = told.section(layout_anchor(layout.id))
    if entry.label:
        filed, used = told.labelled(entry.label, filed), told.labelled(entry.label, used)
    return cut, filed, used


def _supplies(resolved: ResolvedKit, told: _Told) -> Iterator[KitThing]:
    by_id = {layout.id: index for index, layout in enumerate(resolved.kit.layouts)}
    for index, balance in enumerate(balance_supplies(resolved.kit, resolved.layouts)):
        taking = {by_id[id] for id, _ in balance.per_layout} | {by_id[id] for id in balance.lasting_in}
        used = _of_layouts(resolved, told, taking)
        yield KitThing(ThingKind.SUPPLY, supply_name(resolved.kit, index), used=used)
