"""Work that is done twice in one place: a step that was typed again."""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Sequence
from dataclasses import fields

from booklet.kit.finding import Finding, warning
from booklet.kit.steps import Ink, Punch, Stencil, Step, TrimRound, Write, verb_of
from booklet.placing.model import Placed
from booklet.placing.state import PlacingState, step_path

# What a second time in the same place adds nothing to, and covers nothing of.
_ONCE = (Write, Stencil, Ink, Punch, TrimRound)
_BESIDE = {"say", "tip", "called", "optional"}
# The keys under which such a step names a thing that may be another one later.
_NAMING = (
    "ink",
    "punch",
    "trim_round",
    "on",
    "under",
    "beside",
    "above",
    "below",
    "flush_with",
    "centred_on",
)


def check_twice(state: PlacingState, items: Sequence[Placed]) -> Iterator[Finding]:
    """Each step of an assembly that does what an earlier one did already.

    A name may have come to stand for another thing in between; it is then another step.
    """
    earlier: dict[Hashable, int] = {}
    for number, step in enumerate(state.layout.steps, start=1):
        if not isinstance(step, _ONCE):
            continue
        done = _done(step), tuple(_laid_before(items, name, number) for name in _names(step))
        if done in earlier:
            found = f"step {number} does the same as step {earlier[done]}"
            yield warning("step-twice", (*step_path(state, number), verb_of(step)), found, "leave one out")
        earlier.setdefault(done, number)


def _done(step: Step) -> Hashable:
    """What a step says of its work, without what is said beside it."""
    said = [(each.name, getattr(step, each.name)) for each in fields(step) if each.name not in _BESIDE]
    return type(step), repr(said)


def _names(step: Step) -> Iterator[str]:
    """The things that a step names."""
    yield from (name for name in (getattr(step, key, None) for key in _NAMING) if name is not None)


def _laid_before(items: Sequence[Placed], name: str, number: int) -> int:
    """How many things of a name an earlier step has laid."""
    return sum(item.step_number < number and name in item.names for item in items)
