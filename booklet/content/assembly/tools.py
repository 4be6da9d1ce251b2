"""Which tools the steps of a layout need, besides what the kit supplies."""

from __future__ import annotations

from booklet.placing.details import Tool
from booklet.placing.model import MeasureKind, PlacedLayout


def tools_for(layout: PlacedLayout) -> tuple[Tool, ...]:
    """The tools that a layout's steps need, each once, in the order of the list of tools."""
    needed = {tool for step in layout.steps for detail in step.details for tool in detail.tools}
    if any(item.overhang for item in layout.items):
        needed.add(Tool.SCISSORS)
    if any(measure.kind is MeasureKind.GUIDELINE for measure in layout.measures):
        needed.add(Tool.PENCIL)
    return tuple(tool for tool in Tool if tool in needed)
