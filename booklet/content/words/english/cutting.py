"""The words of the cutting pages."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from booklet.content.cutting.records import (
    AlongScale,
    FaceUp,
    PrintWay,
    SheetLay,
    SheetYield,
    Take,
    TakenFrom,
)
from booklet.content.spans import (
    CutRef,
    Extent,
    Length,
    Line,
    Number,
    Own,
    PieceRef,
    SheetRef,
    joined,
    line,
    quiet,
    strong,
)
from booklet.content.words.english.basics import BASICS, emphasised
from booklet.kit.fields import Edge, Turn
from booklet.kit.paper import Pattern
from booklet.kit.steps import Corner
from booklet.measure.length import TIMES, Unit
from booklet.measure.words import APPROXIMATELY

_TURNS = {
    Turn.CLOCKWISE: "a quarter, clockwise",
    Turn.ANTICLOCKWISE: "a quarter, anticlockwise",
    Turn.HALF: "half round",
}
_FACES = {
    FaceUp.EITHER: "either side up",
    FaceUp.PRINT_UP: "print up",
    FaceUp.PRINT_DOWN: "print down",
    FaceUp.FRONT: "front up",
    FaceUp.BACK: "back up",
    FaceUp.PICTURE: "picture up",
    FaceUp.BORDER: "printed border up",
    FaceUp.PLAIN: "plain side up",
}
_PATTERNS = {
    Pattern.SOLID: "plain side",
    Pattern.STRIPES: "stripes",
    Pattern.DOTS: "dots",
    Pattern.CHECKS: "checks",
    Pattern.GRID: "grid",
    Pattern.WAVES: "waves",
    Pattern.LEAVES: "leaves",
    Pattern.STARS: "stars",
    Pattern.SCALLOPS: "scallops",
    Pattern.CONFETTI: "confetti",
}
_SIDES = {
    AlongScale.ANY: "any edge at the stop",
    AlongScale.LONG: "the long side along the scale",
    AlongScale.SHORT: "the short side along the scale",
}
# Where an edge lies that is not at the stop.
_AT = {
    Edge.TOP: "away from you",
    Edge.RIGHT: "at the right",
    Edge.BOTTOM: "towards you",
    Edge.LEFT: "at the left",
}
# The side of the stop.
_SIDE_WORDS = {Edge.LEFT: "left", Edge.RIGHT: "right"}
_NOW = {
    Edge.TOP: "Print now upright.",
    Edge.RIGHT: "The top of the print now points right.",
    Edge.BOTTOM: "The print is now upside down.",
    Edge.LEFT: "The top of the print now points left.",
}
_GROW = {
    Edge.TOP: "away from you",
    Edge.RIGHT: "to the right",
    Edge.BOTTOM: "towards you",
    Edge.LEFT: "to the left",
}
# What is said of a pattern that shows its way itself: how it lies, and how it lies now.
_MOTIFS = {
    Pattern.LEAVES: ("leaves", "growing", "grow"),
    Pattern.STRIPES: ("stripes", "running", "run"),
    Pattern.WAVES: ("waves", "running", "run"),
    Pattern.SCALLOPS: ("scallops", "arched", "arch"),
}


def _place_of(edge: Edge, stop: Edge) -> str:
    """Where an edge lies, as it is seen; the trimmer's stop is at one side."""
    return "at the stop" if edge is stop else _AT[edge]


def _direction_of(way: PrintWay) -> str:
    """In which direction a pattern lies: stripes run as the print stands, waves across it."""
    if way.pattern in {Pattern.LEAVES, Pattern.SCALLOPS}:
        return _GROW[way.top]
    is_along = way.top.is_upright is (way.pattern is Pattern.STRIPES)
    return "from left to right" if is_along else "away from you"


