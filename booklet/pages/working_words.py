"""What the steps say that work on things, and those that use supplies."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from booklet.kit.kit import capitalised
from booklet.kit.position import Direction, Position
from booklet.kit.steps import Add, Do, Ink, Punch, Raise, Ribbon, Round, Snip, Stencil, Tape, TrimRound
from booklet.pages.cut_words import number_word
from booklet.pages.laid import Laid, find, length, refer, said, size
from booklet.pages.series_words import NOUNS, in_line
from booklet.pages.told import (
    Told,
    detail_of,
    ending,
    entries_of,
    from_box,
    going_on,
    labels_of,
    order,
    things,
)
from booklet.pages.where_words import Where, where
from booklet.pages.work_words import (
    AXES,
    BESIDE_LINE,
    add_verb,
    along_words,
    corner_words,
    fit_words,
    guideline_of,
    ink_words,
    length_words,
    punch_words,
    raise_words,
    round_words,
    ruled_words,
    snip_words,
    supply_title,
    trim_words,
    within,
)
from booklet.placing.details import (
    Added,
    BandForm,
    CutLength,
    Inked,
    Punched,
    Raised,
    Rounded,
    Snipped,
    Stencilled,
    TrimmedRound,
)
from booklet.placing.model import ItemKind, Placed

# Pieces in the hand, or where they lie.


def tell_snip(laid: Laid, step: Snip) -> Told:
    """A piece that is cut in parts; where to snip stands nowhere else, so that it is always said."""
    detail = detail_of(laid, Snipped)
    if detail is None:
        return Told(capitalised(step.snip))
    entry = laid.resolved.ledger.of_use(laid.layout.index, detail.use)
    entries = [entry] if entry is not None else []
    whole = size(laid, entry.size) if entry is not None else ""
    words = (snip_words(laid, detail),)
    return Told(capitalised(step.snip), "", labels_of(entries), whole, from_box(entries), words)


def tell_trim_round(laid: Laid, step: TrimRound) -> Told:
    """A piece that is trimmed before it is laid."""
    detail = detail_of(laid, TrimmedRound)
    told = _in_hand(laid, step.trim_round)
    if detail is None:
        return told
    return replace(told, order=trim_words(laid, detail))


def _in_hand(laid: Laid, name: str) -> Told:
    """A piece that is worked on before it is laid."""
    coming = [
        item
        for item in laid.layout.items
        if item.step_number > laid.number and name in (item.piece, item.called)
    ]
    items = sorted(coming, key=lambda item: item.id)
    piece = items[0].piece if items and items[0].piece else name
    return Told(capitalised(piece), labels=labels_of(entries_of(laid, items)))


def _worked_on(laid: Laid, name: str, ids: Sequence[int]) -> Told:
    """A piece that is worked on where it lies, or before."""
    if not ids:
        return _in_hand(laid, name)
    item = laid.layout.item(ids[0])
    return Told(capitalised(item.piece or item.name))


def tell_round(laid: Laid, step: Round) -> Told:
    """Corners that are rounded."""
    detail = detail_of(laid, Rounded)
    if detail is None:
        return Told(capitalised(step.round))
    told = _worked_on(laid, step.round, detail.target.ids)
    return replace(told, order=round_words(laid, detail))


def tell_punch(laid: Laid, step: Punch) -> Told:
    """Corners, or a hole."""
    detail = detail_of(laid, Punched)
    if detail is None:
        return Told(capitalised(step.punch))
    told = _worked_on(laid, step.punch, detail.target.ids)
    if detail.hole is None:
        return replace(told, order=punch_words(laid, detail, ()))
    words = punch_words(laid, detail, _hole_phrases(laid, step, detail))
    return replace(told, order=words)


def _hole_phrases(laid: Laid, step: Punch, detail: Punched) -> tuple[str, ...]:
    """Where a hole is on its piece, which the sentence has named already."""
    assert detail.hole is not None
    hole = replace(laid.layout.base, rect=detail.hole, kind=ItemKind.ADDED)
    at = where(_with_piece(laid, step.punch, detail.target.ids), replace(step, on=step.punch), hole)
    return ("in its middle",) if at.centred_on else at.phrases


def _with_piece(laid: Laid, name: str, ids: Sequence[int]) -> Laid:
    """The page with the piece on it by this name, even if it is still in the hand."""
    if ids:
        return replace(laid, names={**laid.names, name: tuple(ids)})
    in_hand = replace(laid.layout.base, id=len(laid.layout.items) + 1, step_number=laid.number)
    layout = replace(laid.layout, items=(*laid.layout.items, in_hand))
    return replace(laid, layout=layout, names={**laid.names, name: (in_hand.id,)})


def tell_ink(laid: Laid, step: Ink) -> Told:
    """Edges that are inked."""
    detail = detail_of(laid, Inked)
    if detail is None:
        return Told(capitalised(step.ink))
    told = _worked_on(laid, step.ink, detail.target.ids)
    supply = (f"Use the {within(supply_title(laid, detail.supply))}.",) if detail.supply else ()
    return replace(told, order=ink_words(laid, detail), after=supply)


def tell_raise(laid: Laid, step: Raise) -> Told:
    """Something on foam: what is taken is the foam."""
    detail = detail_of(laid, Raised)
    if detail is None:
        return Told(capitalised(step.raised))
    head = (
        supply_title(laid, detail.foam)
        if detail.foam
        else _worked_on(laid, step.raised, detail.target.ids).head
    )
    return Told(head, raise_words(laid, detail))


def tell_do(laid: Laid, step: Do) -> Told:
    """Anything else, in the designer's words."""
    reference = find(laid, step.on) if step.on is not None else None
    if reference is None:
        return Told(capitalised(step.on) if step.on is not None else "By hand", said(step.do))
    item = laid.layout.item(reference.ids[0])
    return Told(capitalised(item.piece or item.name), f"On {refer(laid, reference.ids)}: {said(step.do)}")


