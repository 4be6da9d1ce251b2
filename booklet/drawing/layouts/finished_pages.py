"""Finished pages without numbers, edge to edge as a spread lies open: on the cover, and beside words."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.drawing.layouts.finished_figure import finished_symbol
from booklet.drawing.layouts.look import Look
from booklet.drawing.papers.kit_papers import KitPapers
from booklet.drawing.shapes.affine import Box, scaling, translation
from booklet.drawing.shapes.figure import (
    Area,
    Figure,
    Image,
    Polygon,
    Shape,
    Stroke,
    Symbol,
    Use,
    image_from_bytes,
)
from booklet.drawing.shapes.scale import Scale
from booklet.drawing.shapes.style import DrawingStyle
from booklet.measure.exact import Fraction
from booklet.placing.resolved import ResolvedKit

# Finished pages are drawn once, for this scale, and used at others: shadows and edges are right here.
DRAWN_AT = Scale(Fraction(3))


def finished_page(resolved: ResolvedKit, index: int, papers: KitPapers) -> Symbol:
    """A finished layout, to be used at any size: the designer's photograph of it, where there is one."""
    look = Look(resolved.layouts[index], resolved, papers, DRAWN_AT)
    photograph = resolved.kit.layouts[index].photograph
    return finished_symbol(look) if photograph is None else _photographed(look, photograph)


def _photographed(look: Look, photograph: str) -> Symbol:
    """A photograph that covers the page, what is too much of it cut off at both sides."""
    from booklet.kit.images import load_image

    image, page = load_image(look.resolved.images, photograph), look.page
    factor = max(page.width / image.width, page.height / image.height)
    (x, y), across, down = page.centre, image.width * factor / 2, image.height * factor / 2
    box = Box(x - across, y - down, x + across, y + down)
    key = f"photograph {look.layout.id}"
    return Symbol(key, (Image(image_from_bytes(image.data), box),), page.width, page.height)


def draw_finished_pages(
    pages: Sequence[Symbol], width: float, height: float | None, style: DrawingStyle, name: str
) -> Figure:
    """Finished pages edge to edge, their feet in line, as large as a width and a height in points allow."""
    wide, high = sum(page.width for page in pages), max(page.height for page in pages)
    factor = min(width / wide, height / high) if height is not None else width / wide
    edge = Stroke(style.palette.ink, style.fine_width)
    shapes: list[Shape] = []
    areas: list[Area] = []
    x = 0.0
    for at, page in enumerate(pages):
        top = (high - page.height) * factor
        box = Box(x, top, x + page.width * factor, high * factor)
        shapes.append(Use(page, scaling(factor).then(translation(x, top))))
        shapes.append(Polygon(box.grown(-edge.width / 2).corners, None, edge))
        areas.append(Area(box, at))
        x = box.right
    return Figure(name, wide * factor, high * factor, tuple(shapes), areas=tuple(areas))
