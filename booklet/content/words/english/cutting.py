"""The words of the cutting pages."""

from __future__ import annotations

from collections.abc import Sequence

from booklet.content.cutting.records import (
    AlongScale,
    FaceUp,
    PieceRun,
    PrintWay,
    SheetLay,
    SheetYield,
    Source,
    Take,
)
from booklet.content.spans import (
    CutRef,
    Extent,
    Length,
    Line,
    Number,
    Own,
    Part,
    PieceRef,
    Weight,
    Words,
    line,
    quiet,
    strong,
)
from booklet.content.words.english.basics import EnglishBasics
from booklet.kit.fields import Edge, Turn
from booklet.kit.paper import Pattern

_BASICS = EnglishBasics()
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
_SIDES = {
    AlongScale.ANY: "any edge at the stop",
    AlongScale.LONG: "the long side along the scale",
    AlongScale.SHORT: "the short side along the scale",
}
# Where the top of a print is.
_AT = {
    Edge.TOP: "away from you",
    Edge.RIGHT: "at the right",
    Edge.BOTTOM: "towards you",
    Edge.LEFT: "at the stop",
}
_POINTS = {
    Edge.TOP: "points away from you",
    Edge.RIGHT: "points right",
    Edge.BOTTOM: "points towards you",
    Edge.LEFT: "points left",
}
_GROW = {
    Edge.TOP: "away from you",
    Edge.RIGHT: "to the right",
    Edge.BOTTOM: "towards you",
    Edge.LEFT: "to the left",
}
_UPRIGHT = {Edge.TOP, Edge.BOTTOM}
_ALONG, _AWAY = "from left to right", "away from you"
# More letters than these that follow one another are said by the first and the last.
_MOST_LETTERS = 4


