"""The content streams of a finished PDF as another library parses them: what stands where, how it changes.

Coordinates are points from the page's lower left corner, y up, as PDF has them (ISO 32000-1, 8.3.2).
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field, replace
from functools import cached_property
from io import BytesIO
from typing import Any

import pikepdf
from pikepdf import ContentStreamInstruction, Matrix, Name, Operator, Pdf

Point = tuple[float, float]
# The names of the forms from a page inwards in whose streams something stands; none for the page's own.
Forms = tuple[str, ...]
Instruction = pikepdf.ContentStreamInstruction | pikepdf.ContentStreamInlineImage
_PAINTED = {"S", "s", "f", "F", "f*", "B", "B*", "b", "b*"}
_STROKED = {"S", "s", "B", "B*", "b", "b*"}
_FILLED = {"f", "F", "f*", "B", "B*", "b", "b*"}
_CODE = re.compile(rb"<([0-9A-Fa-f]{2})> <([0-9A-Fa-f]{4})>")


# What a page shows.


@dataclass(frozen=True, eq=False)
class Font:
    """A font of a page: which letter each of its codes stands for."""

    letters: dict[int, str]

    @cached_property
    def codes(self) -> dict[str, int]:
        """The code of each letter that it holds."""
        return {letter: code for code, letter in reversed(self.letters.items())}

    def read(self, said: bytes) -> str:
        """The text of some codes."""
        return "".join(self.letters.get(code, "\ufffd") for code in said)

    def written(self, text: str) -> bytes | None:
        """The codes of a text; None where it has a letter that the font does not hold."""
        codes = [self.codes.get(letter) for letter in text]
        return None if None in codes else bytes(code for code in codes if code is not None)


@dataclass(frozen=True, eq=False)
class Show:
    """A text that one instruction shows: which, in what type, where its line begins.

    `tf` is the instruction that chose the type, `block` the one that opened the text, `line` tells the lines
    of a block apart, `size` is in points as it stands on the page.
    """

    forms: Forms
    at: int
    text: str
    font: Font
    tf: int
    block: int
    line: int
    size: float
    origin: Point


@dataclass(frozen=True)
class Corner:
    """A point of a path: the instruction that has it, where among its numbers, and where it lies.

    A `re` counts as the eight numbers of its four corners.
    """

    at: int
    operand: int
    point: Point


@dataclass(frozen=True, eq=False)
class Drawn:
    """A path: its outlines as corners, how it is painted (`""` for a clip alone), from its first instruction
    to the one that paints it.
    """

    forms: Forms
    start: int
    end: int
    paint: str
    is_clip: bool
    outlines: tuple[tuple[Corner, ...], ...]
    curves: int
    matrix: Matrix
    width: float
    is_dashed: bool

    @property
    def is_stroked(self) -> bool:
        return self.paint in _STROKED

    @property
    def is_filled(self) -> bool:
        return self.paint in _FILLED

    @property
    def corners(self) -> tuple[Corner, ...]:
        """The corners of all its outlines."""
        return tuple(corner for outline in self.outlines for corner in outline)

    @property
    def box(self) -> tuple[float, float, float, float]:
        """Left, bottom, right, top of its corners on the page."""
        return box_of(self.corners)

    @property
    def is_circle(self) -> bool:
        """Whether it is one round: four curves in a square box."""
        left, bottom, right, top = self.box
        return self.curves == 4 and len(self.outlines) == 1 and abs(right - left - top + bottom) < 0.05


def box_of(corners: Sequence[Corner]) -> tuple[float, float, float, float]:
    """Left, bottom, right, top of some corners on the page."""
    xs, ys = [corner.point[0] for corner in corners], [corner.point[1] for corner in corners]
    return min(xs), min(ys), max(xs), max(ys)


@dataclass(frozen=True)
class Picture:
    """An image that is painted: the stream that paints it and its name there."""

    forms: Forms
    name: str


@dataclass(frozen=True, eq=False)
class Sheet:
    """All that a page of a PDF shows and draws, and the instructions of its streams down to a depth."""

    number: int
    depth: int
    shows: tuple[Show, ...]
    drawn: tuple[Drawn, ...]
    pictures: tuple[Picture, ...]
    streams: dict[Forms, list[Instruction]] = field(repr=False)


def read_sheets(data: bytes, depth: int) -> tuple[Sheet, ...]:
    """Every page of a PDF, with the forms in it down to a depth that paint other forms.

    A form that paints none is the print of a paper: of those there are many, and they stand for one thing.
    """
    with Pdf.open(BytesIO(data)) as pdf:
        return tuple(_Reader(depth).read(page, number) for number, page in enumerate(pdf.pages, 1))


@dataclass(frozen=True)
class _State:
    """What `q` keeps and `Q` brings back."""

    matrix: Matrix
    width: float = 1.0
    is_dashed: bool = False
    font: Font = Font({})
    size: float = 0.0
    tf: int = -1
    leading: float = 0.0


class _Reader:
    """Walks the streams of one page."""

    def __init__(self, depth: int) -> None:
        self.depth = depth
        self.shows: list[Show] = []
        self.drawn: list[Drawn] = []
        self.pictures: list[Picture] = []
        self.streams: dict[Forms, list[Instruction]] = {}

    def read(self, page: pikepdf.Page, number: int) -> Sheet:
        self._walk(page, page.resources, (), Matrix())
        return Sheet(
            number, self.depth, tuple(self.shows), tuple(self.drawn), tuple(self.pictures), self.streams
        )

    def _walk(self, stream: Any, resources: Any, forms: Forms, outer: Matrix) -> None:
        """Follow one stream; the same form painted twice is read where it is painted first."""
        instructions = list(pikepdf.parse_content_stream(stream))
        self.streams[forms] = instructions
        state, kept = _State(outer), list[_State]()
        text, path = _TextAt(forms, _fonts(resources)), _PathAt(forms)
        for at, (operands, operator) in enumerate(_plain(instructions)):
            if operator == "q":
                kept.append(state)
            elif operator == "Q":
                state = kept.pop()
            elif operator == "cm":
                state = replace(state, matrix=Matrix(*map(float, operands)) @ state.matrix)
            elif operator == "w":
                state = replace(state, width=float(operands[0]))
            elif operator == "d":
                state = replace(state, is_dashed=len(operands[0]) > 0)
            elif operator == "Do":
                self._paint(str(operands[0]), resources, forms, state.matrix)
            else:
                state = text.follow(at, operator, operands, state)
                self.shows += text.taken()
                self.drawn += path.follow(at, operator, operands, state)

    def _paint(self, name: str, resources: Any, forms: Forms, matrix: Matrix) -> None:
        thing = resources.XObject[name]
        if thing.Subtype == Name.Image:
            self.pictures.append(Picture(forms, name))
        elif len(forms) < self.depth and b" Do" in thing.read_bytes():
            if (*forms, name) in self.streams:
                return
            inner = Matrix(*map(float, thing.get("/Matrix", [1, 0, 0, 1, 0, 0]))) @ matrix
            self._walk(thing, thing.get("/Resources", resources), (*forms, name), inner)
        elif len(forms) >= self.depth:
            self.pictures += _pictures_in(thing, (*forms, name))


def _pictures_in(form: Any, forms: Forms) -> Iterator[Picture]:
    """The images of a form and of those in it."""
    for name, thing in form.get("/Resources", {}).get("/XObject", {}).items():
        if thing.Subtype == Name.Image:
            yield Picture(forms, name)
        else:
            yield from _pictures_in(thing, (*forms, name))


def _plain(instructions: Sequence[Any]) -> Iterator[tuple[Any, str]]:
    for instruction in instructions:
        yield instruction.operands, str(instruction.operator)


def _fonts(resources: Any) -> dict[str, Font]:
    fonts = resources.get("/Font", {})
    return {name: Font(_letters(font)) for name, font in fonts.items()}


def _letters(font: Any) -> dict[int, str]:
    """What the codes of a font stand for by its /ToUnicode (ISO 32000-1, 9.10.3); none without one."""
    if "/ToUnicode" not in font:
        return {}
    pairs = _CODE.findall(font.ToUnicode.read_bytes())
    return {int(code, 16): chr(int(letter, 16)) for code, letter in pairs if int(letter, 16)}


def grown(matrix: Matrix) -> float:
    """How many times as long a line becomes under a matrix that turns and scales."""
    return float(abs(matrix.a * matrix.d - matrix.b * matrix.c) ** 0.5)


class _TextAt:
    """Follows the text of a stream."""

    def __init__(self, forms: Forms, fonts: dict[str, Font]) -> None:
        self.forms, self.fonts = forms, fonts
        self.block = self.line = 0
        self.start = Matrix()
        self.found: list[Show] = []

    def taken(self) -> list[Show]:
        found, self.found = self.found, []
        return found

    def follow(self, at: int, operator: str, operands: Any, state: _State) -> _State:
        if operator == "BT":
            self.block, self.line, self.start = at, 0, Matrix()
        elif operator == "Tm":
            self.line, self.start = self.line + 1, Matrix(*map(float, operands))
        elif operator == "Td":
            self._next(*map(float, operands))
        elif operator == "T*":
            self._next(0.0, -state.leading)
        elif operator == "TL":
            return replace(state, leading=float(operands[0]))
        elif operator == "Tf":
            font = self.fonts.get(str(operands[0]), Font({}))
            return replace(state, font=font, size=float(operands[1]), tf=at)
        elif operator == "Tj":
            self._show(at, bytes(operands[0]), state)
        return state

    def _next(self, x: float, y: float) -> None:
        self.line, self.start = self.line + 1, Matrix(1, 0, 0, 1, x, y) @ self.start

    def _show(self, at: int, said: bytes, state: _State) -> None:
        lies = self.start @ state.matrix
        size = state.size * grown(lies)
        text, block = state.font.read(said), (self.block, self.line)
        self.found.append(
            Show(self.forms, at, text, state.font, state.tf, *block, size, lies.transform((0, 0)))
        )


class _PathAt:
    """Follows the paths of a stream."""

    def __init__(self, forms: Forms) -> None:
        self.forms = forms
        self._clear()

    def _clear(self) -> None:
        self.start: int | None = None
        self.outlines: list[list[Corner]] = []
        self.curves, self.is_clip = 0, False

    def follow(self, at: int, operator: str, operands: Any, state: _State) -> Iterator[Drawn]:
        if operator in ("m", "l", "c", "v", "y", "re"):
            self.start = at if self.start is None else self.start
            self._add(at, operator, [float(each) for each in operands], state.matrix)
        elif operator in ("W", "W*"):
            self.is_clip = True
        elif operator in _PAINTED or operator == "n":
            if self.outlines and self.start is not None:
                yield self._painted(at, "" if operator == "n" else operator, state)
            self._clear()

    def _add(self, at: int, operator: str, numbers: list[float], matrix: Matrix) -> None:
        def corner(operand: int, x: float, y: float) -> Corner:
            return Corner(at, operand, matrix.transform((x, y)))

        if operator == "re":
            x, y, width, height = numbers
            ends = _corners(x, y, width, height)
            self.outlines.append([corner(2 * number, *end) for number, end in enumerate(ends)])
            return
        if operator == "m":
            self.outlines.append([])
        self.curves += operator in ("c", "v", "y")
        last = len(numbers) - 2
        self.outlines[-1].append(corner(last, *numbers[last:]))

    def _painted(self, at: int, paint: str, state: _State) -> Drawn:
        matrix = state.matrix
        assert self.start is not None
        return Drawn(
            *(self.forms, self.start, at, paint, self.is_clip),
            tuple(map(tuple, self.outlines)),
            *(self.curves, matrix, state.width * grown(matrix)),
            state.is_dashed,
        )


# What is changed.

# Instructions in place of the one at a place; none takes it out.
Edits = dict[int, list[Instruction]]


def instruction(operator: str, *operands: Any) -> ContentStreamInstruction:
    """An instruction of a content stream."""
    return ContentStreamInstruction(list(operands), Operator(operator))


def edited(number: int, forms: Forms, edits: Edits) -> Callable[[Pdf], None]:
    """What changes instructions of a page's stream, or of a form in it, on that page alone."""

    def change(pdf: Pdf) -> None:
        page = pdf.pages[number - 1]
        if not forms:
            page.Contents = pdf.make_stream(_rewritten(page, edits))
        else:
            page.Resources = _with_form(pdf, page.resources, forms, edits)

    return change


