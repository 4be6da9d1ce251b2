"""The views of the companion, which a script opens one at a time."""

from __future__ import annotations

from collections.abc import Mapping

from booklet.content.blocks import Document, PaperEdge, Row
from booklet.content.cutting.sheets import sheet_sections
from booklet.content.other_zero import other_zero
from booklet.content.overview import overview
from booklet.content.sorting.pockets import pieces_of_layout
from booklet.content.ways import layout_anchor
from booklet.measure.dataclass import replace
from booklet.placing.resolved import ResolvedKit
from booklet.web.cutting_walk import cutting_walk
from booklet.web.markup import Element
from booklet.web.overview_view import overview_view
from booklet.web.pages_walk import pages_walk
from booklet.web.pieces_view import pieces_view
from booklet.web.setting import Setting
from booklet.web.shell import companion_head, settings_view, start_view
from booklet.web.walk import Walk, walk_view


def companion_views(setting: Setting, document: Document, resolved: ResolvedKit) -> tuple[Element, ...]:
    """The head and every view that the kit has something for, all of them hidden."""
    pieces = _pieces(setting, resolved)
    cutting, pages = _cutting(setting, document, resolved), pages_walk(setting, document, pieces)
    has = {"cut": bool(cutting), "pieces": bool(pieces), "pages": pages is not None}
    names = [
        name for name in ("start", "cut", "pieces", "pages", "booklet", "settings") if has.get(name, True)
    ]
    views = [companion_head(setting, document, names), start_view(setting, document, names)]
    views += [walk_view(setting, walk) for walk in (*cutting, pages) if walk is not None]
    if pieces:
        views.append(pieces_view(setting, document, pieces))
    views.append(overview_view(setting, overview(resolved, setting.language)))
    return (*views, settings_view(setting, resolved.kit.unit, [walk.zero for walk in cutting]))


def _cutting(setting: Setting, document: Document, resolved: ResolvedKit) -> list[Walk]:
    """The walk over the sheets for the kit's own trimmer, and for one whose zero is at the other side."""
    sections = [section for section in document.sections if isinstance(section.edge, PaperEdge)]
    walks = [cutting_walk(setting, sections, resolved.kit.trimmer.zero.value)]
    other = other_zero(resolved)
    if other is not None:
        artist = replace(setting.plates.artist, resolved=other)
        turned = replace(setting, plates=setting.plates.by(artist))
        sections_of_other = sheet_sections(other, setting.language)
        walks.append(cutting_walk(turned, sections_of_other, other.kit.trimmer.zero.value))
    return [walk for walk in walks if walk is not None]


def _pieces(setting: Setting, resolved: ResolvedKit) -> Mapping[str, tuple[Row, ...]]:
    """The pieces that each layout takes, by its anchor."""
    return {
        layout_anchor(layout.id): pieces_of_layout(resolved, index, setting.language)
        for index, layout in enumerate(resolved.kit.layouts)
    }
