"""What each pocket holds: one table to tick off before a layout is begun."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from booklet.content.blocks import (
    Arrangement,
    Block,
    Column,
    IfRoom,
    Picture,
    Row,
    RowKind,
    Section,
    Table,
    Tick,
    WritingLines,
)
from booklet.content.figures import PocketFigure
from booklet.content.names import layout_name, piece_name
from booklet.content.piece_ids import ids_of
from booklet.content.sorting.filed import PocketGroup, pocket_groups, rows_of_layout
from booklet.content.spans import Extent, Line, Own, PieceRef, PocketRef, Weight, line
from booklet.content.ways import layout_anchor, pocket_anchor
from booklet.content.words.language import Language
from booklet.cutting.labels import label_letters
from booklet.kit.finding import SpecPath
from booklet.measure.dataclass import replace
from booklet.placing.resolved import ResolvedKit
from booklet.sorting.ledger import LedgerEntry


def pockets_section(resolved: ResolvedKit, tips: Mapping[str, str], language: Language) -> Section:
    """The contents of every pocket, by the spreads that it serves, with the bases that they need.

    `tips` are those of the kit that are told here, by the pocket that they are for.
    """
    words, unit = language.sorting, resolved.kit.unit
    columns = (Column(()), Column(words.piece, share=1.0), Column(language.basics.size_head(unit)))
    blocks: tuple[Block, ...] = (
        Table(columns, tuple(_rows(resolved, tips, language)), abreast=2),
        IfRoom((WritingLines(words.missing, words.missing_note),)),
    )
    return Section(
        "pockets",
        words.title,
        blocks,
        Arrangement.COMPACT,
        kicker=words.part,
        lead=words.lead,
        part=words.part,
    )


def _rows(resolved: ResolvedKit, tips: Mapping[str, str], language: Language) -> Iterator[Row]:
    told: set[str] = set()
    for group in pocket_groups(resolved):
        tip = None if group.pocket in told else tips.get(group.pocket)
        yield _title(resolved, group, tip, language)
        told.add(group.pocket)
        for alike in group.rows:
            yield _row(resolved, alike, language)


def pieces_of_layout(resolved: ResolvedKit, index: int, language: Language) -> tuple[Row, ...]:
    """The pieces that a layout takes, a row for those alike: a box to tick, what they are, their size."""
    return tuple(_row(resolved, alike, language) for alike in rows_of_layout(resolved, index))


def _title(resolved: ResolvedKit, group: PocketGroup, tip: str | None, language: Language) -> Row:
    kit, pocket = resolved.kit, group.pocket
    titles = [layout_name(kit, index, Weight.STRONG) for index in group.layouts]
    remark = (line(Own(tip, ("pocket_tips", pocket))),) if tip else ()
    said = language.sorting.pocket_title(titles)
    cells = (pocket_picture(pocket, language), said, *remark)
    return Row(cells, RowKind.GROUP, pocket_anchor(pocket))


def pocket_picture(pocket: str, language: Language) -> Picture:
    """A pocket of the sorter with its name."""
    return Picture(PocketFigure(pocket), language.sorting.pocket(PocketRef(pocket)))


def _row(resolved: ResolvedKit, alike: Sequence[LedgerEntry], language: Language) -> Row:
    size = Extent(alike[0].size, resolved.kit.unit, _size_source(resolved, alike[0]))
    return Row((Tick(ids_of(resolved, alike)), _piece(resolved, alike, language), line(size)))


def _labels(alike: Sequence[LedgerEntry]) -> list[PieceRef]:
    """The labels of pieces of one sheet, each once; those after the first by their letters."""
    labels = list(dict.fromkeys(entry.label for entry in alike if entry.label))
    refs = []
    for at, label in enumerate(labels):
        letters = label_letters(label)
        refs.append(PieceRef(letters if at and letters else label, label))
    return refs


def _piece(resolved: ResolvedKit, alike: Sequence[LedgerEntry], language: Language) -> Line:
    """Pieces by their labels and their name; what waits in the pile and what comes ready-cut says so.

    What scissors make of a piece its layout tells: it is filed whole.
    """
    first, words = alike[0], language.sorting
    unit = resolved.kit.unit
    count = language.basics.number(len(alike), unit, first.where) if len(alike) > 1 else None
    optional = first.use is not None and first.use.optional
    layout = layout_anchor(resolved.kit.layouts[first.use.layout_index].id) if first.use else ""
    return words.pieces(
        words.labels(_labels(alike)),
        replace(piece_name(first), leads_to=layout),
        count,
        is_optional=optional,
        is_in_pile=first.waits_in_pile,
    )


def _size_source(resolved: ResolvedKit, entry: LedgerEntry) -> SpecPath:
    """Where the spec states a piece's size; else where it is cut."""
    kind, index = entry.source
    if kind == "ready":
        return ("ready", index, "size")
    is_stated = entry.name in resolved.kit.sheets[index].sizes
    return ("sheets", index, "sizes", entry.name) if is_stated else entry.where
