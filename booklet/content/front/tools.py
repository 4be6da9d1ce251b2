"""What is needed beside the papers: supplies, tools, photographs."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from booklet.content.blocks import (
    Abreast,
    Align,
    Arrangement,
    Block,
    Column,
    Heading,
    ItemList,
    Marker,
    Paragraph,
    Picture,
    Row,
    Section,
    Table,
)
from booklet.content.cutting.by_hand import tools_of
from booklet.content.figures import SupplySwatch
from booklet.content.names import supply_name
from booklet.content.photos import photo_extent
from booklet.content.spans import Extent, Length, Line, Own, Role, Weight, joined, line
from booklet.content.words.language import Language
from booklet.cutting.model import Stage
from booklet.kit.finding import SpecPath
from booklet.kit.kit import Kit, trimmer_limits
from booklet.kit.own_trimmer import MembersTrimmer
from booklet.kit.supply import Supply
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction
from booklet.measure.length import Size, Unit, convert, is_on_mark
from booklet.measure.words import is_printable
from booklet.placing.photos import PhotoSlot, WayUp, photo_slots
from booklet.placing.prints import PrintSize, exact_print, smallest_print_for
from booklet.placing.resolved import ResolvedKit
from booklet.placing.supplies import SupplyBalance, balance_supplies


def tools_section(resolved: ResolvedKit, language: Language) -> Section:
    """Supplies with how much is needed, what the member brings, photographs."""
    words = language.tools
    bring: tuple[Block, ...] = (
        Heading(words.bring),
        ItemList(_bring(resolved, language), Marker.TICK),
        *_from_home(resolved, language),
    )
    photographs = tuple(_photographs(resolved, language))
    blocks = (
        *_supplies(resolved, language),
        Abreast((bring, photographs) if photographs else (bring,)),
        *_trimmer(resolved, language),
    )
    return Section(
        "tools",
        words.title,
        blocks,
        Arrangement.COMPACT,
        kicker=language.front.before_cutting,
    )


# Supplies.


def _supplies(resolved: ResolvedKit, language: Language) -> Iterator[Block]:
    kit, words = resolved.kit, language.tools
    balances = [one for one in enumerate(balance_supplies(kit, resolved.layouts)) if not one[1].from_home]
    if not balances:
        return
    columns = (
        Column(()),
        Column(words.supply, share=1.0),
        Column(words.in_box, Align.END),
        Column(words.needed, Align.END),
        Column(words.to_spare, Align.END),
    )
    rows = tuple(_supply_row(kit, index, balance, language) for index, balance in balances)
    yield Heading(words.supplies)
    yield Table(columns, rows)


def _supply_row(kit: Kit, index: int, balance: SupplyBalance, language: Language) -> Row:
    is_used = bool(balance.used)
    cells = (
        *_swatch_and_entry(kit, index, language),
        _amount(kit, index, balance, balance.boxed, language),
        _amount(kit, index, balance, balance.used if is_used else None, language),
        _amount(kit, index, balance, balance.left if is_used else None, language),
    )
    return Row(cells)


def _swatch_and_entry(kit: Kit, index: int, language: Language) -> tuple[Picture, Line]:
    picture = Picture(SupplySwatch(index), line(supply_name(kit, index)))
    return picture, _supply_entry(kit, index, language)


def _supply_entry(kit: Kit, index: int, language: Language) -> Line:
    supply = kit.supplies[index]
    tip = Own(supply.tip, ("supplies", index, "tip")) if supply.tip else None
    measures = tuple(_measures(kit, index, supply, language))
    return language.tools.supply_entry(supply_name(kit, index, Weight.STRONG), measures, tip)


def _measures(kit: Kit, index: int, supply: Supply, language: Language) -> Iterator[Line]:
    """What a supply measures, beside how much of it there is."""
    words, source = language.tools, ("supplies", index)
    if supply.length is not None and supply.count is not None:
        count = language.basics.number(supply.count, kit.unit, (*source, "count"))
        length = Length(supply.length, kit.unit, Role.SUPPLY, (*source, "length"), with_unit=True)
        yield words.several(count, length)
    if supply.width is not None:
        width = Length(supply.width, kit.unit, Role.WIDTH, (*source, "width"), with_unit=True)
        yield language.basics.wide(width)
    if supply.size is not None:
        yield _size_of(kit, supply.size, supply.count, (*source, "size"), language)


def _size_of(kit: Kit, size: Size, count: Fraction | None, source: SpecPath, language: Language) -> Line:
    if size.width == size.height:
        return language.basics.across(Length(size.width, kit.unit, Role.SIZE, source, with_unit=True))
    extent = Extent(size, kit.unit, source, with_unit=True)
    return language.tools.each(extent) if count is not None and count > 1 else line(extent)


def _amount(
    kit: Kit, index: int, balance: SupplyBalance, amount: Fraction | None, language: Language
) -> Line:
    """An amount of a supply; a dash where none is known, or nothing is used up."""
    source: SpecPath = ("supplies", index, "length" if balance.by_length else "count")
    if amount is None:
        return language.tools.none_used
    if balance.by_length:
        return line(Length(amount, kit.unit, Role.SUPPLY, source, with_unit=True))
    return line(language.basics.number(amount, kit.unit, source))


# What the member brings.


def _bring(resolved: ResolvedKit, language: Language) -> tuple[Line, ...]:
    """What the designer lists, or what is usual; and what sheets take at the cutting table."""
    own = tuple(line(Own(said, ("bring", at))) for at, said in enumerate(resolved.kit.bring))
    tools = language.assembly.tool_names(tools_of(resolved.sheets))
    by_hand = (language.tools.at_cutting_table(tools),) if tools else ()
    return (*(own or language.tools.usual_tools), *by_hand)


def _from_home(resolved: ResolvedKit, language: Language) -> Iterator[Block]:
    """Supplies that the member brings, each with how much: as stated, or as all layouts together take."""
    kit, words = resolved.kit, language.tools
    balances = enumerate(balance_supplies(kit, resolved.layouts))
    rows = tuple(
        Row((*_swatch_and_entry(kit, index, language), _brought(kit, index, balance, language)))
        for index, balance in balances
        if balance.from_home
    )
    if rows:
        columns = (Column(()), Column(words.supply, share=1.0), Column(words.needed, Align.END))
        yield Table(columns, rows)


def _brought(kit: Kit, index: int, balance: SupplyBalance, language: Language) -> Line:
    amount = balance.used or None if balance.boxed is None else balance.boxed
    return _amount(kit, index, balance, amount, language)


def _trimmer(resolved: ResolvedKit, language: Language) -> Iterator[Block]:
    """The trimmer and the hands that the cuts are for."""
    stages = [stage for sheet in resolved.sheets for stage in sheet.stages]
    if not stages:
        return
    kit, hand = resolved.kit, resolved.kit.trimmer.hand
    is_own = isinstance(kit.trimmer, MembersTrimmer)
    said = _own_trimmer(kit, stages, language) if is_own else _asked(kit, stages, language)
    hold = _limit(trimmer_limits(kit).hold, kit, "hold")
    yield Paragraph(joined((said, language.tools.hands(hand, hold)), " ") if hand else said)


def _own_trimmer(kit: Kit, stages: Sequence[Stage], language: Language) -> Line:
    """The trimmer of one's own that the booklet is made for."""
    limits = trimmer_limits(kit)
    return language.tools.own_trimmer(
        _limit(limits.mark, kit, "mark"),
        _limit(limits.reach, kit, "reach"),
        _limit(limits.blade, kit, "blade"),
        _limit(limits.hold, kit, "hold"),
        language.basics.number(limits.together, kit.unit, ("trimmer", "together")),
        is_marked=_is_marked(stages, limits.mark),
    )


