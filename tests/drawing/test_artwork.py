"""The artwork of a cut-apart sheet as an image: each element shows its part of it."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np
import pytest
from PIL import Image

from booklet.drawing.layouts.finished_figure import finished_shapes
from booklet.drawing.layouts.look import Look, paper_tone
from booklet.drawing.shapes.figure import Colour
from booklet.kit.fields import Face
from tests.drawing.looks import Pixels, colours, look_of, resolved_kit
from tests.kits import Data, cut, make_kit, sheet

RED, GREEN, BLUE, GOLD = (200, 0, 0), (0, 150, 0), (0, 0, 200), (210, 170, 0)
NAMES = ("red", "green", "blue", "gold")


def boxes(**more: dict[str, Any]) -> list[Data]:
    """Four elements of 6 x 6, row by row."""
    at = [(0, 0), (6, 0), (0, 6), (6, 6)]
    return [
        {"name": name, "left": left, "top": top, "size": "6 x 6", **more.get(name, {})}
        for name, (left, top) in zip(NAMES, at, strict=True)
    ]


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A folder with an image in four colours."""
    picture = Image.new("RGB", (120, 120))
    for colour, corner in zip((RED, GREEN, BLUE, GOLD), ((0, 0), (60, 0), (0, 60), (60, 60)), strict=True):
        picture.paste(colour, (*corner, corner[0] + 60, corner[1] + 60))
    picture.save(tmp_path / "four.png")
    return tmp_path


def look(folder: Path, *steps: Data, **more: dict[str, Any]) -> Look:
    """A page of these steps; elements state what is given by their names."""
    cuts = [cut(6, ["left half", "right half"]), cut(6, take=["left half", "right half"], turn="clockwise")]
    tags = sheet(*cuts, id="tags", artwork="four.png", elements=boxes(**more))
    page = {"id": "p", "pocket": 1, "base": "sand", "steps": list(steps)}
    kit = make_kit(tags, sheet(id="sand"), layouts=[page])
    return look_of(resolved_kit(kit, folder))


def pixels(one: Look) -> Pixels:
    return colours(finished_shapes(one), 144, 144, dots_per_point=1)


def at(drawn: Pixels, left: int, top: int) -> tuple[int, ...]:
    """The colour so many inches from the left and the top; an inch is 12 points here."""
    return tuple(int(part) for part in drawn[12 * top, 12 * left])


def test_each_element_shows_its_part_of_the_image(folder: Path) -> None:
    drawn = pixels(
        look(folder, {"place": "gold", "left": 0, "top": 0}, {"place": "red", "right": 0, "top": 0})
    )
    assert np.abs(np.subtract(at(drawn, 3, 3), GOLD)).max() < 6
    assert np.abs(np.subtract(at(drawn, 9, 3), RED)).max() < 6


def test_an_element_that_states_a_drawing_lies_on_the_image(folder: Path) -> None:
    gold = {"frame": "line", "ground": "#ffffff"}
    drawn = pixels(look(folder, {"place": "gold", "left": 0, "top": 0}, gold=gold))
    assert at(drawn, 3, 3) == (255, 255, 255)


def test_the_tone_of_an_element_is_that_of_its_part(folder: Path) -> None:
    steps = ({"place": "blue", "left": 0, "top": 0}, {"place": "green", "right": 0, "top": 0})
    one = look(folder, *steps, green={"words": "hi", "ground": "#112233"})
    blue, green = (paper_tone(item, one) for item in one.layout.items)
    assert (blue, green) == (Colour("#0000c8"), Colour("#112233"))


def test_the_middle_of_an_image_element_is_kept_free_and_the_words_of_a_drawn_one(folder: Path) -> None:
    one = look(folder, gold={"words": "hi"})
    boxes = one.papers.artwork(0)
    assert len(boxes) == 4
    red = boxes[0]
    assert red.centre == pytest.approx((216, 216))  # 3 in from both edges, at full size
    assert 0.5 < red.width / 432 < 1


def test_the_back_has_no_artwork(folder: Path) -> None:
    one = look(folder, {"place": "gold", "left": 0, "top": 0, "face": "back"})
    assert at(pixels(one), 3, 3) == (255, 255, 255)
    assert one.papers.sheet(0, Face.BACK) is not one.papers.sheet(0, Face.FRONT)
