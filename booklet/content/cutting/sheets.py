"""The sheets at the trimmer: a section for each sheet that is cut, in the order in which they are cut."""

from __future__ import annotations

from collections.abc import Iterator

from booklet.content.blocks import (
    Arrangement,
    Beside,
    Block,
    Card,
    Cards,
    CardStyle,
    CutStage,
    Heading,
    IfRoom,
    Lens,
    PaperEdge,
    Paragraph,
    Picture,
    Section,
    Tone,
)
from booklet.content.cutting.by_hand import tools_of, work_slip
from booklet.content.cutting.labels import lettered
from booklet.content.cutting.lay import sheet_lay, take_of, way_after
from booklet.content.cutting.lens import near_cuts
from booklet.content.cutting.pieces import by_name, cut_piece_name, piece_refs, sheet_extent, strip_width
from booklet.content.cutting.records import SheetYield
from booklet.content.cutting.slip import cut_slip, reading_of
from booklet.content.figures import CutFigure, LensFigure, PieceMap, TrimmerFigure
from booklet.content.front.cover import finished_picture
from booklet.content.names import layout_name, sheet_name
from booklet.content.spans import Line, Number, Own, line
from booklet.content.ways import sheet_anchor, stage_anchor
from booklet.content.words.language import Language
from booklet.cutting.model import CutSheet, Fate, Piece, Stage, sheet_work
from booklet.kit.finding import SpecPath
from booklet.kit.spreads import assembly_order
from booklet.measure.exact import Fraction
from booklet.placing.resolved import ResolvedKit

# A sheet that gives more names than this gives too many for a line: its pieces are counted together.
_MOST_NAMES = 6
# More finished pages than these have no room under a sheet's cuts.
_MOST_PAGES = 4
# Turned oftener than this, a piece is not seen in its place on the sheet in any figure.
_SEEN_TURNS = 1


def cut_sheets(kit: ResolvedKit) -> tuple[CutSheet, ...]:
    """The sheets that are cut, in cutting order: those cut to measure, then the cut-aparts."""
    chosen = [sheet for sheet in kit.sheets if sheet.stages]
    return tuple(sorted(chosen, key=lambda sheet: sheet.number))


def sheet_sections(kit: ResolvedKit, language: Language) -> tuple[Section, ...]:
    """A section for each sheet that is cut; the first of each kind begins a part of the booklet."""
    return tuple(sheet_section(kit, sheet, language) for sheet in cut_sheets(kit))


def sheet_section(kit: ResolvedKit, sheet: CutSheet, language: Language) -> Section:
    """The section of a sheet that is cut; the first of its kind begins a part."""
    is_apart = sheet.sheet.is_cut_apart
    first = next(other for other in cut_sheets(kit) if other.sheet.is_cut_apart is is_apart)
    part = language.cutting.part(is_cut_apart=is_apart) if first.index == sheet.index else ()
    title = line(sheet_name(kit.kit, sheet.index))
    return Section(
        sheet_anchor(sheet.sheet.id),
        title,
        (
            _how_it_lies(kit, sheet, language),
            *_stages(kit, sheet, language),
            *_map(sheet, language),
            *_met_again(kit, sheet, language),
        ),
        Arrangement.OPENING,
        lead=language.cutting.sheet_gives(sheet_yield(kit, sheet, language)),
        number=str(sheet.number),
        edge=PaperEdge(sheet.index, str(sheet.number)),
        part=part,
    )


# What the sheet gives.


def sheet_yield(kit: ResolvedKit, sheet: CutSheet, language: Language) -> SheetYield:
    """What a sheet gives, name by name in the order of the letters; of many names the pieces alone."""
    where: SpecPath = ("sheets", sheet.index)
    pieces = _useful(sheet)
    names = by_name(pieces)
    spare = sum(piece.fate is Fate.SPARE for piece in pieces)
    told = names if len(names) <= _MOST_NAMES else ()

    def number(count: int, source: SpecPath = where) -> Number:
        return language.basics.number(count, kit.kit.unit, source)

    return SheetYield(
        number(len(sheet.whole), (*where, "count")),
        sheet_extent(kit.kit, sheet),
        tuple((number(len(alike)), cut_piece_name(sheet, alike[0])) for alike in told),
        number(len(pieces)),
        language.basics.few(spare, (*where, "spare")) if spare else None,
        bool(sheet.scrap),
        sheet.sheet.is_cut_apart,
    )


def _useful(sheet: CutSheet) -> list[Piece]:
    useful = [piece for piece in sheet.pieces if piece.is_useful]
    return sorted(useful, key=lambda piece: (len(piece.label), piece.label))


# How it lies.


