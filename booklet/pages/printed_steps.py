"""Steps as they are printed: what is done to a thing as soon as it lies stands in one numbered step with it.

A mat and the photograph on it, a title and the foam that raises it, a tag and its rivet are one movement of
the hands; printed together they are easier to follow, and the figure has fewer numbers.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import takewhile

from booklet.pages.sentences import StepWords

# Work on a thing that lies there already, and what may be laid on the middle of it.
_WORK = {"raise", "round", "punch", "ink", "add"}
_LAID_ON = {"place", "photo", "write"}
# Spaces in print may be non-breaking ones, which \s matches as well.
_ON_ITS_MIDDLE = re.compile(r"[Cc]entred?\s(it\s)?on\s$")
_ONE_OF = re.compile(r"the\s(\w+\sone|\w+\sfrom\sthe\s(left|top))\sof\s$")
_EACH_OF = re.compile(r"each\sof\s$")
_PARTS_OF = re.compile(r"(?P<which>all four |the )(?P<parts>[\w, ]*?(?:corners?|edges?)) of\s$")
_MOST_TOGETHER = 4


@dataclass(frozen=True)
class PrintedStep:
    """One numbered step of a page: the words of one step of the spec, or of several that belong together."""

    number: int
    parts: tuple[StepWords, ...]


def printed_steps(steps: Sequence[StepWords]) -> tuple[PrintedStep, ...]:
    """Put together what belongs together, number it anew, and let the words refer to the new numbers."""
    groups: list[list[StepWords]] = []
    told = _each_told_once(steps)
    for step in told:
        if groups and _belongs(step, groups[-1]):
            groups[-1].append(step)
        else:
            groups.append([step])
    numbers = {
        number: place
        for place, group in enumerate(groups, start=1)
        for step in group
        for number in step.numbers
    }
    within = {step.number: step for group in groups for step in group[1:] if step.symbol in _LAID_ON}
    return tuple(
        PrintedStep(place, tuple(_renumbered(step, group, numbers, within) for step in group))
        for place, group in enumerate(groups, start=1)
    )


def printed_numbers(steps: Sequence[PrintedStep]) -> dict[int, int]:
    """The printed number of every step of the spec."""
    return {number: step.number for step in steps for part in step.parts for number in part.numbers}


def _each_told_once(steps: Sequence[StepWords]) -> list[StepWords]:
    """What is done alike to every one of a row, told once: `Centre one on each of 5`."""
    many = {step.number: len(step.labels) for step in steps}
    told: list[StepWords] = []
    waiting = list(steps)
    while waiting:
        run = _run_of_alikes(waiting)
        if len(run) > 1 and many.get(_referred(run[0])) == len(run):
            told.append(_on_each(run))
        else:
            run = waiting[:1]
            told += run
        del waiting[: len(run)]
    return told


def _run_of_alikes(steps: Sequence[StepWords]) -> list[StepWords]:
    """The first step and those after it that do the same to another one of the same row."""
    pattern = _pattern(steps[0])
    if pattern is None:
        return [steps[0]]
    return [step for step, _ in takewhile(lambda each: each[1] == pattern, ((s, _pattern(s)) for s in steps))]


def _pattern(step: StepWords) -> tuple[object, ...] | None:
    """What a step does, but for which one of a row it does it to; None where it is not about one of a row."""
    if len(step.references) != 1 or not _is_one_of(step.body, step.references[0][0]) or step.tip:
        return None
    start, _ = step.references[0]
    before = _ONE_OF.sub("", step.body[:start])
    return step.symbol, step.head, step.size, step.optional, before, step.body[start:]


def _referred(step: StepWords) -> int:
    return int(step.body[slice(*step.references[0])])


def _on_each(run: Sequence[StepWords]) -> StepWords:
    first = run[0]
    start, end = first.references[0]
    before = _ONE_OF.sub("each of ", first.body[:start]).replace("Centre it on", "Centre one on")
    place = (len(before), len(before) + end - start)
    return replace(
        first,
        head=f"{first.head}s" if first.symbol == "photo" else first.head,
        labels=tuple(label for step in run for label in step.labels),
        body=before + first.body[start:],
        references=(place,),
        others=tuple(step.number for step in run[1:]),
    )


def _belongs(step: StepWords, group: Sequence[StepWords]) -> bool:
    """Whether a step only works on, or lies in the middle of, the last thing that the group laid down."""
    if len(group) == _MOST_TOGETHER or not step.references or step.optional != group[0].optional:
        return False
    laid = _last_laid(group)
    referred = {int(step.body[start:end]) for start, end in step.references}
    if referred != {laid.number} or any(_is_one_of(step.body, start) for start, _ in step.references):
        return False
    before = step.body[: step.references[0][0]]
    if step.symbol in _WORK or _EACH_OF.search(before):
        return True
    return step.symbol in _LAID_ON and _ON_ITS_MIDDLE.search(before) is not None


def _last_laid(group: Sequence[StepWords]) -> StepWords:
    return next((step for step in reversed(group) if step.symbol not in _WORK), group[0])


def _is_one_of(body: str, start: int) -> bool:
    """Whether a number stands for one of several: `the left one of 5`."""
    return _ONE_OF.search(body[:start]) is not None


def _renumbered(
    step: StepWords,
    group: Sequence[StepWords],
    numbers: Mapping[int, int],
    within: Mapping[int, StepWords],
) -> StepWords:
    """A step whose words refer to printed numbers; to what is not the first of its step, by name as well."""
    own = {other.number: other for other in group}
    body, at = "", 0
    for start, end in step.references:
        number = int(step.body[start:end])
        before = step.body[at:start]
        if number in own and number != step.number:
            before, word = _within(before, own[number], step)
        else:
            inner = f"{_the(within[number])} of\u00a0" if number in within else ""
            word = f"{inner}{numbers[number]}"
        body += before + word
        at = end
    return replace(step, body=body + step.body[at:], references=())


def _within(before: str, laid: StepWords, step: StepWords) -> tuple[str, str]:
    """How a step calls the thing that the same printed step laid down just before."""
    if _EACH_OF.search(before):
        return before[: -len(" of ")], ""
    if parts := _PARTS_OF.search(before):
        of = "all four of " if parts["which"] != "the " else ""
        return f"{before[: parts.start()]}{of}its {parts['parts']}", ""
    if _ON_ITS_MIDDLE.search(before) is None:
        return before, "it"
    if step.symbol == "write":
        return before, _the(laid)
    return before[: -len("on ")], "there"


def _the(laid: StepWords) -> str:
    """`the mat`, within a sentence."""
    return f"the {laid.head[:1].lower()}{laid.head[1:]}"
