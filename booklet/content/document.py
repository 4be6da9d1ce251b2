"""The whole booklet of a kit as a document, in the order in which it is read."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from booklet.content.assembly.section import layout_section, layout_sections
from booklet.content.blocks import ContentsEntry, Document, Heading, Paragraph, Section, Tone
from booklet.content.closing.pages import (
    back_cover_section,
    keepsake_section,
    notes_section,
)
from booklet.content.cutting.sheets import cut_sheets, sheet_section, sheet_sections
from booklet.content.cutting.signs import how_to_read_section
from booklet.content.cutting.trial import left_over_section, rescue_section, trimmer_section
from booklet.content.front.box import NO_LETTERS, box_section, runs_with_cuts
from booklet.content.front.cautions import care_section
from booklet.content.front.cover import front_cover_section
from booklet.content.front.tools import tools_section
from booklet.content.front.welcome import welcome_section
from booklet.content.kit_ways import kit_ways
from booklet.content.names import kit_name, month_name, sheet_ref
from booklet.content.sorting.planner import labels_section, planner_section
from booklet.content.sorting.pockets import pockets_section
from booklet.content.spans import Own, line
from booklet.content.ways import layout_anchor, sheet_anchor
from booklet.content.words.language import Language
from booklet.kit.spreads import assembly_order
from booklet.measure.dataclass import replace
from booklet.placing.resolved import ResolvedKit

# More layouts than these stand in the contents as one section.
_MOST_ENTRIES = 24
# A kit no larger than this needs no contents, and finds its pieces without a list of the pockets.
_FEW_LAYOUTS, _FEW_CUT_SHEETS, _FEW_PIECES = 2, 2, 12


def document(resolved: ResolvedKit, language: Language, letters: Mapping[str, str] = NO_LETTERS) -> Document:
    """Every section of the booklet in its order, each only where the kit has it.

    `letters` are those by which papers are told apart without colour, by the papers' names in the spec.
    """
    kit = resolved.kit
    make = _small_kit if _is_small(resolved) else _large_kit
    sections = make(resolved, letters, language)
    return Document(
        language.code,
        language.front.title_and_month(kit_name(kit), month_name(kit)),
        line(Own(kit.publisher, ("publisher",))),
        language.front.subject,
        (front_cover_section(resolved, language), *sections),
        (keepsake_section(kit, language), notes_section(language)),
        back_cover_section(kit, language),
        language.furniture,
        kit_ways(resolved),
    )


def section_again(resolved: ResolvedKit, anchor: str, language: Language) -> Section | None:
    """The section of a sheet or a layout by its anchor, as it stands in the booklet; None for any other.

    None also in a small kit, whose layouts tell what has its own page in others.
    """
    if _is_small(resolved):
        return None
    sheets = {sheet_anchor(sheet.sheet.id): sheet for sheet in cut_sheets(resolved)}
    if anchor in sheets:
        return sheet_section(resolved, sheets[anchor], language)
    layouts = {layout_anchor(layout.id): index for index, layout in enumerate(resolved.kit.layouts)}
    return layout_section(resolved, layouts[anchor], language) if anchor in layouts else None


def _is_small(resolved: ResolvedKit) -> bool:
    """Whether a kit is so small that its pages are few: two layouts, two sheets to cut, a dozen pieces."""
    pieces = sum(1 for entry in resolved.ledger.entries if entry.pocket is not None)
    few_sheets = len(cut_sheets(resolved)) <= _FEW_CUT_SHEETS
    return len(resolved.kit.layouts) <= _FEW_LAYOUTS and few_sheets and pieces <= _FEW_PIECES


def _large_kit(resolved: ResolvedKit, letters: Mapping[str, str], language: Language) -> tuple[Section, ...]:
    """Each part as a section of its own, and contents to find it by."""
    kit = resolved.kit
    before = (*_before_cutting(resolved, letters, language), *_at_the_trimmer(resolved, language))
    left_over = left_over_section(resolved, language)
    optional = [replace(left_over, is_optional=True)] if left_over else []
    sorting = tuple(_sorting(resolved, kit.pocket_tips, language))
    layouts = layout_sections(resolved, language)
    parts = (
        *(_entry(section) for section in (*before, *optional)),
        *_cutting_entries(resolved, language),
        *(_entry(section) for section in sorting),
    )
    contents = (parts, _layout_entries(layouts, language))
    welcome = welcome_section(kit, runs_with_cuts(resolved), contents, language)
    return (
        welcome,
        *before,
        *optional,
        *sheet_sections(resolved, language),
        *sorting,
        *layouts,
    )


def _small_kit(resolved: ResolvedKit, letters: Mapping[str, str], language: Language) -> tuple[Section, ...]:
    """What stands before cutting as one section; the slips and the steps tell what is in which pocket."""
    welcome = welcome_section(resolved.kit, runs_with_cuts(resolved), (), language)
    return (
        _folded(welcome, _before_cutting(resolved, letters, language)),
        *_optional(_at_the_trimmer(resolved, language)),
        *sheet_sections(resolved, language),
        *_optional(_sorting(resolved, {}, language)),
        *_with_pocket_tips(resolved, language),
    )


def _before_cutting(
    resolved: ResolvedKit, letters: Mapping[str, str], language: Language
) -> tuple[Section, ...]:
    """What every kit's booklet tells before its first cut."""
    return (
        box_section(resolved, language, letters),
        tools_section(resolved, language),
        care_section(resolved.kit, language),
        how_to_read_section(resolved, language),
    )