# Supplies.


def tell_stencil(laid: Laid, step: Stencil) -> Told:
    """An area that is stencilled."""
    head, detail = supply_title(laid, step.stencil), detail_of(laid, Stencilled)
    for item in things(laid):
        if detail is None:
            break
        ink = (f"Use the {within(supply_title(laid, step.supply))}.",) if step.supply else ()
        return Told(
            head,
            _stencil_order(laid, step, item, detail),
            before=tuple(ruled_words(laid, detail)),
            after=(*along_words(laid, detail), *fit_words(laid, detail), *ink),
        )
    return Told(head)


def _stencil_order(laid: Laid, step: Stencil, item: Placed, detail: Stencilled) -> str:
    """The area, and where it lies; from a pencil line, only what the line has not said."""
    area, line = f"Stencil an area of {size(laid, item.rect.size)}", guideline_of(laid, detail)
    if line is None or detail.guideline is None:
        at = where(laid, step, item)
        return f"{', '.join((area, *at.all))}{ending(laid, step, at)}."
    direction = AXES[detail.guideline]
    ruled: dict[str, Any] = {edge.value: None for edge, axis in AXES.items() if axis is direction}
    at = where(laid, replace(step, **ruled), item, fill=direction)
    begun = f"{area} {BESIDE_LINE[detail.guideline]}"
    end = f"the stencil's {detail.guideline.value} edge on the line"
    return f"{', '.join((begun, *at.all, end))}{ending(laid, step, at)}."


def tell_ribbon(laid: Laid, step: Ribbon) -> Told:
    """A length of ribbon, in its form."""
    head, detail = supply_title(laid, step.ribbon), detail_of(laid, CutLength)
    for item in things(laid):
        if detail is None:
            break
        run = step.run or Direction.ACROSS
        cut = (length_words(laid, detail, run),)
        return Told(head, _ribbon_order(laid, step, item, detail, run), before=cut)
    return Told(head)


def _ribbon_order(laid: Laid, step: Ribbon, item: Placed, detail: CutLength, run: Direction) -> str:
    match detail.form:
        case BandForm.WRAP:
            at = where(laid, replace(step, on=step.wrap), item, fill=run)
            it = refer(laid, reference.ids) if (reference := find(laid, step.wrap or "")) else "it"
            way = ", top to bottom" if run is Direction.DOWN else ""
            wrap = f"{', '.join((f'Wrap it round {it}{way}', *at.phrases))}{ending(laid, step, at)}."
            return f"{wrap} Glue {it} down only then."
        case BandForm.LOOP:
            loop = f"Fold it to a loop of {length(laid, detail.net / 2)} and fix it"
            return _fixed(laid, step, loop, where(laid, step, item))
        case BandForm.BOW:
            return _fixed(laid, step, "Tie a bow and fix it", where(laid, step, item))
        case _:
            return order(laid, step, item, fill=run)


def _fixed(laid: Laid, step: Position, begun: str, at: Where) -> str:
    """A sentence that goes on with where a thing is fixed."""
    phrases = (f"on {at.centred_on}",) if at.centred_on else at.all
    return f"{going_on(begun, phrases)}{ending(laid, step, at)}."


def tell_tape(laid: Laid, step: Tape) -> Told:
    """A length of tape, in its form."""
    head, detail = supply_title(laid, step.tape), detail_of(laid, CutLength)
    for item in things(laid):
        if detail is None:
            break
        run = Direction.DOWN if item.rect.height > item.rect.width else Direction.ACROSS
        cut = (length_words(laid, detail, run),)
        if detail.form is BandForm.ALONG:
            return Told(head, _along(laid, step, item, run), before=cut)
        fill = run if detail.form is BandForm.RUN else None
        return Told(head, order(laid, step, item, "stick", fill=fill), before=cut)
    return Told(head)


def _along(laid: Laid, step: Tape, item: Placed, run: Direction) -> str:
    """Tape on a strip, as long as that is."""
    strip = find(laid, step.along or "")
    begun = f"Run it along {refer(laid, strip.ids)}" if strip is not None else "Run it along"
    at = where(laid, replace(step, on=step.along), item, fill=run)
    return f"{', '.join((begun, *at.phrases))}."


def tell_add(laid: Laid, step: Add) -> Told:
    """Brads and other small things."""
    head, detail = supply_title(laid, step.add), detail_of(laid, Added)
    items = things(laid)
    if detail is None or not items:
        return Told(head)
    return Told(head, _add_order(laid, step, items, detail))


def _add_order(laid: Laid, step: Add, items: Sequence[Placed], detail: Added) -> str:
    verb, count = add_verb(laid, step.add), number_word(detail.count)
    on = find(laid, step.on) if step.on is not None else None
    it = refer(laid, on.ids) if on is not None else "the page"
    if detail.scattered:
        return f"Scatter {count} over {it}."
    if step.corners:
        inset = length(laid, step.inset) if step.inset is not None else ""
        corners = "each corner" if len(step.corners) == 4 else "each of " + corner_words(step.corners)
        return f"{verb} one in {corners} of {it}, {inset} from both edges."
    if step.run is not None:
        return f"{', '.join((f'{verb} {count} in a {NOUNS[step.run]}', *in_line(laid, step, step.run)))}."
    at = where(laid, step, items[0])
    if at.centred_on:
        return f"{verb} one in the middle of {at.centred_on}."
    return f"{going_on(f'{verb} one', at.all)}{ending(laid, step, at)}."
