"""Flowables laid under one another, and broken over pages: what is kept together stays together."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from reportlab.platypus import Flowable, PageBreak

from booklet.kit.errors import KitError
from booklet.kit.finding import SpecPath

# What sums of heights may be off by, in points.
_LEEWAY = 1e-6
# Higher, and wider, than anything that is laid on a page, in points.
ENDLESS = 100_000.0


class PageOverflowError(KitError):
    """Something is higher than a page and cannot be split; `where` is what the spec has of it, once known."""

    def __init__(self, said: str, where: SpecPath = ()) -> None:
        self.where = where
        super().__init__(said)


class Placed(NamedTuple):
    """A flowable with its place: its top left corner, in points from the top left of its room, y down."""

    flowable: Flowable
    x: float
    y: float
    width: float
    height: float

    @property
    def bottom(self) -> float:
        """Where it ends."""
        return self.y + self.height

    def moved(self, down: float) -> Placed:
        """The same, further down."""
        return Placed(self.flowable, self.x, self.y + down, self.width, self.height)


Column = tuple[Placed, ...]
# What makes the head of a page on which a story goes on, another for every page.
Head = Callable[[], Sequence[Flowable]]


def stacked(story: Sequence[Flowable], width: float, top: float = 0.0) -> Column:
    """Flowables under one another in a column as high as they need; of two spaces the larger counts."""
    placed: list[Placed] = []
    for flowable in story:
        placed.append(_place(flowable, placed, width, top, ENDLESS))
    return tuple(placed)


def tightened(story: Sequence[Flowable], part: float) -> list[Flowable]:
    """Flowables with the spaces between them in some part of what they are; they are changed themselves."""
    for flowable in story if part != 1.0 else ():
        flowable.spaceBefore = part * flowable.getSpaceBefore()
        flowable.spaceAfter = part * flowable.getSpaceAfter()
    return list(story)


def column_height(column: Column) -> float:
    """Where the last flowable of a column ends."""
    return column[-1].bottom if column else 0.0


def story_height(story: Sequence[Flowable], width: float) -> float:
    """How high a story stands in one column."""
    return column_height(stacked(story, width))


def _place(flowable: Flowable, above: Sequence[Placed], width: float, top: float, room: float) -> Placed:
    y = top
    if above:
        last = above[-1]
        y = last.bottom + max(last.flowable.getSpaceAfter(), flowable.getSpaceBefore(), 0.0)
    wide, high = flowable.wrap(width, max(room - y, 0.0))
    spare = max(width - wide, 0.0)
    x = {"CENTER": spare / 2, "RIGHT": spare}.get(getattr(flowable, "hAlign", ""), 0.0)
    return Placed(flowable, x, y, wide, high)


@dataclass
class _Page:
    """A page as it fills."""

    width: float
    height: float
    placed: list[Placed]
    head: int

    @property
    def is_fresh(self) -> bool:
        """Whether nothing but its head is on it."""
        return len(self.placed) == self.head

    def fits(self, group: Sequence[Flowable]) -> bool:
        """Whether flowables fit below what is there."""
        placed = list(self.placed)
        for flowable in group:
            placed.append(_place(flowable, placed, self.width, 0.0, self.height))
        return placed[-1].bottom <= self.height + _LEEWAY

    def add(self, group: Sequence[Flowable]) -> None:
        for flowable in group:
            self.placed.append(_place(flowable, self.placed, self.width, 0.0, self.height))


def break_story(
    story: Sequence[Flowable], width: float, height: float, later: Head = tuple
) -> tuple[Column, ...]:
    """Lay flowables downwards, page after page, each later one under its head; split what can be split.

    What is kept with the next never ends a page; what is optional stands where that takes no further page.
    What is meant to stay together is cut apart where no page holds it.
    Raises PageOverflowError for what neither fits a page nor can be split.
    """
    given: set[object] = {None}
    columns = _broken(_of_groups(story, given), width, height, later)
    for group in _optional_groups(story):
        tried = _broken(_of_groups(story, {*given, group}), width, height, later)
        if len(tried) <= len(columns):
            given.add(group)
            columns = tried
    return columns


def only_if_room(parts: Sequence[Flowable]) -> list[Flowable]:
    """Flowables that stand together where a page has room for all of them, and else are left out."""
    group = object()
    for part in parts:
        part.optional_group = group
    for part in parts[:-1]:
        part.keepWithNext = True
    return list(parts)


def _group(flowable: Flowable) -> object:
    """What a flowable is left out with where a page has no room; None where it is never left out."""
    return getattr(flowable, "optional_group", None)


def _optional_groups(story: Sequence[Flowable]) -> list[object]:
    return list(dict.fromkeys(group for group in map(_group, story) if group is not None))


def _of_groups(story: Sequence[Flowable], groups: set[object]) -> list[Flowable]:
    return [flowable for flowable in story if _group(flowable) in groups]


def _broken(story: Sequence[Flowable], width: float, height: float, later: Head) -> tuple[Column, ...]:
    pages: list[_Page] = []

    def begin() -> _Page:
        head = list(stacked(later(), width)) if pages else []
        pages.append(_Page(width, height, head, len(head)))
        return pages[-1]

    waiting = list(story)
    page = begin()
    while waiting:
        if isinstance(waiting[0], PageBreak):
            waiting.pop(0)
            if not page.is_fresh and waiting:
                page = begin()
            continue
        group = _kept_together(waiting)
        if page.fits(group):
            page.add(group)
            del waiting[: len(group)]
            continue
        parts = _split(page, group, _split_as_meant)
        if not parts and (page.is_fresh or group[-1].wrap(width, height)[1] > height):
            parts = _split(page, group, cut_apart)
        if parts:
            page.add([*group[:-1], parts[0]])
            waiting[: len(group)] = parts[1:]
        elif not page.is_fresh:
            page = begin()
        elif len(group) > 1:
            page.add(group[:1])
            del waiting[0]
        else:
            raise PageOverflowError(_too_high(group[0], width, height))
    return tuple(tuple(page.placed) for page in pages)


def _kept_together(waiting: Sequence[Flowable]) -> list[Flowable]:
    """The first flowable, and as long as each is kept with the next, that one too."""
    group = [waiting[0]]
    for following in waiting[1:]:
        if not group[-1].getKeepWithNext() or isinstance(following, PageBreak):
            break
        group.append(following)
    return group


# Splits a flowable at a height in a column of a width; no parts where it cannot be split there.
_Splitting = Callable[[Flowable, float, float], Sequence[Flowable]]


def _split_as_meant(flowable: Flowable, width: float, height: float) -> Sequence[Flowable]:
    parts: Sequence[Flowable] = flowable.split(width, height)
    return parts


def cut_apart(flowable: Flowable, width: float, height: float) -> Sequence[Flowable]:
    """What fits a height and the rest of it, also of what is meant to stay together; nothing where none fits.

    Such a flowable has a method of this name.
    """
    parts = _split_as_meant(flowable, width, height)
    if len(parts) < 2 and hasattr(flowable, "cut_apart"):
        parts = flowable.cut_apart(width, height)
    return parts


def column_apart(column: Column, height: float) -> tuple[list[Flowable], list[Flowable]]:
    """What of a column stands above a height, and the rest; what such a height holds whole is not cut."""
    kept: list[Flowable] = []
    for at, placed in enumerate(column):
        if placed.bottom > height + _LEEWAY:
            is_cut = not kept or placed.height > height
            parts = cut_apart(placed.flowable, placed.width, height - placed.y) if is_cut else ()
            later = [each.flowable for each in column[at + 1 :]]
            if len(parts) > 1:
                return [*kept, parts[0]], [*parts[1:], *later]
            return kept, [placed.flowable, *later]
        kept.append(placed.flowable)
    return kept, []


def _split(page: _Page, group: Sequence[Flowable], split: _Splitting) -> list[Flowable]:
    """The last of a group in two or more parts, where the others and the first part fit; else nothing."""
    *kept, last = group
    if kept and not page.fits(kept):
        return []
    placed = list(page.placed)
    for flowable in kept:
        placed.append(_place(flowable, placed, page.width, 0.0, page.height))
    y = _place(last, placed, page.width, 0.0, page.height).y
    if page.height - y <= 0:
        return []
    parts = list(split(last, page.width, page.height - y))
    return parts if len(parts) > 1 and page.fits([*kept, parts[0]]) else []


def _too_high(flowable: Flowable, width: float, height: float) -> str:
    high = flowable.wrap(width, height)[1]
    return (
        f"what belongs together is {high:.0f} pt high, and a page has room for {height:.0f} pt; "
        "shorten its words"
    )


def join(column: Column, story: Sequence[Flowable], width: float, height: float) -> Column | None:
    """A page with a further story below what is on it; None where that does not fit.

    What is optional gives way to the story, and stays where there is room for both.
    """
    flowables = [*(placed.flowable for placed in column), *story]
    given: set[object] = {None}
    joined = stacked(_of_groups(flowables, given), width)
    if column_height(joined) > height + _LEEWAY:
        return None
    for group in _optional_groups(flowables):
        tried = stacked(_of_groups(flowables, {*given, group}), width)
        if column_height(tried) <= height:
            given.add(group)
            joined = tried
    return joined


def fill(column: Column, width: float, height: float) -> Column:
    """A page's column with what grows on it taking the room to spare: first what comes last.

    A flowable that can grow has a method `grown`, which makes the same, higher by at most so many points.
    """
    story = [placed.flowable for placed in column]
    for at in reversed([at for at, flowable in enumerate(story) if hasattr(flowable, "grown")]):
        spare = height - column_height(stacked(story, width))
        if spare > 0:
            story[at] = story[at].grown(spare)
    return stacked(story, width)
