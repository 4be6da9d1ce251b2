"""The kit resolved: cut, sorted and placed."""

from __future__ import annotations

from dataclasses import dataclass, replace
from pathlib import Path

from booklet.cutting.cut import cut_kit
from booklet.cutting.model import CutSheet
from booklet.kit.kit import Kit
from booklet.kit.load import LoadedKit
from booklet.measure.length import Size
from booklet.placing.model import PlacedLayout
from booklet.placing.place_layouts import place_layouts
from booklet.sorting.ledger import Ledger, keep_ledger, made_pieces, sizes_by_name, wants


@dataclass(frozen=True, eq=False)
class ResolvedKit:
    """A kit with all that follows from its spec; `folder` holds its images.

    Compared by identity, so that results can be cached on it.
    """

    kit: Kit
    folder: Path
    sheets: tuple[CutSheet, ...]
    ledger: Ledger
    layouts: tuple[PlacedLayout, ...]


@dataclass(frozen=True)
class _Sizes:
    """The sizes of the kit's pieces by name."""

    sizes: dict[str, Size]

    def size_of(self, name: str) -> Size | None:
        """The upright size of the piece of this name, None for an unknown one."""
        return self.sizes.get(name)


def resolve_kit(loaded: LoadedKit) -> ResolvedKit:
    """Plan and cut every sheet, sort every piece, place every layout; never raises on a kit that loaded."""
    kit, sheets = _cut(loaded.kit)
    ledger = keep_ledger(kit, sheets, wants(kit))
    sizes = _Sizes(sizes_by_name(made_pieces(kit, sheets)))
    layouts = place_layouts(kit, sizes)
    return ResolvedKit(kit, loaded.folder, sheets, ledger, layouts)


def _cut(kit: Kit) -> tuple[Kit, tuple[CutSheet, ...]]:
    """The kit with its planned cuts, and its sheets cut; the planner is started only where it is asked."""
    if all(sheet.cuts is not None for sheet in kit.sheets):
        return kit, cut_kit(kit)
    from booklet.cutting.planner.kit_plan import plan_kit

    planned = plan_kit(kit)
    cut = cut_kit(planned.kit)
    said = zip(cut, planned.findings, strict=True)
    return planned.kit, tuple(replace(sheet, findings=(*found, *sheet.findings)) for sheet, found in said)
