"""From a kit's layouts to the exact position of everything on them."""

from __future__ import annotations

from collections.abc import Mapping, Sequence, Set
from functools import partial
from types import MappingProxyType

from booklet.kit.finding import Finding
from booklet.kit.kit import Kit
from booklet.kit.used import uses
from booklet.measure.dataclass import replace
from booklet.measure.length import Size
from booklet.placing import bands, extras, group, lay, spread, stitches, work
from booklet.placing.checks import check_layout
from booklet.placing.group import check_loose
from booklet.placing.limits import limits_for
from booklet.placing.model import PieceSource, Placed, PlacedLayout, PlacedStep
from booklet.placing.nesting import check_borders_seen
from booklet.placing.over_photos import check_over_photos
from booklet.placing.spread import check_arrivals
from booklet.placing.state import BASE_ID, PlacingState, initial_state, step_path
from booklet.placing.supply_use import use_unseen
from booklet.placing.twice import check_twice
from booklet.placing.visible import visible_parts
from booklet.placing.work import check_parts

_NONE: Mapping[int, PlacedLayout] = MappingProxyType({})
_HANDLERS = {
    **lay.HANDLERS,
    **group.HANDLERS,
    **spread.HANDLERS,
    **work.HANDLERS,
    **extras.HANDLERS,
    **bands.HANDLERS,
    **stitches.HANDLERS,
}


def place_layouts(
    kit: Kit, pieces: PieceSource, known: Mapping[int, PlacedLayout] = _NONE
) -> tuple[PlacedLayout, ...]:
    """Every layout, in the kit's order.  What cannot be placed is a finding, never an exception.

    Those that are `known`, by their index, are taken as they are.
    """
    carried: dict[str, tuple[Placed, ...]] = {}
    placed = dict(known)
    for index in (index for index in _left_first(kit) if index not in known):
        layout = kit.layouts[index]
        state = _assemble(kit, index, pieces, carried.get(layout.id, ()))
        if layout.facing is not None:
            carried[layout.facing] = tuple(state.carried)
        placed[index] = _finished(state)
    return tuple(placed[index] for index in range(len(kit.layouts)))


def unchanged(
    kit: Kit, before: Kit, placed: Sequence[PlacedLayout], changed_pieces: Set[str]
) -> dict[int, PlacedLayout]:
    """The layouts, by index, that lie as they did in a kit `before` with pieces of the same names.

    They are the same and use no piece that has changed; of a spread the left page is the same, from which
    pieces come, and the base of the right one, to which they go; and all of the kit but its sheets and
    layouts is the same.
    """
    if replace(kit, sheets=(), layouts=()) != replace(before, sheets=(), layouts=()):
        return {}
    if [layout.id for layout in kit.layouts] != [layout.id for layout in before.layouts]:
        return {}
    pairs = list(zip(kit.layouts, before.layouts, strict=True))
    changed = {
        now.id
        for index, (now, then) in enumerate(pairs)
        if now != then or any(use.name in changed_pieces for use in uses(now, index))
    }
    faced = [(layout.id, layout.facing) for each in (kit, before) for layout in each.layouts if layout.facing]
    rebased = {now.id for now, then in pairs if now.base != then.base or now.base.name in changed_pieces}
    changed |= {left for left, right in faced if right in rebased}
    changed |= {right for left, right in faced if left in changed}
    return {layout.index: layout for layout in placed if layout.id not in changed}


def _left_first(kit: Kit) -> list[int]:
    """The layouts by index, those to the right in a spread last: their left ones cut off what they take."""
    right = {layout.facing for layout in kit.layouts}
    return sorted(range(len(kit.layouts)), key=lambda index: kit.layouts[index].id in right)


def _assemble(kit: Kit, index: int, pieces: PieceSource, arriving: tuple[Placed, ...]) -> PlacingState:
    """Do every step of a layout in its order."""
    state = initial_state(kit, index, pieces)
    state.arriving = arriving
    for number, step in enumerate(state.layout.steps, start=1):
        state.number = number
        _HANDLERS[type(step)](state, step)
        use_unseen(state, step)
    check_loose(state)
    check_parts(state)
    check_arrivals(state)
    return state


def _finished(state: PlacingState) -> PlacedLayout:
    stacked = [replace(state.items[id], layer=layer) for layer, id in enumerate(state.stack)]
    steps = tuple(
        PlacedStep(
            number,
            step_path(state, number),
            state.settled.get(number, step),
            tuple(state.details.get(number, ())),
        )
        for number, step in enumerate(state.layout.steps, start=1)
    )
    return PlacedLayout(
        state.layout.id, state.index, Size(state.page.width, state.page.height),
        stacked[BASE_ID], tuple(stacked[1:]), steps, tuple(state.supply_uses), partial(_findings, state),
    )  # fmt: skip


def _findings(state: PlacingState, layout: PlacedLayout) -> tuple[Finding, ...]:
    """What was found as a layout was placed, and what is found on it as it lies."""
    items, visible = layout.items, visible_parts(layout.items)
    uncut = {finding.where[:-1] for finding in state.findings if finding.where[-1] == "spread"}
    # What cannot be cut at the gutter is reported elsewhere; where it lies then is not what is meant.
    geometry = check_layout(state.kit, state.index, layout.base, items, visible)
    over = check_over_photos(items, visible, state.mounted, limits_for(state.kit.unit))
    on_page = (finding for finding in (*geometry, *over) if finding.where not in uncut)
    findings = (*state.findings, *on_page, *check_borders_seen(state, items), *check_twice(state, items))
    return tuple(dict.fromkeys(findings))
