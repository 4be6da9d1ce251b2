"""Copies of the larger demo kit, each of them changed in one line."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

SPECS = Path(__file__).parents[2] / "kit_specs"
LARGER = SPECS / "hill-line.yaml"


@dataclass(frozen=True)
class Break:
    """A change that spoils a kit: what is typed instead of what, and what `check` shall say of it.

    The finding stands at the changed line, unless `at` is a part of the line where it does.
    """

    name: str
    old: str
    new: str
    says: str
    cure: str
    at: str | None = None


# Where the larger demo kit lies with one line changed, which no test changes further.
Broken = Callable[[Break], Path]

BREAKS = (
    Break(
        "a key with letters swapped",
        "title: The Slow Train Uphill",
        "titel: The Slow Train Uphill",
        'the unknown key "titel"',
        "(nearest: title)",
    ),
    Break(
        "a reading that is no length",
        "- at: [9, 6, 4 1/2, 3, 1 1/2]",
        "- at: [9, 6, 4 1/x, 3, 1 1/2]",
        "sheets › pine › cuts › 1 › at › 3: found 4 1/x",
        "expected a length such as 6 1/4",
    ),
    Break(
        "a list that is not closed",
        "    paper: iron\n",
        "    paper: [iron\n",
        "a list that begins with [ and is not closed",
        "] at its end",
    ),
    Break(
        "a paper that the kit lacks",
        "    paper: pine\n",
        "    paper: pin\n",
        "sheets › pine › paper: found pin",
        "(nearest: pine)",
    ),
    Break(
        "a picture that is not there",
        "{image: hill-line.jpg}",
        "{image: hill-lime.jpg}",
        "no file hill-lime.jpg",
        "(nearest: hill-line.jpg)",
    ),
    Break(
        "a size that is not what the cuts give",
        "sizes: {trunk: 3 x 12,",
        "sizes: {trunk: 3 1/4 x 12,",
        'size-differs: "trunk" is stated as 3 1/4 x 12 and cut as 3 x 12',
        "Correct the size or the readings",
    ),
    Break(
        "a cut beyond the sheet",
        "- at: [9, 6, 4 1/2, 3, 1 1/2]",
        "- at: [13, 6, 4 1/2, 3, 1 1/2]",
        "cut-beyond-piece: a cut at 13 on a piece 12 wide",
        "Give a reading below 12",
    ),
    Break(
        "a cut through a printed card",
        "{take: wide cards, turn: clockwise, at: [8, 4]}",
        "{take: wide cards, turn: clockwise, at: [8, 5]}",
        'cut-through-element: the cut at 5 runs through the printed element "view card"',
        "Cut between the elements",
    ),
    Break(
        "a name too many for the cuts",
        "leaves: [low slope, night panel]",
        "leaves: [low slope, night panel, scrap]",
        "leaves-count: 3 names for 2 pieces",
        "1 cut leaves 2 pieces",
    ),
    Break(
        "a piece that nothing makes",
        "{place: sun, spread: yes",
        "{place: sum, spread: yes",
        'piece-not-made: nothing in the kit gives a piece "sum"',
        'Did you mean "sun"?',
    ),
    Break(
        "a piece that no layout takes",
        "      - {place: higher, left: 1 1/2, top: 8, tilt: -3}\n",
        "",
        'piece-left-over: 1 "higher"',
        "list it under spare",
        at="take: captions",
    ),
    Break(
        "a pocket that is not the layout's",
        "pockets: {trunk: 2,",
        "pockets: {trunk: 3,",
        'pocket-differs: "trunk" is stated to go to pocket 3, by its layouts it goes to 2',
        "Correct the pocket here or at the layout",
    ),
    Break(
        "ribbon that does not last",
        "length: 54, spare: 6, width: 3/8",
        "length: 30, spare: 6, width: 3/8",
        'supply-short: 48 in of "grosgrain" is used, 30 in is in the box',
        "Put more in the box, or use less",
    ),
    Break(
        "a photograph larger than its mat",
        "{photo: 5 x 7, on: tall mat}",
        "{photo: 8 x 10, on: tall mat}",
        "photo-beyond-mat: a photograph of 8 x 10 on a mat of 5 1/2 x 7 1/2",
        "Take a smaller photograph",
    ),
    Break(
        "a place above something unknown",
        "{place: moonlit mat, left: 1/2, above: rail,",
        "{place: moonlit mat, left: 1/2, above: rale,",
        'reference-unknown: nothing placed so far is called "rale"',
        'Did you mean "rail"?',
    ),
)


def broken_copy(one: Break, folder: Path) -> Path:
    """The larger demo kit with one line changed, in a folder of its own with its picture."""
    text = LARGER.read_text(encoding="utf-8")
    assert text.count(one.old) == 1, f"the demo kit no longer holds, once: {one.old}"
    return _copy(text.replace(one.old, one.new), folder)


def sound_copy(folder: Path, demo: Path = LARGER) -> Path:
    """A demo kit as it is, in a folder of its own with its picture."""
    return _copy(demo.read_text(encoding="utf-8"), folder, demo)


def _copy(text: str, folder: Path, demo: Path = LARGER) -> Path:
    folder.mkdir(parents=True, exist_ok=True)
    for picture in demo.parent.glob(f"{demo.stem}.jpg"):
        shutil.copy(picture, folder)
    spec = folder / demo.name
    spec.write_text(text, encoding="utf-8")
    return spec


def line_of(spec: Path, part: str) -> int:
    """The number of the only line that holds these words."""
    lines = spec.read_text(encoding="utf-8").splitlines()
    (number,) = [number for number, line in enumerate(lines, start=1) if part in line]
    return number
