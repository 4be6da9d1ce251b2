"""What a save has changed: sections, by comparing what they tell of; pages, by what is seen of them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from booklet.content.spans import plain_text
from booklet.content.ways import layout_anchor, sheet_anchor
from booklet.pages.compose import Page
from booklet.placing.resolved import ResolvedKit
from booklet.view.pictures import WrittenPage, changed_part
from booklet.view.shown import PageChange


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


def page_changes(
    before: Sequence[WrittenPage], now: Sequence[WrittenPage], laid: Sequence[Page]
) -> Iterator[PageChange]:
    """The pages that do not look as they did, and where they differ; new ones whole."""
    then = {page.number: page for page in before}
    for page, shown in zip(now, laid, strict=True):
        old = then.get(page.number)
        if old is None:
            yield PageChange(page.number, page_title(shown), None)
        elif old.digest != page.digest and (part := changed_part(old.pdf, page.pdf)) is not None:
            yield PageChange(page.number, page_title(shown), part)


def page_title(page: Page) -> str:
    """What a page is about, in words: the section that begins on it, or the one that goes on."""
    section = next((part.section for part in page.parts if part.begins), page.parts[0].section)
    title = plain_text(section.title)
    return f"{section.number}  {title}" if section.number else title
