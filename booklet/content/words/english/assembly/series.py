"""Where several things lie in line, in English."""

from __future__ import annotations

from booklet.content.assembly.lying import (
    AtEdge,
    BeyondEdge,
    Centred,
    FromEdge,
    Hold,
    InLine,
    Lying,
    MiddleOne,
    NextTo,
    Overlapping,
    Page,
    Series,
    Thing,
)
from booklet.content.spans import Length, Line, Own, joined, line
from booklet.content.words.english.assembly.lying import FROM, EnglishLying, stood_on
from booklet.content.words.english.assembly.things import within
from booklet.content.words.english.basics import BASICS
from booklet.kit.fields import Edge
from booklet.kit.position import Direction

_LINES = {Direction.ACROSS: "in a row", Direction.DOWN: "in a column"}
_IN_ORDER = {
    Direction.ACROSS: ", in this order from the left",
    Direction.DOWN: ", in this order from the top",
}
_BESIDE = {Direction.ACROSS: "beside", Direction.DOWN: "above and below"}
# Where a row or a column begins.
_STARTS = {Edge.LEFT, Edge.TOP}


class EnglishSeries(EnglishLying):
    """How several things lie in line."""

    def line_up(self, series: Series, lying: Lying, name: Own | None) -> Line:
        """`Stand them in a row on the rail ②: 3/4 in from the left and the right, 3/8 in apart.`

        `name` is that of what is laid where more is laid with it.
        """
        count = int(series.count.value)
        things = line("the ", BASICS.several(count, within(name))) if name is not None else line("them")
        handled = self._before_laying(lying, things)
        if series.middle is not None and series.gap is not None and series.is_alike:
            return joined([handled, self._from_the_middle(series, series.middle, series.gap, lying, name)])
        return joined([handled, self._lined("Lay", line("them") if handled else things, series, lying)])

    def _from_the_middle(
        self, series: Series, middle: MiddleOne, gap: Length, lying: Lying, name: Own | None
    ) -> Line:
        """`Stand the middle window first on the rail ②: its centre 6 in from the left. The others ...`"""
        stood = stood_on(lying.holds)
        verb, on = "Lay", self._on(lying)
        if lying.under:
            verb, on = "Slide", self.under_and_on(lying)
        elif stood is not None:
            verb, on = "Stand", line(" on ", self.the(stood.thing))
        sideways = " sideways" if lying.handling.is_sideways and not lying.under else ""
        one = line("the middle ", within(name) if name is not None else "one")
        phrases = [self._middle_at(middle), *self._phrases(lying, stood)]
        first = line(f"{verb} ", one, f"{sideways} first", on, ": ", joined(phrases, ", "), ".")
        others = line(
            f"The others {_BESIDE[series.direction]} it, ", gap, " apart", self._alike_tilt(lying.tilt), "."
        )
        return joined([first, others, *self._after_line(lying)])

    def fix_in_line(self, series: Series, lying: Lying, name: Own | None, *, is_fixed: bool) -> Line:
        """Small things in line: `Fix six lantern brads in a row`, the name left out where a head has it."""
        them = self.some(series.count, name) if name is not None else line(series.count)
        handled = self.handled(lying.handling, them)
        them = line("them") if handled else them
        lined = self._lined("Fix" if is_fixed else "Put", them, series, lying, is_fixed=is_fixed)
        return joined([handled, lined])

    def _lined(self, verb: str, them: Line, series: Series, lying: Lying, *, is_fixed: bool = False) -> Line:
        order = "" if series.is_alike else _IN_ORDER[series.direction]
        is_sideways = lying.handling.is_sideways and not lying.under
        how = f" {'sideways ' if is_sideways else ''}{_LINES[series.direction]}{order}"
        stood = stood_on((*lying.holds, *series.ends)) if verb == "Lay" else None
        if lying.under:
            begun = line("Slide ", them, how, self.under_and_on(lying))
        elif stood is not None:
            begun = line("Stand ", them, f"{how}{',' if order else ''} on ", self.the(stood.thing))
        else:
            begun = line(f"{verb} ", them, how, self._on(lying))
        cross = [
            self.hold(hold, lying, many=True, to_middle=series.is_from_middles)
            for hold in lying.holds
            if hold is not stood
        ]
        ends = () if stood in series.ends else self._ends(series, lying)
        phrases = [*ends, *cross, *self._apart(series)]
        start = next((end for end in series.ends if isinstance(end, FromEdge) and end.edge in _STARTS), None)
        if series.is_from_middles and series.gap is not None and start is not None:
            first = line("the first ", self.hold(start, lying, to_middle=True))
            phrases = [*cross, first, line("then every ", series.gap)]
        if series.is_from_middles and not is_fixed:
            phrases = [line("their middles ", phrases[0]), *phrases[1:]]
        said = line(begun, ": ", joined(phrases, ", "), self._alike_tilt(lying.tilt), ".")
        middle = (
            line("Start with the middle one, ", self._middle_at(series.middle), ".") if series.middle else ()
        )
        return joined([said, middle, *self._after_line(lying)])

    def _after_line(self, lying: Lying) -> list[Line]:
        tilt = self._after(lying, line("each"))[:1] if lying.tilt is not None else []
        trim = [line(f"Trim them at the {self.edges(lying.trim)} of the page.")] if lying.trim else []
        return [*tilt, *trim]

    def _ends(self, series: Series, lying: Lying) -> list[Line]:
        match series.ends:
            case (AtEdge() as one, AtEdge() as other) if one.owner == other.owner:
                of = line(" of ", self.the(one.owner)) if isinstance(one.owner, Thing) else ()
                return [line("from edge to edge", of)]
            case (FromEdge() as one, FromEdge() as other) if _is_same_at_both(one, other):
                return [self._both_ends(one, other, lying)]
            case _:
                return [self._end(end, series, lying) for end in series.ends]

    def _both_ends(self, one: FromEdge, other: FromEdge, lying: Lying) -> Line:
        if not isinstance(one.owner, Page):
            return line(one.distance, " from ", self.ends_of(one.owner, [one.edge, other.edge], lying.on))
        if not one.edge.is_upright:
            return line(one.distance, " from the top and the bottom")
        return line(one.distance, " from the left and the right")

    def _end(self, end: Hold, series: Series, lying: Lying) -> Line:
        if isinstance(end, Centred):
            return line(
                "the whole ",
                "row " if series.direction is Direction.ACROSS else "column ",
                self._centred(end, lying),
            )
        edge = _end_edge(end)
        which = "the last" if edge in {Edge.RIGHT, Edge.BOTTOM} else "the first"
        return line(f"{which} ", self.hold(end, lying, to_middle=True))

    def _apart(self, series: Series) -> list[Line]:
        if series.gap is not None:
            return [line(series.gap, " apart", " and at both ends" if series.even_ends else "")]
        if series.lap is not None:
            return [line("each overlapping the one before by ", series.lap)]
        return [line("edge to edge")]

    def _middle_at(self, middle: MiddleOne) -> Line:
        edge = Edge.LEFT if middle.direction is Direction.ACROSS else Edge.TOP
        if isinstance(middle.owner, Page):
            return line("its centre ", middle.distance, f" {FROM[edge]}")
        return line("its centre ", middle.distance, " from ", self.edge_of(edge, middle.owner))


def _is_same_at_both(one: FromEdge, other: FromEdge) -> bool:
    return one.owner == other.owner and one.distance.value == other.distance.value


def _end_edge(end: Hold) -> Edge | None:
    match end:
        case AtEdge() | FromEdge() | BeyondEdge():
            return end.edge
        case InLine():
            return end.edges[0]
        case NextTo() | Overlapping():
            return end.side.opposite
        case _:
            return None
