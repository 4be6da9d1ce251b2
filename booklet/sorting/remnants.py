"""What a kit leaves over, and which piece could be cut from it again.

Left over are scrap and pieces that no layout takes.  A piece cut again from the same paper looks as before.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence

from booklet.cutting.model import CutSheet
from booklet.kit.fields import Edge, Face
from booklet.kit.kit import Kit, sheet_size
from booklet.kit.paper import Print
from booklet.kit.sheet import OutlineShape
from booklet.measure.dataclass import dataclass, replace
from booklet.measure.geometry import ExactRect
from booklet.measure.length import Size
from booklet.sorting.ledger import Ledger, LedgerEntry


@dataclass(frozen=True)
class Remnant:
    """Something left over: of which paper, how large on its front, from which sheet (None: ready-cut).

    `spare` is the name of a piece that no layout takes, None for scrap; such a piece may be too good to cut,
    as a printed element is.  `count` is how many alike there are.
    """

    paper: str
    size: Size
    number: int | None
    spare: str | None
    can_be_cut: bool = True
    count: int = 1


def remnants(
    kit: Kit, sheets: Sequence[CutSheet], ledger: Ledger, spoiled: Sequence[LedgerEntry] = ()
) -> tuple[Remnant, ...]:
    """All that is left over, less what is spoiled, the largest first."""
    numbers = {sheet.index: sheet.number for sheet in sheets}
    found = [
        Remnant(sheet.sheet.paper, piece.part.size, sheet.number, None)
        for sheet in sheets
        for piece in sheet.scrap
    ]
    for entry in ledger.entries:
        if entry.use is None and not any(entry is one for one in spoiled):
            number = numbers[entry.piece.sheet_index] if entry.piece else None
            size = entry.piece.part.size if entry.piece else entry.size
            may_cut = can_be_recut(kit, entry)
            found.append(Remnant(paper_of(kit, entry), size, number, entry.name, may_cut))
    alike = Counter(found)
    largest = sorted(alike, key=lambda one: -one.size.area)
    return tuple(replace(remnant, count=alike[remnant]) for remnant in largest)


def paper_of(kit: Kit, entry: LedgerEntry) -> str:
    """The paper that a piece is of."""
    kind, index = entry.source
    return kit.sheets[index].paper if kind == "sheets" else kit.ready[index].paper


def can_be_recut(kit: Kit, entry: LedgerEntry) -> bool:
    """Whether another part of the paper is as good.

    It is not for printed elements, pictures and pieces with a printed border; round ones no trimmer cuts.
    """
    kind, index = entry.source
    if kind == "ready":
        return kit.ready[index].outline is OutlineShape.RECTANGLE
    return not (kit.sheets[index].is_cut_apart or print_shown(kit, entry).image or _has_border(kit, entry))


def _has_border(kit: Kit, entry: LedgerEntry) -> bool:
    """Whether the face of a piece that its layout shows has part of a printed border."""
    assert entry.piece is not None
    whole = sheet_size(kit, kit.sheets[entry.piece.sheet_index])
    return shows_border(print_shown(kit, entry), _face_up(kit, entry), entry.piece.part, whole)


def shows_border(printed: Print, face: Face, part: ExactRect, whole: Size) -> bool:
    """Whether a part of a sheet's front has some of the printed border of a face, which is that print."""
    gaps = {
        Edge.TOP: part.y,
        Edge.RIGHT: whole.width - part.right,
        Edge.BOTTOM: whole.height - part.bottom,
        Edge.LEFT: part.x,
    }
    flipped = {Edge.LEFT: Edge.RIGHT, Edge.RIGHT: Edge.LEFT} if face is Face.BACK else {}
    return any(gaps[flipped.get(border.edge, border.edge)] < border.width for border in printed.borders)


def replacement(kit: Kit, entry: LedgerEntry, left: Sequence[Remnant]) -> Remnant | None:
    """The smallest remnant of a piece's own paper that the piece can be cut from, or that is one itself."""
    same = [one for one in left if one.spare == entry.name]
    if same or not can_be_recut(kit, entry):
        return same[0] if same else None
    turns = not kit.papers[paper_of(kit, entry)].has_direction
    paper = paper_of(kit, entry)
    lies = (entry.size, entry.size.turned) if turns else (entry.size,)
    holding = [
        one for one in left if one.can_be_cut and one.paper == paper and any(map(one.size.holds, lies))
    ]
    return min(holding, key=lambda one: one.size.area, default=None)


def print_shown(kit: Kit, entry: LedgerEntry) -> Print:
    """The face of a piece that its layout shows."""
    return kit.papers[paper_of(kit, entry)].face(_face_up(kit, entry))


def _face_up(kit: Kit, entry: LedgerEntry) -> Face:
    if entry.use is None:
        return Face.FRONT
    layout = kit.layouts[entry.use.layout_index]
    match entry.use.where:
        case ("layouts", _, "steps", int(number), *_):
            return getattr(layout.steps[number], "face", Face.FRONT)
        case _:
            return layout.base.face
