"""Papers without colour: every one is told from every other, by its marks or by its letter."""

from __future__ import annotations

from collections.abc import Iterable
from itertools import combinations
from typing import Any

import pytest

from booklet.drawing.papers.black_papers import BlackPapers
from booklet.drawing.papers.kit_papers import KitPapers
from booklet.drawing.shapes.figure import BLACK, WHITE, Colour, Motifs, Path, Rect, Shape, Stroke
from booklet.drawing.shapes.screens import Weave, lightness
from booklet.drawing.writers.black_inks import screen_of
from booklet.kit.fields import Face
from booklet.kit.kit import Kit
from booklet.kit.load import load_kit
from booklet.measure.exact import Fraction
from booklet.measure.length import Size
from tests.drawing.black import SPECS, kit_of_papers

TWO_INCHES = Size(Fraction(2), Fraction(2))


def papers_of(kit: Kit) -> BlackPapers:
    return BlackPapers(kit, SPECS)


def plain(**colours: str) -> BlackPapers:
    """A kit of plain papers by their names, each whole in the box."""
    return papers_of(kit_of_papers({name: {"colours": [f"#{colour}"]} for name, colour in colours.items()}))


def weave_of(papers: BlackPapers, name: str) -> Weave | None:
    screen = screen_of(papers.face_colours(name, Face.FRONT)[0])
    return None if isinstance(screen, float) else screen.weave


def test_plain_papers_about_as_light_have_marks_that_run_in_other_ways() -> None:
    papers = plain(sage="c3cfb6", sand="d8c8a0", sky="b8cbd8")
    weaves = [weave_of(papers, name) for name in ("sage", "sand", "sky")]
    assert len(set(weaves)) == 3
    assert None not in weaves


def test_papers_that_look_alike_in_grey_bear_letters_of_their_names() -> None:
    papers = plain(straw="f2e3bd", mist="dbe5e6", pine="2f5d50")
    assert papers.letters == {"straw": "s", "mist": "m"}
    for name, letter in papers.letters.items():
        screen = screen_of(papers.face_colours(name, Face.FRONT)[0])
        assert not isinstance(screen, float)
        assert screen.letter == letter


def test_a_letter_that_is_taken_gives_way_to_the_next_of_the_name() -> None:
    assert plain(straw="f2e3bd", sand="f0e4bf", silk="f1e3be").letters == {
        "straw": "s",
        "sand": "a",
        "silk": "i",
    }


def test_dark_papers_that_look_alike_bear_letters_too() -> None:
    papers = plain(iron="24364b", plum="3a2c44")
    assert set(papers.letters.values()) == {"i", "p"}


def test_papers_of_one_print_in_other_colours_bear_letters() -> None:
    prints = {
        "rust": {"pattern": "stripes", "colours": ["#f6efdf", "#b5482f"]},
        "moss": {"pattern": "stripes", "colours": ["#f4f0e2", "#2f5d50"]},
        "dots": {"pattern": "dots", "colours": ["#f6efdf", "#2f5d50"]},
    }
    assert papers_of(kit_of_papers(prints)).letters == {"rust": "r", "moss": "m"}


def test_cream_alone_stays_white() -> None:
    papers = plain(cream="fbf7ec", iron="24364b")
    assert papers.face_colours("cream", Face.FRONT) == (WHITE,)
    assert papers.letters == {}


def test_a_kit_that_prints_a_grid_has_no_screen_of_crossed_lines() -> None:
    greys: dict[str, Any] = {f"grey {at}": {"colours": [f"#{at}0{at}0{at}0"]} for at in "6789abcd"}
    grid = {"grid": {"pattern": "grid", "colours": ["#f6efdf", "#222222"]}}
    for printed, wanted in ((greys, True), ({**greys, **grid}, False)):
        papers = papers_of(kit_of_papers(printed))
        assert (Weave.CROSS in {weave_of(papers, name) for name in greys}) is wanted


@pytest.mark.parametrize(
    "pattern", ["stripes", "dots", "checks", "grid", "waves", "leaves", "stars", "confetti"]
)
@pytest.mark.parametrize(
    "colours",
    [["#f6efdf", "#b5482f"], ["#24364b", "#5b7f95"], ["#5b7f95", "#24364b"], ["#5b7f95", "#86a3b3"]],
)
def test_the_motifs_of_a_print_stand_out_from_its_ground(pattern: str, colours: list[str]) -> None:
    papers = papers_of(kit_of_papers({"print": {"pattern": pattern, "colours": colours}}))
    ground, *motifs = shapes_in(papers.paper("print", Face.FRONT, TWO_INCHES).shapes)
    assert motifs
    assert all(abs(lightness(motif) - lightness(ground)) > 0.15 for motif in motifs)


def shapes_in(shapes: Iterable[Shape]) -> list[Colour]:
    """The colours of shapes in their order, each once."""
    found = []
    for shape in shapes:
        assert isinstance(shape, Path | Motifs | Rect)
        found += [part.colour for part in (shape.fill, shape.stroke) if part is not None]
    return list(dict.fromkeys(found))


def test_lines_of_a_print_are_black_or_white_or_dashed() -> None:
    papers = papers_of(kit_of_papers({"grid": {"pattern": "grid", "colours": ["#f6efdf", "#dcd9c9"]}}))
    lines = [
        shape.stroke
        for shape in papers.paper("grid", Face.FRONT, TWO_INCHES).shapes
        if isinstance(shape, Path | Motifs)
    ]
    assert lines
    for line in lines:
        assert isinstance(line, Stroke)
        assert line.colour in (BLACK, WHITE)
        assert line.dash


@pytest.mark.parametrize("name", ["hill-line", "roof-garden"])
def test_words_on_printed_elements_are_black_or_white_on_what_parts_them(name: str) -> None:
    kit = load_kit(SPECS / f"{name}.yaml").kit
    papers = papers_of(kit)
    elements = [element for sheet in kit.sheets for element in sheet.printed]
    assert elements
    for element in elements:
        ground, ink = papers.element_colours(Colour(element.ground), Colour(element.ink))
        assert ink in (BLACK, WHITE)
        assert ground.contrast(ink) > 7


@pytest.mark.parametrize("name", ["hill-line", "roof-garden"])
def test_the_papers_of_the_demos_are_told_apart_by_screen_motif_or_letter(name: str) -> None:
    kit = load_kit(SPECS / f"{name}.yaml").kit
    papers = papers_of(kit)
    seen = {sheet.paper for sheet in kit.sheets if not sheet.is_cut_apart} | {one.paper for one in kit.ready}
    looks = {
        paper: (papers.face_colours(paper, Face.FRONT), kit.papers[paper].front.pattern)
        for paper in sorted(seen)
        if kit.papers[paper].front.image is None
    }
    assert len(looks) >= 6
    for one, other in combinations(looks, 2):
        assert looks[one] != looks[other], (one, other)


def test_in_colour_nothing_is_changed() -> None:
    kit = load_kit(SPECS / "hill-line.yaml").kit
    papers = KitPapers(kit, SPECS)
    assert papers.face_colours("straw", Face.FRONT) == (Colour("#f2e3bd"),)
    assert papers.element_colours(Colour("#d9a441"), Colour("#24364b")) == (
        Colour("#d9a441"),
        Colour("#24364b"),
    )
    assert papers.piece_edge is None