def _with_form(pdf: Pdf, resources: Any, forms: Forms, edits: Edits) -> Any:
    """A copy of some resources in which the innermost of nested forms is changed."""
    outer = resources.XObject[forms[0]]
    changed = pdf.make_stream(outer.read_bytes())
    for key in outer.keys() - {"/Length", "/Filter", "/DecodeParms"}:
        changed[key] = outer[key]
    if len(forms) == 1:
        changed.write(_rewritten(outer, edits))
    else:
        changed.Resources = _with_form(pdf, outer.Resources, forms[1:], edits)
    copy = pikepdf.Dictionary(dict(resources.items()))
    copy.XObject = pikepdf.Dictionary(dict(copy.XObject.items()))
    copy.XObject[forms[0]] = changed
    return copy


def _rewritten(stream: Any, edits: Edits) -> bytes:
    instructions = pikepdf.parse_content_stream(stream)
    kept = [each for at, one in enumerate(instructions) for each in edits.get(at, [one])]
    return pikepdf.unparse_content_stream(kept)


def moved(sheet: Sheet, path: Drawn, corners: Sequence[Corner], by: Point) -> Edits:
    """Edits that move corners of a path by so much on the page."""
    inner = path.matrix.inverse()
    (x, y), (x0, y0) = inner.transform(by), inner.transform((0, 0))
    changes: Edits = {}
    for at in dict.fromkeys(corner.at for corner in corners):
        old = sheet.streams[path.forms][at]
        numbers = [float(each) for each in old.operands]
        if is_box := str(old.operator) == "re":
            numbers = [each for end in _corners(*numbers) for each in end]
        for operand in {corner.operand for corner in corners if corner.at == at}:
            numbers[operand] += x - x0
            numbers[operand + 1] += y - y0
        changes[at] = list(_box(numbers)) if is_box else [instruction(str(old.operator), *numbers)]
    return changes


def _corners(x: float, y: float, width: float, height: float) -> tuple[Point, Point, Point, Point]:
    """The corners of a `re` in its order (ISO 32000-1, table 59)."""
    return (x, y), (x + width, y), (x + width, y + height), (x, y + height)


def _box(numbers: Sequence[float]) -> Iterator[ContentStreamInstruction]:
    for number in range(4):
        yield instruction("l" if number else "m", *numbers[2 * number : 2 * number + 2])
    yield instruction("h")
