"""The true shape of a piece, upright: as it is cut, and what its layout does to it with scissors and punches.

All lengths are exact, in the kit's unit, from the piece's top left corner as its print stands upright.
"""

from __future__ import annotations

from collections.abc import Iterator

from booklet.cutting.finish import NOTHING_DONE, Finish
from booklet.cutting.orientation import Orientation
from booklet.kit.fields import Edge, Face
from booklet.kit.sheet import SCRAP, OutlineShape
from booklet.measure.dataclass import dataclass, replace
from booklet.measure.geometry import ExactRect, rect_at_origin
from booklet.measure.length import Size
from booklet.placing.details import Held, Snipped
from booklet.placing.model import ItemKind, Placed, PlacedLayout
from booklet.placing.resolved import ResolvedKit, uses_of
from booklet.sorting.ledger import LedgerEntry


@dataclass(frozen=True)
class ShapePart:
    """What scissors leave of a piece, or the whole of it: its name, its place on it, what is done to it."""

    name: str
    area: ExactRect
    finish: Finish


@dataclass(frozen=True)
class ShapeArea:
    """A part of a piece that is stencilled, and with which supply."""

    supply: str | None
    area: ExactRect


@dataclass(frozen=True)
class PieceShape:
    """A piece as it is cut, with what was done to it at the cutting table, and the parts that are laid.

    A piece that scissors leave alone has one part, all of it.
    """

    size: Size
    outline: OutlineShape
    finish: Finish
    parts: tuple[ShapePart, ...]
    areas: tuple[ShapeArea, ...] = ()

    @property
    def is_whole(self) -> bool:
        """Whether no scissors cut it: its one part is all of it."""
        return all(part.area.size == self.size for part in self.parts)


def piece_shape(resolved: ResolvedKit, entry: LedgerEntry) -> PieceShape:
    """The shape of a piece of the ledger; of one that no layout takes, as it is cut."""
    outline, finish = OutlineShape.RECTANGLE, NOTHING_DONE
    if entry.ready_index is not None:
        outline = resolved.kit.ready[entry.ready_index].outline
    if entry.piece is not None:
        finish = entry.piece.finish
    whole = ShapePart(entry.name, rect_at_origin(entry.size), finish)
    if entry.use is None:
        return PieceShape(entry.size, outline, finish, (whole,))
    layout = resolved.layouts[entry.use.layout_index]
    parts = tuple(_parts(resolved, layout, entry.use.number, whole))
    laid = _laid(layout, entry.use.number)
    areas = tuple(_areas(layout, laid, parts[0].area)) if laid is not None else ()
    return PieceShape(entry.size, outline, finish, parts, areas)


def _parts(resolved: ResolvedKit, layout: PlacedLayout, number: int, whole: ShapePart) -> Iterator[ShapePart]:
    """The parts of what a use takes, which is `whole` until then; scrap is none."""
    snipped = next((one for one in layout.details(Snipped) if one.use == number), None)
    if snipped is None:
        yield _as_laid(_laid(layout, number), whole)
        return
    taken = _uses_of_parts(resolved, layout, number)
    for part in snipped.parts:
        if part.name == SCRAP:
            continue
        piece = ShapePart(part.name, _moved(part.area, whole.area), NOTHING_DONE)
        numbers = taken.get(part.name, [])
        yield from _parts(resolved, layout, numbers.pop(0), piece) if numbers else (piece,)


def _uses_of_parts(resolved: ResolvedKit, layout: PlacedLayout, number: int) -> dict[str, list[int]]:
    """The uses that take the parts of what a use snips, by their names."""
    found: dict[str, list[int]] = {}
    for index, use in enumerate(uses_of(resolved, layout.index)):
        if use.part_of == number:
            found.setdefault(use.name, []).append(index)
    return found


def _moved(area: ExactRect, whole: ExactRect) -> ExactRect:
    return ExactRect(whole.x + area.x, whole.y + area.y, area.width, area.height)


def _laid(layout: PlacedLayout, number: int) -> Placed | None:
    """The thing that a use lays down; its first, the base, is the page itself."""
    if number == 0:
        return layout.base
    return next((item for item in layout.items if item.use == number), None)


def _as_laid(item: Placed | None, part: ShapePart) -> ShapePart:
    """A part with what its layout does to it: trimmed to the middle of it, rounded, punched."""
    if item is None or item.kind is ItemKind.BASE:
        return part
    size, area = item.upright_size, part.area
    width, height = min(size.width, area.width), min(size.height, area.height)
    x, y = area.x + (area.width - width) / 2, area.y + (area.height - height) / 2
    return replace(part, area=ExactRect(x, y, width, height), finish=upright_finish(item))


def upright_finish(item: Placed) -> Finish:
    """What is done to a placed piece, as it is seen on its upright front: `Finish.as_laid`, undone."""
    size = item.whole or item.rect.size
    turned = item.finish.turned(-item.turn % 4, size)
    return turned if item.face is Face.FRONT else turned.as_laid(Face.BACK, 0, item.upright_size)


def _areas(layout: PlacedLayout, laid: Placed, part: ExactRect) -> Iterator[ShapeArea]:
    """What is stencilled on a piece, as far as it is measured from it alone and lies upright on it."""
    for step in layout.steps:
        held = step.detail(Held)
        if held is None or held.frame != (laid.id,) or laid.kind is ItemKind.BASE:
            continue
        for item in layout.of_step(step.number):
            if item.kind is ItemKind.STENCIL and laid.rect.contains(item.rect):
                yield ShapeArea(item.supply, _on_front(item.rect, laid, part))


def _on_front(rect: ExactRect, laid: Placed, part: ExactRect) -> ExactRect:
    """Where a part of a placed piece lies on its upright front."""
    lying = Orientation(laid.face, laid.turn)
    x, y = rect.x - laid.rect.x, rect.y - laid.rect.y
    right, bottom = laid.rect.width - x - rect.width, laid.rect.height - y - rect.height
    within = {Edge.LEFT: x, Edge.TOP: y, Edge.RIGHT: right, Edge.BOTTOM: bottom}
    left, top = within[lying.seen_at(Edge.LEFT)], within[lying.seen_at(Edge.TOP)]
    size = rect.size.turned if laid.turn % 2 else rect.size
    return ExactRect(part.x + left, part.y + top, size.width, size.height)
