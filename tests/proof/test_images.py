"""Images against the sheets and pages that they are printed over."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from PIL import Image

from booklet.kit.errors import SpecError
from booklet.kit.finding import Finding, Severity
from booklet.kit.load import parse_kit
from booklet.placing.resolved import resolve_kit
from booklet.proof.findings import kit_findings
from booklet.proof.images import check_images

SPEC = """
title: Roses
publisher: Saltmarsh Paper Club
sheet: {sheet}
papers: {{roses: {{front: {{image: roses.png}}}}, sand: {{front: {{}}}}}}
sheets: [{{id: rose sheet, paper: roses}}, {{id: base, paper: sand}}]
{more}
layouts: [{{id: window, pocket: 1, base: base{page}, steps: [{{place: rose sheet, left: 0, top: 0}}]}}]
"""


def found(folder: Path, pixels: tuple[int, int], sheet: str = "12 x 12", **more: Any) -> list[Finding]:
    """What is said of a kit with an image of so many pixels on a sheet."""
    Image.new("RGB", pixels, "red").save(folder / "roses.png")
    text = SPEC.format(sheet=sheet, more=more.get("more", ""), page=more.get("page", ""))
    return list(check_images(resolve_kit(parse_kit(text, "kit.yaml", folder))))


@pytest.mark.parametrize(
    ("pixels", "sheet", "ids"),
    [
        # 75 pixels to an inch of the sheet: 900 on 12 in, 886 on 30 cm (30 / 2.54 x 75 = 885.8).
        ((900, 900), "12 x 12", []),
        ((899, 900), "12 x 12", ["image-coarse"]),
        ((900, 899), "12 x 12", ["image-coarse"]),
        ((886, 886), "30 x 30 cm", []),
        ((885, 886), "30 x 30 cm", ["image-coarse"]),
        # One fiftieth of the longer is not seen: 980 to 1000.
        ((1000, 980), "12 x 12", []),
        ((1000, 979), "12 x 12", ["image-stretched"]),
        ((800, 2000), "12 x 12", ["image-stretched", "image-coarse"]),
        ((1000, 2000), "6 x 12", []),
        ((2000, 1000), "6 x 12", ["image-stretched"]),
    ],
)
def test_an_image_on_a_sheet(pixels: tuple[int, int], sheet: str, ids: list[str], tmp_path: Path) -> None:
    findings = found(tmp_path, pixels, sheet)
    assert [finding.id for finding in findings] == ids
    assert all(finding.severity is Severity.WARNING for finding in findings)
    assert {finding.where for finding in findings} <= {("papers", "roses", "front", "image")}


def test_what_is_found_and_what_to_give_instead(tmp_path: Path) -> None:
    stretched, coarse = found(tmp_path, (800, 2000))
    assert stretched.found == ('roses.png, 800 x 2000 pixels, is stretched over sheet "rose sheet", 12 x 12')
    assert coarse.cure == "give one of at least 900 x 900 pixels"


def test_a_ready_cut_piece_shows_the_whole_image(tmp_path: Path) -> None:
    ready = "ready: [{name: card, size: 4 x 6, paper: roses, spare: 1}]"
    (finding,) = found(tmp_path, (900, 900), more=ready)
    assert finding.found.endswith('is stretched over "card", 4 x 6')


def test_a_photograph_of_the_finished_page_has_its_proportions(tmp_path: Path) -> None:
    Image.new("RGB", (1200, 900), "blue").save(tmp_path / "window.png")
    (finding,) = found(tmp_path, (900, 900), page=", photograph: window.png")
    assert finding.where == ("layouts", 0, "photograph")
    assert finding.found == ('window.png, 1200 x 900 pixels, is stretched over the page "window", 12 x 12')


def test_an_image_of_a_paper_that_no_sheet_has_is_left_alone(tmp_path: Path) -> None:
    Image.new("RGB", (4, 4), "red").save(tmp_path / "spot.png")
    text = SPEC.format(sheet="12 x 12", more="", page="").replace(
        "sand: {", "spots: {front: {image: spot.png}}, sand: {"
    )
    Image.new("RGB", (900, 900), "red").save(tmp_path / "roses.png")
    assert list(check_images(resolve_kit(parse_kit(text, "kit.yaml", tmp_path)))) == []


ARTWORK = """
title: Roses
publisher: Saltmarsh Paper Club
sheet: 12 x 12
papers: {{sand: {{front: {{}}}}}}
sheets:
  - id: tags
    paper: sand
    artwork: tags.png
    {elements}
layouts: [{{id: window, pocket: 1, base: {{paper: sand}}}}]
"""
ELEMENTS = "elements: [{name: rose, left: 0, top: 0, size: 3 x 3}]"


@pytest.mark.parametrize(
    ("pixels", "ids"), [((900, 900), []), ((899, 899), ["image-coarse"]), ((1000, 900), ["image-stretched"])]
)
def test_artwork_is_held_against_its_whole_sheet(
    pixels: tuple[int, int], ids: list[str], tmp_path: Path
) -> None:
    Image.new("RGB", pixels, "red").save(tmp_path / "tags.png")
    text = ARTWORK.format(elements=ELEMENTS)
    said = list(check_images(resolve_kit(parse_kit(text, "kit.yaml", tmp_path))))
    assert [one.id for one in said] == ids
    assert all(one.where == ("sheets", 0, "artwork") for one in said)


def test_artwork_is_of_a_sheet_with_elements(tmp_path: Path) -> None:
    Image.new("RGB", (900, 900), "red").save(tmp_path / "tags.png")
    with pytest.raises(SpecError) as refused:
        parse_kit(ARTWORK.format(elements=""), "kit.yaml", tmp_path)
    assert str(refused.value).startswith(
        "kit.yaml:9: sheets › tags › artwork: found artwork of a sheet without elements"
    )


@pytest.mark.parametrize(("face", "ids"), [("front", []), ("back", ["element-face-down"])])
def test_an_element_of_an_image_is_not_laid_face_down(face: str, ids: list[str], tmp_path: Path) -> None:
    Image.new("RGB", (900, 900), "red").save(tmp_path / "tags.png")
    cuts = "cuts: [{at: 6}]\n    elements: [{name: rose, left: 0, top: 0, size: 6 x 12}]"
    steps = f"steps: [{{place: rose, face: {face}, left: 0, top: 0}}]"
    text = ARTWORK.format(elements=cuts).replace("base: {paper: sand}", f"base: {{paper: sand}}, {steps}")
    said = kit_findings(resolve_kit(parse_kit(text, "kit.yaml", tmp_path)))
    assert [one.id for one in said if one.where[-1] == "face"] == ids
