"""Which layouts lie side by side, in which order they are made, and which pockets they have."""

from __future__ import annotations

from booklet.kit.kit import Assembly, Kit
from booklet.kit.pockets import in_order


def spreads(kit: Kit) -> tuple[tuple[int, ...], ...]:
    """The indexes of the layouts, two that face each other together, in the kit's order."""
    by_id = {layout.id: index for index, layout in enumerate(kit.layouts)}
    right_of = {
        index: by_id[layout.facing] for index, layout in enumerate(kit.layouts) if layout.facing is not None
    }
    rights = set(right_of.values())
    return tuple(
        (index, right_of[index]) if index in right_of else (index,)
        for index in range(len(kit.layouts))
        if index not in rights
    )


def assembly_order(kit: Kit) -> tuple[int, ...]:
    """The layouts by index in the order in which they are made; a spread is made left page first."""
    found = spreads(kit)
    ordered = found[::-1] if kit.assembly is Assembly.LAST else found
    return tuple(index for spread in ordered for index in spread)


def pockets_of(kit: Kit) -> tuple[str, ...]:
    """Every pocket that a layout has its pieces in, in their order."""
    return in_order(layout.pocket for layout in kit.layouts)
