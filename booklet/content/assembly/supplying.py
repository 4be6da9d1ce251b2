"""What the steps say that use supplies: stencils, ribbon, tape, brads and other small things."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from booklet.content.assembly.holds import HeldThing, series_of
from booklet.content.assembly.telling import Telling, Told
from booklet.content.assembly.things import is_brad, supply_own
from booklet.content.assembly.work import Repeats, Seam, Tie, Times
from booklet.content.spans import Extent, Line, Role
from booklet.kit.position import Direction
from booklet.kit.steps import Add, Ribbon, Stencil, Step, Stitch, Tape
from booklet.measure.length import Size
from booklet.placing.details import (
    Added,
    BandForm,
    CutLength,
    EvenGap,
    Held,
    Repeat,
    Stencilled,
    Tied,
)
from booklet.placing.stitches import Stitched


def _heads(told: Telling, supply: str) -> tuple[Line, ...]:
    name = supply_own(told.context, supply)
    return (told.words.supply_head(name),) if name is not None else ()


# Stencils.


def tell_stencil(told: Telling) -> Told:
    """An area that is stencilled, from a pencil line where one is ruled."""
    step = told.step(Stencil)
    heads, detail, held = _heads(told, step.stencil), told.detail(Stencilled), told.detail(Held)
    if detail is None or held is None:
        return Told(heads)
    edge = detail.guideline if detail.ruled is not None else None
    if edge is not None:
        held = held.without(Direction.ACROSS if edge.is_upright else Direction.DOWN)
    times = _times(told, step, held.rect.size)
    size = _size_of(told, step.stencil) if times is not None else None
    extent = Extent(size or held.rect.size, told.context.unit, (*told.path, "size"), with_unit=True)
    said = [told.words.stencil(extent, told.lying(held), edge, times)]
    if detail.ruled is not None and edge is not None:
        distance = told.length(detail.ruled, Role.DISTANCE, edge.value)
        said.insert(0, told.words.rule_line(edge, distance))
    elif detail.guideline is not None:
        said.append(told.words.stencil_along(detail.guideline))
    after = tuple(_fits_and_ink(told, step, detail, is_whole=times is not None))
    return Told(heads, said=tuple(said), after=after)


def _times(told: Telling, step: Stencil, area: Size) -> Times | None:
    """How often a stencil is laid side by side to fill an area; None where it does not fill it so."""
    size = _size_of(told, step.stencil)
    if size is None:
        return None
    across, down = area.width / size.width, area.height / size.height
    is_row, is_column = down == 1 and across > 1, across == 1 and down > 1
    if across.denominator != 1 or down.denominator != 1 or not (is_row or is_column):
        return None
    count = told.count(int(across * down), "stencil")
    return Times(count, Direction.ACROSS if is_row else Direction.DOWN)


def _size_of(told: Telling, id: str) -> Size | None:
    supply = told.context.resolved.kit.supply(id)
    return supply.size if supply else None


def _fits_and_ink(told: Telling, step: Stencil, detail: Stencilled, *, is_whole: bool) -> Iterator[Line]:
    across, down = _repeats(told, detail.across), _repeats(told, detail.down)
    if not is_whole and (across or down):
        yield told.words.pattern_fits(across, down)
    ink = supply_own(told.context, step.supply) if step.supply else None
    if ink is not None:
        yield told.words.use(ink)


def _repeats(told: Telling, repeat: Repeat | None) -> Repeats | None:
    if repeat is None or not repeat.times:
        return None
    over = told.length(repeat.remainder, Role.SPACING) if repeat.remainder else None
    return Repeats(told.count(repeat.times, "stencil"), over)


# Ribbon and tape.


def tell_band(told: Telling) -> Told:
    """A length of ribbon or tape, in its form."""
    step, words = told.placed.step, told.words
    assert isinstance(step, Ribbon | Tape)
    heads = _heads(told, step.ribbon if isinstance(step, Ribbon) else step.tape)
    detail, held = told.detail(CutLength), told.detail(Held)
    if detail is None or held is None:
        return Told(heads)
    match detail.form:
        case BandForm.WRAP:
            run = step.run or Direction.ACROSS
            said = words.wrap(told.thing(held.frame), told.lying(held.without(run)), run, _tie(told, run))
        case BandForm.ALONG:
            run = Direction.DOWN if held.rect.height > held.rect.width else Direction.ACROSS
            said = words.along(told.thing(held.frame), told.lying(held.without(run)))
        case BandForm.LOOP:
            said = words.loop(told.length(detail.net / 2, Role.LENGTH, "loop"), told.lying())
        case BandForm.BOW:
            said = words.bow(told.lying())
        case BandForm.KNOT:
            tie = told.detail(Tied)
            tails = told.length(tie.tails, Role.LENGTH, "tails") if tie and tie.tails else None
            said = words.knot(tails, told.lying())
        case _:
            said = words.lay(told.lying())
    return Told(heads, said=(_cut(told, detail), said))


def _tie(told: Telling, run: Direction) -> Tie | None:
    """What a wrap is tied in; None of one that is closed behind."""
    found = told.detail(Tied)
    if found is None:
        return None
    tails = told.length(found.tails, Role.LENGTH, "tails") if found.tails is not None else None
    at = told.length(found.at, Role.DISTANCE, "tied_at") if found.at is not None else None
    return Tie(found.form is BandForm.BOW, tails, at, run)


def _cut(told: Telling, detail: CutLength) -> Line:
    is_folded = detail.form in {BandForm.RUN, BandForm.ALONG, BandForm.STRIP}
    allowance = detail.allowance / 2 if is_folded else detail.allowance
    tie = told.detail(Tied) if detail.form is BandForm.WRAP else None
    key = (tie.form.value if tie else "overlap") if detail.form is BandForm.WRAP else "ends"
    total, net = told.length(detail.total, Role.LENGTH), told.length(detail.net, Role.LENGTH)
    more = told.length(allowance, Role.LENGTH, key) if allowance else None
    return told.words.cut_length(total, detail.form, net, more, tie.form if tie else None)


# Small things.


def tell_add(told: Telling) -> Told:
    """Brads and other small things: one, several in line, in corners, or scattered."""
    step = told.step(Add)
    heads = _heads(told, step.add) if told.is_first else ()
    detail, held = told.detail(Added), told.detail(Held)
    if detail is None or held is None:
        return Told(heads)
    name = None if told.is_first else supply_own(told.context, step.add)
    owner = told.owner(held.frame)
    words, is_fixed, count = told.words, is_brad(told.context, step.add), told.count(detail.count)
    one = told.count(1)
    if detail.scattered:
        said = words.scatter(count, name, owner)
    elif step.corners and step.inset is not None:
        inset = told.length(step.inset, Role.DISTANCE, "inset")
        each = words.one_of_supply(one, name)
        said = words.in_corners(step.corners, owner, inset, each, told.lying(), is_fixed=is_fixed)
    elif told.detail(EvenGap) is not None:
        series, lying = series_of(HeldThing(told.context, told.placed, held, told.it), count)
        said = words.fix_in_line(series, lying, name, is_fixed=is_fixed)
    else:
        said = words.fix(told.lying(), one, name, is_fixed=is_fixed)
    return Told(heads, said=(said,))


# Stitches.


def tell_stitch(told: Telling) -> Told:
    """A line of stitches through two things."""
    step = told.step(Stitch)
    heads = _heads(told, step.thread) if step.thread else (told.words.stitches,)
    detail = told.detail(Stitched)
    if detail is None:
        return Told(heads)
    seam = Seam(
        told.thing(detail.first),
        told.owner(detail.second),
        detail.edge,
        told.length(detail.inset, Role.DISTANCE, "inset"),
        told.length(detail.start, Role.DISTANCE, "ends"),
        told.count(detail.count, "length"),
        told.length(detail.length, Role.LENGTH, "length"),
        told.length(detail.spacing, Role.SPACING, "spacing"),
    )
    return Told(heads, said=(told.words.sew(seam),))


TELLERS: dict[type[Step], Callable[[Telling], Told]] = {
    Stencil: tell_stencil,
    Ribbon: tell_band,
    Tape: tell_band,
    Add: tell_add,
    Stitch: tell_stitch,
}
# What takes from a roll, or a tool of its own, stands in a part of its own.
APART = (Stencil, Ribbon, Tape, Stitch)
