"""What is painted on the pages of a press file, read from its content: inks, letters, overprinting."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any, Final, TypeVar

import pikepdf

from booklet.measure.dataclass import dataclass, replace
from booklet.measure.exact import Fraction
from booklet.proof.press_clauses import Clause

# The operators that colours, states and painting are written with (ISO 32000-1, annex A, from memory).
_OPERATORS = (
    "q Q gs Do k K g G rg RG cs CS sc scn SC SCN sh Tr Tj TJ ' \" f F f* B B* b b* S s BI ID EI INLINE IMAGE"
)
_FILLS, _STROKES = (
    frozenset(["f", "F", "f*", "B", "B*", "b", "b*"]),
    frozenset(["S", "s", "B", "B*", "b", "b*"]),
)
_SHOWS = frozenset(["Tj", "TJ", "'", '"'])
_SETS_FILL, _SETS_STROKE = frozenset(["k", "g", "rg", "sc", "scn"]), frozenset(["K", "G", "RG", "SC", "SCN"])
_DEVICE_SPACES = frozenset(["/DeviceCMYK", "/DeviceGray", "/CMYK", "/G"])
_SPOTS = frozenset(["/Separation", "/DeviceN"])
# What adding decimals does, far below a step of any plate.
_SLACK = 1e-6
_FULL = 255
# Of the ways to show letters (table 106): filled, outlined, both, neither; four more also clip.
_FILLED, _OUTLINED = (0, 2), (1, 2)
_WAYS = 4

Inks4 = tuple[float, float, float, float]
# Inks that are not known: where they were set, it was told why.
Inks = Inks4 | tuple[()]
BLACK: Final[Inks4] = (0.0, 0.0, 0.0, 1.0)
WHITE: Final[Inks4] = (0.0, 0.0, 0.0, 0.0)

Found = tuple[Clause, str]
Value = TypeVar("Value")


@dataclass(frozen=True)
class _State:
    """The part of the graphics state that decides what is painted; None where a form is yet to say it."""

    fill: Inks | None
    stroke: Inks | None
    over_fills: bool | None
    over_lines: bool | None
    mode: int | None


# ISO 32000-1, table 52 (from memory): a page begins in the black of DeviceGray, and overprints nothing.
_PAGE = _State(BLACK, BLACK, False, False, 0)
_UNSAID = _State(None, None, None, None, None)


class _UnsaidError(Exception):
    """A form paints in a state that it has not set itself."""


class InkReader:
    """Reads the pages of one file; what it has read of a form or a picture it knows at its next use.

    `limit` is the most ink in one place, in percent.
    """

    def __init__(self, limit: Fraction) -> None:
        self._limit = float(limit / 100)
        self._forms: dict[tuple[tuple[int, int], _State], tuple[Found, ...]] = {}
        self._pictures: dict[tuple[int, int], tuple[Found, ...]] = {}
        self._open: set[tuple[int, int]] = set()

    def page(self, page: pikepdf.Object) -> tuple[Found, ...]:
        """What is broken on a page, each thing once."""
        return tuple(dict.fromkeys(self._stream(page, _PAGE)))

    def _form(self, form: pikepdf.Object, state: _State) -> tuple[Found, ...]:
        """What is broken in a form: by itself where it sets all of its state, else in that it is used in."""
        if form.objgen in self._open:
            return ((Clause.READABLE, "a form that shows itself"),)
        try:
            return self._form_in(form, _UNSAID)
        except _UnsaidError:
            return self._form_in(form, state)

    def _form_in(self, form: pikepdf.Object, state: _State) -> tuple[Found, ...]:
        key = (form.objgen, state)
        if key not in self._forms:
            self._open.add(form.objgen)
            try:
                self._forms[key] = tuple(dict.fromkeys(self._stream(form, state)))
            finally:
                self._open.discard(form.objgen)
        return self._forms[key]

    def _stream(self, holder: pikepdf.Object, state: _State) -> Iterator[Found]:
        """Go through the content of a page or a form from a state on."""
        resources = holder.get("/Resources", pikepdf.Dictionary())
        saved: list[_State] = []
        for read in pikepdf.parse_content_stream(holder, _OPERATORS):
            operands, operator = read.operands, str(read.operator)
            if operator == "q":
                saved.append(state)
            elif operator == "Q":
                state = saved.pop() if saved else state
            elif operator == "Do":
                yield from self._shown(resources.XObject[str(operands[0])], state)
            elif operator in ("INLINE IMAGE", "BI"):
                yield Clause.COLOUR, "a picture within the content, whose inks are not looked into"
            elif operator == "sh":
                yield Clause.COLOUR, "a shading, whose inks are not looked into"
            elif operator in _FILLS or operator in _STROKES:
                yield from self._painted(operator, state)
            elif operator in _SHOWS:
                yield from self._lettered(state)
            else:
                state, found = _changed(state, operator, operands, resources)
                yield from found

    def _shown(self, thing: pikepdf.Object, state: _State) -> Iterator[Found]:
        kind = str(thing.get("/Subtype", ""))
        if kind == "/Form":
            yield from self._form(thing, state)
        elif kind == "/Image" and thing.get("/ImageMask", False):
            yield from self._filled(state)
        elif kind == "/Image":
            if _said(state.over_fills):
                yield Clause.OVERPRINT, "a picture that overprints"
            if thing.objgen not in self._pictures:
                self._pictures[thing.objgen] = tuple(self._picture(thing))
            yield from self._pictures[thing.objgen]

    # What is painted.

    def _painted(self, operator: str, state: _State) -> Iterator[Found]:
        if operator in _FILLS:
            yield from self._filled(state)
        if operator in _STROKES:
            yield from self._inked(_said_inks(state.stroke), _said(state.over_lines), "a line")

    def _filled(self, state: _State) -> Iterator[Found]:
        yield from self._inked(_said_inks(state.fill), _said(state.over_fills), "a surface")

    def _inked(self, inks: Inks, is_over: bool, what: str) -> Iterator[Found]:
        if not inks:
            return
        if (inks == BLACK) is not is_over:
            how = "overprints" if is_over else "knocks out what is below"
            yield Clause.OVERPRINT, f"{what} of {_text(inks)} that {how}"
        yield from self._measured(sum(inks), sum(inks[:3]), f"{what} of {_text(inks)}")

    def _measured(self, together: float, colours: float, what: str) -> Iterator[Found]:
        """Ink by itself, and with black letters on it."""
        most = max(together, colours + 1.0)
        if most > self._limit + _SLACK:
            yield Clause.INK, f"{what}: {most:.0%} with black on it, over {self._limit:.0%}"

    def _lettered(self, state: _State) -> Iterator[Found]:
        way = _said(state.mode) % _WAYS
        if way in _FILLED:
            yield from self._letter(_said_inks(state.fill), _said(state.over_fills))
        if way in _OUTLINED:
            yield from self._letter(_said_inks(state.stroke), _said(state.over_lines))

    def _letter(self, inks: Inks, is_over: bool) -> Iterator[Found]:
        if inks not in ((), BLACK, WHITE):
            yield Clause.TEXT, f"letters of {_text(inks)}"
        elif inks:
            yield from self._inked(inks, is_over, "letters")

    def _picture(self, picture: pikepdf.Object) -> Iterator[Found]:
        if str(picture.get("/ColorSpace", "")) != "/DeviceCMYK":
            return
        import numpy as np

        try:
            samples = np.frombuffer(picture.read_bytes(), dtype=np.uint8)
            inks = samples.reshape(int(picture.Height) * int(picture.Width), 4).astype(np.uint16)
        except (pikepdf.PdfError, ValueError):
            yield Clause.INK, "a picture whose inks cannot be read"
            return
        if "/Decode" in picture and [float(str(end)) for end in picture.Decode] != [0.0, 1.0] * 4:
            inks = _FULL - inks
        together, colours = inks.sum(axis=1).max() / _FULL, inks[:, :3].sum(axis=1).max() / _FULL
        yield from self._measured(float(together), float(colours), "a picture")


def _said(value: Value | None) -> Value:
    """A part of the state that has been said by now."""
    if value is None:
        raise _UnsaidError
    return value


def _said_inks(inks: Inks | None) -> Inks:
    if inks is None:
        raise _UnsaidError
    return inks


def _text(inks: Inks) -> str:
    """`C 10 M 20 Y 0 K 100`."""
    return " ".join(f"{name} {ink * 100:g}" for name, ink in zip("CMYK", inks, strict=True))


# What changes the state.


def _changed(
    state: _State, operator: str, operands: Any, resources: pikepdf.Object
) -> tuple[_State, tuple[Found, ...]]:
    """The state after an operator, and what that breaks."""
    if operator == "gs":
        states = resources.get("/ExtGState", pikepdf.Dictionary())
        return _with(state, states[str(operands[0])]), ()
    if operator == "Tr":
        return replace(state, mode=int(operands[0])), ()
    if operator in ("cs", "CS"):
        return _in_space(state, operator, str(operands[0]), resources)
    found: tuple[Found, ...] = ()
    inks: Inks = ()
    if operator in ("rg", "RG"):
        found = ((Clause.COLOUR, f"a colour set by {operator}, in red, green and blue"),)
    else:
        inks = _inks([value for value in operands if not isinstance(value, pikepdf.Name)])
    if operator in _SETS_FILL:
        return replace(state, fill=inks), found
    return (replace(state, stroke=inks) if operator in _SETS_STROKE else state), found


def _inks(values: list[Any]) -> Inks:
    """Inks of a colour: four of them, or a grey, which is black alone; of a spot colour none are known."""
    numbers = [float(value) for value in values]
    if len(numbers) == 4:
        cyan, magenta, yellow, black = numbers
        return cyan, magenta, yellow, black
    return (0.0, 0.0, 0.0, 1.0 - numbers[0]) if len(numbers) == 1 else ()


def _with(state: _State, change: pikepdf.Object) -> _State:
    """OP alone sets op too; black alone leaves other inks as they are only with OPM 1 (tables 58 and 149)."""
    if "/OP" in change:
        state = replace(state, over_lines=bool(change.OP))
        if "/op" not in change:
            state = replace(state, over_fills=bool(change.OP))
    if "/op" in change:
        state = replace(state, over_fills=bool(change.op))
    is_without_mode = int(change.get("/OPM", 0)) == 0
    if is_without_mode and (state.over_fills or state.over_lines):
        return replace(state, over_fills=False, over_lines=False)
    return state


def _in_space(
    state: _State, operator: str, name: str, resources: pikepdf.Object
) -> tuple[_State, tuple[Found, ...]]:
    space = resources.get("/ColorSpace", pikepdf.Dictionary()).get(name, pikepdf.Name(name))
    begins: Inks = BLACK if name in _DEVICE_SPACES else ()
    changed = replace(state, fill=begins) if operator == "cs" else replace(state, stroke=begins)
    return changed, tuple(space_breaches(space))


def space_breaches(space: pikepdf.Object) -> Iterator[Found]:
    """A colour space that is neither of the inks nor made of such."""
    if isinstance(space, pikepdf.Array) and len(space):
        kind = str(space[0])
        if kind in _SPOTS:
            yield from space_breaches(space[2])
        elif kind in ("/Indexed", "/I", "/Pattern"):
            yield from space_breaches(space[1]) if len(space) > 1 else ()
        else:
            yield Clause.COLOUR, f"the colour space {kind}"
    elif str(space) not in {*_DEVICE_SPACES, "/Pattern"}:
        yield Clause.COLOUR, f"the colour space {space}"
