"""The finished look: what lies on what, shadows, and nothing that a printer could not print."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from io import BytesIO
from pathlib import Path
from typing import Any

import numpy as np
import pikepdf
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from booklet.drawing.layouts.finished_figure import finished_shapes, finished_symbol
from booklet.drawing.layouts.finished_pages import draw_finished_pages
from booklet.drawing.layouts.look import Look
from booklet.drawing.shapes.affine import translation
from booklet.drawing.shapes.figure import Figure, Group, Shape, Use
from booklet.kit.load import load_kit
from booklet.placing.resolved import resolve_kit
from booklet.placing.visible import visible_share
from tests.drawing.looks import Pixels, colours, look_of, resolved_kit
from tests.drawing.rasters import figure_pdf
from tests.drawing.styles import STYLE
from tests.drawing.walking import groups
from tests.kits import Data, make_kit, ready, sheet
from tests.spec_data import WHOLE_DEMOS

SPECS = Path(__file__).parents[2] / "kit_specs"
INCH = 12.0
DOTS = 4.0
# Cards that differ in tone and in colour, from nearly white to nearly black.
COLOURS = ["#f8f4ea", "#20242c", "#b03a2e", "#e8c547", "#1f6f5c", "#9db4c0", "#5a3d6b", "#d98e73"]


def cards(size: str = "4 x 3", **more: Any) -> tuple[Data, list[Data]]:
    """A paper in each of the colours, and a card of each."""
    papers = {f"paper {n}": {"front": {"colours": [colour]}} for n, colour in enumerate(COLOURS)}
    return papers, [
        {**ready(f"card {n}", size=size), "paper": f"paper {n}", **more} for n in range(len(COLOURS))
    ]


def look_at(*steps: Data, base: int = 0, folder: Path = Path(), **more: Any) -> Look:
    """The look of a page with these steps, on a sheet of one of the colours."""
    papers, pieces = cards()
    layouts = [{"id": "page", "pocket": 1, "base": "base", "steps": list(steps)}]
    said: Data = {"papers": papers, "ready": pieces, **more}
    return look_of(
        resolved_kit(make_kit(sheet(id="base", paper=f"paper {base}"), layouts=layouts, **said), folder)
    )


def pixels_of(look: Look, shapes: Iterable[Shape] | None = None) -> Pixels:
    shown = finished_shapes(look) if shapes is None else shapes
    return colours(shown, look.page.width, look.page.height, DOTS)


def rgb(colour: str) -> tuple[int, int, int]:
    red, green, blue = (int(colour[at : at + 2], 16) for at in (1, 3, 5))
    return red, green, blue


def at(pixels: Pixels, x: float, y: float) -> tuple[int, ...]:
    """The colour at a point in inches from the page's top left."""
    return tuple(int(part) for part in pixels[int(y * INCH * DOTS), int(x * INCH * DOTS)])


# What lies on what.

SPOTS = st.tuples(st.integers(0, 16), st.integers(0, 18))  # of a card's corner, in half inches


@given(
    spots=st.lists(SPOTS, min_size=2, max_size=7),
    under=st.lists(st.none() | st.integers(0, 6), min_size=7, max_size=7),
)
@settings(max_examples=40)
def test_what_is_laid_later_lies_on_top_unless_it_is_tucked_under(
    spots: list[tuple[int, int]], under: list[int | None]
) -> None:
    steps: list[Data] = []
    order: list[int] = []
    for n, (left, top) in enumerate(spots):
        below = under[n]
        tucked = below is not None and below < n
        steps.append({"place": f"card {n + 1}", "left": left / 2, "top": top / 2})
        if tucked:
            steps[-1]["tucked"] = [f"card {below + 1}"]  # type: ignore[operator]
        order.insert(order.index(below) if tucked and below is not None else len(order), n)
    seen = np.zeros((24, 24), dtype=int)
    for n in order:
        left, top = spots[n]
        seen[top : top + 6, left : left + 8] = n + 1
    pixels = pixels_of(look_at(*steps))
    for row in range(24):
        for column in range(24):
            # Shadows reach less than 2 pt; the middle of a cell lies 3 pt from every edge.
            found = at(pixels, column / 2 + 0.25, row / 2 + 0.25)
            assert found == rgb(COLOURS[seen[row, column]]), (row, column)


