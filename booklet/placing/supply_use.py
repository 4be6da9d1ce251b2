"""Supplies named by steps: looked up, checked for their kind, and noted as used."""

from __future__ import annotations

from collections.abc import Collection

from booklet.kit.finding import error
from booklet.kit.steps import Step
from booklet.kit.supply import Supply, SupplyKind
from booklet.kit.words import any_of, nearest, quoted
from booklet.measure.exact import Fraction
from booklet.placing.model import SupplyUse
from booklet.placing.state import PlacingState


def supply_of(
    state: PlacingState, id: str, *keys: str, kinds: Collection[SupplyKind] = tuple(SupplyKind)
) -> Supply | None:
    """The supply of this id at these keys; None, and a finding, where none is of these kinds."""
    supply = state.kit.supply(id)
    if supply is None:
        ids = [one.id for one in state.kit.supplies]
        close = nearest(id, ids)
        cure = f"did you mean {quoted(close)}?" if close else "list it under supplies"
        found = f"no supply has the id {quoted(id)}"
        state.report("supply-unknown", found, cure, *keys)
        return None
    if supply.kind not in kinds:
        wanted = any_of([kind.value for kind in SupplyKind if kind in kinds])
        found = f"{quoted(id)} is {supply.kind.value}"
        state.report("supply-of-another-kind", found, f"name {wanted} here", *keys)
        return None
    return supply


def width_of(state: PlacingState, supply: Supply) -> Fraction | None:
    """The width of a ribbon or tape; None, and a finding, where it is not said."""
    if supply.width is None:
        where = ("supplies", state.kit.supplies.index(supply))
        found = f"how wide {quoted(supply.id)} is is not said"
        state.findings.append(error("supply-without-width", where, found, "say width:"))
    return supply.width


def use_supply(state: PlacingState, step: Step, id: str, amount: Fraction) -> None:
    """Note that a step uses so much of a supply."""
    state.supply_uses.append(SupplyUse(id, state.layout.id, amount, step.optional))


def use_unseen(state: PlacingState, step: Step) -> None:
    """Note the supplies that a step says it uses up unseen."""
    for id, amount in step.uses.items():
        if supply_of(state, id, "uses", id) is not None:
            use_supply(state, step, id, amount)
