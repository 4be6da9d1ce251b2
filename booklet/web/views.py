"""The views of the companion, which a script opens one at a time."""

from __future__ import annotations

from collections.abc import Mapping

from booklet.content.blocks import Document, Row
from booklet.content.overview import overview
from booklet.content.sorting.pockets import pieces_of_layout
from booklet.content.ways import layout_anchor
from booklet.placing.resolved import ResolvedKit
from booklet.web.cutting_walk import cutting_walk
from booklet.web.markup import Element
from booklet.web.overview_view import overview_view
from booklet.web.pages_walk import pages_walk
from booklet.web.pieces_view import pieces_view
from booklet.web.setting import Setting
from booklet.web.shell import companion_head, settings_view, start_view
from booklet.web.walk import walk_view


def companion_views(setting: Setting, document: Document, resolved: ResolvedKit) -> tuple[Element, ...]:
    """The head and every view that the kit has something for, all of them hidden."""
    pieces = _pieces(setting, resolved)
    cutting, pages = cutting_walk(setting, document), pages_walk(setting, document, pieces)
    has = {"cut": cutting is not None, "pieces": bool(pieces), "pages": pages is not None}
    names = [
        name for name in ("start", "cut", "pieces", "pages", "booklet", "settings") if has.get(name, True)
    ]
    views = [companion_head(setting, document, names), start_view(setting, document, names)]
    views += [walk_view(setting, walk) for walk in (cutting, pages) if walk is not None]
    if pieces:
        views.append(pieces_view(setting, document, pieces))
    views.append(overview_view(setting, overview(resolved, setting.language)))
    return (*views, settings_view(setting, resolved.kit.unit, ()))


def _pieces(setting: Setting, resolved: ResolvedKit) -> Mapping[str, tuple[Row, ...]]:
    """The pieces that each layout takes, by its anchor."""
    return {
        layout_anchor(layout.id): pieces_of_layout(resolved, index, setting.language)
        for index, layout in enumerate(resolved.kit.layouts)
    }
