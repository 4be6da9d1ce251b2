"""Drawings in layers: what comes off by which cut, where the blade runs, what lies there at which step."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TypeGuard

import pytest

from booklet.content.assembly.printed import printed_numbers
from booklet.content.cutting.passes import passes
from booklet.content.layers import LayerArtist, draw_layout_layers, draw_stage_layers
from booklet.content.other_zero import other_zero
from booklet.content.words.language import ENGLISH
from booklet.cutting.model import CutSheet, Stage
from booklet.drawing.papers.kit_papers import KitPapers
from booklet.drawing.shapes.figure import Figure, Group, Line, Rect, Shape, bounds
from booklet.drawing.shapes.style import DrawingStyle
from booklet.kit.fields import Edge
from booklet.kit.kit import ScaleZero, trimmer_limits
from booklet.placing.resolved import ResolvedKit
from tests.content.specs import DEMOS, demo

# Half a pixel of a screen, in points of the drawing.
CLOSE = 0.4


def artist(resolved: ResolvedKit) -> LayerArtist:
    return LayerArtist(resolved, ENGLISH, KitPapers(resolved.kit, resolved.images), DrawingStyle())


def stages(resolved: ResolvedKit) -> Iterator[tuple[CutSheet, Stage]]:
    for sheet in resolved.sheets:
        for stage in sheet.stages:
            yield sheet, stage


def layers(shapes: tuple[Shape, ...]) -> Iterator[Group]:
    """The groups that bear a name, however deep."""
    for shape in shapes:
        if isinstance(shape, Group):
            if shape.tag:
                yield shape
            yield from layers(shape.children)


def named(figure: Figure, name: str) -> list[Group]:
    return [layer for layer in layers(figure.shapes) if layer.tag.split()[0] == name]


BOTH_ZEROS = pytest.mark.parametrize(
    ("kit", "is_other"),
    [("hill-line", False), ("roof-garden", False), ("hill-line", True), ("roof-garden", True)],
    ids=["in left", "cm left", "in right", "cm right"],
)


def with_zero(kit: str, is_other: bool) -> ResolvedKit:
    """A demo as it is typed, or for a trimmer with its zero at the other side."""
    resolved = other_zero(demo(kit)) if is_other else demo(kit)
    assert resolved is not None
    return resolved


@BOTH_ZEROS
def test_each_strip_leaves_by_the_cut_that_frees_it(kit: str, is_other: bool) -> None:
    resolved = with_zero(kit, is_other)
    for sheet, stage in stages(resolved):
        figure = draw_stage_layers(artist(resolved), sheet, stage, 480, 430)
        expected = [f"strip off after-{one.cut.number}" for one in passes(stage) for _ in one.off] + [
            f"strip stays after-{one.cut.number}" for one in passes(stage) if one.stays is not None
        ]
        # Each has its edge and its print.
        assert sorted(layer.tag for layer in named(figure, "strip")) == sorted(2 * expected)


def is_edge(shape: Shape) -> TypeGuard[Rect]:
    """Whether it is the heavy line about a strip; papers beneath stand out of it."""
    return isinstance(shape, Rect) and shape.stroke is not None and shape.stroke.width > 2


@BOTH_ZEROS
def test_the_blade_runs_at_its_reading_from_the_side_of_the_zero(kit: str, is_other: bool) -> None:
    resolved = with_zero(kit, is_other)
    zero = trimmer_limits(resolved.kit).zero
    for sheet, stage in stages(resolved):
        figure = draw_stage_layers(artist(resolved), sheet, stage, 480, 430)
        (drawn,) = named(figure, "sheet")
        edges = [shape for layer in named(figure, "strip") for shape in layer.children if is_edge(shape)]
        left, right = min(edge.x for edge in edges), max(edge.x + edge.width for edge in edges)
        points = (right - left) / float(stage.seen.width)
        blades = {layer.tag: layer for layer in named(figure, "blade")}
        assert list(blades) == [f"blade at-{cut.number}" for cut in stage.cuts]
        for cut in stage.cuts:
            lines = [one for one in blades[f"blade at-{cut.number}"].children if isinstance(one, Line)]
            line = next(one for one in lines if one.start[0] == one.end[0])
            off = line.start[0] - left if zero is Edge.LEFT else right - line.start[0]
            assert abs(off - float(cut.reading) * points) < CLOSE
        assert bounds(drawn.children)


@pytest.mark.parametrize("kit", DEMOS)
def test_everything_on_a_page_comes_with_its_printed_step(kit: str) -> None:
    resolved = demo(kit)
    for index, layout in enumerate(resolved.layouts):
        numbers = printed_numbers(resolved, index)
        figure = draw_layout_layers(artist(resolved), index, numbers)
        expected = [numbers[item.step_number - 1] for item in layout.items]
        assert [layer.tag for layer in named(figure, "step")] == [f"step at-{number}" for number in expected]
        assert [layer.tag for layer in named(figure, "mark")] == [f"mark at-{number}" for number in expected]


@pytest.mark.parametrize("kit", DEMOS)
def test_a_zero_at_the_other_side_gives_the_same_pieces_by_the_same_readings(
    kit: str,
) -> None:
    resolved = demo(kit)
    other = other_zero(resolved)
    assert other is not None
    assert other.kit.trimmer.zero is ScaleZero.RIGHT
    for (_, one), (_, turned) in zip(stages(resolved), stages(other), strict=True):
        assert [cut.reading for cut in one.cuts] == [cut.reading for cut in turned.cuts]
        assert one.turn is turned.turn
        assert [strip.pieces[0].part for strip in one.strips] == [
            strip.pieces[0].part for strip in turned.strips
        ]
        assert (one.lying.quarters - turned.lying.quarters) % 4 == 2
    back = other_zero(other)
    assert back is not None
    assert [one.lying for _, one in stages(back)] == [one.lying for _, one in stages(resolved)]
