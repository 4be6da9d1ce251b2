"""Work that comes too late for the tool: a hole or a rounded corner in what is glued down flat."""

from __future__ import annotations

from collections.abc import Iterator

from booklet.content.assembly.printed import Member, printed_steps
from booklet.kit.finding import Finding, warning
from booklet.kit.steps import PositionedStep
from booklet.kit.words import quoted
from booklet.placing.details import Moved, Punched, Rounded
from booklet.placing.model import Placed, PlacedLayout
from booklet.placing.resolved import ResolvedKit


def check_late_work(resolved: ResolvedKit) -> Iterator[Finding]:
    """Each punch that comes, as the steps are printed, only after what it works on has been glued down.

    The booklet tells of such work before the piece is laid wherever one printed step can hold both.
    """
    for layout in resolved.layouts:
        members = [member for printed in printed_steps(resolved, layout.index) for member in printed.members]
        for place, member in enumerate(members):
            for number in member.steps:
                yield from _check(layout, number, members[:place])


def _check(layout: PlacedLayout, number: int, before: list[Member]) -> Iterator[Finding]:
    step = layout.steps[number - 1]
    for detail in step.details:
        if not isinstance(detail, Rounded | Punched):
            continue
        glued = [id for id in detail.target.ids if any(_glues(layout, member, id) for member in before)]
        flat = [item for item in layout.items if item.id in glued and _lies_flat(item)]
        if flat:
            found = f"{quoted(detail.target.name)} is glued down by then, and no punch reaches under it"
            cure = "do it before the piece is placed, or place the piece loose: yes"
            yield warning("work-too-late", step.path, found, cure)


def _glues(layout: PlacedLayout, member: Member, id: int) -> bool:
    """Whether a printed step lays an item to stay: what is loose is laid by the group that takes it up."""
    steps = [layout.steps[number - 1] for number in member.steps]
    if id in member.items and not any(one.detail(Moved) for one in steps):
        return not any(isinstance(one.step, PositionedStep) and one.step.loose for one in steps)
    return any(moved is not None and id in moved.items for moved in (one.detail(Moved) for one in steps))


def _lies_flat(item: Placed) -> bool:
    """Whether something lies right beneath all of it: not where it stands on foam or hangs over the page."""
    return not item.finish.raised and not item.overhang