def test_what_hangs_over_the_page_is_cut_off() -> None:
    look = look_at(
        {"place": "card 1", "left": -1, "top": -1, "overhang": True},
        {"place": "card 2", "right": -2, "bottom": -1, "tilt": 20, "overhang": True},
        {"place": "card 3", "left": 8, "top": 4},
    )
    symbol = finished_symbol(look)
    margin = 40.0
    shape = Use(symbol, translation(margin, margin))
    pixels = colours([shape], symbol.width + 2 * margin, symbol.height + 2 * margin, DOTS)
    inner = int(margin * DOTS)
    outside = np.ones(pixels.shape[:2], dtype=bool)
    outside[inner - 1 : 1 - inner, inner - 1 : 1 - inner] = False
    assert (pixels[outside] == 255).all()
    assert (pixels[inner + 2 : inner + 20, inner + 2 : inner + 20] == rgb(COLOURS[1])).all()


# Shadows.


def without_shadows(shapes: Iterable[Shape]) -> Iterator[Shape]:
    for shape in shapes:
        if not (isinstance(shape, Group) and shape.tag == "shadow"):
            yield shape


def assert_darker(look: Look) -> int:
    """Shadows only darken; returns how many dots they darken."""
    shapes = list(finished_shapes(look))
    plain = pixels_of(look, without_shadows(shapes)).astype(int).sum(axis=2)
    shaded = pixels_of(look, shapes).astype(int).sum(axis=2)
    # A rasteriser may round an edge to the next dot: only what is wider, across and down, counts.
    paler = shaded > plain + 9
    assert not (paler[1:, 1:] & paler[1:, :-1] & paler[:-1, 1:] & paler[:-1, :-1]).any()
    return int((shaded < plain - 9).sum())


@given(
    spots=st.lists(SPOTS, min_size=1, max_size=6),
    tilts=st.lists(st.sampled_from([0, 0, 8, -25]), min_size=6, max_size=6),
    raised=st.integers(0, 5),
    base=st.integers(0, 7),
)
@settings(max_examples=40)
def test_a_shadow_is_darker_than_whatever_it_falls_on(
    spots: list[tuple[int, int]], tilts: list[int], raised: int, base: int
) -> None:
    steps: list[Data] = [
        {"place": f"card {n}", "left": left / 2, "top": top / 2, "tilt": tilt}
        for n, ((left, top), tilt) in enumerate(zip(spots, tilts, strict=False))
    ]
    if raised < len(steps):
        steps.append({"raise": f"card {raised}"})
    assert_darker(look_at(*steps, base=base))


def test_a_shadow_falls_to_the_lower_right_on_everything_beneath() -> None:
    # A pale card from a dark page over a pale mat: its shadow must not glow on the page.
    look = look_at(
        {"place": "card 0", "left": 4, "top": 2},
        {"place": "card 5", "left": 2, "top": 3.5, "turn": "clockwise"},
        base=1,
    )
    assert assert_darker(look) > 200
    shapes = list(finished_shapes(look))
    plain = pixels_of(look, without_shadows(shapes)).astype(int)
    shaded = pixels_of(look, shapes).astype(int)
    low = 1 / INCH  # a point beyond an edge, in inches
    for x, y in ((5 + low * 0.5, 4.5), (6, 5 + low * 0.5), (3.0, 7.5 + low * 0.5)):
        assert sum(at(shaded, x, y)) < sum(at(plain, x, y)), (x, y)
    for x, y in ((2 - low, 6), (3, 3.5 - low)):
        assert at(shaded, x, y) == at(plain, x, y), (x, y)


