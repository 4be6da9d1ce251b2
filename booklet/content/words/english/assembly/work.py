"""What is done to things, and with supplies, in English."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.content.assembly.lying import Foam, Lying, Owner, Thing
from booklet.content.assembly.work import Repeats, Seam, Tie, Times
from booklet.content.spans import Extent, Length, Line, Number, Own, Part, PieceRef, StepRef, joined, line
from booklet.content.words.english.assembly.series import EnglishSeries
from booklet.content.words.english.assembly.things import (
    a,
    large,
    leading,
    lowered,
    within,
)
from booklet.content.words.english.basics import BASICS, emphasised
from booklet.kit.fields import Edge
from booklet.kit.position import Direction
from booklet.kit.steps import Corner
from booklet.measure.dataclass import replace
from booklet.placing.details import BandForm

# Where an area lies from the pencil line along this edge of it.
_BESIDE_LINE = {
    Edge.TOP: "below it",
    Edge.BOTTOM: "above it",
    Edge.LEFT: "to the right of it",
    Edge.RIGHT: "to the left of it",
}

_TIES = {BandForm.BOW: "bow", BandForm.KNOT: "knot and its tails"}
_NEXT = {Direction.ACROSS: "side by side", Direction.DOWN: "one below the other"}


class EnglishWork(EnglishSeries):
    """What is done to things, and with supplies."""

    # What is taken.

    def piece_head(self, name: Own, count: Number | None) -> Line:
        """`Carriage band`, `Three windows`."""
        many = int(count.value) if count is not None else 1
        return line(self._count(count), BASICS.several(many, within(name) if count else leading(name)))

    def photo_head(self, count: Number | None, size: Extent) -> Line:
        """`Photo 4 × 6`, `Three photos 3 × 4`."""
        return line(self._count(count), "photos " if count else "Photo ", size)

    def writing_head(self, count: Number | None) -> Line:
        """What a space to write in is called."""
        return line(self._count(count), "writing spaces") if count else line("To write in")

    def supply_head(self, name: Own) -> Line:
        """A supply by its title."""
        return line(leading(name))

    def labelled(self, name: Line, labels: Sequence[PieceRef]) -> Line:
        """What is taken, and the labels to find it by: `Three windows 3L 3M 3N`."""
        return joined([name, *labels], "\u00a0")

    def heads(self, heads: Sequence[Line]) -> Line:
        """Several things that are taken together, in strong words: `Brass mat, cream mat, photo 4 × 6`."""
        return emphasised(joined((*heads[:1], *map(lowered, heads[1:])), ", "))

    def _count(self, count: Number | None) -> Line:
        return line(large(count), " ") if count is not None else ()

    def the_piece(self, name: Own) -> Line:
        """A piece that a head has named: `the cream mat`."""
        return line("the ", within(name))

    def them(self, count: int, name: Own | None) -> Line:
        """Pieces that a head has named: `the windows`; without a name `them`."""
        if name is None:
            return line("it" if count == 1 else "them")
        return line("the ", BASICS.several(count, within(name)))

    the_photo = line("the photo")

    def a_piece(self, name: Own) -> Line:
        """One of several pieces that a head has named: `a cream mat`."""
        return a(within(name))

    a_photo = line("a photo")

    def if_you_like(self, said: Line) -> Line:
        """What may be left out."""
        return line("If you like: ", lowered(said) if said and not isinstance(said[0], Own) else said)

    # What is not glued yet.

    def leave_unglued(self, edges: Sequence[Edge], thing: Thing, steps: Sequence[StepRef]) -> Line:
        """`Leave the right edge unglued for ⑦.`"""
        later = BASICS.listed(steps)
        if not edges:
            goes = " goes under." if len(steps) == 1 else " go under."
            return line("Do not glue ", self.the(thing), " yet: ", later, goes)
        if thing.is_it or thing.is_outer:
            return line(f"Leave the {self.edges(edges)} unglued for\u00a0", later, ".")
        if thing.name is not None and thing.one_of is None:
            return line(
                "Leave the ", within(thing.name), f"’s {self.edges(edges)} unglued for\u00a0", later, "."
            )
        return line("Leave ", self.edges_of(edges, thing), " unglued for\u00a0", later, ".")

    def leave_each_unglued(
        self, edges: Sequence[Edge], things: Sequence[tuple[Thing, Sequence[StepRef]]]
    ) -> Line:
        """`Leave the top edges of the middle one (for ⑤) and the right one (for ⑥ and ⑦) unglued.`"""
        if len(things) == 1:
            return self.leave_unglued(edges, *things[0])
        each = [line(self.the(thing), " (for\u00a0", BASICS.listed(steps), ")") for thing, steps in things]
        which = f"the {self.edges(edges)}{'s' if len(set(edges)) == 1 else ''} of "
        return line("Leave ", which, BASICS.listed(each), " unglued.")

    def do_not_glue(self, thing: Thing, step: StepRef) -> Line:
        """Of what is wrapped before it is glued."""
        return line("Do not glue ", self.the(thing), " yet: ", step, " goes round it first.")

    # Scissors.

    def cut_off(self, edge: Edge, length: Length) -> Line:
        """`Cut 1/2 in off its right end.`"""
        return line("Cut ", length, f" off its {edge.value} end.")

    def snip(self, at: Sequence[Length], edge: Edge, parts: Sequence[tuple[Part, Extent]]) -> Line:
        """`Snip it at 3 in and 6 in from its left edge: wing 3 × 3, heart 3 × 3 and tail 2 × 3.`"""
        named = [line(name, " ", size) for name, size in parts]
        begun = line("Snip it at ", BASICS.listed(at), f" from its {edge.value} edge: ")
        return line(begun, BASICS.listed(named), ".")

    scrap = line("scrap")

    def trim_round(self, outline: Own | None, size: Extent | None) -> Line:
        """`Trim it along the printed ticket, to 5 1/2 × 2 1/2 in.`"""
        to = line(", to ", size) if size is not None else ()
        return line("Trim it along ", outline or "its printed outline", to, ".")

    # Corners and edges.

    def round_corners(self, corners: Sequence[Corner], thing: Thing, radius: Length) -> Line:
        """`Round all four corners, radius 1/4 in.`"""
        return line("Round ", self.corners_of(corners, thing), ", radius ", radius, ".")

    def punch_corners(self, corners: Sequence[Corner], thing: Thing, shape: Own | None) -> Line:
        """`Punch all four corners with a ticket punch.`"""
        tool = line(" with ", a(shape), " punch") if shape is not None else ()
        return line("Punch ", self.corners_of(corners, thing), tool, ".")

    def punch_hole(self, thing: Thing, width: Length, shape: Own | None, lying: Lying) -> Line:
        """`Punch a 1/4 in hole, the rim 1/4 in from its right edge, halfway down.`"""
        begun = line("Punch a ", width, " ", line(shape, " ") if shape is not None else (), "hole")
        if lying.centre is not None:
            return line(begun, " in ", self._middle_of(lying.centre.owner), ".")
        phrases = joined(self._phrases(Lying(lying.holds, on=thing), to_middle=True), ", ")
        on = () if thing.is_it else line(" in ", self.the(thing))
        return line(begun, on, ", the rim ", phrases, ".")

    def ink(self, edges: Sequence[Edge], thing: Thing) -> Line:
        """`Ink all four edges.`"""
        return line("Ink ", self.edges_of(edges, thing), ".")

    def use(self, supply: Own) -> Line:
        """`Use the sea ink.`"""
        return line("Use the ", within(supply), ".")

    # Foam, and whatever the designer says.

    def raise_on(self, thing: Thing, foam: Foam, *, is_named: bool) -> Line:
        """`Raise it on four foam dots.`, of which only the number is told where a head names them."""
        on = self.how_much_foam(foam) if is_named else self.some_foam(foam)
        return line("Raise ", self.the(thing), " on ", on, ".")

    def do(self, said: Own, thing: Thing | None) -> Line:
        """The designer's words, and what they are about."""
        return (
            line("On ", self.the(thing), ": ", said) if thing is not None and not thing.is_it else line(said)
        )

    by_hand = line("By hand")

    def use_up(self, supply: Own, length: Length | None, count: Number | None) -> Line:
        """A supply that a step uses unseen: `Use four of the glue dots.`"""
        return line("Use ", length or count or "", " of the ", within(supply), ".")

    # Blocks.

    def block_head(self, steps: Sequence[StepRef]) -> Line:
        """What was put together in these steps: `The block ③ ④`."""
        return line("The block\u00a0", joined(steps, "\u00a0"))

    def lay_block(self, lying: Lying, *, is_new: bool) -> Line:
        """`Take it in one piece. Lay it 3/4 in from the left, 5/8 in down.`"""
        it, verb = line("it"), "Lay" if is_new else "Move"
        take = line("Take it in one piece.")
        placed = line(self._placed(verb, it, lying), ".")
        return joined([take, self.handled(lying.handling, it), placed, *self._after(lying, it)])

    # The fold.

    def half_here(
        self, width: Length | None, lying: Lying, there: Extent, facing: Own, *, is_alike: bool
    ) -> Line:
        """What is cut where the pages meet: a part, or half, lies here, the other is kept for that page.

        `is_alike` says that either half may lie here.
        """
        handled = self.handled(lying.handling, line("it"))
        where = line(width, " from its left edge") if width is not None else line("in half")
        part = "part" if width is not None else "half"
        laid = line(
            f"Lay {'one half' if is_alike else f'the left {part}'}, cut edge on the page’s right edge"
        )
        phrases = self._phrases(Lying(lying.holds))
        kept = line(f"Put the other {part}, ", there, ", with ", facing, ".")
        return joined([handled, line("Cut it ", where, "."), line(joined([laid, *phrases], ", "), "."), kept])

    def other_half(self, lying: Lying) -> Line:
        """What the page to the left has left over."""
        laid = line("Lay it with its cut edge on the page’s left edge")
        return line(joined([laid, *self._phrases(Lying(lying.holds))], ", "), ".")

    def other_half_head(self, name: Own, facing: Own) -> Line:
        """The part that the facing page has cut off."""
        return line("Other half of the ", within(name), ", cut on ", facing)

    def other_half_need(self, name: Own, facing: Own) -> Line:
        """The same among what a layout needs."""
        return line("Other half of the ", within(name), ", from ", facing)

    # Ribbon and tape.

    def cut_length(
        self, total: Length, form: BandForm, net: Length, more: Length | None, tie: BandForm | None = None
    ) -> Line:
        """`Cut 13 in: 12 in and 1/2 in to fold behind at each end.`

        `net` is what is seen or goes round, `more` what is folded at each end, overlaps, fixes it, or is tied
        in a bow or a knot, its `tie`.
        """
        begun = line("Cut ", total)
        if more is None:
            return line(begun, ".")
        match form:
            case BandForm.WRAP if tie is not None:
                shares = line(net, " to go round, ", more, f" for the {_TIES[tie]}")
            case BandForm.WRAP:
                shares = line(net, " to go round, ", more, " to overlap behind")
            case BandForm.LOOP:
                shares = line(net, " for the loop, ", more, " to fix it")
            case BandForm.BOW | BandForm.KNOT:
                shares = line(net, f" for the {_TIES[form]}, ", more, " to fix it")
            case _:
                shares = line(net, " and ", more, " to fold behind at each end")
        return line(begun, ": ", shares, ".")

    def wrap(self, thing: Thing, lying: Lying, direction: Direction, tie: Tie | None = None) -> Line:
        """`Wrap it round the meadow panel ③, 1/8 in from the panel's bottom edge. Then glue the panel ③.`"""
        way = ", top to bottom" if direction is Direction.DOWN else ""
        begun = line("Wrap it round ", self.the(thing), way)
        wrapped = joined([begun, *self._phrases(Lying(lying.holds, on=thing))], ", ")
        tied = line(" ", self._tied(tie)) if tie is not None else ()
        return line(wrapped, ".", tied, " Then glue ", self.ring(thing), ".")

    def _tied(self, tie: Tie) -> Line:
        """`Tie a knot in front, 2 in from the left, with tails of 1 in.`"""
        where = line("halfway ", tie.run.value)
        if tie.at is not None:
            where = line(tie.at, " from the ", "left" if tie.run is Direction.ACROSS else "top")
        tails = line(", with tails of ", tie.tails) if tie.tails is not None else ()
        return line(f"Tie a {'bow' if tie.is_bow else 'knot'} in front, ", where, tails, ".")

    def loop(self, length: Length, lying: Lying) -> Line:
        """`Fold it to a loop 1 1/2 in long. Fix it ...`"""
        return line(
            "Fold it to a loop ", length, " long. ", self._placed("Fix", line("its ends"), lying), "."
        )

    def bow(self, lying: Lying) -> Line:
        """`Tie a bow. Fix it ...`"""
        return line("Tie a bow. ", self._placed("Fix", line("it"), lying), ".")

    def knot(self, tails: Length | None, lying: Lying) -> Line:
        """`Tie a knot with tails of 1 1/2 in. Fix it ...`"""
        of = line(" with tails of ", tails) if tails is not None else ()
        return line("Tie a knot", of, ". ", self._placed("Fix", line("it"), lying), ".")

    def along(self, thing: Thing, lying: Lying) -> Line:
        """`Lay it along the strip ③, halfway down.`"""
        phrases = self._phrases(Lying(lying.holds, on=thing))
        return line(joined([line("Lay it along ", self.the(thing)), *phrases], ", "), ".")

    # Stencils.

    def rule_line(self, edge: Edge, distance: Length) -> Line:
        """`Rule a pencil line 3 in from the top edge of the page.`"""
        return line("Rule a pencil line ", distance, f" from the {edge.value} edge of the page.")

    def stencil(self, size: Extent, lying: Lying, line_edge: Edge | None, times: Times | None) -> Line:
        """`Stencil 12 × 3 1/2 in below it, across the page, the stencil’s top edge on the line.`

        Of a stencil that is laid several times: `Stencil twice below it, side by side, 15 × 4 cm each`.
        """
        beside = f" {_BESIDE_LINE[line_edge]}" if line_edge is not None else ""
        begun = line("Stencil ", size, beside)
        if times is not None:
            often: Part = "twice" if times.count.value == 2 else line(times.count, " times")
            begun = line("Stencil ", often, beside, f", {_NEXT[times.direction]}, ", size, " each")
        if lying.centre is not None:
            return line(begun, " in the middle of ", self.the(lying.centre.owner), ".")
        on = line("on ", self.the(lying.on)) if lying.on is not None else ()
        end = line(f"the stencil’s {line_edge.value} edge on the line") if line_edge is not None else ()
        return line(joined([begun, self._whole(lying.whole), on, *self._phrases(lying), end], ", "), ".")

    def stencil_along(self, edge: Edge) -> Line:
        """Where no line is ruled: along the page's own edge."""
        return line(f"Lay the stencil’s {edge.value} edge along the page’s.")

    def pattern_fits(self, across: Repeats | None, down: Repeats | None) -> Line:
        """`The pattern fits eight times across and three times down, with 1/2 in over.`"""
        said = [
            self._repeats(repeats, way)
            for repeats, way in ((across, "across"), (down, "down"))
            if repeats is not None
        ]
        return line("The pattern fits ", BASICS.listed(said), ".") if said else ()

    def _repeats(self, repeats: Repeats, way: str) -> Line:
        times: Part = {1: "once", 2: "twice"}.get(int(repeats.times.value)) or line(repeats.times, " times")
        over = line(" (", repeats.over, " over)") if repeats.over is not None else ()
        return line(times, f" {way}", over)

    # Small things.  A brad is measured to where it pierces the paper, what is laid to its middle.

    def fix(self, lying: Lying, count: Number, name: Own | None, *, is_fixed: bool) -> Line:
        """`Fix a brass rivet 1/4 in from its top edge, halfway across.`, the name left out after a head."""
        one = self.some(count, name) if name is not None else line(count)
        verb, it = "Fix" if is_fixed else "Put", line("it")
        handled = self.handled(lying.handling, one)
        placed = self._placed(verb, it if handled else one, lying, to_middle=not is_fixed)
        fixed = line(placed, self._alike_tilt(lying.tilt), ".")
        return joined([handled, fixed, *self._after(replace(lying, trim=()), it)])

    def scatter(self, count: Number, name: Own | None, thing: Owner) -> Line:
        """`Scatter five brass stars over the strip ①.`"""
        them = self.some(count, name) if name is not None else line(count)
        return line("Scatter ", them, " over ", self.the(thing), ".")

    def in_corners(
        self,
        corners: Sequence[Corner],
        thing: Owner,
        inset: Length,
        one: Line,
        lying: Lying,
        *,
        is_fixed: bool,
    ) -> Line:
        """`Fix a brass rivet in each corner, 1/4 in from both edges.`, turned or tilted alike if so."""
        every = len(set(corners)) == len(Corner)
        where = " in each corner" if every else f" in each of {BASICS.corners(corners)}"
        of = () if isinstance(thing, Thing) and thing.is_it else line(" of ", self.the(thing))
        middle = "" if is_fixed else "its middle "
        verb = "Fix " if is_fixed else "Put "
        each = line("each")
        fixed = line(verb, one, where, of, f", {middle}", inset, " from both edges.")
        handled = self.handled(lying.handling, each)
        return joined([fixed, handled, *self._after(replace(lying, trim=()), each)])

    def one_of_supply(self, count: Number, name: Own | None) -> Line:
        """One of a supply, or `one` after a head that names it."""
        return self.some(count, name) if name is not None else line(count)

    # Stitches.

    stitches = line("Stitches")

    def sew(self, seam: Seam) -> Line:
        """`Stitch the tag ⑦ to the card ⑥, 1/8 in from the tag's right edge.` and how many stitches."""
        begun = line("Stitch ", self.the(seam.first), " to ", self.the(seam.second), ", ")
        where = line(begun, seam.inset, " from ", self.edge_of(seam.edge, seam.first, is_known=True), ".")
        stitches = BASICS.counted(seam.count, " stitch", " stitches")
        between = line(" with ", seam.spacing, " between") if seam.count.value > 1 else ()
        end = "top" if seam.edge.is_upright else "left"
        start = line("Start ", seam.start, f" from the {end} end: ", stitches, " of ", seam.length)
        return joined([where, line("Prick the holes first."), line(start, between, ".")])
