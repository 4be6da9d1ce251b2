"""What a spec says in short, written out in the words that every later stage knows.

The loader does this once, when every value has been read: a base that names only its paper becomes a sheet,
a stack the steps that lay its things one on the other.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import MISSING, Field, fields
from typing import Any

from booklet.kit.fields import LONGEST_NAME
from booklet.kit.finding import SpecPath
from booklet.kit.kit import MOST_SHEETS, Kit, paper_title
from booklet.kit.layout import Layout
from booklet.kit.sheet import MOST_ALIKE, CutStep, Sheet
from booklet.kit.steps import Column, Place, PositionedStep, Row, Stack, Step, verb_of
from booklet.kit.table_work import SnipWork, WorkStep
from booklet.kit.tree import Complaint
from booklet.kit.used import series
from booklet.measure.cache import cached_on
from booklet.measure.dataclass import dataclass, replace

# What is said of a stack and goes for all of it.
_OF_ALL = ("tilt", "optional", "overhang")


@dataclass(frozen=True, eq=False)
class WrittenOut:
    """A kit in which nothing is said in short, and what cannot be written out.

    `typed` leads from each place that was added or moved to the place where the spec says it.
    """

    kit: Kit
    typed: Mapping[SpecPath, SpecPath]
    complaints: Sequence[Complaint]


@cached_on
def write_out(kit: Kit) -> WrittenOut:
    """The kit with its stacks step by step, and with a sheet for every base that names its paper."""
    typed: dict[SpecPath, SpecPath] = {}
    complaints: list[Complaint] = []
    layouts = [_without_stacks(layout) for layout in kit.layouts]
    for index, one in enumerate(layouts):
        at = "layouts", index
        typed |= {(*at, *there): (*at, *where) for there, where in one.typed.items()}
        complaints += [replace(each, path=(*at, *each.path)) for each in one.complaints]
    kit = replace(kit, layouts=tuple(one.layout for one in layouts))
    return _with_bases(WrittenOut(kit, typed, complaints))


# Bases.


def _with_bases(written: WrittenOut) -> WrittenOut:
    """A kit with the sheets of its bases, last among the sheets."""
    kit = written.kit
    sheets, layouts, typed = list(kit.sheets), list(kit.layouts), dict[SpecPath, SpecPath]()
    for paper, indexes in _bases_by_paper(kit):
        title = paper_title(kit, paper) if paper in kit.papers else None
        sheet = Sheet(id=_free_name(paper, sheets, kit), paper=paper, title=title, count=len(indexes))
        typed["sheets", len(sheets)] = ("layouts", indexes[0], "base")
        sheets.append(sheet)
        for index in indexes:
            layouts[index] = _on_sheet(layouts[index], sheet.id)
    if len(sheets) > MOST_SHEETS:
        found = f"{len(sheets)} sheets, with those of the bases"
        complaint = Complaint(("sheets",), found, f"at most {MOST_SHEETS}")
        return replace(written, complaints=(*written.complaints, complaint))
    kit = replace(kit, sheets=tuple(sheets), layouts=tuple(layouts))
    return WrittenOut(kit, {**written.typed, **typed}, written.complaints)


@cached_on
def _on_sheet(layout: Layout, sheet: str) -> Layout:
    """A layout whose base is a whole sheet, by the sheet's id."""
    return replace(layout, base=replace(layout.base, piece=sheet, paper=None))


def _bases_by_paper(kit: Kit) -> Iterator[tuple[str, list[int]]]:
    """The layouts by index whose bases are whole sheets of one paper, as many as one sheet may count."""
    papers = [layout.base.paper for layout in kit.layouts]
    for paper in dict.fromkeys(paper for paper in papers if paper is not None):
        indexes = [index for index, other in enumerate(papers) if other == paper]
        for start in range(0, len(indexes), MOST_ALIKE):
            yield paper, indexes[start : start + MOST_ALIKE]


def _free_name(paper: str, sheets: list[Sheet], kit: Kit) -> str:
    """The paper's own name for a sheet of it, or one like it where a sheet or a piece is called that."""
    taken = {sheet.id for sheet in sheets} | {piece.name for piece in kit.ready}
    for sheet in sheets:
        taken |= {name for step in sheet.cuts or () for name in _left_by(step)}
        taken |= {*sheet.sizes, *(element.name for element in sheet.printed)}
    names = [paper, *(f"whole {paper}{'' if n == 1 else f' {n}'}"[-LONGEST_NAME:] for n in range(1, 99))]
    return next(name for name in names if name not in taken)


