"""Supplies: what the layouts use, against what is in the box."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from booklet.kit.finding import Finding, SpecPath, error, note, warning
from booklet.kit.kit import Kit
from booklet.kit.supply import Supply, SupplyKind
from booklet.kit.words import quoted
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction
from booklet.measure.words import exact_length, exact_size
from booklet.placing.limits import limits_for
from booklet.placing.model import PlacedLayout

# These are used again and again, or used up unmeasured.
_LASTING = {SupplyKind.STENCIL, SupplyKind.INK}


@dataclass(frozen=True)
class SupplyBalance:
    """One supply: what the box holds (None if not said), and what is used of it, layout by layout.

    Of what comes `from_home`, `boxed` is what the member is told to bring.  Amounts are lengths in the kit's
    unit for ribbon, tape and whatever the box holds by length, else counts.  `optional` is the part of
    `used` that only optional steps take.  A stencil or an ink lasts: `lasting_in` are the layouts with it.
    """

    supply: str
    by_length: bool
    boxed: Fraction | None
    used: Fraction
    optional: Fraction
    per_layout: tuple[tuple[str, Fraction], ...]
    lasting_in: tuple[str, ...] = ()
    from_home: bool = False

    @property
    def left(self) -> Fraction | None:
        """What remains when every step is done; below 0 where it does not suffice."""
        return None if self.boxed is None else self.boxed - self.used


def balance_supplies(kit: Kit, layouts: Sequence[PlacedLayout]) -> tuple[SupplyBalance, ...]:
    """The balance of every supply, in the kit's order."""
    return tuple(_balance(kit, supply, layouts) for supply in kit.supplies)


def _balance(kit: Kit, supply: Supply, layouts: Sequence[PlacedLayout]) -> SupplyBalance:
    uses = [use for layout in layouts for use in layout.supplies if use.supply == supply.id]
    amounts = {
        layout.id: sum((use.amount for use in uses if use.layout == layout.id), Fraction(0))
        for layout in layouts
    }
    by_length = supply.by_length
    boxed = supply.length if by_length else supply.count
    if by_length and boxed is not None and supply.count is not None:
        boxed *= supply.count
    return SupplyBalance(
        supply.id, by_length, boxed,
        sum((use.amount for use in uses), Fraction(0)),
        sum((use.amount for use in uses if use.optional), Fraction(0)),
        tuple((id, amount) for id, amount in amounts.items() if amount),
        tuple(_lasting_in(kit, supply)), supply.is_from_home,
    )  # fmt: skip


def _lasting_in(kit: Kit, supply: Supply) -> Iterator[str]:
    """The layouts with a step that works with a lasting supply."""
    if supply.kind not in _LASTING:
        return
    for layout in kit.layouts:
        named = {getattr(step, key, None) for step in layout.steps for key in ("stencil", "supply")}
        if supply.id in named:
            yield layout.id


def check_supplies(kit: Kit, layouts: Sequence[PlacedLayout]) -> Iterator[Finding]:
    """A shortage, a length that is nearly one, what is used uncounted, what is left otherwise than stated.

    What is counted is right when it is exact; a length is lost with every cut.
    """
    for index, (supply, balance) in enumerate(zip(kit.supplies, balance_supplies(kit, layouts), strict=True)):
        if supply.kind not in _LASTING and balance.used:
            yield from _check(kit, ("supplies", index), balance)
        if supply.kind is SupplyKind.BRADS and supply.size and supply.size.width != supply.size.height:
            found = f"{quoted(supply.id)} are {exact_size(supply.size, kit.unit)}, and brads are drawn round"
            cure = "say one size for both sides, or a kind and an outline of your own"
            yield note("brad-not-round", ("supplies", index, "size"), found, cure)
        yield from _check_repeats(kit, ("supplies", index, "repeat"), supply)
        if supply.spare is not None:
            yield from _check_spare(kit, ("supplies", index, "spare"), balance, supply.spare)


def _check_repeats(kit: Kit, where: SpecPath, supply: Supply) -> Iterator[Finding]:
    """Whether a stencil is a whole number of its repeats one way and not the other; a rim is on all sides."""
    size, repeat = supply.size, supply.repeat
    if supply.kind is not SupplyKind.STENCIL or size is None or repeat is None:
        return
    if (size.width % repeat.width == 0) != (size.height % repeat.height == 0):
        stated = f"repeats of {exact_size(repeat, kit.unit)} on {exact_size(size, kit.unit)}"
        found = f"{quoted(supply.id)} has {stated}, a whole number of them one way only"
        cure = "correct the size or the repeat, or leave it where it is meant"
        yield note("repeat-uneven", where, found, cure)


def _check(kit: Kit, where: SpecPath, balance: SupplyBalance) -> Iterator[Finding]:
    name, key = quoted(balance.supply), "length" if balance.by_length else "count"
    boxed, left, from_home = balance.boxed, balance.left, balance.from_home
    used = _shown(kit, balance, balance.used)
    if boxed is None or left is None:
        if from_home:
            return
        found = f"{used} of {name} is used; how much is in the box is not said"
        yield warning("supply-uncounted", where, found, f"say {key}:")
        return
    where_from = "is brought from home" if from_home else "is in the box"
    found = f"{used} of {name} is used, {_shown(kit, balance, boxed)} {where_from}"
    more = "say that more is brought" if from_home else "put more in the box"
    cure = f"{more}, or use less: {_by_layout(kit, balance)}"
    if left < 0 and left + balance.optional < 0:
        yield error("supply-short", (*where, key), found, cure)
    elif left < 0:
        yield warning(
            "supply-short-for-options", (*where, key), f"{found}: too little for every option", cure
        )
    elif balance.by_length and not from_home and left < boxed * limits_for(kit.unit).supply_left:
        yield warning("supply-narrow", (*where, key), f"{found}: {_shown(kit, balance, left)} is left", cure)


def _check_spare(kit: Kit, where: SpecPath, balance: SupplyBalance, spare: Fraction) -> Iterator[Finding]:
    """Whether as much is left as is stated; what does not suffice is reported as such."""
    if balance.left is None or balance.left < 0 or balance.left == spare:
        return
    left = _shown(kit, balance, balance.left)
    found = f"{left} of {quoted(balance.supply)} is left over, and {_shown(kit, balance, spare)} is stated"
    yield error("supply-left-differs", where, found, "correct it, what is in the box, or what is used")


def _by_layout(kit: Kit, balance: SupplyBalance) -> str:
    return ", ".join(f"{id} {_shown(kit, balance, amount)}" for id, amount in balance.per_layout)


def _shown(kit: Kit, balance: SupplyBalance, amount: Fraction) -> str:
    if balance.by_length:
        return f"{exact_length(amount, kit.unit)} {kit.unit.value}"
    return exact_length(amount, kit.unit)
