"""Carry out planned steps on a sheet and count what they cost and what they leave."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise

from booklet.cutting.orientation import Orientation, strip
from booklet.cutting.planner.wanted import Concerns, Metrics, PlannedStep, Settings
from booklet.kit.fields import Edge
from booklet.kit.sheet import SCRAP
from booklet.measure.dataclass import dataclass
from booklet.measure.exact import Fraction
from booklet.measure.geometry import ExactRect, rect_at_origin
from booklet.measure.length import Size, is_on_mark


@dataclass(frozen=True)
class BenchPart:
    """What lies on the bench: a name, the rectangle of the sheet's front that it is, and how it lies."""

    name: str
    rect: ExactRect
    lying: Orientation


@dataclass(frozen=True)
class _Pass:
    """One pass of the blade: the reading, and the width of what lay under it."""

    reading: Fraction
    width: Fraction


def execute_steps(steps: Sequence[PlannedStep], sheet_size: Size) -> tuple[BenchPart, ...]:
    """The parts that the steps leave of one sheet that lies upright.

    Raises ValueError for a step that cannot be carried out: what it takes is not there or not equal, a
    reading lies outside it, or the names do not count up.
    """
    bench = _whole(sheet_size)
    for step in steps:
        bench, _ = _one_step(bench, step)
    return bench


def measure_steps(steps: Sequence[PlannedStep], sheet_size: Size) -> Metrics:
    """Cuts, settings, turns and scrap of the steps for one sheet; raises ValueError as `execute_steps`."""
    readings = [reading for step in steps for reading in step.at]
    changes = sum(one != other for one, other in pairwise(readings))
    scrap = [part.rect.area for part in execute_steps(steps, sheet_size) if part.name == SCRAP]
    return Metrics(
        sheets=1,
        cuts=len(readings),
        settings=changes + 1 if readings else 0,
        turns=sum(step.turn is not None for step in steps),
        scrap_area=sum(scrap, Fraction(0)),
        largest_scrap=max(scrap, default=Fraction(0)),
    )


def total_metrics(metrics: Iterable[Metrics]) -> Metrics:
    """The metrics of several sheets taken together."""
    all_ = tuple(metrics)
    return Metrics(
        sheets=sum(one.sheets for one in all_),
        cuts=sum(one.cuts for one in all_),
        settings=sum(one.settings for one in all_),
        turns=sum(one.turns for one in all_),
        scrap_area=sum((one.scrap_area for one in all_), Fraction(0)),
        largest_scrap=max((one.largest_scrap for one in all_), default=Fraction(0)),
    )


def concerns_of(steps: Sequence[PlannedStep], sheet_size: Size, settings: Settings) -> Concerns:
    """What the trimmer or the hand may object to; raises ValueError as `execute_steps`."""
    bench, passes = _whole(sheet_size), list[_Pass]()
    for step in steps:
        bench, made = _one_step(bench, step)
        passes += made
    return Concerns(
        beyond_reach=sum(one.reading > settings.reach for one in passes),
        off_marks=sum(not is_on_mark(one.reading, settings.mark) for one in passes),
        unsafe=sum(max(one.reading, one.width - one.reading) < settings.hold for one in passes),
    )


def _whole(size: Size) -> tuple[BenchPart, ...]:
    return (BenchPart("", rect_at_origin(size), Orientation()),)


def _one_step(bench: tuple[BenchPart, ...], step: PlannedStep) -> tuple[tuple[BenchPart, ...], list[_Pass]]:
    taken = _take(bench, step)
    lying = taken[0].lying.turned(step.turn)
    sizes = {part.lying.turned(step.turn).seen_size(part.rect.size) for part in taken}
    if len(sizes) != 1:
        raise ValueError("parts of different sizes are cut together")
    width = sizes.pop().width
    bounds = [Fraction(0), *sorted(step.at), width]
    if len(step.leaves) != len(bounds) - 1 or any(low >= high for low, high in pairwise(bounds)):
        raise ValueError(f"readings {step.at} do not cut {width} into {step.leaves}")
    made = tuple(
        BenchPart(name, strip(part.rect, part.lying.turned(step.turn), low, high, Edge.LEFT), lying)
        for name, (low, high) in zip(step.leaves, pairwise(bounds), strict=True)
        for part in taken
    )
    left = tuple(part for part in bench if part not in taken)
    return left + made, _passes(step.at, width)


def _take(bench: tuple[BenchPart, ...], step: PlannedStep) -> list[BenchPart]:
    taken: list[BenchPart] = []
    for name in step.take or ("",):
        found = next((part for part in bench if part.name == name and part not in taken), None)
        if found is None:
            raise ValueError(f"no part {name!r} lies there to be taken")
        taken.append(found)
    return taken


def _passes(readings: Sequence[Fraction], width: Fraction) -> list[_Pass]:
    """What lies under the blade at each reading: after a cut, what is left between it and the zero."""
    passes = []
    for reading in readings:
        passes.append(_Pass(reading, width))
        width = reading
    return passes