def _optional(sections: Iterable[Section]) -> Iterator[Section]:
    return (replace(section, is_optional=True) for section in sections)


def _with_pocket_tips(resolved: ResolvedKit, language: Language) -> Iterator[Section]:
    """The layouts; the first one of a pocket has its tip."""
    kit, told = resolved.kit, set[str]()
    for index, section in zip(assembly_order(kit), layout_sections(resolved, language), strict=True):
        pocket = kit.layouts[index].pocket
        if pocket in kit.pocket_tips and pocket not in told:
            tip = line(Own(kit.pocket_tips[pocket], ("pocket_tips", pocket)))
            yield replace(section, blocks=(Paragraph(tip, Tone.TIP), *section.blocks))
        else:
            yield section
        told.add(pocket)


def _folded(first: Section, others: Sequence[Section]) -> Section:
    """Sections as one, all but the first under a heading, unless they begin with one themselves."""
    blocks = list(first.blocks)
    for section in others:
        if not isinstance(section.blocks[0], Heading):
            blocks.append(Heading(section.title, section.anchor))
        if section.lead:
            blocks.append(Paragraph(section.lead))
        blocks += section.blocks
    return replace(first, blocks=tuple(blocks))


def _at_the_trimmer(resolved: ResolvedKit, language: Language) -> tuple[Section, ...]:
    """How to try the trimmer, and what to do when a cut goes wrong; nothing for a kit without cuts."""
    if not cut_sheets(resolved):
        return ()
    return (trimmer_section(resolved, language), rescue_section(resolved, language))


def _sorting(resolved: ResolvedKit, tips: Mapping[str, str], language: Language) -> Iterator[Section]:
    """What each pocket holds, and what is made ready before the first layout; nothing without layouts."""
    if resolved.kit.layouts:
        yield pockets_section(resolved, tips, language)
        yield from _optional(_beside_first_layout(resolved, language))


def _beside_first_layout(resolved: ResolvedKit, language: Language) -> Iterator[Section]:
    """What is made ready before the first layout: labels to cut out, the planner last, to lie open."""
    yield labels_section(resolved, language)
    planner = planner_section(resolved, language)
    if planner:
        yield planner


def _entry(section: Section) -> ContentsEntry:
    return ContentsEntry(section.title, section.anchor)


def _cutting_entries(resolved: ResolvedKit, language: Language) -> Iterator[ContentsEntry]:
    """The sheets that are cut, and those that are cut apart, each under the first of them."""
    for is_cut_apart, said in ((False, language.front.cutting), (True, language.front.cutting_apart)):
        sheets = [sheet for sheet in cut_sheets(resolved) if sheet.sheet.is_cut_apart is is_cut_apart]
        if sheets:
            refs = language.front.sheets([sheet_ref(sheet) for sheet in sheets])
            yield ContentsEntry(said(refs), sheet_anchor(sheets[0].sheet.id))


def _layout_entries(sections: Sequence[Section], language: Language) -> tuple[ContentsEntry, ...]:
    """Each layout by its title; very many of them as one part."""
    if len(sections) > _MOST_ENTRIES:
        return tuple(ContentsEntry(language.front.layouts, section.anchor) for section in sections[:1])
    return tuple(_entry(section) for section in sections)
