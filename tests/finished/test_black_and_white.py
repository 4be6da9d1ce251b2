"""That a booklet serves whoever sees colours otherwise, and an office printer that knows only black."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache

import numpy as np
import numpy.typing as npt
import pypdfium2 as pdfium
import pytest

from booklet.proof.figures import CutFigure, cut_figures
from booklet.proof.grounds import contrast
from booklet.proof.printed import Box, Colour, Letter, Page
from tests.finished.conftest import Open
from tests.finished.kits import Finished
from tests.finished.listing import listed
from tests.finished.signs import numbered
from tests.spec_data import WHOLE_DEMOS

Pixels = npt.NDArray[np.float64]
Mask = npt.NDArray[np.bool_]

# How those see linear RGB who lack one kind of cones (Machado, Oliveira and Fernandes 2009, severity 1.0;
# from memory), and grey, as a black printer sees it (the weights of ITU-R BT.709).
VISIONS: dict[str, Pixels] = {
    "protanopia": np.array(
        [[0.152286, 1.052583, -0.204868], [0.114503, 0.786281, 0.099216], [-0.003882, -0.048116, 1.051998]]
    ),
    "deuteranopia": np.array(
        [[0.367322, 0.860646, -0.227968], [0.280085, 0.672501, 0.047413], [-0.011820, 0.042940, 0.968881]]
    ),
    "tritanopia": np.array(
        [[1.255528, -0.076749, -0.178779], [-0.078411, 0.930809, 0.147602], [0.004733, 0.691367, 0.303900]]
    ),
    "grey": np.array([[0.2126, 0.7152, 0.0722]] * 3),
}
# WCAG 2 (from memory): text wants 4.5 to its ground, a line that means something 3.
TEXT, LINE = 4.5, 3.0

# Cut lines are looked at so closely, in dots per inch, and so many dots off their edges.
CLOSE, BESIDE = 432, 2
# An office printer, and what it prints: dots of one size in a screen of so many lines an inch.
PRINTER, SCREEN = 600, 106
SMALL = 10.0
# How a letter may lie to the screen, in dots.
PHASES = (0, 2, 4, 6)
# The white about a letter that is looked at, in points; a piece under this share of the largest is a crumb.
AROUND, CRUMB = 0.3, 0.05


@cache
def seen(colour: Colour, vision: str) -> Colour:
    """A colour as it is seen."""
    linear = VISIONS[vision] @ np.array([to_linear(part / 255) for part in colour])
    red, green, blue = (round(255 * from_linear(min(max(float(part), 0.0), 1.0))) for part in linear)
    return red, green, blue


def to_linear(part: float) -> float:
    """A part of an sRGB colour as light (IEC 61966-2-1, from memory)."""
    return part / 12.92 if part <= 0.04045 else float(((part + 0.055) / 1.055) ** 2.4)


def from_linear(light: float) -> float:
    """Light as a part of an sRGB colour."""
    return 12.92 * light if light <= 0.0031308 else 1.055 * light ** (1 / 2.4) - 0.055


# Meanings.


@pytest.mark.parametrize("vision", VISIONS)
def test_numbers_in_discs_and_rings_stand_out(finished: Finished, vision: str) -> None:
    faint = []
    for page in finished.book.pages:
        for each in numbered(page):
            number, ground = each.letters[0].colour, each.circle.fill or (255, 255, 255)
            ratio = contrast(seen(number, vision), seen(ground, vision))
            if ratio < TEXT:
                faint.append(f"p. {page.number}: {each.number} {ratio:.2f}")
    assert not faint, listed(faint)


@pytest.mark.parametrize("name", WHOLE_DEMOS)
def test_cut_lines_stand_out_from_what_they_cut(name: str, open_booklet: Open) -> None:
    finished = open_booklet(name)
    faint = []
    count = 0
    for figure, x, line, sides in cut_samples(finished):
        count += 1
        ratios = {
            vision: min(contrast(seen(line, vision), seen(side, vision)) for side in sides)
            for vision in VISIONS
        }
        worst = min(ratios, key=lambda vision: ratios[vision])
        if ratios[worst] < LINE:
            place = f"{x - figure.outline.left:.1f} of {figure.outline.width:.1f} pt"
            faint.append(f"p. {figure.page.number}: cut at {place}, {worst}: {ratios[worst]:.2f}")
    assert count > 20
    assert not faint, listed(faint)


def cut_samples(finished: Finished) -> Iterator[tuple[CutFigure, float, Colour, list[Colour]]]:
    """For each cut line its colour within a dash, and the colours close beside it there."""
    document = pdfium.PdfDocument(finished.data)
    try:
        for page in finished.book.pages:
            sheet = document[page.number - 1] if cut_figures(page) else None
            for figure in cut_figures(page):
                # A band across the figure, as high as two dashes with their gaps.
                box = figure.outline
                top = box.top + 0.2 * box.height
                foot = min(top + 20, box.bottom - 2)
                picture = cropped(sheet, Box(box.left - 4, top, box.right + 4, foot), CLOSE)
                for line in figure.cuts:
                    x = line.start[0]
                    yield figure, x, *sample(picture, x - (box.left - 4), line.colour)
    finally:
        document.close()


def sample(picture: Pixels, x: float, colour: Colour) -> tuple[Colour, list[Colour]]:
    """The colour of a line where it is most itself, and those close to both its edges in the same row."""
    column = round(x * CLOSE / 72)
    off = np.abs(picture - np.array(colour)).sum(axis=2)
    row = int(np.argmin(off[:, column]))
    is_line = off[row] < 60
    left = right = column
    while is_line[left - 1]:
        left -= 1
    while is_line[right + 1]:
        right += 1

    def at(place: int) -> Colour:
        red, green, blue = (int(part) for part in picture[row, place])
        return red, green, blue

    return at(column), [at(left - BESIDE), at(right + BESIDE)]


def cropped(page: pdfium.PdfPage, box: Box, dpi: int) -> Pixels:
    """A part of a page as it is printed, in RGB, row by row."""
    width, height = page.get_size()
    crop = (box.left, height - box.bottom, width - box.right, box.top)
    bitmap = page.render(scale=dpi / 72, crop=crop, rev_byteorder=True)
    return np.asarray(bitmap.to_numpy()[:, :, :3], dtype=np.float64)


# Small type on an office printer.


@pytest.mark.parametrize("name", WHOLE_DEMOS)
def test_small_letters_hold_together_in_dots_of_black(name: str, open_booklet: Open) -> None:
    finished = open_booklet(name)
    broken = []
    samples = small_letters(finished)
    assert sum(map(len, samples.values())) > 50
    document = pdfium.PdfDocument(finished.data)
    try:
        for page, letters in samples.items():
            sheet = document[page.number - 1]
            for letter in letters:
                picture = cropped(sheet, letter.box.grown(AROUND), PRINTER)
                what = f"p. {page.number}: {letter.text!r} of {letter.size:.1f} pt in {letter.colour}"
                broken += [f"{what} {how}" for how in damage(picture, letter)]
    finally:
        document.close()
    assert not broken, listed(broken)


def damage(picture: Pixels, letter: Letter) -> Iterator[str]:
    """What becomes of a letter in dots of black, wherever it lies to the printer's screen."""
    grey = picture @ np.array([0.2126, 0.7152, 0.0722]) / 255
    if sum(letter.colour) > 3 * 128:
        grey = 1 - grey
    ink = own_ink(grey < 0.5)
    whole = pieces(ink)
    if pieces(without_hairlines(ink)) != whole:
        yield "hangs together by a single dot"
    # Pure black and white have no dots that could lie here or there.
    is_pure = set(letter.colour) in ({0}, {255})
    if any(pieces(screened(grey, phase) & ink) > whole for phase in PHASES[: 1 if is_pure else None]):
        yield "falls apart"


