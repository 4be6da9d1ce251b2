"""What a step does besides laying things down, in words: scissors, punches, ink, stencils, ribbon, foam."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from booklet.kit.fields import Edge
from booklet.kit.kit import capitalised, layout_title
from booklet.kit.position import Direction
from booklet.kit.steps import Corner
from booklet.kit.supply import Supply, SupplyKind
from booklet.measure.exact import Fraction
from booklet.measure.length import Unit
from booklet.measure.words import print_length
from booklet.pages.cut_words import listed, number_word
from booklet.pages.laid import Laid, length, refer, said, size, to_cut
from booklet.pages.where_words import PLACED_BY_EYE
from booklet.placing.details import (
    BandForm,
    CutAtGutter,
    CutLength,
    Inked,
    NestBorder,
    Punched,
    Raised,
    Repeat,
    Rounded,
    Snipped,
    Stencilled,
    Target,
    TrimmedRound,
)
from booklet.placing.model import Measure, MeasureKind

_WAYS = {Direction.ACROSS: "across", Direction.DOWN: "down"}


def supply_of(laid: Laid, id: str) -> Supply | None:
    """The supply of this id."""
    return next((supply for supply in laid.resolved.kit.supplies if supply.id == id), None)


def supply_title(laid: Laid, id: str) -> str:
    """What a supply is called in print."""
    supply = supply_of(laid, id)
    return said((supply.title if supply else None) or capitalised(id))


def within(title: str) -> str:
    """A title in the middle of a sentence: without its capital, unless it is written in capitals."""
    return title if title[1:2].isupper() else title[:1].lower() + title[1:]


def target_words(laid: Laid, target: Target) -> str:
    """What is worked on: by its step's number, or `it` where it is still in the hand."""
    return refer(laid, target.ids) if target.ids else "it"


def _of_target(laid: Laid, parts: str, target: Target) -> str:
    """`all four corners of 5`, or `all four of its corners` in the hand."""
    if target.ids:
        return f"{parts} of {refer(laid, target.ids)}"
    return parts.replace("all four ", "all four of its ").replace("the ", "its ", 1)


# Scissors.


def snip_words(laid: Laid, detail: Snipped) -> str:
    """`Snip it at 3 and 6 from its left edge: wing (3 × 3), middle (3 × 3) and tail (2 × 3).`"""
    at = listed([length(laid, one) for one in detail.at])
    parts = listed([f"{said(part.name)} ({size(laid, part.size)})" for part in detail.parts])
    return f"Snip it at {at} from its {detail.measured_from.value} edge: {parts}."


def trim_words(laid: Laid, detail: TrimmedRound) -> str:
    """`Trim it along the printed rope, to 1 3/4 × 1 1/2.`"""
    outline = said(detail.outline) if detail.outline else "its printed outline"
    to = f", to {size(laid, detail.size)}" if detail.size else ""
    return f"Trim it along {outline}{to}."


# Corners and edges.


def round_words(laid: Laid, detail: Rounded) -> str:
    """`Round all four corners of 5 to a radius of 1/4.`"""
    corners = _of_target(laid, corner_words(detail.corners), detail.target)
    return f"Round {corners} to a radius of {length(laid, detail.radius)}."


def punch_words(laid: Laid, detail: Punched, phrases: Sequence[str]) -> str:
    """`Punch all four corners of 5 with a ticket punch.`, or a hole and where it is."""
    shape = said(detail.shape) if detail.shape else ""
    if detail.hole is None:
        tool = f" with {_a(shape)} punch" if shape else ""
        return f"Punch {_of_target(laid, corner_words(detail.corners), detail.target)}{tool}."
    hole = f"a {length(laid, detail.hole.width)} {f'{shape} ' if shape else ''}hole"
    order = f"Punch {hole} in {target_words(laid, detail.target)}"
    return f"{', '.join((order, *_to_the_rim(phrases)))}."


def _to_the_rim(phrases: Sequence[str]) -> Iterator[str]:
    """Where a hole is, saying once that a distance goes to its rim, not to its middle."""
    is_said = False
    for phrase in phrases:
        is_distance = phrase[:1].isnumeric()
        yield f"the rim {phrase}" if is_distance and not is_said else phrase
        is_said = is_said or is_distance


def ink_words(laid: Laid, detail: Inked) -> str:
    """`Ink the left and right edges of 5.`"""
    return f"Ink {_of_target(laid, edge_words(detail.edges), detail.target)}."


def corner_words(corners: Sequence[Corner]) -> str:
    """`all four corners`, `the top left and top right corners`."""
    if len(set(corners)) == len(Corner):
        return "all four corners"
    names = listed([corner.value for corner in dict.fromkeys(corners)])
    return f"the {names} corner{'s' if len(set(corners)) > 1 else ''}"


def edge_words(edges: Sequence[Edge]) -> str:
    """`all four edges`, `the left and right edges`."""
    return "all four edges" if len(set(edges)) == len(Edge) else f"the {edge_names(edges)}"


def edge_names(edges: Sequence[Edge]) -> str:
    """`left edge`, `left and right edges`."""
    names = listed([edge.value for edge in dict.fromkeys(edges)])
    return f"{names} edge{'s' if len(set(edges)) > 1 else ''}"


def _a(noun: str) -> str:
    return f"an {noun}" if noun[:1].lower() in "aeiou" else f"a {noun}"


# Nesting, and the fold.


