"""Things centred on each other: put together first and laid as one, or one after another on each of a row."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.content.assembly.holds import HeldThing, handling_of, lying_of
from booklet.content.assembly.lying import Handling, Lying, Nested
from booklet.content.assembly.printed import Member
from booklet.content.assembly.telling import Telling
from booklet.content.assembly.things import LayoutContext, item_name
from booklet.content.spans import Length, Line
from booklet.kit.steps import Photo, Place, PositionedStep
from booklet.measure.dataclass import replace
from booklet.placing.details import Held
from booklet.placing.model import ItemKind


def lying_of_member(context: LayoutContext, member: Member) -> Lying | None:
    """How what a step lays down lies; None where placing settled nothing."""
    held = member.first.detail(Held)
    if held is None or not isinstance(member.first.step, PositionedStep):
        return None
    return lying_of(HeldThing(context, member.first, held))


# Laid as one.


def nested_first(context: LayoutContext, members: Sequence[Member]) -> Sequence[Member]:
    """The first members, where each lies on the middle of the one before and the same of each is seen."""
    run: list[Member] = []
    for member in members:
        is_next = _is_nest(context, member) if not run else _is_nested(context, member, run[-1])
        if not is_next:
            break
        run.append(member)
    return run if len(run) > 1 else ()


def nested_lines(tellings: Sequence[Telling]) -> tuple[Line, Line]:
    """How things are put on each other, and how the first lies with them."""
    first, *others = tellings
    words, lying = first.words, lying_of_member(first.context, first.member)
    assert lying is not None
    borders = [_even_border(told.context, told.member) for told in others]
    nest = [
        Nested(item_name(told.context, told.items[0]), _is_sideways(told), border)
        for told, border in zip(tellings, [*borders, None], strict=True)
    ]
    pieces = [one for one, told in zip(nest, tellings, strict=True) if told.items[0].kind is ItemKind.PIECE]
    if all(one.is_sideways for one in pieces):
        nest = [replace(one, is_sideways=False) for one in nest]
    elif lying.handling.is_sideways:
        lying = replace(lying, handling=Handling())
    return words.lay_nested(nest), words.lay(lying, count=len(nest))


def _is_sideways(told: Telling) -> bool:
    lying = lying_of_member(told.context, told.member)
    return lying is not None and lying.handling.is_sideways


def _is_nest(context: LayoutContext, member: Member) -> bool:
    """Whether a step lays one thing that others may be centred on before it is laid."""
    step = member.first.step
    if not isinstance(step, Place | Photo) or member.is_on_each or not member.items:
        return False
    handling = handling_of(context, context.items(member.items), step)
    return not (step.loose or step.spread or handling.is_over or handling.turn)


def _is_nested(context: LayoutContext, member: Member, below: Member) -> bool:
    """Whether a thing lies on the one before it as those before it do, and no more is to be said of it."""
    if not _is_nest(context, member) or member.about != frozenset(below.items):
        return False
    return _is_plain(member) and _even_border(context, member) is not None


def _is_plain(member: Member) -> bool:
    step = member.first.step
    return not (step.say or step.tip or step.uses or getattr(step, "overhang", False))


def _even_border(context: LayoutContext, member: Member) -> Length | None:
    """What is seen all round of what a thing lies on, where that is the same on all sides."""
    lying = lying_of_member(context, member)
    border = lying.seen if lying is not None else None
    return border.across if border is not None and border.is_even else None


# One after another on each.


def run_on_each(context: LayoutContext, members: Sequence[Member]) -> Sequence[Member]:
    """The first members that put one thing after another on each of a row, the same seen of all."""
    run: list[Member] = []
    for member in members:
        if not _is_put_on_each(context, member) or (run and not _is_alike(context, member, run)):
            break
        run.append(member)
    return run if len(run) > 1 else ()


def line_on_each(tellings: Sequence[Telling]) -> Line:
    """`On each a cream mat, then a photo, 1/8 in showing all round each time.`"""
    names = [item_name(told.context, told.items[0]) for told in tellings]
    border = _even_border(tellings[0].context, tellings[0].member)
    assert border is not None
    return tellings[0].words.lay_each_nested(names, border)


def _is_put_on_each(context: LayoutContext, member: Member) -> bool:
    lays = isinstance(member.first.step, Place | Photo)
    if not lays or not member.is_on_each or not _is_plain(member):
        return False
    lying = lying_of_member(context, member)
    is_bare = lying is not None and lying.handling == Handling() and lying.tilt is None and not lying.trim
    return is_bare and _even_border(context, member) is not None


def _is_alike(context: LayoutContext, member: Member, run: Sequence[Member]) -> bool:
    border, other = _even_border(context, member), _even_border(context, run[0])
    is_same = border is not None and other is not None and border.value == other.value
    return is_same and member.about == frozenset(run[-1].items)
