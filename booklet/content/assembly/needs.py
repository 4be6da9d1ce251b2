"""What a layout takes besides what is in its pocket: photographs, supplies with amounts, tools."""

from __future__ import annotations

from collections.abc import Iterator

from booklet.content.assembly.base import base_of
from booklet.content.assembly.things import LayoutContext, facing_left, is_brad, item_name
from booklet.content.blocks import Need, Picture
from booklet.content.figures import PhotoFigure, SupplySwatch
from booklet.content.names import layout_name, supply_name
from booklet.content.photos import photo_extent
from booklet.content.spans import Length, Number, Role
from booklet.content.words.language import Language
from booklet.kit.steps import Add, Ink, Stencil
from booklet.measure.exact import Fraction, round_to
from booklet.measure.length import Size
from booklet.placing.details import Tool
from booklet.placing.photos import PhotoSlot, WayUp, photo_slots
from booklet.placing.supplies import balance_supplies

# What is seen of a photograph is said in steps of so many per cent.
_SEEN_STEP = Fraction(5)


def needs_of(context: LayoutContext, language: Language) -> tuple[Need, ...]:
    """The base, what the facing page has left over, photographs by size, supplies by amount, then tools."""
    base = Need(language.assembly.base(base_of(context.resolved, context.layout.index)))
    return (
        base,
        *_halves(context, language),
        *_photos(context, language),
        *_supplies(context, language),
        *_tools(context, language),
    )


def _halves(context: LayoutContext, language: Language) -> Iterator[Need]:
    cut_on = facing_left(context)
    for item in context.layout.items if cut_on is not None else ():
        name = item_name(context, item) if item.from_facing else None
        if cut_on is not None and name is not None:
            yield Need(language.assembly.other_half_need(name, layout_name(context.resolved.kit, cut_on)))


def _photos(context: LayoutContext, language: Language) -> Iterator[Need]:
    alike: dict[tuple[Size, WayUp, Fraction], list[PhotoSlot]] = {}
    for slot in photo_slots(context.layout, context.unit):
        alike.setdefault((slot.size, slot.way_up, _seen(slot)), []).append(slot)
    words, unit = language.assembly, context.unit
    for (size, way, seen), slots in alike.items():
        source = context.layout.item(slots[0].item).path
        extent = photo_extent(size, unit, source)
        count = language.basics.few(len(slots), source)
        share = language.basics.number(seen, unit, source) if seen < 100 else None
        picture = Picture(PhotoFigure(extent), words.photo_alt(extent, way))
        yield Need(words.photos(count, extent, way, share), picture)


def _seen(slot: PhotoSlot) -> Fraction:
    """What is seen of a photograph, in per cent."""
    return round_to(slot.visible * 100, _SEEN_STEP)


def _supplies(context: LayoutContext, language: Language) -> Iterator[Need]:
    kit, words = context.resolved.kit, language.assembly
    for index, balance in enumerate(balance_supplies(kit, [context.layout])):
        amount = dict(balance.per_layout).get(context.layout.id)
        if amount is None and context.layout.id not in balance.lasting_in:
            continue
        name, source = supply_name(kit, index), ("layouts", context.layout.index, "steps")
        length: Length | None = None
        count: Number | None = None
        if amount is not None and balance.by_length:
            length = context.length(amount, Role.SUPPLY, source)
        elif amount is not None:
            count = language.basics.number(amount, kit.unit, source)
        picture = Picture(SupplySwatch(index), words.supply_alt(name))
        yield Need(words.supply(name, length, count), picture)


def _tools(context: LayoutContext, language: Language) -> Iterator[Need]:
    needed = {tool for step in context.layout.steps for detail in step.details for tool in detail.tools}
    needed |= set(_tools_by_supply(context))
    if any(item.overhang for item in context.layout.items):
        needed.add(Tool.SCISSORS)
    if needed:
        yield Need(language.assembly.tools([tool for tool in Tool if tool in needed]))


def _tools_by_supply(context: LayoutContext) -> Iterator[Tool]:
    """A pin to prick the holes for brads, an ink pad where ink is no supply."""
    for step in context.spec.steps:
        if isinstance(step, Add) and is_brad(context, step.add):
            yield Tool.PIN
        if isinstance(step, Ink | Stencil) and step.supply is None:
            yield Tool.INK_PAD