def small_letters(finished: Finished) -> dict[Page, list[Letter]]:
    """One of each letter, face and colour that is printed small, by its page."""
    seen: set[tuple[str, str, Colour]] = set()
    found: dict[Page, list[Letter]] = {}
    for page in finished.book.pages:
        for letter in page.ink:
            kind = (letter.text, letter.font, letter.colour)
            if letter.size < SMALL and not letter.angle and letter.text.isalnum() and kind not in seen:
                seen.add(kind)
                found.setdefault(page, []).append(letter)
    return found


def screened(grey: Pixels, phase: int) -> Mask:
    """What a printer of one dot size makes of grey: dots that grow in a screen turned by 45 degrees."""
    height, width = grey.shape
    y, x = np.mgrid[phase : phase + height, 0:width]
    turn = 2 * np.pi * SCREEN / PRINTER / np.sqrt(2)
    threshold = (np.cos((x + y) * turn) + np.cos((x - y) * turn)) / 4 + 0.5
    return np.asarray(grey < threshold * 0.98 + 0.01)


def without_hairlines(ink: Mask) -> Mask:
    """What is left of a shape without whatever is narrower than two dots."""
    height, width = ink.shape
    kept = ink[:-1, :-1] & ink[1:, :-1] & ink[:-1, 1:] & ink[1:, 1:]
    back = np.zeros((height, width), dtype=bool)
    for dy in range(2):
        for dx in range(2):
            back[dy : dy + height - 1, dx : dx + width - 1] |= kept
    return back


def own_ink(ink: Mask) -> Mask:
    """A letter without what reaches into its picture from its neighbours."""
    height, width = ink.shape
    own = np.zeros_like(ink)
    for shape in shapes_in(ink):
        if all(0 < y < height - 1 and 0 < x < width - 1 for y, x in shape):
            own[tuple(np.array(shape).T)] = True
    return own


def pieces(ink: Mask) -> int:
    """In how many pieces a shape lies; crumbs left out."""
    shapes = shapes_in(ink)
    most = max(map(len, shapes), default=0)
    return sum(len(shape) > CRUMB * most for shape in shapes)


def shapes_in(ink: Mask) -> list[list[tuple[int, int]]]:
    """The dots of each shape that hangs together, side by side or corner to corner."""
    left = {(int(y), int(x)) for y, x in np.argwhere(ink)}
    shapes = []
    while left:
        first = left.pop()
        reached, shape = [first], [first]
        while reached:
            y, x = reached.pop()
            near = [(y + dy, x + dx) for dy in (-1, 0, 1) for dx in (-1, 0, 1)]
            found = left.intersection(near)
            left -= found
            reached += found
            shape += found
        shapes.append(shape)
    return shapes
