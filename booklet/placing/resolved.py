"""The kit resolved: cut, sorted and placed; and the parts that scissors leave of a piece on its layout."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from booklet.cutting.begun import Begun, not_told
from booklet.cutting.cut import cut_kit, cut_kit_again
from booklet.cutting.finish import NOTHING_DONE, Finish
from booklet.cutting.model import CutSheet
from booklet.kit.finding import Finding
from booklet.kit.images import Images
from booklet.kit.kit import Kit
from booklet.kit.kit_files import KitFile
from booklet.kit.load import LoadedKit
from booklet.kit.sheet import SCRAP
from booklet.kit.used import PieceUse, uses
from booklet.measure.dataclass import dataclass, replace
from booklet.measure.length import Size
from booklet.placing.details import Snipped, SnippedPart
from booklet.placing.model import PieceSource, PlacedLayout
from booklet.placing.place_layouts import place_layouts, unchanged
from booklet.sorting.ledger import Ledger, LedgerEntry, keep_ledger, sizes_by_name, wants

if TYPE_CHECKING:
    from booklet.cutting.planner.kit_plan import PlannedKit


@dataclass(frozen=True, eq=False)
class ResolvedKit:
    """A kit with all that follows from its spec; `images` are those that it names, `typed` its files.

    `pieces` are their sizes as the layouts were given them, `planned` is what the planner found where it was
    asked.  Compared by identity, so that results can be cached on it.
    """

    kit: Kit
    images: Images
    sheets: tuple[CutSheet, ...]
    ledger: Ledger
    layouts: tuple[PlacedLayout, ...]
    typed: tuple[KitFile, ...] = ()
    pieces: PieceSource | None = None
    planned: PlannedKit | None = None


@dataclass(frozen=True, eq=False)
class CutKit:
    """A kit with its planned cuts, and its sheets cut; `planned` as in a resolved kit."""

    kit: Kit
    sheets: tuple[CutSheet, ...]
    planned: PlannedKit | None = None


@dataclass(frozen=True)
class _Pieces:
    """The sizes of the kit's pieces by name, and what was done to them at the cutting table."""

    sizes: dict[str, Size]
    finishes: dict[str, Finish]

    def size_of(self, name: str) -> Size | None:
        """The upright size of the piece of this name, None for an unknown one."""
        return self.sizes.get(name)

    def finish_of(self, name: str) -> Finish:
        """What was done to the piece of this name."""
        return self.finishes.get(name, NOTHING_DONE)


def resolve_kit(loaded: LoadedKit, before: ResolvedKit | None = None, begun: Begun = not_told) -> ResolvedKit:
    """Plan and cut every sheet, sort every piece, place every layout; never raises on a kit that loaded.

    Sheets and layouts that are as in the kit `before` are taken from there; `begun` is told of each sheet to
    be planned.
    """
    cut = plan_and_cut(loaded.kit, begun, before)
    kit, sheets = cut.kit, cut.sheets
    ledger = keep_ledger(kit, sheets, wants(kit))
    filed = ledger.entries
    finishes = {entry.name: entry.piece.finish for entry in reversed(filed) if entry.piece is not None}
    pieces = _Pieces(sizes_by_name(filed), finishes)
    layouts = place_layouts(kit, pieces, _known(kit, pieces, before) if before is not None else {})
    return ResolvedKit(kit, loaded.images, sheets, ledger, layouts, loaded.typed, pieces, cut.planned)


def _known(kit: Kit, pieces: _Pieces, before: ResolvedKit) -> dict[int, PlacedLayout]:
    """The layouts that lie as before; none where pieces have come or gone, which findings may name."""
    if not isinstance(before.pieces, _Pieces) or before.pieces.sizes.keys() != pieces.sizes.keys():
        return {}
    changed = {
        name
        for name, size in pieces.sizes.items()
        if size != before.pieces.size_of(name) or pieces.finish_of(name) != before.pieces.finish_of(name)
    }
    return unchanged(kit, before.kit, before.layouts, changed)


def plan_and_cut(kit: Kit, begun: Begun = not_told, before: ResolvedKit | None = None) -> CutKit:
    """Plan the cuts that a kit leaves to the planner, and cut its sheets, but for what is as `before`.

    The planner is started only where it is asked.
    """
    if all(sheet.cuts is not None for sheet in kit.sheets):
        return CutKit(kit, _cut(kit, None, before))
    from booklet.cutting.planner.kit_plan import plan_kit

    planned = plan_kit(kit, begun, before.planned if before is not None else None)
    cut = tuple(
        sheet if written.cuts is not None else _unwritten(sheet)
        for written, sheet in zip(kit.sheets, _cut(planned.kit, planned, before), strict=True)
    )
    said = zip(cut, planned.findings, strict=True)
    sheets = tuple(
        replace(sheet, findings=tuple(dict.fromkeys((*found, *sheet.findings)))) for sheet, found in said
    )
    return CutKit(planned.kit, sheets, planned)


def _cut(kit: Kit, planned: PlannedKit | None, before: ResolvedKit | None) -> tuple[CutSheet, ...]:
    """The sheets cut; of those that are as `before`, only where the planner says the same of them."""
    if before is None:
        return cut_kit(kit)
    cut = [one for one in before.sheets if _said(planned, one.index) == _said(before.planned, one.index)]
    return cut_kit_again(kit, before.kit, cut)


def _said(planned: PlannedKit | None, index: int) -> tuple[Finding, ...] | None:
    """What the planner says of a sheet; None where it is not asked, or there is no such sheet."""
    if planned is None or index >= len(planned.written.sheets):
        return None
    return planned.findings[index] if planned.written.sheets[index].cuts is None else None


def _unwritten(sheet: CutSheet) -> CutSheet:
    """A sheet whose cuts nobody wrote: which way round the planner cuts a plain piece is its own affair."""
    return replace(sheet, findings=tuple(one for one in sheet.findings if one.id != "size-lies"))


def uses_of(resolved: ResolvedKit, index: int) -> tuple[PieceUse, ...]:
    """What a layout uses, by its index among the kit's layouts."""
    return uses(resolved.kit.layouts[index], index)


def parts_of(resolved: ResolvedKit, entry: LedgerEntry) -> tuple[SnippedPart, ...]:
    """The parts that a piece is snipped in on its layout, in order; none of a piece that stays whole.

    A part that is snipped again counts by its own parts.
    """
    if entry.use is None:
        return ()
    layout = resolved.layouts[entry.use.layout_index]
    return tuple(_parts(resolved, layout, entry.use.number))


def _parts(resolved: ResolvedKit, layout: PlacedLayout, number: int) -> Iterator[SnippedPart]:
    snipped = next((one for one in layout.details(Snipped) if one.use == number), None)
    if snipped is None:
        return
    later: dict[str, list[int]] = {}
    for index, use in enumerate(uses_of(resolved, layout.index)):
        if use.part_of == number:
            later.setdefault(use.name, []).append(index)
    for part in snipped.parts:
        if part.name == SCRAP:
            continue
        taken = later.get(part.name, [])
        again = list(_parts(resolved, layout, taken.pop(0))) if taken else []
        yield from again or [part]
