"""The ways through the booklet of a kit."""

from __future__ import annotations

from booklet.content.ways import PieceWays, Ways, layout_anchor, pocket_anchor, sheet_anchor, stage_anchor
from booklet.kit.spreads import assembly_order, pockets_of
from booklet.placing.resolved import ResolvedKit


def kit_ways(resolved: ResolvedKit) -> Ways:
    """Where a kit's pieces, pockets and layouts are told of.  Of copies with one label the first counts."""
    kit = resolved.kit
    layouts = tuple(layout_anchor(layout.id) for layout in kit.layouts)
    pieces: dict[str, PieceWays] = {}
    cut = _stages_of_pieces(resolved)
    for entry in resolved.ledger.entries:
        if entry.piece is not None:
            sheet = sheet_anchor(kit.sheets[entry.piece.sheet_index].id)
            pocket = pocket_anchor(entry.pocket) if entry.pocket is not None else None
            layout = layouts[entry.use.layout_index] if entry.use is not None else None
            pieces.setdefault(entry.label, PieceWays(sheet, cut.get(entry.label, sheet), pocket, layout))
    served: dict[str, list[str]] = {pocket: [pocket_anchor(pocket)] for pocket in pockets_of(kit)}
    for index in assembly_order(kit):
        served[kit.layouts[index].pocket].append(layouts[index])
    return Ways(pieces, layouts, {pocket: tuple(anchors) for pocket, anchors in served.items()})


def _stages_of_pieces(resolved: ResolvedKit) -> dict[str, str]:
    """The anchor of the stage at which each piece comes off, by its label; none of what scissors part."""
    return {
        piece.label: stage_anchor(sheet.sheet.id, stage.number)
        for sheet in resolved.sheets
        for stage in sheet.stages
        for strip in stage.strips
        for piece in strip.pieces
        if piece.is_useful
    }
