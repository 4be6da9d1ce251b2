"""Where things lie, in English."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.content.assembly.lying import (
    AtEdge,
    BeyondEdge,
    Border,
    Centred,
    Foam,
    FromEdge,
    Handling,
    Hold,
    InCorner,
    InLine,
    Lying,
    Nested,
    NextTo,
    OnFold,
    Overlapping,
    Owner,
    Page,
    Pivot,
    Thing,
    Tilt,
    Whole,
)
from booklet.content.spans import Length, Line, Number, Own, Part, joined, line, strong
from booklet.content.words.english.assembly.things import EnglishThings, a, within
from booklet.content.words.english.basics import BASICS
from booklet.kit.fields import Edge, Turn
from booklet.kit.position import Direction
from booklet.measure.dataclass import replace

_TURNS = {
    Turn.CLOCKWISE: "a quarter clockwise",
    Turn.ANTICLOCKWISE: "a quarter anticlockwise",
    Turn.HALF: "half round",
}
_SIDES = {Edge.TOP: "above", Edge.BOTTOM: "below", Edge.LEFT: "to the left of", Edge.RIGHT: "to the right of"}
FROM = {Edge.LEFT: "from the left", Edge.RIGHT: "from the right", Edge.TOP: "down", Edge.BOTTOM: "up"}
_BOTH_WAYS = {Direction.ACROSS: "left to right", Direction.DOWN: "top to bottom"}
_HALFWAY = {Direction.ACROSS: "halfway across", Direction.DOWN: "halfway down"}
_AT_ENDS = {Direction.ACROSS: "at each side", Direction.DOWN: "above and below"}


# What is in the hand needs no name.
_IN_HAND = (line("it"), line("them"))


class EnglishLying(EnglishThings):
    """How things lie."""

    # How to read all that follows.

    def laying_sign(self, *, has_turned: bool, has_small: bool, has_tilted: bool) -> Line:
        """When to glue, between which points to measure, how to turn."""
        small = "; rivets, brads, bows: to their middle" if has_small else ""
        turned = " Sideways: turned a quarter." if has_turned else ""
        tilted = " Tilt a piece about its middle, after measuring it straight; right is clockwise."
        return line(
            strong("Laying."),
            " Lay means glue, unless the step says not yet. From the left, down, up: from the page’s edge to "
            f"the piece’s nearest edge{small}.{turned}{tilted if has_tilted else ''}",
        )

    # One thing, or several as one.

    def lay(self, lying: Lying, thing: Line = (), *, count: int = 1, is_bare: bool = False) -> Line:
        """`Lay it sideways across the page, top edge 4 5/8 in down.`

        `thing` is what is laid where that is not `it`.  `is_bare` leaves out the verb right after a head that
        has named the thing.
        """
        them = thing or line("it" if count == 1 else "them")
        it = "it" if count == 1 else "them"
        handled = self._before_laying(lying, them)
        if handled:
            laid = self._laid("Lay", line(it), _by_name(lying) if thing else lying)
        else:
            laid = self._laid("" if is_bare else "Lay", them, lying)
        is_put_on = lying.centre is not None and isinstance(lying.centre.owner, Thing)
        tilted = thing if thing and is_put_on else line(it)
        return joined([handled, laid, *self._after(lying, tilted)])

    def lay_one_on_each(self, lying: Lying, thing: Line) -> Line:
        """`Centre a photo on each; 1/8 in shows all round.`"""
        handled = self.handled(lying.handling, line("each"))
        return joined([handled, self._laid("Lay", thing, lying), *self._after(lying, line("each"))])

    def lay_nested(self, nest: Sequence[Nested]) -> Line:
        """`One on another, the cream mat sideways, 1/8 in showing all round.`

        Where not the same is seen of all: `1/4 in of the big mat shows all round, 1/8 in of the others`.
        """
        turned = [_nested(one) for one in nest if one.is_sideways]
        begun = line(
            "One on another", ", " if turned else "", BASICS.listed(turned), " sideways" if turned else ""
        )
        runs: list[tuple[Length, list[Line]]] = []
        for one in nest:
            if one.border is not None and (not runs or runs[-1][0].value != one.border.value):
                runs.append((one.border, []))
            if one.border is not None:
                runs[-1][1].append(_nested(one))
        if len(runs) == 1:
            return line(begun, ", ", runs[0][0], " showing all round.")
        said: list[Line] = []
        for border, things in runs:
            is_rest = bool(said) and len(things) > 1 and border is runs[-1][0]
            said.append(line(border, " of ", "the others" if is_rest else BASICS.listed(things)))
        first, *others = said
        return line(begun, ": ", joined([line(first, " shows all round"), *others], ", "), ".")

    def lay_each_nested(self, names: Sequence[Own | None], border: Length) -> Line:
        """`On each a cream mat, then a photo, 1/8 in showing all round each time.`"""
        things = [a(within(name)) if name is not None else line("a photo") for name in names]
        return line("On each ", joined(things, ", then "), ", ", border, " showing all round each time.")

    def keep(self, thing: Line) -> Line:
        """Of what is put together before it is laid on the page."""
        return line("Keep ", thing or "it", " on the table for now.")

    def leave_free(self, size: Part, lying: Lying, *, is_named: bool) -> Line:
        """`Leave 3 3/4 × 1 1/2 in free: 6 in from the left, 2 7/8 in down.`

        What it is for is told where no head has done so.
        """
        border = line("; ", self.border(lying.seen, is_seen=False)) if lying.seen is not None else ()
        after = self._after(lying, line("it"))
        if lying.centre is not None and not is_named:
            begun = line("Leave ", self._middle_of(lying.centre.owner), " free to write in, ")
            if lying.seen is not None and lying.seen.is_even and lying.seen.across is not None:
                return joined([line(begun, "up to ", lying.seen.across, " from its edges."), *after])
            return joined([line(begun, size, border, "."), *after])
        free = line("Leave ", size, " free")
        if lying.centre is not None:
            return joined([line(free, " in ", self._middle_of(lying.centre.owner), border, "."), *after])
        on = line(" on ", self.the(lying.on)) if lying.on is not None else ()
        purpose = "" if is_named else " to write in"
        phrases = joined(self._phrases(lying), ", ")
        return joined([line(free, on, purpose, ": " if phrases else "", phrases, border, "."), *after])

    def _middle_of(self, owner: Owner) -> Line:
        """`its middle`, `the middle of the card ⑥`, `the middle of the page`."""
        is_it = isinstance(owner, Thing) and owner.is_it
        return line("its middle") if is_it else line("the middle of ", self.the(owner))

    def handled(self, handling: Handling, them: Line) -> Line:
        """`Turn it a quarter clockwise.`; a turn over before."""
        over = line("Turn ", them, " back side up.") if handling.is_over else ()
        turn = line("Turn ", them, f" {_TURNS[handling.turn]}.") if handling.turn is not None else ()
        return joined([over, turn])

    def _before_laying(self, lying: Lying, them: Line) -> Line:
        """What the hand does first; what is slid under another is turned before."""
        return self.turned(lying.handling, them) if lying.under else self.handled(lying.handling, them)

    def turned(self, handling: Handling, them: Line) -> Line:
        """How the hand turns what it works on before it is laid: `Turn it sideways.`"""
        sideways = line("Turn ", them, " sideways.") if handling.is_sideways else ()
        return joined([self.handled(handling, them), sideways])

    def _laid(self, verb: str, them: Line, lying: Lying) -> Line:
        seen = line("; ", self.border(lying.seen)) if lying.seen is not None else ()
        placed = self._placed(verb, them, lying)
        return line(placed, self._alike_tilt(lying.tilt), self._on_foam(lying.foam), seen, ".")

    def _placed(self, verb: str, them: Line, lying: Lying, *, to_middle: bool = False) -> Line:
        """A verb, what it is done to, and where: without the end of the sentence."""
        if lying.under:
            return self._slid(them, lying)
        it = line(them, " sideways") if lying.handling.is_sideways else them
        if lying.centre is not None:
            return self._centred_both(verb, it, lying)
        stood = stood_on(lying.holds)
        if stood is not None and verb in {"Lay", ""}:
            begun = line("Stand ", it, " on ", self.the(stood.thing))
            return joined([begun, *self._phrases(lying, stood), *self._way(lying)], ", ")
        whole = self._whole(lying.whole)
        on = line("on ", self.the(lying.on)) if lying.on is not None and not lying.on.is_it else ()
        phrases = [*self._phrases(lying, to_middle=to_middle), *self._way(lying)]
        if not verb:
            return self._bare(joined([whole, on]), phrases, is_sideways=lying.handling.is_sideways)
        begun = joined([line(f"{verb} ", it), whole, on])
        if whole or on or not phrases:
            return joined([begun, *phrases], ", ")
        return line(begun, " ", self._first(lying, to_middle), joined(phrases, ", "))

    def _bare(self, begun: Line, phrases: Sequence[Line], *, is_sideways: bool) -> Line:
        """Where a thing lies, without a verb."""
        if is_sideways:
            begun = line("sideways ", begun) if begun else line("sideways")
        return BASICS.capital(joined([begun, *phrases], ", "))

    def _first(self, lying: Lying, to_middle: bool) -> str:
        """What joins the first phrase to the verb."""
        if to_middle:
            return "with its middle "
        first = lying.holds[0] if lying.holds else None
        return "with its " if first is not None and self._is_drop(first, lying) else ""

    def _slid(self, it: Line, lying: Lying) -> Line:
        if lying.centre is not None:
            on = () if lying.centre.owner in lying.under else line(" on ", self.the(lying.centre.owner))
            return line("Slide ", it, self.under(lying), ", centred", on)
        stood = stood_on(lying.holds)
        standing = line("standing on ", self.ring(stood.thing)) if stood is not None else ()
        held = (*self._phrases(lying, stood), *self._way(lying))
        phrases = joined([self._whole(lying.whole), standing, *held], ", ")
        begun = line("Slide ", it, self.under_and_on(lying))
        return line(begun, ": ", phrases) if phrases else begun

    def under(self, lying: Lying) -> Line:
        """What things are slid under: ` under ③ and ⑤`."""
        return line(" under ", BASICS.listed([self.ring(thing) for thing in lying.under]))

    def under_and_on(self, lying: Lying) -> Line:
        """The same with what they rest on there: ` under ③, on the frame ②`."""
        on = self._on(lying)
        return line(self.under(lying), ",", on) if on else self.under(lying)

    def _on(self, lying: Lying) -> Line:
        """What things rest on, if that has not just been told: ` on the frame ②`."""
        return line(" on ", self.the(lying.on)) if lying.on is not None and not lying.on.is_it else ()

    def _centred_both(self, verb: str, it: Line, lying: Lying) -> Line:
        assert lying.centre is not None
        owner, margins = lying.centre.owner, lying.centre.margins
        if verb not in {"Lay", ""}:
            return line(f"{verb} ", it, " in ", self._middle_of(owner))
        left = self._margins(margins) if margins is not None else ()
        return joined([line("Centre ", it, " on ", self.the(owner)), left, *self._way(lying)], ", ")

    def _margins(self, margins: Border) -> Line:
        assert margins.across is not None
        assert margins.down is not None
        return line(margins.across, " at each side, ", margins.down, " above and below")

    def _way(self, lying: Lying) -> list[Line]:
        """An edge of its print, where that has not been told with an edge of the page."""
        edge = lying.print_edge
        if edge is None or any(_is_along(hold, lying) for hold in lying.holds):
            return []
        return [line(within(edge.word), f" at the {edge.at.value}")]

    def _after(self, lying: Lying, them: Line) -> list[Line]:
        """The tilt, and where it is cut off."""
        said: list[Line] = []
        if lying.tilt is not None and lying.tilt.pivot is Pivot.OWN_MIDDLE:
            way = "right" if lying.tilt.is_clockwise else "left"
            what = () if them in _IN_HAND else line(them, "\u00a0")
            said.append(line("Tilt\u00a0", what, lying.tilt.degrees, f"\u00a0{way}."))
        if lying.trim:
            said.append(line("Trim ", them, f" at the {self.edges(lying.trim)} of the page."))
        return said

    def _alike_tilt(self, tilt: Tilt | None) -> Line:
        return line(", at the same tilt") if tilt is not None and tilt.pivot is Pivot.WITH_HOST else ()

    def _on_foam(self, foam: Foam | None) -> Line:
        return line(", on ", self.some_foam(foam)) if foam is not None else ()

    def some_foam(self, foam: Foam) -> Line:
        """`four foam dots`, `two bits of foam`, `two whole and one half foam dots`."""
        if foam.halves is not None:
            is_one = foam.count is None and foam.halves.value == 1
            bits = line("bit of foam" if is_one else "bits of foam")
            halves = line(_whole_and(foam.count), foam.halves, " half ")
            return line(halves, self.of_kind(foam.name, is_one=is_one) if foam.name else bits)
        assert foam.count is not None
        if foam.name is None:
            return line(BASICS.counted(foam.count, " bit"), " of foam")
        return self.some(foam.count, foam.name)

    def how_much_foam(self, foam: Foam) -> Line:
        """The same without its name: `four`, `two whole and one half`, `three halves`."""
        if foam.halves is None:
            return line(foam.count or "")
        half = BASICS.counted(foam.halves, " half", " halves") if foam.count is None else None
        return half or line(_whole_and(foam.count), foam.halves, " half")

    def border(self, border: Border, *, is_seen: bool = True) -> Line:
        """`1/8 in shows all round`, `1/4 in shows at the sides, 1/8 in above and below`."""
        across, down = border.across, border.down
        shows = " shows" if is_seen else ""
        if border.is_even:
            return (
                line(across, f"{shows} all round") if across is not None else line("edge on edge all round")
            )
        sides = line(across, f"{shows} at the sides") if across is not None else line("flush at the sides")
        shows = shows if across is None else ""
        ends = line(down, f"{shows} above and below") if down is not None else line("flush above and below")
        return line(sides, ", ", ends)

    # Phrases.

    def _whole(self, whole: Whole | None) -> Line:
        if whole is None:
            return ()
        it = self.the(whole.owner)
        if len(whole.directions) == 2:
            on_page = isinstance(whole.owner, Page)
            return line("over the whole page") if on_page else line("over the whole of ", it)
        if whole.directions[0] is Direction.DOWN:
            return line("from top to bottom of ", it)
        return line("across ", it)

    def _phrases(self, lying: Lying, but: Hold | None = None, *, to_middle: bool = False) -> list[Line]:
        holds = [hold for hold in lying.holds if hold is not but]
        return [self.hold(hold, lying, to_middle=to_middle) for hold in holds]

    def hold(self, hold: Hold, lying: Lying, *, many: bool = False, to_middle: bool = False) -> Line:
        """What fixes a thing, as a phrase: `1 in from the left`, `top edge 4 5/8 in down`."""
        match hold:
            case InCorner():
                known = hold.owner == lying.on
                return line("in ", self.corner_of(hold.corner, hold.owner, is_known=known))
            case AtEdge():
                return self._at_edge(hold, lying)
            case FromEdge():
                return self._from_edge(hold, lying, many, to_middle)
            case BeyondEdge():
                return line("reaching ", hold.distance, " beyond ", self.edge_of(hold.edge, hold.owner))
            case NextTo() if hold.gap is not None:
                return line(hold.gap, f" {_SIDES[hold.side]} ", self.ring(hold.thing))
            case NextTo():
                return line(f"edge to edge {_SIDES[hold.side]} ", self.ring(hold.thing))
            case Overlapping() if hold.is_under:
                beside = line(f"{_SIDES[hold.side]} ", self.ring(hold.thing))
                return line(beside, ", ", hold.by, " of it tucked under")
            case Overlapping():
                return line(f"{_SIDES[hold.side]} ", self.ring(hold.thing), ", overlapping it by ", hold.by)
            case InLine():
                at = BASICS.listed([edge.value for edge in hold.edges])
                return line("in line with ", self.ring(hold.thing), " at the ", at)
            case Centred():
                return self._centred(hold, lying)
            case OnFold():
                return line("centred on the fold")

    def _at_edge(self, hold: AtEdge, lying: Lying) -> Line:
        if not isinstance(hold.owner, Page):
            return line("flush with ", self.edge_of(hold.edge, hold.owner, is_known=hold.owner == lying.on))
        edge = (
            self.edge_of(hold.edge, hold.owner)
            if hold.owner is Page.FACING
            else f"the {hold.edge.value} edge"
        )
        if lying.print_edge is not None and _is_along(hold, lying):
            return line(within(lying.print_edge.word), " along ", edge)
        return line("along " if lying.whole is not None else "against ", edge)

    def _from_edge(self, hold: FromEdge, lying: Lying, many: bool, to_middle: bool) -> Line:
        if hold.owner is Page.THIS:
            drop = not to_middle and self._is_drop(hold, lying)
            edge = f"{hold.edge.value} {'edges' if many else 'edge'} " if drop else ""
            return line(edge, hold.distance, f" {FROM[hold.edge]}")
        known = hold.owner == lying.on
        return line(hold.distance, " from ", self.edge_of(hold.edge, hold.owner, is_known=known))

    def _is_drop(self, hold: Hold, lying: Lying) -> bool:
        """Whether a distance down or up the page stands without one from a side."""
        if not isinstance(hold, FromEdge) or hold.owner is not Page.THIS or hold.edge.is_upright:
            return False
        return not any(
            isinstance(other, AtEdge | FromEdge | BeyondEdge)
            and isinstance(other.owner, Page)
            and other.edge.is_upright
            for other in lying.holds
        )

    def _centred(self, hold: Centred, lying: Lying) -> Line:
        is_known = hold.owner == lying.on or (isinstance(hold.owner, Thing) and hold.owner.is_it)
        if is_known and hold.margin is None:
            return line(_HALFWAY[hold.direction])
        on = () if is_known else line(" on ", self.ring(hold.owner))
        margin = line(", ", hold.margin, f" {_AT_ENDS[hold.direction]}") if hold.margin is not None else ()
        return line("centred", on, f" {_BOTH_WAYS[hold.direction]}", margin)


def _by_name(lying: Lying) -> Lying:
    """How a thing lies, what it is centred on by its name, where `it` is the thing itself."""
    centre = lying.centre
    if centre is None or isinstance(centre.owner, Page):
        return lying
    return replace(lying, centre=replace(centre, owner=replace(centre.owner, is_it=False)))


def _whole_and(count: Number | None) -> Line:
    return line(count, " whole and ") if count is not None else ()


def _nested(one: Nested) -> Line:
    return line("the ", within(one.name)) if one.name is not None else line("the photo")


def _is_along(hold: Hold, lying: Lying) -> bool:
    """Whether an edge of its print lies along an edge of the page, over the whole of it."""
    at = lying.print_edge.at if lying.print_edge is not None else None
    return (
        isinstance(hold, AtEdge) and hold.owner is Page.THIS and hold.edge is at and lying.whole is not None
    )


def stood_on(holds: Sequence[Hold]) -> NextTo | None:
    """The first hold by which a thing stands with its lower edge on the upper one of another."""
    beside = (hold for hold in holds if isinstance(hold, NextTo))
    return next((hold for hold in beside if hold.side is Edge.TOP and hold.gap is None), None)
