"""Which tools the steps of a layout need, besides what the kit supplies."""

from __future__ import annotations

from collections.abc import Iterator
from enum import Enum

from booklet.placing.details import (
    CutAtGutter,
    CutLength,
    Detail,
    Punched,
    Rounded,
    Snipped,
    TrimmedRound,
)
from booklet.placing.model import MeasureKind, PlacedLayout


class Tool(Enum):
    """A tool that the member brings."""

    SCISSORS = "scissors"
    CORNER_ROUNDER = "corner rounder"
    CORNER_PUNCH = "corner punch"
    HOLE_PUNCH = "hole punch"
    PENCIL = "pencil"
    NEEDLE = "needle"


def tools_for(layout: PlacedLayout) -> tuple[Tool, ...]:
    """The tools that a layout's steps need, each once, in the order of the list of tools."""
    needed = {tool for step in layout.steps for detail in step.details for tool in _tools(detail)}
    if any(item.overhang for item in layout.items):
        needed.add(Tool.SCISSORS)
    if any(measure.kind is MeasureKind.GUIDELINE for measure in layout.measures):
        needed.add(Tool.PENCIL)
    return tuple(tool for tool in Tool if tool in needed)


def _tools(detail: Detail) -> Iterator[Tool]:
    match detail:
        case Rounded():
            yield Tool.CORNER_ROUNDER
        case Punched():
            yield Tool.HOLE_PUNCH if detail.hole is not None else Tool.CORNER_PUNCH
        case Snipped() | TrimmedRound() | CutLength() | CutAtGutter():
            yield Tool.SCISSORS
