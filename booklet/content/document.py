"""The whole booklet of a kit as a document, in the order in which it is read."""

from __future__ import annotations

from collections.abc import Sequence
from importlib import import_module

from booklet.content.blocks import ContentsEntry, Document, Section
from booklet.content.closing.pages import (
    back_cover_section,
    keepsake_section,
    notes_section,
)
from booklet.content.cutting.sheets import cut_sheets, sheet_anchor, sheet_sections
from booklet.content.cutting.signs import how_to_read_section
from booklet.content.cutting.trial import rescue_section, trimmer_section
from booklet.content.front.box import box_section, has_pile
from booklet.content.front.cover import front_cover_section
from booklet.content.front.tools import tools_section
from booklet.content.front.welcome import welcome_section
from booklet.content.names import kit_name, month_name, sheet_ref
from booklet.content.sorting.planner import labels_section, planner_section
from booklet.content.sorting.pockets import pockets_section
from booklet.content.spans import Own, line
from booklet.content.words.language import Language
from booklet.placing.resolved import ResolvedKit

# More layouts than these stand in the contents as one section.
_MOST_TITLES = 24


def document(resolved: ResolvedKit, language: Language) -> Document:
    """Every section of the booklet in its order, each only where the kit has it."""
    kit = resolved.kit
    before = (box_section(resolved, language), tools_section(resolved, language))
    reading = _reading(resolved, language)
    cutting = sheet_sections(resolved, language)
    pockets = pockets_section(resolved, language)
    layouts = _layouts(resolved, language)
    contents = (
        (
            *(_entry(section) for section in (*before, *reading)),
            *_cutting_entries(resolved, cutting, language),
            _entry(pockets),
        ),
        _layout_entries(resolved, layouts, language),
    )
    month = month_name(kit)
    return Document(
        language.code,
        language.front.title_and_month(kit_name(kit), month),
        line(Own(kit.publisher, ("publisher",))),
        language.front.subject,
        (
            front_cover_section(resolved, language),
            welcome_section(kit, has_pile(kit), contents, language),
            *before,
            *reading,
            *cutting,
            pockets,
            *layouts,
        ),
        _fillers(resolved, language),
        back_cover_section(kit, language),
        language.furniture,
    )


def _reading(resolved: ResolvedKit, language: Language) -> tuple[Section, ...]:
    """How to read the pages; where the kit has cuts, how to try the trimmer and to mend a cut as well."""
    reading = how_to_read_section(resolved, language)
    if not cut_sheets(resolved):
        return (reading,)
    return (reading, trimmer_section(resolved, language), rescue_section(resolved, language))


def _layouts(resolved: ResolvedKit, language: Language) -> tuple[Section, ...]:
    try:
        make = import_module("booklet.content.assembly.layouts").layout_sections
    except (ImportError, AttributeError):
        return ()
    sections: tuple[Section, ...] = make(resolved, language)
    return sections


def _entry(section: Section) -> ContentsEntry:
    return ContentsEntry(section.title, section.anchor)


def _cutting_entries(
    resolved: ResolvedKit, sections: Sequence[Section], language: Language
) -> tuple[ContentsEntry, ...]:
    """The sheets that are cut, and those that are cut apart, each under the first of them."""
    anchors = {section.anchor for section in sections}
    entries = []
    for is_cut_apart, said in ((False, language.front.cutting), (True, language.front.cutting_apart)):
        sheets = [sheet for sheet in cut_sheets(resolved) if sheet.sheet.is_cut_apart is is_cut_apart]
        sheets = [sheet for sheet in sheets if sheet_anchor(sheet) in anchors]
        if sheets:
            refs = language.front.sheets([sheet_ref(sheet) for sheet in sheets])
            entries.append(ContentsEntry(said(refs), sheet_anchor(sheets[0])))
    return tuple(entries)


def _layout_entries(
    resolved: ResolvedKit, sections: Sequence[Section], language: Language
) -> tuple[ContentsEntry, ...]:
    """Each layout by its title; very many of them as one part."""
    if len(resolved.kit.layouts) > _MOST_TITLES:
        return tuple(ContentsEntry(language.front.layouts, section.anchor) for section in sections[:1])
    return tuple(_entry(section) for section in sections)


def _fillers(resolved: ResolvedKit, language: Language) -> tuple[Section, ...]:
    """What fills gaps, the most useful first; notes fill all that are left."""
    planner = planner_section(resolved, language)
    return (
        *((planner,) if planner else ()),
        labels_section(resolved, language),
        keepsake_section(resolved.kit, language),
        notes_section(language),
    )
