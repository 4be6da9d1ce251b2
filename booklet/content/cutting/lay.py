"""How a sheet lies in the trimmer, how its print lies after a turn, and what is taken for a stage."""

from __future__ import annotations

from booklet.content.cutting.passes import passes
from booklet.content.cutting.pieces import piece_refs
from booklet.content.cutting.records import (
    AlongScale,
    FaceUp,
    NamedEdge,
    PrintWay,
    SheetLay,
    Take,
    TakenFrom,
)
from booklet.content.spans import Own
from booklet.cutting.model import CutSheet, Piece, Stage
from booklet.cutting.orientation import Orientation
from booklet.kit.fields import Edge, Face
from booklet.kit.kit import trimmer_limits
from booklet.kit.paper import Paper, Pattern, Print
from booklet.measure.length import Size
from booklet.placing.resolved import ResolvedKit
from booklet.sorting.remnants import shows_border

# Patterns that show by themselves which way they lie, to whoever has only the paper in hand.
_TELLING = {Pattern.STRIPES, Pattern.WAVES, Pattern.LEAVES, Pattern.SCALLOPS}


def sheet_lay(kit: ResolvedKit, sheet: CutSheet) -> SheetLay:
    """How the sheet is first laid: which face up, which edge where."""
    paper, stop = kit.kit.papers[sheet.sheet.paper], trimmer_limits(kit.kit).zero
    up = paper.face(sheet.sheet.lay.face)
    return SheetLay(len(sheet.whole), _face_up(paper, sheet), up.pattern, _edge(kit, paper, sheet), stop)


def _face_up(paper: Paper, sheet: CutSheet) -> FaceUp:
    front, back, up = paper.front, paper.back, sheet.sheet.lay.face
    if sheet.sheet.is_cut_apart or (not _is_plain(front) and _is_plain(back)):
        return FaceUp.PRINT_UP if up is Face.FRONT else FaceUp.PRINT_DOWN
    if _is_plain(front) and _is_plain(back) and front.colours == back.colours:
        return FaceUp.EITHER
    seen, hidden = (front, back) if up is Face.FRONT else (back, front)
    if (_look(seen), seen.pattern) != (_look(hidden), hidden.pattern):
        return _look(seen)
    return FaceUp.FRONT if up is Face.FRONT else FaceUp.BACK


def _is_plain(face: Print) -> bool:
    return face.pattern is Pattern.SOLID and not face.image and not face.borders


def _look(face: Print) -> FaceUp:
    """What a face is known by."""
    if face.image:
        return FaceUp.PICTURE
    if face.pattern is Pattern.SOLID:
        return FaceUp.BORDER if face.borders else FaceUp.PLAIN
    return FaceUp.PATTERN


def _edge(kit: ResolvedKit, paper: Paper, sheet: CutSheet) -> tuple[NamedEdge, ...] | PrintWay | AlongScale:
    own = {word: edge for edge, word in paper.edges.items()}
    named = tuple(
        NamedEdge(Own(word, ("papers", sheet.sheet.paper, "edges", own[word].value)), place)
        for place, word in sheet.sheet.lay.said.items()
        if word in own
    )
    if named:
        return named
    whole = sheet.whole[0]
    way = print_way(kit, sheet, whole, whole.lying)
    if way is not None:
        return way
    if paper.has_direction or sheet.sheet.is_cut_apart:
        return PrintWay(whole.lying.seen_at(Edge.TOP), is_beneath=True)
    return _along_scale(sheet.stages[0].seen if sheet.stages else sheet.size)


def _along_scale(seen: Size) -> AlongScale:
    if seen.width == seen.height:
        return AlongScale.ANY
    return AlongScale.LONG if seen.width > seen.height else AlongScale.SHORT


def print_way(kit: ResolvedKit, sheet: CutSheet, piece: Piece, lying: Orientation) -> PrintWay | None:
    """Which way the print of a piece lies; None where the face that is up does not show it on this piece."""
    face = kit.kit.papers[sheet.sheet.paper].face(lying.face)
    top = lying.seen_at(Edge.TOP)
    if sheet.sheet.is_cut_apart and lying.face is Face.FRONT:
        return PrintWay(top)
    has_border = shows_border(face, lying.face, piece.part, sheet.size)
    directed = face.has_direction if face.upright is not None or face.image else _is_directed(face)
    if not (directed or has_border):
        return None
    tells = face.pattern in _TELLING and not face.image and not has_border
    return PrintWay(top, face.pattern if tells else None)


def _is_directed(face: Print) -> bool:
    """Whether the pattern alone, without its borders, shows a turn."""
    return Print(pattern=face.pattern, colours=face.colours).has_direction


def way_after(kit: ResolvedKit, sheet: CutSheet, stage: Stage) -> PrintWay | None:
    """Which way the print lies once the pieces of a stage are turned; None where there is none."""
    return print_way(kit, sheet, stage.taken[0], stage.lying) if stage.turn else None


def take_of(sheet: CutSheet, stage: Stage) -> Take:
    """What is taken for a stage, and where from."""
    pieces = piece_refs(stage.taken)
    if stage.taken[0] in sheet.whole:
        return Take(pieces, TakenFrom.WHOLE, is_stacked=False, turn=stage.turn)
    *_, last = passes(sheet.stages[stage.number - 2])
    is_in_trimmer = last.stays and not any(work.after == stage.number - 1 for work in sheet.works)
    stays = {piece.key for piece in last.stays.pieces} if last.stays and is_in_trimmer else set()
    made = [{piece.key for piece in strip.pieces} for one in sheet.stages for strip in one.strips]
    taken = {piece.key for piece in stage.taken}
    taken_from = TakenFrom.IN_TRIMMER if taken <= stays else TakenFrom.SET_ASIDE
    is_stacked = len(pieces) > 1 and not any(taken <= strip for strip in made)
    return Take(pieces, taken_from, is_stacked, stage.turn)
