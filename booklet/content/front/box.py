"""The box and the pile: every sheet in the order in which it is cut, and what comes ready-cut."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from types import MappingProxyType

from booklet.content.blocks import (
    Arrangement,
    Block,
    Card,
    Cards,
    CardStyle,
    Heading,
    Legend,
    Paragraph,
    Picture,
    Section,
    Tone,
)
from booklet.content.cutting.lay import sheet_lay
from booklet.content.cutting.pieces import sheet_extent
from booklet.content.figures import PileFigure, ReadySwatch
from booklet.content.names import layout_name, ready_name, sheet_name, sheet_ref
from booklet.content.spans import Extent, Length, Line, Own, Role, Weight, line
from booklet.content.words.language import Language
from booklet.cutting.model import CutSheet
from booklet.kit.kit import Kit
from booklet.kit.sheet import OutlineShape
from booklet.measure.length import Size
from booklet.placing.resolved import ResolvedKit
from booklet.sorting.pile import pile

# Papers that are told apart by their colours need none.
NO_LETTERS: Mapping[str, str] = MappingProxyType({})
# A higher pile is drawn in parts.
_MOST_SHEETS = 16


def has_pile(kit: Kit) -> bool:
    """Whether there is more than one sheet to stack."""
    return sum(sheet.count for sheet in kit.sheets) > 1


def runs_with_cuts(resolved: ResolvedKit) -> bool:
    """Whether there is a pile from whose top the sheets are taken in the order of the cutting pages."""
    sheets = pile(resolved.kit, resolved.sheets, resolved.ledger)
    cut = [sheet.number for sheet in sheets if sheet.stages]
    return has_pile(resolved.kit) and bool(cut) and cut == sorted(cut)


def box_section(
    resolved: ResolvedKit, language: Language, letters: Mapping[str, str] = NO_LETTERS
) -> Section:
    """The pile from the top down, its order and why, tips for what is not cut, and the ready-cut pieces.

    Papers that bear a letter have it in each list, and a line says what letters are for.
    """
    kit, words = resolved.kit, language.front
    sheets = pile(kit, resolved.sheets, resolved.ledger)
    title = words.box_and_pile if has_pile(kit) else words.box
    count = language.basics.number(sum(sheet.sheet.count for sheet in sheets), kit.unit, ("sheets",))
    blocks = (
        *_order(resolved, sheets, language),
        *(_legend(resolved, sheets[at : at + _MOST_SHEETS], letters, language) for at in _starts(sheets)),
        *_letters(kit, letters, language),
        *_tips(kit, sheets, language),
        *_ready_cut(kit, letters, language),
    )
    return Section(
        "box",
        title,
        blocks,
        Arrangement.COMPACT,
        kicker=words.before_cutting,
        lead=words.sheet_count(count, _common_size(kit, sheets)),
        part=words.before_cutting,
    )


def _starts(sheets: Sequence[CutSheet]) -> range:
    return range(0, len(sheets), _MOST_SHEETS)


# The pile.


def _order(resolved: ResolvedKit, sheets: Sequence[CutSheet], language: Language) -> Iterator[Block]:
    """How the sheets are stacked and why; which of them stay whole, where they lie below all others."""
    if not has_pile(resolved.kit):
        return
    words = language.front
    said = words.stack_first
    if runs_with_cuts(resolved):
        said = line(said, " ", words.cut_from_top)
    whole = [sheet for sheet in sheets if not sheet.stages]
    bases = _base_of(resolved, whole[0]) if whole else []
    if bases and list(sheets[-len(whole) :]) == whole and len(whole) < len(sheets):
        by_number = sorted(whole, key=lambda sheet: sheet.number)
        refs = [sheet_ref(sheet) for sheet in by_number]
        said = line(said, " ", words.whole_below(refs, bases[0]))
    yield Paragraph(said)


def _letters(kit: Kit, letters: Mapping[str, str], language: Language) -> Iterator[Block]:
    """What letters on papers are for, and which paper bears which."""
    if letters:
        named = tuple(
            (letter, Own(kit.papers[paper].title or paper, ("papers", paper)))
            for paper, letter in sorted(letters.items(), key=lambda one: one[1])
        )
        yield Paragraph(language.front.paper_letters(named), Tone.NOTE)


def _legend(
    resolved: ResolvedKit, sheets: Sequence[CutSheet], letters: Mapping[str, str], language: Language
) -> Legend:
    refs = [sheet_ref(sheet) for sheet in sheets]
    figure = PileFigure(tuple(sheet.index for sheet in sheets))
    entries = tuple(_entry(resolved, sheet, letters, language) for sheet in sheets)
    return Legend(Picture(figure, language.front.pile(refs)), entries)


def _entry(resolved: ResolvedKit, sheet: CutSheet, letters: Mapping[str, str], language: Language) -> Line:
    kit, words = resolved.kit, language.front
    count, source = sheet.sheet.count, ("sheets", sheet.index, "count")
    size = None if _common_size(kit, resolved.sheets) else sheet_extent(kit, sheet)
    face = line(language.cutting.face_up(sheet_lay(resolved, sheet))) if sheet.stages else words.whole
    entry = words.sheet_entry(
        sheet_ref(sheet),
        sheet_name(kit, sheet.index, Weight.STRONG),
        language.basics.few(count, source) if count > 1 else None,
        size,
        face,
    )
    letter = letters.get(sheet.sheet.paper)
    return words.with_letter(entry, letter) if letter else entry


def _base_of(resolved: ResolvedKit, sheet: CutSheet) -> list[Own]:
    """The layouts whose base a whole sheet is, in the order of assembly as far as the spec has it."""
    entries = (resolved.ledger.of_piece(piece) for piece in sheet.whole)
    uses = (entry.use for entry in entries if entry is not None and entry.use is not None)
    indexes = dict.fromkeys(use.layout_index for use in uses if use.step is None)
    return [layout_name(resolved.kit, index) for index in indexes]


def _common_size(kit: Kit, sheets: Sequence[CutSheet]) -> Extent | None:
    """The size of all sheets, None where they differ."""
    sizes = {sheet.size for sheet in sheets}
    return Extent(kit.sheet, kit.unit, ("sheet",), with_unit=True) if sizes == {kit.sheet} else None


def _tips(kit: Kit, sheets: Sequence[CutSheet], language: Language) -> Iterator[Block]:
    """The tips of sheets that have no page of their own."""
    for sheet in sheets:
        if sheet.sheet.tip and not sheet.stages:
            tip = Own(sheet.sheet.tip, ("sheets", sheet.index, "tip"))
            said = language.front.sheet_tip(sheet_ref(sheet), sheet_name(kit, sheet.index), tip)
            yield Paragraph(said, Tone.TIP)


# What comes ready-cut.


def _ready_cut(kit: Kit, letters: Mapping[str, str], language: Language) -> Iterator[Block]:
    if kit.ready:
        yield Heading(language.front.ready_cut)
        cards = tuple(_ready_card(kit, index, letters, language) for index in range(len(kit.ready)))
        yield Cards(cards, CardStyle.BESIDE, columns=2)


def _ready_card(kit: Kit, index: int, letters: Mapping[str, str], language: Language) -> Card:
    ready, words = kit.ready[index], language.front
    name = ready_name(kit, index)
    spare = language.basics.few(ready.spare, ("ready", index, "spare")) if ready.spare else None
    count = words.ready_count(language.basics.number(ready.count, kit.unit, ("ready", index, "count")), spare)
    tip = (line(Own(ready.tip, ("ready", index, "tip"))),) if ready.tip else ()
    size = _outer_size(kit, ready.size, ready.outline, index, language)
    letter = letters.get(ready.paper)
    said = words.with_letter(line(name), letter) if letter else line(name)
    return Card(Picture(ReadySwatch(index), words.ready_piece(name)), (said, size, count, *tip))


def _outer_size(kit: Kit, size: Size, outline: OutlineShape, index: int, language: Language) -> Line:
    source = ("ready", index, "size")
    if outline is OutlineShape.CIRCLE and size.width == size.height:
        return language.basics.across(Length(size.width, kit.unit, Role.SIZE, source, with_unit=True))
    return line(Extent(size, kit.unit, source, with_unit=True))
