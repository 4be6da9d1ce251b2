"""What stands round the steps of a layout, in English: its base, what it needs, its pictures."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.content.assembly.base import Base, Waits
from booklet.content.spans import (
    Extent,
    Length,
    Line,
    Number,
    Own,
    Part,
    PocketRef,
    StepRef,
    joined,
    line,
    strong,
)
from booklet.content.words.english.assembly.lying import EnglishLying
from booklet.content.words.english.assembly.things import large, leading, within
from booklet.content.words.english.basics import BASICS
from booklet.placing.details import Tool
from booklet.placing.photos import WayUp

_WAYS = {WayUp.UPRIGHT: ", portrait", WayUp.LYING: ", landscape", WayUp.SQUARE: ""}
_TOOLS = {
    Tool.SCISSORS: "scissors",
    Tool.CORNER_ROUNDER: "corner rounder",
    Tool.HOLE_PUNCH: "hole punch",
    Tool.PIN: "pin",
    Tool.INK_PAD: "ink pad",
    Tool.CORNER_PUNCH: "corner punch",
    Tool.PENCIL: "pencil, ruler",
    Tool.NEEDLE: "needle, thread",
}


class EnglishLayoutPage(EnglishLying):
    """What stands round the steps."""

    part = line("Layouts")
    you_need = line("You need")

    # The base.

    def base(self, base: Base) -> Line:
        """`Base: timetable 10, from the pile. Print up, its top at the top of the page.`"""
        label: list[Part] = ["\u00a0", base.label] if base.label is not None else []
        said = line(strong("Base"), ": ", within(base.name), *label, ", ", self._waits(base), ".")
        return joined([said, self._lies(base)])

    def _waits(self, base: Base) -> Line:
        match base.waits:
            case PocketRef():
                return line("in pocket ", base.waits)
            case Waits.PILE:
                return line("from the pile")
            case Waits.BOX:
                return line("from the box")

    def _lies(self, base: Base) -> Line:
        said = [self.handled(base.handling, line("it"))]
        if base.edge is not None:
            said.append(line("Keep the ", within(base.edge.word), f" at the {base.edge.at.value}."))
        elif base.top is not None:
            said.append(line(f"Keep the top of the print at the {base.top.value}."))
        return joined(said)

    # What it needs.

    def photos(self, count: Number, size: Extent, way: WayUp, seen: Number | None) -> Line:
        """`One photo, 6 × 4 in, landscape`."""
        rest = line(" (about ", seen, "\u00a0% is seen)") if seen is not None else ()
        return line(BASICS.counted(large(count), " photo"), ", ", size, _WAYS[way], rest)

    def photo_alt(self, size: Extent, way: WayUp) -> Line:
        """What the small picture of a photograph shows."""
        return line("A photo, ", size, _WAYS[way])

    def supply(self, name: Own, length: Length | None, count: Number | None) -> Line:
        """`Signal red ribbon, 13 in`, `Foam dots, 4`."""
        amount = length or count
        return line(leading(name), ", ", amount) if amount is not None else line(leading(name))

    def supply_alt(self, name: Own) -> Line:
        """What the small picture of a supply shows."""
        return line(name)

    def tools(self, tools: Sequence[Tool]) -> Line:
        """The tools that the steps need: `Scissors, pencil, ruler`."""
        return BASICS.capital(self.tool_names(tools))

    def tool_names(self, tools: Sequence[Tool]) -> Line:
        """The same, to go on with."""
        return line(", ".join(_TOOLS[tool] for tool in tools))

    # Pictures.

    def numbered_alt(self, title: Own, size: Extent, steps: int) -> Line:
        """What the numbered picture of a finished page shows."""
        noun = BASICS.plural(steps, "step")
        return line(
            "The finished page ",
            title,
            ", ",
            size,
            f", with the numbers of its {BASICS.count(steps)} {noun}.",
        )

    def step_alt(self, step: StepRef) -> Line:
        """What the small picture of a step shows."""
        return line("The page once step ", step, " is done, with what lies hidden later.")