def test_a_shadow_falls_on_what_was_tucked_under_later() -> None:
    # The dark card comes last, but lies beneath the pale one, on a pale page.
    look = look_at(
        {"place": "card 5", "left": 2, "top": 2},
        {"place": "card 1", "left": 4, "top": 3, "tucked": "card 5"},
    )
    assert assert_darker(look) > 200
    x, y = 5.0, 5 + 0.5 / INCH  # just below the pale card, on the dark one
    shapes = list(finished_shapes(look))
    assert sum(at(pixels_of(look, shapes), x, y)) < sum(at(pixels_of(look, without_shadows(shapes)), x, y))


def test_a_shadow_on_a_printed_picture_is_of_its_tone(tmp_path: Path) -> None:
    Image.new("RGB", (64, 64), "#30281c").save(tmp_path / "night.png")
    papers, pieces = cards()
    papers["night"] = {"front": {"image": "night.png"}}
    layouts = [
        {"id": "page", "pocket": 1, "base": "night", "steps": [{"place": "card 0", "left": 1, "top": 1}]}
    ]
    kit = make_kit(sheet(id="night", paper="night"), layouts=layouts, papers=papers, ready=pieces)
    assert assert_darker(look_of(resolved_kit(kit, tmp_path))) > 100


# Finishes.


@pytest.mark.parametrize("outline", ["rectangle", "circle", "tag"])
def test_an_inked_edge_is_dark_just_inside_the_piece_and_nowhere_else(outline: str) -> None:
    papers, pieces = cards("4 x 4", outline=outline)
    steps: list[Data] = [{"place": "card 3", "left": 2, "top": 2}, {"ink": "card 3", "edges": ["top"]}]
    plain, inked = (
        pixels_of(look_at(*some, ready=pieces, papers=papers)).astype(int) for some in (steps[:1], steps)
    )
    changed = np.argwhere((plain != inked).any(axis=2)) / (DOTS * INCH)
    assert len(changed) > 50
    rows, columns = changed[:, 0] - 2, changed[:, 1] - 2
    assert (inked <= plain + 3).all()
    assert rows.min() >= -0.03
    if outline == "circle":
        reach = np.hypot(rows - 2, columns - 2)
        assert reach.max() <= 2.03
        assert reach.min() >= 2 - 1.2 / INCH
        assert rows.max() < 2
    else:
        assert rows.max() <= (1.0 if outline == "tag" else 0.1)


@pytest.mark.parametrize("edge", ["left", "right", "top", "bottom"])
@pytest.mark.parametrize("outline", ["rectangle", "circle"])
def test_only_the_edge_that_is_named_is_inked(edge: str, outline: str) -> None:
    papers, pieces = cards("4 x 4", outline=outline)
    steps: list[Data] = [{"place": "card 3", "left": 2, "top": 2}, {"ink": "card 3", "edges": [edge]}]
    plain, inked = (
        pixels_of(look_at(*some, ready=pieces, papers=papers)).astype(int) for some in (steps[:1], steps)
    )
    rows, columns = np.nonzero((plain != inked).any(axis=2))
    # In inches from the card's middle; on a circle an arc counts as facing one side up to its diagonals.
    across, down = columns / (DOTS * INCH) - 4, rows / (DOTS * INCH) - 4
    towards = {"left": -across, "right": across, "top": -down, "bottom": down}[edge]
    assert len(towards) > 50
    assert towards.min() > (1.2 if outline == "circle" else 1.8)


def test_a_hole_shows_what_lies_beneath_it() -> None:
    look = look_at(
        {"place": "card 2", "left": 5, "top": 1},
        {"place": "card 3", "left": 2, "top": 2},
        {"punch": "card 3", "hole": 1 / 2, "left": 1 / 4, "top": 1 / 4},
        {"place": "card 4", "left": 2, "top": 7},
        {"punch": "card 4", "hole": 1 / 2, "right": 1 / 4, "top": 1 / 4},
    )
    pixels = pixels_of(look)
    assert at(pixels, 2.5, 2.5) == rgb(COLOURS[0])
    assert at(pixels, 5.5, 7.5) == rgb(COLOURS[0])
    assert at(pixels, 4, 3) == rgb(COLOURS[3])


