"""What lies over a photograph though nothing says that it should: room to write in, and paper."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from booklet.kit.finding import Finding, warning
from booklet.kit.words import quoted
from booklet.measure.dataclass import replace
from booklet.measure.exact import Fraction
from booklet.placing.limits import Limits
from booklet.placing.model import ItemKind, Placed, Visible
from booklet.placing.visible import upright_bounds, visible_share

_PAPER = {ItemKind.PIECE, ItemKind.PHOTO}
_HARMFUL = _PAPER | {ItemKind.WRITING}


def check_over_photos(
    items: Sequence[Placed],
    visible: Sequence[Visible],
    mounted: Mapping[int, tuple[int, ...]],
    limits: Limits,
) -> Iterator[Finding]:
    """Everything that lies over a photograph unsaid; `items` are in stacking order.

    `visible` says what is seen of each, `mounted` on which items an item is said to lie.  A photograph that
    is covered by more than its limit is reported elsewhere.
    """
    shares = {seen.id: seen.share for seen in visible}
    for layer, photo in enumerate(items, start=1):
        if photo.kind is not ItemKind.PHOTO or 1 - shares[photo.id] > limits.photo_covered:
            continue
        above = items[layer:]
        for number, item in enumerate(above):
            if item.kind in _HARMFUL and photo.id not in mounted.get(item.id, ()):
                yield from _check_over(photo, item, above[:number], limits)


def _check_over(photo: Placed, item: Placed, between: Sequence[Placed], limits: Limits) -> Iterator[Finding]:
    over = _share_taken(photo, item, between)
    if item.kind is ItemKind.WRITING and over:
        found = f"{quoted(item.name)} lies on {quoted(photo.name)}: a pen would write on the photograph"
        cure = f"move it, or say on: {photo.name} where that is meant"
        yield warning("writing-on-photo", item.path, found, cure)
    is_within = bool(over) and upright_bounds(photo).contains(upright_bounds(item))
    if item.kind in _PAPER and (is_within or over > limits.photo_corner):
        share = f"{float(over * 100):.0f} %"
        found = f"{quoted(item.name)} lies over {quoted(photo.name)} and hides {share} of it"
        cure = f"move it, tuck it, or say on: {photo.name} where that is meant"
        yield warning("paper-on-photo", item.path, found, cure)


def _share_taken(photo: Placed, item: Placed, between: Sequence[Placed]) -> Fraction:
    """The share of a photograph that would be hidden by an item alone, whatever lies between them."""
    if not upright_bounds(photo).overlaps(upright_bounds(item)):
        return Fraction(0)
    opaque = replace(item, kind=ItemKind.PIECE)
    return visible_share(photo, between) - visible_share(photo, [*between, opaque])
