"""What stands on a page, drawn on a canvas."""

from __future__ import annotations

from booklet.content.spans import PocketRef
from booklet.drawing.writers.pdf_writer import draw_figure
from booklet.pages.canvas import BookletCanvas
from booklet.pages.compose import Page
from booklet.pages.edges import Edges, margin_figure, pocket_rects
from booklet.pages.setup import PageSetup


def draw_page(canvas: BookletCanvas, setup: PageSetup, page: Page, number: int, edges: Edges) -> None:
    """Draw a page with its lower left corner at the origin: its column, then what stands in its margins."""
    grid = setup.grid
    for placed in page.column:
        canvas.at(number, page.part_at(placed.y).section.anchor)
        left, bottom = grid.left(number) + placed.x, grid.height - grid.top - placed.bottom
        placed.flowable.drawOn(canvas, left, bottom)
    draw_figure(margin_figure(setup, page, number, edges), canvas.resources, 0.0, grid.height)
    for pocket, rect in pocket_rects(setup, page, number, edges):
        canvas.lead(canvas.goal_of(PocketRef(pocket)), rect)