def _limit(value: Fraction, kit: Kit, key: str) -> Length:
    """A measure of the trimmer, in the kit's unit, or in another one if only that says it exactly."""
    unit = kit.unit
    exact = (other for other in (unit, *Unit) if is_printable(convert(value, unit, other), other))
    shown = next(exact, unit)
    return Length(convert(value, unit, shown), shown, Role.LIMIT, ("trimmer", key), with_unit=True)


def _is_marked(stages: Sequence[Stage], mark: Fraction) -> bool:
    return all(is_on_mark(cut.reading, mark) for stage in stages for cut in stage.cuts)


def _asked(kit: Kit, stages: Sequence[Stage], language: Language) -> Line:
    """What the kit asks of the trimmer, read off its cuts: longest reading, longest cut, marks."""
    unit, mark = kit.unit, trimmer_limits(kit).mark
    cuts = [cut for stage in stages for cut in stage.cuts]
    widest = max(cuts, key=lambda cut: cut.reading)
    highest = max(stages, key=lambda stage: stage.seen.height)
    marks = Length(mark, unit, Role.LIMIT, ("trimmer", "mark"), with_unit=True)
    return language.tools.trimmer(
        Length(widest.reading, unit, Role.LIMIT, widest.where, with_unit=True),
        Length(highest.seen.height, unit, Role.LIMIT, highest.where, with_unit=True),
        marks if _is_marked(stages, mark) else None,
    )