@pytest.mark.parametrize(
    ("turn", "face", "where"),
    [
        (None, "front", (0.5, 0.5)),
        ("clockwise", "front", (2.5, 0.5)),
        ("half", "front", (3.5, 2.5)),
        ("anticlockwise", "front", (0.5, 3.5)),
        (None, "back", (3.5, 0.5)),
        ("clockwise", "back", (2.5, 3.5)),
    ],
)
def test_a_hole_punched_before_the_piece_is_laid_goes_with_it(
    turn: str | None, face: str, where: tuple[float, float]
) -> None:
    papers, _ = cards()
    for paper in papers.values():
        paper["back"] = paper["front"]
    look = look_at(
        {"punch": "card 3", "hole": 1 / 2, "left": 1 / 4, "top": 1 / 4},
        {"place": "card 3", "left": 2, "top": 2, "turn": turn, "face": face},
        papers=papers,
    )
    pixels = pixels_of(look)
    corners = [(0.5, 0.5), (3.5, 0.5), (0.5, 2.5), (3.5, 2.5), (2.5, 0.5), (0.5, 3.5), (2.5, 3.5)]
    item = look.layout.items[0]
    for x, y in corners:
        if x < item.rect.width and y < item.rect.height:
            expected = COLOURS[0] if (x, y) == where else COLOURS[3]
            assert at(pixels, 2 + x, 2 + y) == rgb(expected), (x, y)


def test_a_hole_in_a_snipped_part_is_where_its_distances_say() -> None:
    look = look_at(
        {"snip": "card 3", "at": 2, "leaves": ["one", "two"]},
        {"punch": "one", "hole": "1/2", "left": "1/4", "top": "1/4"},
        {"place": "one", "left": 2, "top": 2},
        {"place": "two", "left": 6, "top": 2},
    )
    pixels = pixels_of(look)
    assert at(pixels, 2.5, 2.5) == rgb(COLOURS[0])
    assert at(pixels, 6.5, 2.5) == rgb(COLOURS[3])


def test_a_hole_goes_over_the_fold_with_the_piece_that_it_was_punched_in() -> None:
    papers, pieces = cards("8 x 3")
    steps: list[Data] = [
        {"punch": "card 3", "hole": "1/2", "right": "1/4", "top": "1/4"},
        {"place": "card 3", "left": 8, "top": 2, "spread": True},
    ]
    pages = [
        {"id": "left", "pocket": 1, "base": "base", "facing": "right", "steps": steps},
        {"id": "right", "pocket": 2, "base": "base", "steps": [{"other_half": "card 3"}]},
    ]
    base = sheet(id="base", paper="paper 0", count=2)
    kit = resolved_kit(make_kit(base, layouts=pages, papers=papers, ready=pieces))
    # Of 8 in from 8 in, 4 in go over: the hole is 1/2 in from their right and top edges.
    pixels = pixels_of(look_of(kit, 1))
    assert at(pixels, 3.5, 2.5) == rgb(COLOURS[0])
    assert at(pixels, 0.5, 2.5) == rgb(COLOURS[3])


RIBBON = {"id": "twill", "kind": "ribbon", "width": "1/2", "length": "100", "colour": "#b03a2e"}


