"""What the looks of a layout are drawn from: where its items lie in points, and of which tone they are."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import cached_property

from booklet.drawing.layouts.finished_supplies import bows_of
from booklet.drawing.papers.kit_papers import KitPapers
from booklet.drawing.papers.photos import PHOTO_TONE
from booklet.drawing.papers.piece_outline import outline_points
from booklet.drawing.papers.piece_print import item_map, ledger_entry_of
from booklet.drawing.shapes.affine import Affine, Box, Point, bounds_of_points, translation
from booklet.drawing.shapes.figure import Area, Colour
from booklet.drawing.shapes.scale import Scale
from booklet.kit.fields import Face
from booklet.measure.dataclass import dataclass
from booklet.measure.geometry import ExactPoint, ExactRect
from booklet.placing.model import ItemKind, Placed, PlacedLayout
from booklet.placing.resolved import ResolvedKit

NO_PAPER = Colour("#d9d4cc")


@dataclass(frozen=True)
class Look:
    """What a finished look is drawn from."""

    layout: PlacedLayout
    resolved: ResolvedKit
    papers: KitPapers
    scale: Scale

    @property
    def page(self) -> Box:
        """The page, in points."""
        width, height = self.scale.size(self.layout.size, self.resolved.kit.unit)
        return Box(0.0, 0.0, width, height)

    def box(self, item: Placed) -> Box:
        """An item's own box, its corner at (0, 0)."""
        width, height = self.scale.size(item.rect.size, self.resolved.kit.unit)
        return Box(0.0, 0.0, width, height)

    def outline(self, item: Placed) -> tuple[Point, ...]:
        """An item's outline in its own box."""
        return outline_points(item, self.box(item), self.scale, self.resolved.kit.unit)

    def map(self, item: Placed) -> Affine:
        """From an item's own box to the page."""
        return item_map(item, self.resolved, self.scale)

    @cached_property
    def lying(self) -> Mapping[int, tuple[Point, ...]]:
        """The outline of each item and of the base as it lies on the page, in points, by the item's id."""
        items = (self.layout.base, *self.layout.items)
        return {item.id: tuple(map(self.map(item).apply, self.outline(item))) for item in items}

    @cached_property
    def reach(self) -> Mapping[int, Box]:
        """The upright box about each outline as it lies."""
        return {id: bounds_of_points(outline) for id, outline in self.lying.items()}

    @cached_property
    def bows(self) -> frozenset[int]:
        """The ids of ribbons that are tied in a bow."""
        return bows_of(self.layout)


def beneath(item: Placed, look: Look) -> Iterator[Placed]:
    """What may be seen beneath an item, from the top of the stack down to the base."""
    for other in reversed(look.layout.items):
        if other.layer < item.layer and other.covers and other.id not in look.bows:
            yield other
    yield look.layout.base


def ground_of(item: Placed, look: Look) -> Colour:
    """The tone of whatever lies right beneath the middle of an item."""
    return ground_at(item.rect.centre, item, look)


def ground_at(point: ExactPoint, item: Placed, look: Look) -> Colour:
    """The tone of whatever lies right beneath an item at a point of the page."""
    found = (other for other in beneath(item, look) if _holds(other.rect, point))
    return paper_tone(next(found, look.layout.base), look)


def _holds(rect: ExactRect, point: ExactPoint) -> bool:
    return rect.x <= point.x <= rect.right and rect.y <= point.y <= rect.bottom


def paper_tone(item: Placed, look: Look) -> Colour:
    """The tone of a piece, a photograph or a supply from afar; a pale grey for what is of none."""
    if item.kind is ItemKind.PHOTO:
        return PHOTO_TONE
    kit = look.resolved.kit
    if item.supply is not None:
        supply = kit.supply(item.supply)
        return Colour(supply.colour) if supply else NO_PAPER
    entry = ledger_entry_of(item, look.layout, look.resolved)
    if entry is None:
        return NO_PAPER
    if entry.piece is None:
        assert entry.ready_index is not None
        return look.papers.tone(kit.ready[entry.ready_index].paper, item.face)
    index = entry.piece.sheet_index
    sheet = kit.sheets[index]
    number = next((at for at, one in enumerate(sheet.printed) if one.name == entry.name), None)
    if number is not None and item.face is Face.FRONT:
        return look.papers.element_tone(index, number)
    return look.papers.tone(sheet.paper, item.face)


def areas_of(look: Look, items: Sequence[Placed], right: float, down: float) -> tuple[Area, ...]:
    """Where things lie in a figure whose page lies so many points to the right and down in it, each by its
    place in the spec; the page itself first.
    """
    boxes = [(look.page, look.layout.base.path), *((look.reach[item.id], item.path) for item in items)]
    move = translation(right, down)
    return tuple(Area(seen.under(move), path) for box, path in boxes if (seen := box.common(look.page)))
