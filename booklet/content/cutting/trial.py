"""Before the first cut: how to try the trimmer, and what to do when a cut goes wrong."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from booklet.content.blocks import (
    Align,
    Arrangement,
    Block,
    Column,
    Heading,
    IfRoom,
    ItemList,
    Marker,
    Paragraph,
    Row,
    Section,
    Table,
    WritingLines,
)
from booklet.content.names import paper_name, piece_name, sheet_ref
from booklet.content.spans import Extent, Length, Line, Own, Role, SheetRef, line
from booklet.content.words.language import Language
from booklet.cutting.model import CutSheet
from booklet.kit.finding import SpecPath
from booklet.kit.kit import trimmer_limits
from booklet.measure.words import is_printable
from booklet.placing.resolved import ResolvedKit
from booklet.sorting.ledger import LedgerEntry
from booklet.sorting.remnants import Remnant, remnants, replacement

# The page is for help in need: of what can be cut again and of what is left over it lists the largest.
_MOST_REPLACED = 6
_MOST_LEFT = 8
# Fewer lines than these to note changes on are of no use.
_CHANGES = 4


def trimmer_section(kit: ResolvedKit, language: Language) -> Section:
    """How to find out how far one's trimmer is out, and a table to keep that in."""
    words = language.cutting
    steps = ItemList(words.trimmer_steps(_half_mark(kit)), Marker.NUMBER)
    table = IfRoom((WritingLines((), heads=words.trimmer_heads),))
    return Section(
        "trimmer",
        words.trimmer,
        (steps, table),
        Arrangement.COMPACT,
        kicker=language.front.before_cutting,
        lead=words.trimmer_lead,
    )


def _half_mark(kit: ResolvedKit) -> Length | None:
    """Half a mark of the trimmer's scale; None where no ruler shows it."""
    half, unit = trimmer_limits(kit.kit).mark / 2, kit.kit.unit
    if not is_printable(half, unit):
        return None
    return Length(half, unit, Role.LIMIT, ("trimmer", "mark"), with_unit=True)


def rescue_section(kit: ResolvedKit, language: Language) -> Section:
    """What helps when a cut has gone wrong, and what can be replaced."""
    words, left = language.cutting, remnants(kit.kit, kit.sheets, kit.ledger)
    replaced = _replaced(kit, left)[:_MOST_REPLACED]
    advice = ItemList(
        words.advice(
            has_spare=any(_is_spare(*pair) for pair in replaced),
            has_scrap=not all(_is_spare(*pair) for pair in replaced),
        ),
        Marker.NONE,
    )
    return Section(
        "rescue",
        words.rescue,
        (
            advice,
            *_replaced_table(kit, replaced, language),
        ),
        Arrangement.COMPACT,
        kicker=language.front.before_cutting,
        lead=words.rescue_lead,
    )


def _replaced(kit: ResolvedKit, left: Sequence[Remnant]) -> list[tuple[LedgerEntry, Remnant]]:
    """The pieces that something left over replaces, one of each name, the largest first."""
    used = {entry.name: entry for entry in reversed(kit.ledger.entries) if entry.use is not None}
    found = ((entry, replacement(kit.kit, entry, left)) for entry in used.values())
    pairs = [(entry, remnant) for entry, remnant in found if remnant is not None]
    return sorted(pairs, key=lambda pair: (-pair[0].size.area, pair[0].name))


def _replaced_table(
    kit: ResolvedKit, replaced: Sequence[tuple[LedgerEntry, Remnant]], language: Language
) -> Iterator[Block]:
    """What replaces which piece, or that nothing does."""
    if not replaced:
        yield Paragraph(language.cutting.nothing_replaces)
        return
    piece, size, take = language.cutting.replaced_heads(kit.kit.unit)
    rows = tuple(
        Row(
            (
                line(piece_name(entry)),
                line(Extent(entry.size, kit.kit.unit, entry.where)),
                _taken(kit, entry, remnant, language),
            )
        )
        for entry, remnant in replaced
    )
    yield Heading(language.cutting.replaced)
    yield Table((Column(piece, share=2.0, is_strong=True), Column(size), Column(take, share=3.0)), rows)


def _taken(kit: ResolvedKit, entry: LedgerEntry, remnant: Remnant, language: Language) -> Line:
    if _is_spare(entry, remnant):
        return language.cutting.take_spare
    return language.cutting.cut_from(_spare(kit, remnant), _size(kit, remnant), _sheet(kit, remnant))


def _is_spare(entry: LedgerEntry, remnant: Remnant) -> bool:
    """Whether a remnant is such a piece itself; else the piece is cut from it."""
    return remnant.spare == entry.name


def left_over_section(kit: ResolvedKit, language: Language) -> Section | None:
    """What is left over, and room for what one changed; None where nothing is."""
    words = language.cutting
    left = remnants(kit.kit, kit.sheets, kit.ledger)[:_MOST_LEFT]
    if not left:
        return None
    return Section(
        "left-over",
        words.left_over,
        (_left_table(kit, left, language), IfRoom((WritingLines(words.changed, least=_CHANGES),))),
        Arrangement.COMPACT,
        kicker=words.rescue,
        lead=words.left_over_lead,
    )


def _left_table(kit: ResolvedKit, left: Sequence[Remnant], language: Language) -> Table:
    words = language.cutting
    sheet, paper, size, what = words.left_heads(kit.kit.unit)
    columns = (Column(sheet, Align.CENTRE), Column(paper, share=1.0), Column(size), Column(what))
    rows = tuple(
        Row(
            (
                line(number) if (number := _sheet(kit, remnant)) else words.in_box,
                line(paper_name(kit.kit, remnant.paper)),
                line(_size(kit, remnant)),
                words.left_piece(
                    _spare(kit, remnant),
                    language.basics.number(remnant.count, kit.kit.unit, _source(kit, remnant)),
                ),
            )
        )
        for remnant in left
    )
    return Table(columns, rows)


# What is left over, as spans.


def _left_of(kit: ResolvedKit, remnant: Remnant) -> CutSheet | None:
    """The sheet that it is left of; None where it came ready-cut."""
    return next((sheet for sheet in kit.sheets if sheet.number == remnant.number), None)


def _sheet(kit: ResolvedKit, remnant: Remnant) -> SheetRef | None:
    sheet = _left_of(kit, remnant)
    return sheet_ref(sheet) if sheet is not None else None


def _source(kit: ResolvedKit, remnant: Remnant) -> SpecPath:
    sheet = _left_of(kit, remnant)
    if sheet is not None:
        return ("sheets", sheet.index)
    return ("ready", next(at for at, ready in enumerate(kit.kit.ready) if ready.name == remnant.spare))


def _spare(kit: ResolvedKit, remnant: Remnant) -> Own | None:
    return Own(remnant.spare, _source(kit, remnant)) if remnant.spare else None


def _size(kit: ResolvedKit, remnant: Remnant) -> Extent:
    return Extent(remnant.size, kit.kit.unit, _source(kit, remnant))