@pytest.mark.parametrize("along", ["top", "left"])
def test_a_line_of_stitches_shows_as_many_even_dashes_as_are_told(along: str) -> None:
    papers, pieces = cards("4 x 4")
    steps: list[Data] = [
        {"place": "card 0", "left": 2, "top": 2},
        {"stitch": ["card 0", "page"], "along": along, "inset": "1/2", "length": "1/2", "spacing": "1/4"},
    ]
    plain, sewn = (
        pixels_of(look_at(*some, ready=pieces, papers=papers)).astype(int) for some in (steps[:1], steps)
    )
    changed = (plain != sewn).any(axis=2)
    # Of 3 in, four stitches of 1/2 and three spaces of 1/4 take 2 3/4: they begin 5/8 in from the edge.
    dots = DOTS * INCH
    line = changed[round(2.5 * dots)] if along == "top" else changed[:, round(2.5 * dots)]
    starts = np.flatnonzero(line[1:] & ~line[:-1]) / dots
    assert starts == pytest.approx([2 + 5 / 8 + 0.75 * n for n in range(4)], abs=0.05)
    assert line.sum() / dots == pytest.approx(4 * 0.5, abs=0.25)


def test_only_a_tied_ribbon_is_drawn_as_a_bow() -> None:
    loop = look_at({"ribbon": "twill", "loop": 1, "left": 3, "top": 3}, supplies=[RIBBON])
    bow = look_at({"ribbon": "twill", "bow": 12, "left": 3, "top": 3}, supplies=[RIBBON])
    (band,), (tied,) = loop.layout.items, bow.layout.items
    assert band.rect.height == 2 * band.rect.width
    assert at(pixels_of(loop), 3.1, 3.5) == rgb("#b03a2e")
    assert [group.tag for group, _ in groups(finished_shapes(loop))].count("shadow") > 0
    assert [group.tag for group, _ in groups(finished_shapes(bow))].count("shadow") == 0
    corner = at(pixels_of(bow), float(tied.rect.x) + 0.02, float(tied.rect.bottom) - 0.02)
    assert corner == rgb(COLOURS[0])


@pytest.mark.parametrize("form", [{"bow": 30}, {"knot": 12, "tails": 5}])
def test_a_tie_hides_what_it_is_drawn_over(form: Data) -> None:
    look = look_at({"ribbon": "twill", **form, "left": 1, "top": 1}, supplies=[RIBBON])
    (bow,) = look.layout.items
    drawn = (pixels_of(look) != pixels_of(look_at())).any(axis=2).sum() / (DOTS * INCH) ** 2
    hidden = 1 - visible_share(replace(bow, form=None), [bow])
    # The line about it, half a point wide, is drawn half outside it.
    assert drawn / float(bow.rect.area) == pytest.approx(float(hidden), abs=0.04)


def test_a_wrap_with_a_knot_shows_the_band_and_the_knot_with_its_tails_on_it() -> None:
    wrapped = {"ribbon": "twill", "wrap": "card 3"}
    card: Data = {"place": "card 3", "left": 2, "top": 2}
    plain = look_at(card, wrapped, supplies=[RIBBON])
    tied = look_at(card, {**wrapped, "knot": 6, "tails": 1}, supplies=[RIBBON])
    band, knot = tied.layout.of_step(2)
    assert band.rect == plain.layout.of_step(2)[0].rect
    differ = (pixels_of(plain).astype(int) != pixels_of(tied)).any(axis=2)
    rows, columns = np.nonzero(differ)
    dots = DOTS * INCH
    # The tails reach to both sides, and below the band.
    assert columns.min() / dots == pytest.approx(float(knot.rect.x), abs=0.15)
    assert columns.max() / dots == pytest.approx(float(knot.rect.right), abs=0.15)
    assert rows.max() / dots == pytest.approx(float(knot.rect.bottom), abs=0.1)


@pytest.mark.parametrize("size", ["1/8 x 1/8", "6 x 1/8", "1/8 x 6", "4 x 3"])
def test_writing_stays_in_its_space_however_small(size: str) -> None:
    look = look_at({"write": size, "left": 2, "top": 2})
    blank = pixels_of(look_at()).astype(int)
    changed = np.argwhere((pixels_of(look).astype(int) != blank).any(axis=2)) / (DOTS * INCH)
    (item,) = look.layout.items
    if len(changed):
        assert changed.min(axis=0).tolist() >= [1.95, 1.95]
        assert changed[:, 0].max() <= float(item.rect.bottom) + 0.05
        assert changed[:, 1].max() <= float(item.rect.right) + 0.05


