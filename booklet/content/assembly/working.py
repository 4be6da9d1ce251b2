"""What the steps say that work on things: scissors, punches, ink, foam, whatever the designer says."""

from __future__ import annotations

from collections.abc import Callable

from booklet.content.assembly.lying import Foam
from booklet.content.assembly.telling import Telling, Told, heads_of, names_of
from booklet.content.assembly.things import labels_of, supply_own
from booklet.content.spans import Extent, Line, Own, Part, PieceRef, Role
from booklet.kit.sheet import SCRAP
from booklet.kit.steps import Do, Ink, Punch, Raise, Round, Snip, Step, TrimRound
from booklet.measure.dataclass import replace
from booklet.placing.details import HandWork, Inked, Punched, Raised, Rounded, Snipped, Target, TrimmedRound
from booklet.placing.model import Placed


def _taken(told: Telling, target: Target) -> Told:
    """What is worked on, where it has not just been told of: its head."""
    if told.is_in_hand:
        return Told(heads_of(told, told.context.items(sorted(told.it))))
    if target.ids:
        items = told.context.items(target.ids)
        return Told() if set(target.ids) <= told.it else Told(names_of(told, items))
    items = _to_come(told, target.name)
    if not items:
        return Told((told.words.supply_head(Own(target.name, told.path)),))
    return Told(heads_of(told, items))


def _to_come(told: Telling, name: str) -> tuple[Placed, ...]:
    """What is laid later under a name."""
    coming = [
        item
        for item in told.context.layout.items
        if item.step_number > told.number and name in (item.piece, item.called)
    ]
    return tuple(sorted(coming, key=lambda item: item.id))


# Scissors.


def tell_snip(told: Telling) -> Told:
    """A piece that is cut in parts."""
    step = told.step(Snip)
    detail = told.detail(Snipped)
    head = told.words.piece_head(Own(step.snip, (*told.path, "snip")), None)
    if detail is None:
        return Told((head,))
    entry = told.context.resolved.ledger.of_use(told.context.layout.index, detail.use)
    labels = tuple(PieceRef(label, label) for label in labels_of([entry] if entry is not None else []))
    return Told((told.words.labelled(head, labels),), (_snipped(told, detail),))


def _snipped(told: Telling, detail: Snipped) -> Line:
    end = _cut_off(told, detail)
    if end is not None:
        return end
    unit = told.context.unit
    at = [told.length(one, Role.DISTANCE, "at", n) for n, one in enumerate(detail.at)]
    parts: list[tuple[Part, Extent]] = []
    for place, part in enumerate(detail.parts):
        source = (*told.path, "leaves", place)
        name: Part = told.words.scrap if part.name == SCRAP else Own(part.name, source)
        parts.append((name, Extent(part.size, unit, source)))
    return told.words.snip(at, detail.measured_from, parts)


def _cut_off(told: Telling, detail: Snipped) -> Line | None:
    """Of two parts of which one is scrap, the end that comes off."""
    names = [part.name for part in detail.parts]
    if len(names) != 2 or names.count(SCRAP) != 1:
        return None
    scrap = detail.parts[names.index(SCRAP)]
    edge = detail.measured_from if names[0] == SCRAP else detail.measured_from.opposite
    length = scrap.size.width if edge.is_upright else scrap.size.height
    return told.words.cut_off(edge, told.length(length, Role.WIDTH, "at", 0))


def tell_trim_round(told: Telling) -> Told:
    """A piece that is trimmed before it is laid."""
    step = told.step(TrimRound)
    detail = told.detail(TrimmedRound)
    taken = _taken(told, Target(step.trim_round, ()))
    if detail is None:
        return taken
    unit, source = told.context.unit, (*told.path, "size")
    size = Extent(detail.size, unit, source, with_unit=True) if detail.size else None
    outline = told.own(detail.outline, "outline")
    return replace(taken, said=(told.words.trim_round(outline, size),))


# Corners and edges.


def tell_round(told: Telling) -> Told:
    """Corners that are rounded."""
    detail = told.detail(Rounded)
    if detail is None:
        return Told()
    taken = _taken(told, detail.target)
    radius = told.length(detail.radius, Role.RADIUS, "radius")
    said = told.words.round_corners(detail.corners, told.target(detail.target), radius)
    return replace(taken, said=(said,))


def tell_punch(told: Telling) -> Told:
    """Corners, or a hole."""
    detail = told.detail(Punched)
    if detail is None:
        return Told()
    taken = _taken(told, detail.target)
    thing, shape = told.target(detail.target), told.own(detail.shape, "shape")
    if detail.hole is None or detail.held is None:
        return replace(taken, said=(told.words.punch_corners(detail.corners, thing, shape),))
    width = told.length(detail.hole.width, Role.HOLE, "hole")
    said = told.words.punch_hole(thing, width, shape, told.lying(detail.held))
    return replace(taken, said=(said,))


def tell_ink(told: Telling) -> Told:
    """Edges that are inked."""
    detail = told.detail(Inked)
    if detail is None:
        return Told()
    taken = _taken(told, detail.target)
    ink = supply_own(told.context, detail.supply) if detail.supply else None
    after = (told.words.use(ink),) if ink is not None else ()
    said = told.words.ink(detail.edges, told.target(detail.target))
    return replace(taken, said=(said,), after=after)


# Foam, and the rest.


def foam_of(told: Telling, detail: Raised) -> Foam:
    """What something is raised on."""
    name = supply_own(told.context, detail.foam) if detail.foam else None
    count = told.count(detail.count) if detail.count else None
    return Foam(count, told.count(detail.halves, "halves") if detail.halves else None, name)


def tell_raise(told: Telling) -> Told:
    """Something on foam: where it opens a part, what is taken is the foam."""
    detail = told.detail(Raised)
    if detail is None:
        return Told()
    foam = foam_of(told, detail)
    is_named = told.is_first and foam.name is not None and not told.is_in_hand
    said = (told.words.raise_on(told.target(detail.target), foam, is_named=is_named),)
    if is_named and foam.name is not None:
        return Told((told.words.supply_head(foam.name),), said=said)
    return replace(_taken(told, detail.target), said=said)


def tell_do(told: Telling) -> Told:
    """Anything else, in the designer's words."""
    step = told.step(Do)
    detail, said = told.detail(HandWork), Own(step.do, (*told.path, "do"))
    if detail is None:
        return Told((told.words.by_hand,), said=(told.words.do(said, None),))
    if len(detail.targets) == 1:
        thing = told.target(detail.targets[0]) if detail.lies else None
        return replace(_taken(told, detail.targets[0]), said=(told.words.do(said, thing),))
    heads = tuple(head for target in detail.targets for head in _taken(told, target).heads)
    return Told(heads, said=(told.words.do(said, told.thing(detail.ids) if detail.lies else None),))


TELLERS: dict[type[Step], Callable[[Telling], Told]] = {
    Snip: tell_snip,
    TrimRound: tell_trim_round,
    Round: tell_round,
    Punch: tell_punch,
    Ink: tell_ink,
    Raise: tell_raise,
    Do: tell_do,
}
