"""Pages that face each other: what runs on from one to the other must meet at the gutter."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from booklet.kit.finding import Finding, note, warning
from booklet.kit.kit import Kit
from booklet.kit.spreads import spreads
from booklet.kit.words import quoted
from booklet.measure.exact import Fraction
from booklet.measure.words import exact_length
from booklet.placing.limits import limits_for
from booklet.placing.model import ItemKind, Placed, PlacedLayout

_RUNNING_ON = {ItemKind.PIECE, ItemKind.PHOTO, ItemKind.RIBBON, ItemKind.TAPE}


def check_facing(kit: Kit, layouts: Sequence[PlacedLayout]) -> Iterator[Finding]:
    """Each thing that begins at the gutter a little higher or lower than its like ends at it."""
    for spread in spreads(kit):
        if len(spread) == 2:
            left, right = (layouts[index] for index in spread)
            if left.size.height == right.size.height:
                yield from _check_spread(kit, left, right)


def _check_spread(kit: Kit, left: PlacedLayout, right: PlacedLayout) -> Iterator[Finding]:
    ends = [item for item in left.items if _runs_on(item) and item.rect.right >= left.base.rect.right]
    begins = [item for item in right.items if _runs_on(item) and item.rect.x <= right.base.rect.x]
    yield from (
        _other_face(left, item) for item in begins if any(_shows_other_face(one, item) for one in ends)
    )
    met = {item.rect.down for item in ends} & {item.rect.down for item in begins}
    # What meets its like needs no other: layers may be a little apart on both pages.
    alone = [item for item in ends if item.rect.down not in met]
    for item in begins:
        if item.rect.down in met:
            continue
        near = [(abs(_higher(one, item)), one) for one in alone if _is_nearly_met(kit, one, item)]
        if near:
            _, nearest = min(near, key=lambda found: found[0])
            yield _offset(kit, left, nearest, item)


def _shows_other_face(one: Placed, other: Placed) -> bool:
    """Whether two like pieces that meet at the gutter show different faces."""
    is_like = one.piece is not None and one.piece == other.piece
    return is_like and one.rect.down == other.rect.down and one.face is not other.face


def _other_face(left: PlacedLayout, item: Placed) -> Finding:
    found = (
        f"{quoted(item.name)} shows its {item.face.value}; its like, which it meets on {quoted(left.id)}, not"
    )
    return note(
        "facing-faces-differ", item.path, found, "say the same face of both, or leave it where it is meant"
    )


def _runs_on(item: Placed) -> bool:
    """Whether a thing could go on at the same height: what is cut at the gutter does so by itself."""
    return item.kind in _RUNNING_ON and not item.tilt and item.whole is None


def _is_nearly_met(kit: Kit, one: Placed, other: Placed) -> bool:
    """Whether two of one height are less apart than anybody would mean; both stand alone."""
    is_near = abs(_higher(one, other)) <= limits_for(kit.unit).nearly_even
    return is_near and one.rect.height == other.rect.height


def _higher(one: Placed, other: Placed) -> Fraction:
    """How much further down the page one thing begins than another."""
    return one.rect.y - other.rect.y


def _offset(kit: Kit, left: PlacedLayout, ends: Placed, begins: Placed) -> Finding:
    by = _higher(ends, begins)
    way = "higher" if by > 0 else "lower"
    found = (
        f"{quoted(begins.name)} begins at the gutter {exact_length(abs(by), kit.unit)} {way}"
        f" than {quoted(ends.name)} ends at it on {quoted(left.id)}"
    )
    cure = "let both lie at the same height, or clearly apart"
    return warning("facing-offset", begins.path, found, cure)