# Photographs.


@dataclass(frozen=True)
class PrintOrder:
    """Photographs that are ordered in one size: a usual print, or as large as they lie (an enlargement)."""

    size: PrintSize | Size
    photos: tuple[tuple[PhotoSlot, SpecPath], ...]


def print_orders(resolved: ResolvedKit) -> tuple[PrintOrder, ...]:
    """What to order from the printer's, the smallest first, enlargements last."""
    unit = resolved.kit.unit
    orders: dict[PrintSize | Size, list[tuple[PhotoSlot, SpecPath]]] = {}
    for layout in resolved.layouts:
        for slot in photo_slots(layout, unit):
            usual = exact_print(slot.size, unit) or smallest_print_for(slot.size, unit)
            orders.setdefault(usual or slot.size, []).append((slot, layout.item(slot.item).path))

    def rank(size: PrintSize | Size) -> tuple[bool, Fraction]:
        return (True, size.area) if isinstance(size, Size) else (False, size.size(unit).area)

    return tuple(PrintOrder(size, tuple(orders[size])) for size in sorted(orders, key=rank))


def _photographs(resolved: ResolvedKit, language: Language) -> Iterator[Block]:
    orders = print_orders(resolved)
    if not orders:
        return
    words, unit = language.tools, resolved.kit.unit
    count = sum(len(order.photos) for order in orders)
    columns = (
        Column(words.print_head),
        Column(words.count_head, Align.END),
        Column(words.use_head, share=1.0),
    )
    yield Heading(words.photographs(language.basics.number(count, unit, ("layouts",))))
    yield Table(columns, tuple(row for order in orders for row in _order_rows(resolved, order, language)))


def _order_rows(resolved: ResolvedKit, order: PrintOrder, language: Language) -> Iterator[Row]:
    """A row for each way in which prints of one size lie, and for each size that they are trimmed to."""
    unit = resolved.kit.unit
    for (way, size), alike in _alike(order).items():
        count = language.basics.number(len(alike), unit, alike[0])
        yield Row((_print(resolved, order, language), line(count), _use(way, size, alike[0], unit, language)))


def _print(resolved: ResolvedKit, order: PrintOrder, language: Language) -> Line:
    size, source = order.size, order.photos[0][1]
    if isinstance(size, Size):
        return language.tools.enlargement(photo_extent(size, resolved.kit.unit, source, with_unit=True))
    return line(Extent(Size(size.width, size.height), size.unit, source, with_unit=True))


def _use(way: WayUp, size: Size | None, source: SpecPath, unit: Unit, language: Language) -> Line:
    """Which way prints lie, or what they are trimmed to."""
    words = language.tools
    if size is not None:
        return words.trimmed(photo_extent(size, unit, source, with_unit=True))
    return {WayUp.UPRIGHT: words.upright, WayUp.LYING: words.lying, WayUp.SQUARE: words.square}[way]


def _alike(order: PrintOrder) -> dict[tuple[WayUp, Size | None], list[SpecPath]]:
    """The photographs of an order by the way they lie, and by the size that they are trimmed to."""
    alike: dict[tuple[WayUp, Size | None], list[SpecPath]] = {}
    for slot, source in order.photos:
        alike.setdefault((slot.way_up, slot.size if slot.trimmed else None), []).append(source)
    return alike
