"""The figures of the layouts, each built once for a booklet and shared by its pages and its files."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.drawing.layouts.finished_figure import finished_figure, finished_symbol
from booklet.drawing.layouts.layout_figure import placing_figure, placing_map
from booklet.drawing.layouts.look import Look
from booklet.drawing.shapes.affine import scaling, translation
from booklet.drawing.shapes.figure import Figure, Image, Symbol, Use, image_from_bytes
from booklet.drawing.shapes.scale import Scale
from booklet.measure.cache import cached_on
from booklet.measure.exact import Fraction
from booklet.pages.book import Book
from booklet.pages.printed_steps import PrintedStep, printed_numbers, printed_steps
from booklet.pages.sentences import step_words
from booklet.placing.model import PlacedLayout

# A finished look is drawn for this scale and used at others: shadows and edges are right here.
_LOOK_SCALE = Scale(Fraction(3))


@cached_on
def look_at(book: Book, index: int, scale: Scale) -> Look:
    """What a layout is drawn from, at a scale."""
    return Look(book.resolved.layouts[index], book.resolved, book.papers, scale)


@cached_on
def finished_look(book: Book, index: int) -> Symbol:
    """The finished look of a layout: the designer's photograph of it where there is one."""
    layout = book.resolved.layouts[index]
    look = look_at(book, index, _LOOK_SCALE)
    photograph = book.kit.layouts[index].photograph
    if photograph is None:
        return finished_symbol(look)
    from booklet.kit.images import load_image

    source = image_from_bytes(load_image(book.resolved.folder, photograph).data)
    page = look.page
    return Symbol(f"photograph {layout.id}", (Image(source, page),), page.width, page.height)


def finished_at(book: Book, layout: PlacedLayout, scale: Scale) -> Figure:
    """The finished look at a scale."""
    symbol = finished_look(book, layout.index)
    return finished_figure(symbol, look_at(book, layout.index, scale), f"layout-{layout.id}-finished")


def finished_across(book: Book, indexes: Sequence[int], width: float) -> Figure:
    """Finished looks joined side by side, as a spread lies open, in all `width` points wide."""
    symbols = [finished_look(book, index) for index in indexes]
    factor = width / sum(symbol.width for symbol in symbols)
    shapes = []
    x = 0.0
    for symbol in symbols:
        shapes.append(Use(symbol, scaling(factor).then(translation(x, 0))))
        x += symbol.width * factor
    height = max(symbol.height for symbol in symbols) * factor
    names = " and ".join(book.kit.layouts[index].id for index in indexes)
    return Figure(f"spread-{names}", width, height, tuple(shapes), f"{names}, finished", "")


@cached_on
def placing_at(book: Book, index: int, scale: Scale) -> Figure:
    """The numbered placing figure at a scale."""
    layout = book.resolved.layouts[index]
    numbers = printed_numbers(steps_of(book, index))
    name = f"layout-{layout.id}-placing"
    return placing_figure(look_at(book, index, scale), numbers, book.drawing, name)


@cached_on
def map_at(book: Book, index: int, scale: Scale) -> Figure:
    """The numbered figure without measures, at a scale."""
    layout = book.resolved.layouts[index]
    numbers = printed_numbers(steps_of(book, index))
    return placing_map(look_at(book, index, scale), numbers, book.drawing, f"layout-{layout.id}-map")


@cached_on
def steps_of(book: Book, index: int) -> tuple[PrintedStep, ...]:
    """The steps of a layout as they are printed."""
    return printed_steps(step_words(book.resolved, book.resolved.layouts[index]))
