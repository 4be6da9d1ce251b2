"""The printed steps of a layout as items of a list."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from booklet.content.assembly import laying, supplying, working
from booklet.content.assembly.hidden import is_hidden
from booklet.content.assembly.lying import Foam, Thing
from booklet.content.assembly.nesting import (
    line_on_each,
    lying_of_member,
    nested_first,
    nested_lines,
    run_on_each,
)
from booklet.content.assembly.printed import Member, PrintedStep, is_foam_of
from booklet.content.assembly.telling import Telling, heads_of
from booklet.content.assembly.things import LayoutContext, item_name, supply_own, thing_of
from booklet.content.assembly.unglued import Unglued, unglued_in
from booklet.content.assembly.working import foam_of
from booklet.content.blocks import Picture, StepItem, StepPart
from booklet.content.figures import StepFigure
from booklet.content.spans import Line, Role, StepRef, Weight, joined, line
from booklet.content.words.language import Language
from booklet.kit.fields import Edge
from booklet.kit.steps import Photo, Place, Step
from booklet.measure.dataclass import replace
from booklet.placing.details import Raised
from booklet.placing.model import ItemKind

_TELLERS = {**laying.TELLERS, **working.TELLERS, **supplying.TELLERS}
_PAPER = {ItemKind.PIECE, ItemKind.PHOTO}


def step_item(context: LayoutContext, printed: PrintedStep, language: Language) -> StepItem:
    """A printed step: a part for each thing that is taken in it."""
    parts = tuple(_parts(context, printed, language))
    if printed.is_optional and parts:
        first = replace(parts[0], said=language.assembly.if_you_like(parts[0].said))
        parts = (first, *parts[1:])
    picture = _picture(context, printed, language) if is_hidden(context, printed) else None
    return StepItem(printed.number, parts, picture)


def _picture(context: LayoutContext, printed: PrintedStep, language: Language) -> Picture:
    figure = StepFigure(context.layout.index, context.numbers, printed.number)
    return Picture(figure, language.assembly.step_alt(StepRef(context.layout.id, printed.number)))


@dataclass
class _Part:
    """A part in the making: what is taken in it, what is said, one tip at its end."""

    heads: list[Line] = field(default_factory=list)
    said: list[Line] = field(default_factory=list)
    tip: Line = ()


def _parts(context: LayoutContext, printed: PrintedStep, language: Language) -> Iterator[StepPart]:
    """A part for what is taken together: one piece with all that is put on it, each cut of ribbon or tape."""
    unglued = list(unglued_in(context, printed))
    nested = nested_first(context, printed.members)
    part, it = _Part(), frozenset[int]()
    if nested:
        _tell_nested(part, [Telling(context, language, member) for member in nested], unglued)
        it = frozenset(nested[-1].items)
    waiting, hand, turned = list(printed.members[len(nested) :]), False, set[int]()
    while waiting:
        if run := run_on_each(context, waiting):
            _tell_on_each(part, [Telling(context, language, member) for member in run], unglued)
            del waiting[: len(run)]
            it, hand = frozenset(run[-1].items), False
            continue
        member = waiting.pop(0)
        told = _telling(context, language, member, waiting, it, is_first=not part.said)
        told = replace(told, is_turned=bool(turned & {*member.items, *told.it}))
        if waiting and is_foam_of(context.layout, waiting[0], member):
            told = replace(told, foam=_foam(Telling(context, language, waiting.pop(0))))
        is_apart = isinstance(member.first.step, supplying.APART)
        if part.said and (is_apart or (part.tip and not hand)):
            yield _finished(part, language)
            part = _Part()
            told = replace(told, is_first=True, it=told.it if told.is_in_hand else frozenset())
        if told.is_in_hand and not told.is_turned:
            part.said.append(_turned(told, waiting))
            turned |= told.it
        if isinstance(told.placed.step, Place | Photo) and told.it <= set(member.items):
            told = _warned(part, told, unglued)
        _add(part, told, unglued, is_named=hand)
        hand = bool(member.in_hand) or told.is_in_hand
        it = frozenset(member.items) if _is_paper(context, member) or not told.it else told.it
    yield _finished(part, language)


def _telling(
    context: LayoutContext,
    language: Language,
    member: Member,
    waiting: Sequence[Member],
    it: frozenset[int],
    *,
    is_first: bool,
) -> Telling:
    """A member that is to be told, by those that wait: what is laid only by one of these is in the hand."""
    papers = [one for one in waiting if _is_paper(context, one)]
    to_come = {id for one in papers for id in one.items}
    is_in_hand = bool(member.about) and not member.items and member.about <= to_come
    is_shared = len(papers) > (0 if _is_paper(context, member) else 1)
    it = member.about if is_in_hand else it
    return Telling(context, language, member, it, is_first, is_shared, is_in_hand)


def _turned(told: Telling, waiting: Sequence[Member]) -> Line:
    """How the hand turns what it works on, before it does: edges and corners are named as they will lie."""
    laying = next(one for one in waiting if told.it <= set(one.items))
    lying = lying_of_member(told.context, laying)
    assert lying is not None
    items = told.context.items(sorted(told.it))
    name = item_name(told.context, items[0]) if told.is_shared else None
    return told.words.turned(lying.handling, told.words.them(len(items), name))


def _foam(told: Telling) -> Foam | None:
    """The foam on which what is laid next is raised: it is stuck on before the thing is laid."""
    detail = told.detail(Raised)
    return foam_of(told, detail) if detail is not None else None


def _add(part: _Part, told: Telling, unglued: list[Unglued], *, is_named: bool) -> None:
    """What a step says, added to a part; what was in the hand has been named."""
    step = told.placed.step
    said = _TELLERS[type(step)](told)
    if not is_named:
        part.heads += said.heads
    part.said += [
        *said.said,
        *_own_words(told, step),
        *said.after,
        *_leave_unglued(told, frozenset(told.member.items), unglued),
        *_used_up(told, step),
    ]
    part.tip = line(part.tip, " " if part.tip and step.tip else "", _tip(told, step))


def _finished(part: _Part, language: Language) -> StepPart:
    heads = language.assembly.heads(part.heads)
    return StepPart(heads, joined(part.said), part.tip)


def _is_paper(context: LayoutContext, member: Member) -> bool:
    return bool(member.items) and all(item.kind in _PAPER for item in context.items(member.items))


def _own_words(told: Telling, step: Step) -> Iterator[Line]:
    own = told.own(step.say, "say")
    if own is not None:
        yield line(own)


def _tip(told: Telling, step: Step) -> Line:
    own = told.own(step.tip, "tip")
    return line(replace(own, weight=Weight.QUIET)) if own is not None else ()


def _used_up(told: Telling, step: Step) -> Iterator[Line]:
    """Supplies that a step uses unseen."""
    kit = told.context.resolved.kit
    for id, amount in step.uses.items():
        name, source = supply_own(told.context, id), (*told.path, "uses", id)
        supply = kit.supply(id)
        if name is None or supply is None:
            continue
        if supply.by_length:
            yield told.words.use_up(name, told.length(amount, Role.SUPPLY, "uses", id), None)
        elif amount.denominator == 1:
            yield told.words.use_up(name, None, told.language.basics.few(amount.numerator, source))
        else:
            yield told.words.use_up(name, None, told.language.basics.number(amount, kit.unit, source))


# What is not glued yet.


def _warned(part: _Part, told: Telling, unglued: list[Unglued]) -> Telling:
    """A step before which is told that its thing is wrapped before it is glued."""
    wrapped = [one for one in unglued if one.is_wrapped and set(one.items) == set(told.member.items)]
    if not wrapped:
        return told
    part.said += _leave_unglued(told, frozenset(told.member.items), unglued)
    return replace(told, is_first=False)


def _leave_unglued(told: Telling, mine: frozenset[int], unglued: list[Unglued]) -> Iterator[Line]:
    """What this part leaves unglued; each is told where its thing is."""
    several: dict[tuple[Edge, ...], list[tuple[Thing, tuple[StepRef, ...]]]] = {}
    for one in [one for one in unglued if set(one.items) <= mine]:
        unglued.remove(one)
        found = thing_of(told.context, one.items, told.number)
        is_it = set(one.items) == mine and not told.it - mine
        thing = replace(found, steps=(), is_it=is_it, one_of=None if is_it else found.one_of)
        rings = tuple(dict.fromkeys(told.context.ring(step) for step in one.steps))
        if one.is_wrapped:
            yield told.words.do_not_glue(thing, rings[0])
        elif thing.one_of is not None and one.edges:
            several.setdefault(one.edges, []).append((thing, rings))
        else:
            yield told.words.leave_unglued(one.edges, thing, rings)
    for edges, things in several.items():
        yield told.words.leave_each_unglued(edges, things)


# Things centred on each other.


def _tell_nested(part: _Part, tellings: Sequence[Telling], unglued: list[Unglued]) -> None:
    """Things that are put on each other first, and then laid down as one."""
    first, step = tellings[0], tellings[0].placed.step
    part.heads += [head for told in tellings for head in heads_of(told, told.items)]
    part.said += [
        *nested_lines(tellings),
        *_own_words(first, step),
        *_leave_unglued(first, frozenset(id for told in tellings for id in told.member.items), unglued),
        *_used_up(first, step),
    ]
    part.tip = _tip(first, step)


def _tell_on_each(part: _Part, tellings: Sequence[Telling], unglued: list[Unglued]) -> None:
    """What is put one after another on each of several."""
    part.heads += [head for told in tellings for head in heads_of(told, told.items)]
    part.said.append(line_on_each(tellings))
    for told in tellings:
        part.said += _leave_unglued(told, frozenset(told.member.items), unglued)
