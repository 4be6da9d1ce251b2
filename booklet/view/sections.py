"""Which sections of a booklet a save has changed, by comparing what they tell of."""

from __future__ import annotations

from collections.abc import Iterator

from booklet.content.ways import layout_anchor, sheet_anchor
from booklet.placing.resolved import ResolvedKit


def changed_sections(before: ResolvedKit, now: ResolvedKit) -> tuple[str, ...]:
    """The anchors of the sheets and layouts that are not as they were, in the order of the spec.

    What else changes with them (a sum, a pocket's list, a page's number) shows when all is laid out again.
    """
    return (*_changed_sheets(before, now), *_changed_layouts(before, now))


def _changed_sheets(before: ResolvedKit, now: ResolvedKit) -> Iterator[str]:
    then = {sheet.sheet.id: (sheet, before.kit.sheets[sheet.index]) for sheet in before.sheets}
    for sheet in now.sheets:
        if then.get(sheet.sheet.id) != (sheet, now.kit.sheets[sheet.index]):
            yield sheet_anchor(sheet.sheet.id)


def _changed_layouts(before: ResolvedKit, now: ResolvedKit) -> Iterator[str]:
    then = {layout.id: (layout, before.kit.layouts[layout.index]) for layout in before.layouts}
    for layout in now.layouts:
        if then.get(layout.id) != (layout, now.kit.layouts[layout.index]):
            yield layout_anchor(layout.id)