# For the printer.


def looks_of(name: str) -> Sequence[Look]:
    done = resolve_kit(load_kit(SPECS / f"{name}.yaml"))
    first = look_of(done)
    return [look_of(done, index, papers=first.papers) for index in range(len(done.layouts))]


@pytest.mark.parametrize("name", WHOLE_DEMOS)
def test_nothing_in_a_finished_look_is_transparent(name: str) -> None:
    for look in looks_of(name):
        figure = draw_finished_pages([finished_symbol(look)], 144.0, None, STYLE, "look")
        assert_opaque(figure)


def assert_opaque(figure: Figure) -> None:
    """No constant alpha, soft mask, blend mode or graphics state at all (PDF 32000-1, 11, from memory)."""
    with pikepdf.open(BytesIO(figure_pdf(figure))) as pdf:
        for object_ in pdf.objects:
            if isinstance(object_, pikepdf.Dictionary | pikepdf.Stream):
                keys = set(object_.keys())
                assert not keys & {"/ca", "/CA", "/BM", "/SMask", "/ExtGState"}, keys
                assert object_.get("/S") != "/Transparency"


def test_the_same_layout_gives_the_same_look() -> None:
    (first, *_), (second, *_) = looks_of("hill-line"), looks_of("hill-line")
    one, other = (
        draw_finished_pages([finished_symbol(look)], 144.0, None, STYLE, "look") for look in (first, second)
    )
    assert figure_pdf(one) == figure_pdf(other)


NET = {"id": "net", "kind": "stencil", "size": "6 x 6", "repeat": "1 1/2 x 1/2"}
# What is done to a card of 4 x 3, each at one side of it alone.
WORK: dict[str, Data] = {
    "a rounded corner": {"round": "card 3", "radius": "1", "corners": ["top left"]},
    "a punched corner": {"punch": "card 3", "corners": ["bottom right"]},
    "an inked edge": {"ink": "card 3", "edges": ["left"]},
    "a hole": {"punch": "card 3", "hole": "1/2", "right": "1/4", "top": "1/4"},
    "stitches": {
        "stitch": ["card 3", "page"],
        "along": "top",
        "inset": "1/2",
        "length": "1/2",
        "spacing": "1/4",
        "thread": "twill",
    },
    "a stencil": {"stencil": "net", "on": "card 3", "size": "3 x 1", "left": "1/4", "top": "1/4"},
    "a bow": {"ribbon": "twill", "bow": "6", "on": "card 3", "left": "1/4", "top": "1/4"},
    "a knot": {"ribbon": "twill", "knot": "3", "on": "card 3", "left": "1/4", "top": "1/4"},
}


@pytest.mark.parametrize("work", WORK)
@pytest.mark.parametrize(("turn", "quarters"), [("clockwise", 1), ("half", 2), ("anticlockwise", 3)])
def test_what_is_done_to_a_piece_turns_with_it(work: str, turn: str, quarters: int) -> None:
    steps: list[Data] = [{"place": "card 3", "centred": "both"}, WORK[work]]
    group = {"group": ["card 3"], "centred": "both", "turn": turn}
    before, after = (pixels_of(look_at(*some, supplies=[RIBBON, NET])) for some in (steps, [*steps, group]))
    turned = np.rot90(before, -quarters).astype(int)
    wide, high = (3, 4) if quarters % 2 else (4, 3)
    left, top, dots = 6 - wide / 2, 6 - high / 2, DOTS * INCH
    card = (
        slice(round(top * dots), round((top + high) * dots)),
        slice(round(left * dots), round((left + wide) * dots)),
    )
    differ = np.abs(turned - after)[card].max(axis=2) > 24
    # Light stays where it is: a shadow shows in a corner that is cut off.
    assert differ.sum() < 0.015 * differ.size