def _left_by(step: CutStep | WorkStep) -> Iterator[str]:
    """The names that a step at the trimmer or of scissors leaves."""
    match step:
        case CutStep():
            yield from (name for names in step.leaves for name in names)
        case SnipWork():
            yield from step.leaves


# Stacks.


@dataclass(frozen=True)
class _Unstacked:
    """A layout with the steps of its stacks in their places; paths begin within it."""

    layout: Layout
    typed: Mapping[SpecPath, SpecPath]
    complaints: Sequence[Complaint]


@cached_on
def _without_stacks(layout: Layout) -> _Unstacked:
    """A layout with its stacks written out, which is kept: most layouts are the same at the next save."""
    if not any(isinstance(step, Stack) for step in layout.steps):
        return _Unstacked(layout, {}, ())
    steps: list[Step] = []
    typed: dict[SpecPath, SpecPath] = {}
    complaints: list[Complaint] = []
    for number, step in enumerate(layout.steps):
        where: SpecPath = ("steps", number)
        if not isinstance(step, Stack):
            typed["steps", len(steps)] = where
            steps.append(step)
            continue
        complaints += _twice(step, where)
        for place, one in enumerate(_one_by_one(step, number, steps)):
            typed |= _typed_of(step, place, ("steps", len(steps)), where)
            steps.append(one)
    return _Unstacked(replace(layout, steps=tuple(steps)), typed, complaints)


def _one_by_one(stack: Stack, number: int, before: list[Step]) -> list[Step]:
    """The steps of a stack, the lowest first; what is laid `before` takes its names."""
    taken = {name for step in before for name in _names_of(step)}
    done: list[Step] = []
    below: str | None = None
    for place, one in enumerate(stack.stack):
        changes = {key: value for key, value in _said(stack).items() if _passes_on(stack, place, key)}
        changes |= {key: value for key, value in _said(one).items() if key in changes}
        if below is not None:
            changes["on"] = below
        name = changes.get("called") or one.called or (one.place if isinstance(one, Place) else None)
        if place < len(stack.stack) - 1 and (name is None or name in taken):
            name = changes["called"] = f"{(name or verb_of(one))[:40]} {place + 1} of step {number + 1}"
        taken |= {name} if name else set()
        below = name
        done.append(replace(one, **changes))
    return done


def _passes_on(stack: Stack, place: int, key: str) -> bool:
    """Whether what is said of a stack goes for the thing at this place of it, from the lowest up."""
    is_turned = key == "turn" and isinstance(stack.stack[place], Place)
    return place == 0 or key in _OF_ALL or is_turned


def _typed_of(stack: Stack, place: int, there: SpecPath, where: SpecPath) -> dict[SpecPath, SpecPath]:
    """From a step that was written out, and its keys, to where the stack says them."""
    one = stack.stack[place]
    here: SpecPath = (*where, "stack", place)
    own = {(*there, key): (*here, key) for key in (verb_of(one), *_said(one))}
    whole = {(*there, key): (*where, key) for key in _said(stack) if _passes_on(stack, place, key)}
    return {there: where if place == 0 else here, **whole, **own}


def _twice(stack: Stack, where: SpecPath) -> Iterator[Complaint]:
    """What a stack and the lowest thing of it both say, and what the others cannot say."""
    for key in _said(stack.stack[0]):
        if key in _said(stack):
            found = f"{key}, which the stack says as well"
            yield Complaint((*where, "stack", 0, key), found, "it said once")
    for place, one in enumerate(stack.stack[1:], start=1):
        for key in ("on", "under", "loose"):
            if key in _said(one):
                expected = "nothing of the kind, since it lies on the one before it"
                yield Complaint((*where, "stack", place, key), key, expected)


def _said(step: PositionedStep) -> dict[str, Any]:
    """What a step says beside its verb, by its keys."""
    known = {one.name: getattr(step, one.name) for one in fields(step) if one.name in _DEFAULTS}
    return {key: value for key, value in known.items() if value != _DEFAULTS[key]}


def _default(one: Field[Any]) -> Any:
    return one.default if one.default_factory is MISSING else one.default_factory()


_DEFAULTS: Mapping[str, Any] = {one.name: _default(one) for one in fields(Place) if one.name != "place"}


def _names_of(step: Step) -> Iterator[str]:
    """What later steps may call what a step lays."""
    if step.called:
        yield step.called
    if isinstance(step, Place):
        yield step.place
    if isinstance(step, Row | Column):
        for entry in series(step):
            yield from (name for name in (entry.called, entry.place) if name)