class EnglishCutting:
    """The words of the cutting pages in English."""

    # A sheet's head.

    def part(self, *, is_cut_apart: bool) -> Line:
        """The part of the booklet that begins with the first sheet of its kind."""
        return line("Cut-aparts" if is_cut_apart else "Cutting")

    def sheet_gives(self, given: SheetYield) -> Line:
        """`1 sheet, 12 × 12 in, gives 6 rails, 3 lookouts: nothing is left over`."""
        many = given.sheets.value != 1
        sheets = line(given.sheets, "\u00a0sheets" if many else "\u00a0sheet")
        size = line(given.size, " each" if many else "")
        listed = joined([self._counted(count, name) for count, name in given.names], ", ")
        if not listed:
            noun = "\u00a0printed piece" if given.is_cut_apart else "\u00a0piece"
            listed = BASICS.counted(given.pieces, noun)
        spare = line(", ", given.spare, " of them spare") if given.spare else ()
        end = "" if given.spare or given.has_scrap else ": nothing is left over"
        return line(sheets, ", ", size, ", give " if many else ", gives ", listed, spare, end)

    def _counted(self, count: Number, name: Own) -> Line:
        return line(count, "\u00a0", BASICS.several(int(count.value), name))

    # How a sheet lies.

    def face_up(self, lay: SheetLay) -> str:
        """Which face of a sheet is up."""
        return f"{_PATTERNS[lay.pattern]} up" if lay.face is FaceUp.PATTERN else _FACES[lay.face]

    def lay(self, lay: SheetLay) -> Line:
        """How a sheet first lies, as words to go on from."""
        edge: Line
        match lay.edge:
            case PrintWay():
                edge = line(self._way(lay.edge, lay.stop))
            case AlongScale():
                edge = line(_SIDES[lay.edge])
            case named:
                edge = joined([line(one.name, " ", _place_of(one.place, lay.stop)) for one in named], ", ")
        return line(self.face_up(lay), ", ", edge)

    def lay_sentence(self, lay: SheetLay) -> Line:
        """`Either side up, any edge at the stop.`, of several sheets that they lie on each other first."""
        sheets = f"{BASICS.count(lay.count)} sheets exactly on one another. " if lay.count > 1 else ""
        said = line(BASICS.capital(self.lay(lay)), ".")
        return emphasised(line(BASICS.capital(line(sheets)), said))

    def _way(self, way: PrintWay, stop: Edge) -> str:
        if way.pattern in _MOTIFS:
            motif, lying, _ = _MOTIFS[way.pattern]
            return f"{motif} {lying} {_direction_of(way)}"
        beneath = ", underneath, " if way.is_beneath else " "
        return f"the top of the print{beneath}{_place_of(way.top, stop)}"

    def lay_alt(self, lay: SheetLay) -> Line:
        """What the picture of the trimmer shows."""
        return line("The trimmer with the sheet in it: ", self.lay(lay), ".")

    def work(self, cuts: Number, turns: Number, *, on_marks: bool) -> Line:
        """`11 cuts, 1 turn.`, and what decides where to cut."""
        marks = " Cut on the printed marks." if on_marks else ""
        turned = BASICS.counted(turns, "\u00a0turn") if turns.value else "no\u00a0turn"
        return line(BASICS.counted(cuts, "\u00a0cut"), ", ", turned, ".", marks)

    # What is taken for a stage.

    def take(self, take: Take) -> Line:
        """`Stack A, B and C. Turn them a quarter, clockwise.`; nothing where the sheet lies there."""
        many = len(take.pieces) > 1
        letters, them = BASICS.listed(take.pieces), "them" if many else "it"
        if take.taken_from is TakenFrom.WHOLE:
            return line(f"Turn {them} {_TURNS[take.turn]}.") if take.turn else ()
        if take.is_stacked:
            begun = line("Stack ", letters, ".")
        elif take.taken_from is TakenFrom.SET_ASIDE:
            begun = line("Take ", letters, ".")
        elif take.turn:
            return line("Turn ", letters, f" {_TURNS[take.turn]}.")
        else:
            return line("Go on with ", letters, f", as {'they lie' if many else 'it lies'}.")
        turn = f" Turn {them} {_TURNS[take.turn]}." if take.turn else f" Lay {them} as before."
        return line(begun, turn)

    def now_lies(self, said: Line, way: PrintWay) -> Line:
        """A heading, and after it which way the print then lies."""
        now = _NOW[way.top]
        if way.pattern in _MOTIFS:
            motif, _, lie = _MOTIFS[way.pattern]
            now = f"The {motif} now {lie} {_direction_of(way)}."
        return line(said, " ", quiet(now))

    # The slip.

    slip_heads = line("Set to"), line("comes off"), line("file")

    def letters(self, pieces: Sequence[PieceRef]) -> Line:
        """`K L M`."""
        return joined(pieces, "\u00a0")

    def kept(self, pieces: Sequence[PieceRef], name: Own, size: Extent | None) -> Line:
        """`J rail, 3/8 × 12`, the size where it is not said just above."""
        said = line(self.letters(pieces), " ", BASICS.several(len(pieces), name))
        return line(said, ", ", size) if size else said

    def spare(self, pieces: Sequence[PieceRef], name: Own, size: Extent | None) -> Line:
        """A piece that no layout takes."""
        return line(self.kept(pieces, name, size), ", spare")

    def set_aside(self, pieces: Sequence[PieceRef], cut: CutRef) -> Line:
        """`C aside for 9`."""
        return line(self.letters(pieces), " aside for ", cut)

    def go_on(self, pieces: Sequence[PieceRef], cut: CutRef) -> Line:
        """`A: go on to 9`."""
        return line(self.letters(pieces), ": go on to ", cut)

    def scrap(self, width: Length) -> Line:
        """`scrap, 1/4 wide`."""
        return line("scrap, ", BASICS.wide(width))

    both_stay = line("keep both parts")

    # By hand, between the cuts.

    work_heads: tuple[Line, Line, Line] = (), line("By hand"), line("file")

    def have_ready(self, tools: Line) -> Line:
        """The tools besides the trimmer: `By hand: scissors, hole punch.`"""
        return line("By hand: ", tools, ".")

    def snip(self, pieces: Sequence[PieceRef], at: Sequence[Length], edge: Edge) -> Line:
        """`Snip C at 3 in and 6 in from its left edge.`"""
        its = "its" if len(pieces) == 1 else "their"
        return line(
            "Snip ", self.letters(pieces), " at ", BASICS.listed(at), f" from {its} {edge.value} edge."
        )

    def trim_round(self, pieces: Sequence[PieceRef], outline: Own | None, size: Extent | None) -> Line:
        """`Trim C along the printed ticket, to 2 × 3 in.`"""
        to = line(", to ", size) if size is not None else ()
        its = "its" if len(pieces) == 1 else "their"
        return line("Trim ", self.letters(pieces), " along ", outline or f"{its} printed outline", to, ".")

    def round_corners(self, pieces: Sequence[PieceRef], corners: Sequence[Corner], radius: Length) -> Line:
        """`Round all four corners of C, radius 1/4 in.`"""
        return line(f"Round {BASICS.corners(corners)} of ", self.letters(pieces), ", radius ", radius, ".")

    def punch_corners(self, pieces: Sequence[PieceRef], corners: Sequence[Corner], shape: Own | None) -> Line:
        """`Punch the top left corner of C, shape: ticket.`"""
        which = line(", shape: ", shape) if shape is not None else ()
        return line(f"Punch {BASICS.corners(corners)} of ", self.letters(pieces), which, ".")

    def punch_hole(
        self, pieces: Sequence[PieceRef], width: Length, shape: Own | None, rims: Mapping[str, Length]
    ) -> Line:
        """`Punch a 1/8 in hole in C, the rim 1/4 in from the left edge, half way down.`"""
        of_shape = line(shape, " ") if shape is not None else ()
        begun = line("Punch a ", width, " ", of_shape, "hole in ", self.letters(pieces))
        if not rims:
            return line(begun, ", in the middle.")
        told = [line(length, f" from the {edge} edge") for edge, length in rims.items()]
        middles = [
            words
            for edges, words in ((("left", "right"), "half way across"), (("top", "bottom"), "half way down"))
            if not any(edge in rims for edge in edges)
        ]
        return line(begun, ", the rim ", joined((*told, *middles), ", "), ".")

    stays = line("stays")

    def lay_cut_edge(self, low: Length) -> Line:
        """How the paper lies once its edge at the stop is cut off."""
        return line("Lay the cut edge at ", low, ".")

    # The figures.

    def strip_alt(self, pieces: Sequence[PieceRef], width: Length) -> Line:
        """One strip of a figure, in words."""
        return line(self.letters(pieces) if pieces else line("scrap"), ", ", width)

    def stage_alt(self, strips: Sequence[Line]) -> Line:
        """A figure in words, its strips from the stop outwards."""
        return line("From the stop outwards: ", joined(strips, "; "), ".")

    lens_title = line("True size")

    lens_text = line("Lay it beside your scale.")

    def lens_alt(self, readings: Sequence[Length]) -> Line:
        """What it shows."""
        return line("A piece of the scale at true size, marked at ", BASICS.listed(readings), ".")

    # What may follow a sheet's cuts.

    map_title = line("Where each piece lay on the sheet")

    map_alt = line("The sheet as it first lay, with the outlines and letters of its pieces.")

    met_again = line("You will meet them again here")

    def pieces_of(self, given: Sequence[tuple[Own, tuple[PieceRef, ...]]]) -> Line:
        """`trunk E, saplings A B`."""
        named = (line(BASICS.several(len(some), name), "\u00a0", self.letters(some)) for name, some in given)
        return joined(named, ", ")

    # How to read the pages.

    how_to_read = line("How to read the pages")

    def reading_lead(self, unit: Unit, stop: Edge, *, has_cuts: bool) -> Line:
        """How sheets are drawn, and in which unit all measures are."""
        edge = f"its {_SIDE_WORDS[stop]} edge at the stop (the scale’s 0)"
        drawn = f"Each sheet is drawn as it lies in the trimmer, {edge}. "
        return line(f"{drawn if has_cuts else ''}All measures are in {BASICS.unit(unit)}.")

    sign_alt = line("The sign.")

    def reading_sign(self, value: Length, stop: Edge) -> Line:
        """Numbers, readings and dashed lines."""
        side = _SIDE_WORDS[stop]
        return line(
            strong("The cuts."),
            " The numbers give the order. Slide the paper until ",
            value,
            f" lie {side} of the blade. Cut on the dashed line. Slide on to the next reading. "
            f"(If your scale counts from the blade, put the paper’s {side} edge at ",
            value,
            ".)",
        )

    lens_sign = line(
        strong("True size."),
        " Marks close together are drawn as far apart as they are. Lay this piece of scale beside your own.",
    )

    piece_sign = line(
        strong("A piece."),
        " Pencil the sheet’s number and the letter on its back, as in 1A. File it in the pocket of its row, "
        "and tick the box. Sizes are width by height, the print upright.",
    )

    def set_aside_sign(self, *, by_hand: bool) -> Line:
        """What is taken up again, by a cut or by hand."""
        step = "cut or step" if by_hand else "cut"
        return line(strong("Set aside."), f" Keep it at hand: the {step} with this number takes it up again.")

    stack_sign = line(
        strong("Stacked papers."),
        " Lay them exactly on one another, the first letter on top. Cut them in one pass.",
    )

    def scrap_sign(self, *, has_spare: bool) -> Line:
        """What no layout uses."""
        spare = " A spare piece says so: keep it as well." if has_spare else ""
        said = f" No layout uses it. Keep it until the last page is glued: it may replace a piece.{spare}"
        return line(strong("Scrap."), said)

    def width_sign(self, *, has_alike: bool) -> Line:
        """What stands under a sheet; of strips alike first how many."""
        alike = f" The number before a {TIMES} counts strips that are alike." if has_alike else ""
        return line(strong("Widths."), f" These are the strips. They add up to the whole paper.{alike}")

    register_sign = line(
        strong("A printed mark."),
        f" Cut on the mark. The {APPROXIMATELY} reading helps you find it.",
    )
    flag_sign = line(
        strong("A flag"),
        " names a step and a length. Measure that length from the little circle, along that edge of the "
        "page. The same ring shows the place on the finished page.",
    )

    # Trying the trimmer.

    trimmer = line("Try the trimmer")
    trimmer_lead = line("On a scrap, before the first sheet.")

    def trimmer_steps(self, half_mark: Length | None) -> tuple[Line, ...]:
        """How one finds out how far a trimmer is out; half a mark is a length where a ruler shows it."""
        half = line(" (", half_mark, ")") if half_mark else ()
        return (
            line("Cut a strip of scrap paper at a whole number."),
            line("Measure the strip at both ends, with a ruler that you trust."),
            line("The strip is right to within half a mark", half, "? Cut as printed."),
            line("Strip too wide? Take that much off every reading. Too narrow? Add it."),
            line(
                "Do both ends differ? The paper did not lie square at the stop. Press it there and cut again."
            ),
        )

    trimmer_heads = line("Day"), line("Cut at"), line("Came out at"), line("So I set it")

    # If a cut goes wrong.

    rescue = line("If a cut goes wrong")
    rescue_lead = line("Stop, and keep every strip. Nothing is lost until it is glued.")

    def advice(self, *, has_spare: bool, has_scrap: bool) -> tuple[Line, ...]:
        """What to do first, by what is wrong, and by what there is that replaces a piece."""
        kinds = [kind for kind, has in (("spare piece", has_spare), ("large scrap", has_scrap)) if has]
        replaced = line(
            strong("Cut on the wrong side?"),
            f" A {' or a '.join(kinds)} may replace it: see below.",
        )
        return (
            line(
                strong("Too wide?"),
                " Set the trimmer to the piece’s own width, and cut the rest off. Its size is in the lists "
                "of the pockets.",
            ),
            line(
                strong("Too narrow?"),
                " Look at its layout. An edge under another piece or a photograph does not show: "
                "let that edge take up what is missing.",
            ),
            *((replaced,) if kinds else ()),
            line(
                strong("Letters mixed up?"),
                " Measure the piece. Find its size in the lists of the pockets.",
            ),
        )

    replaced = line("What can be replaced")
    nothing_replaces = line("Nothing that is left over is large enough to replace a piece. Measure twice.")

    def replaced_heads(self, unit: Unit) -> tuple[Line, Line, Line]:
        """The heads of piece, size and what to take."""
        return line("Piece"), BASICS.size_head(unit), line("Take")

    def left_heads(self, unit: Unit) -> tuple[Line, Line, Line, Line]:
        """The heads of sheet, paper, size and what it is."""
        return line("Sheet"), line("Paper"), BASICS.size_head(unit), line("What it is")

    take_spare = line("the spare one")

    def cut_from(self, spare: Own | None, size: Extent, sheet: SheetRef | None) -> Line:
        """What a piece can be cut from: `scrap of sheet 2, 3 × 12`."""
        of = line(" of sheet ", sheet) if sheet else ()
        return line(self._left(spare), of, ", ", size)

    left_over = line("What is left over")
    left_over_lead = line("Keep it until the last page is glued: a piece can be cut from it.")
    in_box = line("box")

    def left_piece(self, spare: Own | None, count: Number) -> Line:
        """Something left over, and how many alike."""
        return line(self._left(spare), *((f" {TIMES} ", count) if count.value > 1 else ()))

    def _left(self, spare: Own | None) -> Line:
        return line("spare ", spare) if spare else line("scrap")

    changed = line("What I changed")