def border_words(laid: Laid, detail: NestBorder) -> str:
    """`an even 1/8 all round`; nothing where the border is not seen all round."""
    inner, outer = laid.layout.item(detail.inner), laid.layout.item(detail.outer)
    if inner.kind in PLACED_BY_EYE or min(detail.across, detail.down) < 0:
        return ""
    if (inner.tilt, inner.outline) != (outer.tilt, outer.outline):
        return ""
    return all_round(laid, detail.across, detail.down)


def all_round(laid: Laid, across: Fraction, down: Fraction) -> str:
    """What is left at the sides, and above and below."""
    if across == down:
        return f"an even {length(laid, across)} all round" if across else "edge on edge all round"
    sides = f"{length(laid, across)} at the sides" if across else "flush at the sides"
    return f"{sides}, {length(laid, down)} above and below" if down else f"{sides}, flush above and below"


def gutter_words(laid: Laid, detail: CutAtGutter) -> str:
    """What stays and what goes over to the facing page."""
    here, there = size(laid, detail.here), size(laid, detail.there)
    return f"{here} stays here, {there} goes to the facing page."


def facing_title(laid: Laid) -> str:
    """The title of the page to the left in a spread."""
    left = next((one for one in laid.resolved.kit.layouts if one.facing == laid.layout.id), None)
    return said(layout_title(left)) if left is not None else "the facing page"


# Stencils.


AXES = {
    Edge.TOP: Direction.DOWN,
    Edge.BOTTOM: Direction.DOWN,
    Edge.LEFT: Direction.ACROSS,
    Edge.RIGHT: Direction.ACROSS,
}
# Where the area lies, from the pencil line along this edge of it.
BESIDE_LINE = {
    Edge.TOP: "below it",
    Edge.BOTTOM: "above it",
    Edge.LEFT: "to the right of it",
    Edge.RIGHT: "to the left of it",
}


def guideline_of(laid: Laid, detail: Stencilled) -> Measure | None:
    """The measure of the pencil line; None where the page's own edge serves, or no line is needed."""
    found = (one for one in laid.layout.measures if one.kind is MeasureKind.GUIDELINE)
    return next((one for one in found if one.owner == detail.item), None)


def ruled_words(laid: Laid, detail: Stencilled) -> Iterator[str]:
    """`Rule a pencil line 3 from the page's top edge.`"""
    line = guideline_of(laid, detail)
    if line is not None and detail.guideline is not None:
        far = length(laid, line.length)
        yield f"Rule a pencil line {far} from the page's {detail.guideline.value} edge."


def along_words(laid: Laid, detail: Stencilled) -> Iterator[str]:
    """`Lay the stencil's top edge along the page's.`, where no line is ruled."""
    if detail.guideline is not None and guideline_of(laid, detail) is None:
        yield f"Lay the stencil's {detail.guideline.value} edge along the page's."


def fit_words(laid: Laid, detail: Stencilled) -> Iterator[str]:
    """`The pattern fits eight times across and three times down (1/2 is left).`"""
    fits = [
        _fits(laid, repeat, way)
        for repeat, way in ((detail.across, "across"), (detail.down, "down"))
        if repeat is not None and repeat.times
    ]
    if fits:
        yield f"The pattern fits {' and '.join(fits)}."


def _fits(laid: Laid, repeat: Repeat, way: str) -> str:
    times = {1: "once", 2: "twice"}.get(repeat.times, f"{number_word(repeat.times)} times")
    left = f" ({length(laid, repeat.remainder)} is left)" if repeat.remainder else ""
    return f"{times} {way}{left}"


# Ribbon and tape.


def length_words(laid: Laid, detail: CutLength, run: Direction) -> str:
    """What to cut off the roll, and what it is for."""
    cut = f"Cut {to_cut(laid, detail.total)}"
    net, more = length(laid, detail.net), length(laid, detail.allowance)
    each = length(laid, detail.allowance / 2)
    spare = bool(detail.allowance)
    match detail.form:
        case BandForm.RUN | BandForm.ALONG | BandForm.STRIP:
            return f"{cut}: {net} {_WAYS[run]} and {each} to fold behind at each end." if spare else f"{cut}."
        case BandForm.WRAP:
            return f"{cut}: {net} to go round and {more} to overlap behind." if spare else f"{cut}."
        case BandForm.LOOP:
            return f"{cut}: {net} for the loop and {more} to fix it." if spare else f"{cut}."
        case BandForm.BOW:
            return f"{cut}: {net} for the bow and {more} to fix it." if spare else f"{cut}."


# Small things.


def raise_words(laid: Laid, detail: Raised) -> str:
    """`Raise 13 on four of them.`"""
    what = target_words(laid, detail.target) if detail.target.ids else said(detail.target.name)
    count = number_word(detail.count)
    if detail.foam is not None:
        return f"Raise {what} on {count} of them."
    return f"Raise {what} on {count} {'bits' if detail.count > 1 else 'bit'} of foam."


def add_verb(laid: Laid, id: str) -> str:
    """Brads are fixed, other small things put."""
    supply = supply_of(laid, id)
    return "Fix" if supply is not None and supply.kind is SupplyKind.BRADS else "Put"


def unseen_words(laid: Laid) -> Iterator[str]:
    """Supplies that a step uses up unseen: `Use four of the glue dots.`"""
    for id, amount in laid.spec.steps[laid.number - 1].uses.items():
        supply = supply_of(laid, id)
        if supply is None:
            continue
        by_length = supply.length is not None
        much = to_cut(laid, amount) if by_length else _count(amount)
        yield f"Use {much} of the {within(supply_title(laid, id))}."


def _count(amount: Fraction) -> str:
    whole = amount.denominator == 1
    return number_word(amount.numerator) if whole else print_length(amount, Unit.INCH)
