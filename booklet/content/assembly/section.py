"""The sections of the layouts, in the order of assembly."""

from __future__ import annotations

from collections.abc import Iterator

from booklet.content.assembly.flags import flags_of
from booklet.content.assembly.needs import needs_of
from booklet.content.assembly.steps import step_item
from booklet.content.assembly.things import LayoutContext, layout_context
from booklet.content.blocks import (
    Arrangement,
    Block,
    LayoutView,
    Paragraph,
    Picture,
    PocketEdge,
    Section,
    StepList,
    Tone,
)
from booklet.content.figures import NumberedLayout
from booklet.content.names import layout_name
from booklet.content.spans import Extent, Line, Own, line
from booklet.content.ways import layout_anchor
from booklet.content.words.language import Language
from booklet.kit.spreads import assembly_order
from booklet.measure.cache import cached_on
from booklet.placing.details import Tied
from booklet.placing.model import ItemKind
from booklet.placing.resolved import ResolvedKit


def layout_sections(resolved: ResolvedKit, language: Language) -> tuple[Section, ...]:
    """A section for each layout in the order of assembly, facing ones one after another, the left first."""
    return tuple(layout_section(resolved, index, language) for index in assembly_order(resolved.kit))


def laying_line(resolved: ResolvedKit, language: Language) -> Line:
    """How to read the steps of this kit's layouts, for a page before them."""
    items = [item for layout in resolved.layouts for item in layout.items]
    has_tie = any(True for layout in resolved.layouts for _ in layout.details(Tied))
    return language.assembly.laying_sign(
        has_turned=any(item.kind is ItemKind.PIECE and item.turn % 2 for item in items),
        has_small=has_tie or any(item.kind is ItemKind.ADDED for item in items),
        has_tilted=any(item.tilt for item in items),
    )


def layout_section(resolved: ResolvedKit, index: int, language: Language) -> Section:
    """The section of a layout, by its index among the kit's layouts; the first one begins a part."""
    kit, order = resolved.kit, assembly_order(resolved.kit)
    spec, place = kit.layouts[index], order.index(index)
    pockets = tuple(dict.fromkeys(kit.layouts[at].pocket for at in order))
    title = line(layout_name(kit, index))
    return Section(
        layout_anchor(spec.id),
        title,
        tuple(_blocks(layout_context(resolved, index), language)),
        Arrangement.FACING if spec.facing is not None else Arrangement.OPENING,
        lead=line(Own(spec.story, ("layouts", index, "story"))) if spec.story else (),
        number=str(place + 1),
        edge=PocketEdge(spec.pocket, pockets.index(spec.pocket), len(pockets)),
        part=language.assembly.part if place == 0 else (),
    )


@cached_on
def numbered_layout(resolved: ResolvedKit, index: int) -> NumberedLayout:
    """The figure of a layout with its numbers and rulers, by its index among the kit's layouts."""
    context = layout_context(resolved, index)
    return NumberedLayout(index, context.numbers, flags_of(context))


def _blocks(context: LayoutContext, language: Language) -> Iterator[Block]:
    index, words = context.layout.index, language.assembly
    figure = numbered_layout(context.resolved, index)
    size = Extent(context.layout.size, context.unit, ("layouts", index, "base"), with_unit=True)
    alt = words.numbered_alt(layout_name(context.resolved.kit, index), size, len(context.printed))
    yield LayoutView(words.you_need, needs_of(context, language), Picture(figure, alt))
    yield StepList(tuple(step_item(context, step, language) for step in context.printed))
    if context.spec.tip:
        yield Paragraph(line(Own(context.spec.tip, ("layouts", index, "tip"))), Tone.TIP)