def _how_it_lies(kit: ResolvedKit, sheet: CutSheet, language: Language) -> Block:
    words, work = language.cutting, sheet_work(sheet)
    lay = sheet_lay(kit, sheet)

    def number(count: int) -> Number:
        return language.basics.number(count, kit.kit.unit, ("sheets", sheet.index, "cuts"))

    picture = Picture(TrimmerFigure(sheet.index), words.lay_alt(lay))
    done = words.work(number(work.cuts), number(work.turns), on_marks=sheet.sheet.is_cut_apart)
    if tools := tools_of([sheet]):
        done = line(done, " ", words.have_ready(language.assembly.tool_names(tools)))
    blocks: list[Block] = [
        Paragraph(line(words.lay_sentence(lay), " ", done)),
    ]
    if sheet.sheet.tip:
        blocks.append(Paragraph(line(Own(sheet.sheet.tip, ("sheets", sheet.index, "tip"))), Tone.TIP))
    return Beside(picture, tuple(blocks))


# Its stages.


def _stages(kit: ResolvedKit, sheet: CutSheet, language: Language) -> Iterator[CutStage]:
    shown: set[Fraction] = set()
    for stage in sheet.stages:
        near = near_cuts(stage, kit.kit.unit, shown)
        shown.update(cut.reading for cut in near)
        tips = (line(Own(stage.tip, (*stage.where, "tip"))),) if stage.tip else ()
        yield CutStage(
            stage_anchor(sheet.sheet.id, stage.number),
            _heading(kit, sheet, stage, language),
            stage.turn,
            tips,
            Picture(CutFigure(sheet.index, stage.number), _alt(kit, sheet, stage, language)),
            cut_slip(kit, sheet, stage, language),
            _lens(kit, sheet, stage, tuple(cut.number for cut in near), language),
            work_slip(kit, sheet, stage, language),
        )


def _heading(kit: ResolvedKit, sheet: CutSheet, stage: Stage, language: Language) -> Line:
    """What is taken and turned, and which way the print then lies; nothing where the sheet lies there."""
    take, way = take_of(sheet, stage), way_after(kit, sheet, stage)
    said = language.cutting.take(take)
    return language.cutting.now_lies(said, way) if way else said


def _alt(kit: ResolvedKit, sheet: CutSheet, stage: Stage, language: Language) -> Line:
    """What the figure of a stage shows, from the stop outwards."""
    strips = []
    for strip in stage.strips:
        width = strip_width(kit, sheet, strip, stage.where, with_unit=True)
        strips.append(language.cutting.strip_alt(piece_refs(lettered(strip)), width))
    return language.cutting.stage_alt(strips)


def _lens(
    kit: ResolvedKit, sheet: CutSheet, stage: Stage, near: tuple[int, ...], language: Language
) -> Lens | None:
    if not near:
        return None
    readings = [reading_of(kit, cut) for cut in stage.cuts if cut.number in near]
    picture = Picture(LensFigure(sheet.index, stage.number, near), language.cutting.lens_alt(readings))
    return Lens(picture, language.cutting.lens_title, language.cutting.lens_text)


# What may follow.


def _map(sheet: CutSheet, language: Language) -> Iterator[Block]:
    """Where each piece lay, on a sheet whose pieces are turned oftener than the figures show."""
    if _most_turns(sheet) <= _SEEN_TURNS:
        return
    picture = Picture(PieceMap(sheet.index), language.cutting.map_alt)
    yield IfRoom((Heading(language.cutting.map_title), picture))


def _most_turns(sheet: CutSheet) -> int:
    """The most turns that a piece of the sheet has been given on its way."""
    turns: dict[object, int] = {}
    for stage in sheet.stages:
        for strip in stage.strips:
            for taken, piece in zip(stage.taken, strip.pieces, strict=True):
                turns[piece.key] = turns.get(taken.key, 0) + (stage.turn is not None)
    return max(turns.values(), default=0)


def _met_again(kit: ResolvedKit, sheet: CutSheet, language: Language) -> Iterator[Block]:
    """The finished pages that take pieces of the sheet, in order of assembly; none if they are many."""
    by_layout: dict[int, list[Piece]] = {}
    for piece in _useful(sheet):
        entry = kit.ledger.of_piece(piece)
        if entry is not None and entry.use is not None:
            by_layout.setdefault(entry.use.layout_index, []).append(piece)
    if not 0 < len(by_layout) <= _MOST_PAGES:
        return
    order = [index for index in assembly_order(kit.kit) if index in by_layout]
    cards = tuple(_card(kit, sheet, index, by_layout[index], language) for index in order)
    yield IfRoom((Heading(language.cutting.met_again), Cards(cards, CardStyle.BESIDE, columns=2)))


def _card(kit: ResolvedKit, sheet: CutSheet, index: int, pieces: list[Piece], language: Language) -> Card:
    title = layout_name(kit.kit, index)
    given = [(cut_piece_name(sheet, alike[0]), piece_refs(alike)) for alike in by_name(pieces)]
    lines = (line(title), language.cutting.pieces_of(given))
    return Card(finished_picture(kit.kit, (index,), language), lines)