class EnglishCutting:
    """The words of the cutting pages in English."""

    # A sheet's head.

    def part(self, *, is_cut_apart: bool) -> Line:
        """The part of the booklet that begins with the first sheet of its kind."""
        return line("Cut-aparts" if is_cut_apart else "Cutting")

    def sheet_gives(self, given: SheetYield) -> Line:
        """`1 sheet, 12 × 12 in, gives 6 rails, 3 lookouts: nothing is left over`."""
        many = given.sheets.value != 1
        sheets = line(given.sheets, " sheets" if many else " sheet")
        size = line(given.size, " each" if many else "")
        listed: list[Part] = []
        for count, name in given.names:
            listed += [", " if listed else "", self._counted(count, name)]
        if not listed:
            noun = _BASICS.plural(int(given.pieces.value), "piece")
            listed = [given.pieces, f" printed {noun}" if given.is_cut_apart else f" {noun}"]
        spare = f", {_BASICS.count(given.spare)} of them spare" if given.spare else ""
        end = "" if given.spare or given.has_scrap else ": nothing is left over"
        return line(sheets, ", ", size, ", give " if many else ", gives ", *listed, spare, end)

    def _counted(self, count: Number, name: Own) -> Line:
        return line(count, " ", _BASICS.several(int(count.value), name))

    # How a sheet lies.

    def lay(self, lay: SheetLay) -> Line:
        """How a sheet first lies, as words to go on from."""
        face = f"{lay.pattern.value} up" if lay.face is FaceUp.PATTERN else _FACES[lay.face]
        edge: Line
        match lay.edge:
            case Own():
                edge = line(lay.edge, " at the stop")
            case PrintWay():
                edge = line(self._way(lay.edge))
            case AlongScale():
                edge = line(_SIDES[lay.edge])
        return line(face, ", ", edge)

    def lay_sentence(self, lay: SheetLay) -> Line:
        """`Either side up, any edge at the stop.`, of several sheets that they lie on each other first."""
        sheets = f"{_BASICS.count(lay.count)} sheets on each other, edge on edge. " if lay.count > 1 else ""
        said = line(_BASICS.capital(self.lay(lay)), ".")
        return _emphasised(line(_BASICS.capital(line(sheets)), said))

    def _way(self, way: PrintWay) -> str:
        match way.pattern:
            case Pattern.LEAVES:
                return f"leaves growing {_GROW[way.top]}"
            case Pattern.STRIPES:
                return f"stripes running {_AWAY if way.top in _UPRIGHT else _ALONG}"
            case Pattern.WAVES:
                return f"waves running {_ALONG if way.top in _UPRIGHT else _AWAY}"
            case Pattern.SCALLOPS:
                return f"scallops arched {_GROW[way.top]}"
            case _:
                beneath = ", underneath, " if way.is_beneath else " "
                return f"the top of the print{beneath}{_AT[way.top]}"

    def lay_alt(self, lay: SheetLay) -> Line:
        """What the picture of the trimmer shows."""
        return line("The trimmer with the sheet in it: ", self.lay(lay), ".")

    def work(self, cuts: int, turns: int, *, on_marks: bool) -> Line:
        """How much there is to do, and what decides where to cut."""
        said = [f"{_BASICS.count(cuts)} {_BASICS.plural(cuts, 'cut')}"]
        said.append(f"{_BASICS.count(turns)} {_BASICS.plural(turns, 'turn')}")
        marks = " Cut on the printed marks." if on_marks else ""
        return line(_BASICS.capital(line(f"{', '.join(said)}.{marks}")))

    # What is taken for a stage.

    def take(self, take: Take) -> Line:
        """`Stack A, B and C. Turn them a quarter, clockwise.`; nothing where the sheet lies there."""
        many = len(take.pieces) > 1
        letters = _BASICS.listed(take.pieces)
        if take.source is Source.WHOLE:
            return line(f"Turn {'them' if many else 'it'} {_TURNS[take.turn]}.") if take.turn else ()
        if take.is_stacked:
            begun = line("Stack ", letters, ".")
        elif take.source is Source.SET_ASIDE:
            begun = line("Take ", letters, ".")
        elif take.turn:
            return line("Turn ", letters, f" {_TURNS[take.turn]}.")
        else:
            return line("Go on with ", letters, f", as {'they lie' if many else 'it lies'}.")
        them = "them" if many else "it"
        turn = f" Turn {them} {_TURNS[take.turn]}." if take.turn else f" Lay {them} as before."
        return line(begun, turn)

    def now_lies(self, said: Line, way: PrintWay) -> Line:
        """A heading, and after it which way the print then lies."""
        return line(said, " ", quiet(self._now(way)))

    def _now(self, way: PrintWay) -> str:
        match way.pattern:
            case Pattern.LEAVES:
                return f"The leaves now grow {_GROW[way.top]}."
            case Pattern.STRIPES:
                return f"The stripes now run {_AWAY if way.top in _UPRIGHT else _ALONG}."
            case Pattern.WAVES:
                return f"The waves now run {_ALONG if way.top in _UPRIGHT else _AWAY}."
            case Pattern.SCALLOPS:
                return f"The scallops now arch {_GROW[way.top]}."
            case _:
                return f"The top of the print now {_POINTS[way.top]}."

    # The slip.

    def slip_heads(self) -> tuple[Line, Line, Line]:
        """The heads of reading, outcome and pocket."""
        return line("Set to"), line("comes off"), line("file")

    def letters(self, run: PieceRun) -> Line:
        """`K L M`; `K to Q` where more follow one another."""
        if run.is_row and len(run.pieces) > _MOST_LETTERS:
            return line(run.pieces[0], " to ", run.pieces[-1])
        spans: list[Part] = []
        for piece in run.pieces:
            spans += [" " if spans else "", piece]
        return line(*spans)

    def kept(self, run: PieceRun, name: Own, size: Extent | None) -> Line:
        """`J rail, 3/8 × 12`, the size where it is not said just above."""
        said = line(self.letters(run), " ", _BASICS.several(len(run.pieces), name))
        return line(said, ", ", size) if size else said

    def spare(self, run: PieceRun, name: Own, size: Extent | None) -> Line:
        """A piece that no layout takes."""
        return line(self.kept(run, name, size), ", spare")

    def set_aside(self, run: PieceRun, cut: CutRef) -> Line:
        """`C set aside for 9`."""
        return line(self.letters(run), " set aside for ", cut)

    def go_on(self, run: PieceRun, cut: CutRef) -> Line:
        """`A: go on to 9`."""
        return line(self.letters(run), ": go on to ", cut)

    def scrap(self, width: Length) -> Line:
        """`scrap, 1/4 wide`."""
        return line("scrap, ", width, " wide")

    def both_stay(self) -> Line:
        """What a cut leaves where later cuts run through both parts."""
        return line("both parts are cut on")

    def stays(self) -> Line:
        """Before what the last cut leaves in the trimmer."""
        return line("stays")

    def lay_cut_edge(self, low: Length) -> Line:
        """How the paper lies once its edge at the stop is cut off."""
        return line("Lay the cut edge at ", low, ".")

    # The figures.

    def strip_alt(self, run: PieceRun | None, width: Length) -> Line:
        """One strip of a figure, in words."""
        return line(self.letters(run) if run else line("scrap"), ", ", width)

    def stage_alt(self, strips: Sequence[Line]) -> Line:
        """A figure in words, its strips from the stop outwards."""
        spans: list[Part] = []
        for strip in strips:
            spans += ["; " if spans else "", strip]
        return line("From the stop outwards: ", *spans, ".")

    def lens_title(self) -> Line:
        """Over a piece of the scale at true size."""
        return line("True size")

    def lens_text(self) -> Line:
        """What is done with it."""
        return line("Lay it beside your scale.")

    def lens_alt(self, readings: Sequence[Length]) -> Line:
        """What it shows."""
        return line("A piece of the scale at true size, marked at ", _BASICS.listed(readings), ".")

    # What may follow a sheet's cuts.

    def map_title(self) -> Line:
        """Over a sheet with all its pieces."""
        return line("Where each piece lay on the sheet")

    def map_alt(self) -> Line:
        """What it shows."""
        return line("The sheet as it first lay, with the outlines and letters of its pieces.")

    def met_again(self) -> Line:
        """Over finished pages that take the sheet's pieces."""
        return line("You will meet them again here")

    def finished_alt(self, title: Own) -> Line:
        """What such a page shows."""
        return line("The finished page ", title, ".")

    def pieces_of(self, given: Sequence[tuple[Own, tuple[PieceRef, ...]]]) -> Line:
        """`trunk E, saplings A B`."""
        spans: list[Part] = []
        for name, pieces in given:
            letters = self.letters(PieceRun(pieces, is_row=False))
            spans += [", " if spans else "", _BASICS.several(len(pieces), name), " ", letters]
        return line(*spans)


def _emphasised(said: Line) -> Line:
    return tuple(
        strong(span.text)
        if isinstance(span, Words)
        else Own(span.text, span.source, Weight.STRONG)
        if isinstance(span, Own)
        else span
        for span in said
    )
