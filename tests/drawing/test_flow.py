"""The picture of a whole kit: every piece a strand from its sheet, or the box, through a pocket to a page."""

from __future__ import annotations

from collections import Counter
from itertools import combinations, pairwise
from pathlib import Path
from xml.etree import ElementTree

import pytest

from booklet.content.artist import Artist, Room, draw
from booklet.content.figures import KitFlow
from booklet.content.overview import overview
from booklet.content.spans import plain_text
from booklet.content.words.language import ENGLISH
from booklet.drawing.overview.flow_figure import node_tag, strand_tags
from booklet.drawing.overview.print_strand import print_strand
from booklet.drawing.overview.strands import Flow, Node, flow_of
from booklet.drawing.papers.kit_papers import KitPapers
from booklet.drawing.papers.patterns import pattern_colours
from booklet.drawing.shapes.affine import Affine
from booklet.drawing.shapes.figure import Figure, Group, Text, Use, bounds
from booklet.drawing.shapes.figure import Path as Course
from booklet.drawing.writers.svg_writer import figure_svgs
from booklet.kit.load import load_kit
from booklet.kit.paper import Pattern, Print
from booklet.placing.resolved import ResolvedKit, resolve_kit
from tests.drawing.looks import resolved_kit
from tests.drawing.styles import STYLE
from tests.drawing.walking import groups, walk
from tests.kits import cut, layout, make_kit, sheet

SPECS = Path(__file__).parents[2] / "kit_specs"
WIDTH = 720.0


@pytest.fixture(scope="module", params=["hill-line", "roof-garden"])
def demo(request: pytest.FixtureRequest) -> ResolvedKit:
    return resolve_kit(load_kit(SPECS / f"{request.param}.yaml"))


def drawn(resolved: ResolvedKit) -> Figure:
    artist = Artist(resolved, ENGLISH, KitPapers(resolved.kit, resolved.images), STYLE)
    return draw(artist, KitFlow(), Room(WIDTH))


def small_kit(pocket: str = "1") -> ResolvedKit:
    """Two panels of one sheet, of which one is spare, on a base that stays whole."""
    return resolved_kit(
        make_kit(
            sheet(cut([8], ["panel", "rest"]), spare=["rest"]),
            sheet(id="whole", paper="shingle"),
            layouts=[layout("whole", "panel", pocket=pocket)],
        )
    )


def strands(figure: Figure) -> dict[int, tuple[Group, Affine]]:
    """The strands of a figure by the number of their piece."""
    tagged = [(group.tag.split(), group, under) for group, under in groups(figure.shapes)]
    return {
        int(tags[1].removeprefix("piece-")): (group, under)
        for tags, group, under in tagged
        if tags[:1] == ["strand"]
    }


def ends(group: Group) -> tuple[tuple[float, float], tuple[float, float]]:
    """Where a strand begins and ends."""
    course = group.children[0]
    assert isinstance(course, Course)
    first, last = course.segments[0], course.segments[-1]
    return (first[1], first[2]), (last[-2], last[-1])  # type: ignore[misc, return-value]


def columns(flow: Flow) -> tuple[tuple[Node, ...], ...]:
    return flow.sources, flow.pockets, flow.layouts


# What runs where.


def test_every_piece_runs_once_through_each_column(demo: ResolvedKit) -> None:
    flow = flow_of(demo)
    entries = demo.ledger.entries
    used = [number for number, entry in enumerate(entries) if entry.use is not None]
    for column, numbers in zip(columns(flow), [range(len(entries)), range(len(entries)), used], strict=True):
        assert sorted(s.number for node in column for s in node.strands) == list(numbers)


def test_nodes_hold_what_the_ledger_files_there(demo: ResolvedKit) -> None:
    flow, entries = flow_of(demo), demo.ledger.entries
    filed = Counter(entry.pocket for entry in entries if entry.pocket is not None)
    assert {node.key: len(node.strands) for node in flow.pockets if node.key is not None} == filed
    used = Counter(entry.use.layout_index for entry in entries if entry.use is not None)
    assert {node.key: len(node.strands) for node in flow.layouts} == used
    assert {node.key: len(node.strands) for node in flow.sources} == Counter(e.source for e in entries)


def test_each_node_stands_once(demo: ResolvedKit) -> None:
    for column in columns(flow_of(demo)):
        keys = [node.key for node in column if node.key is not None]
        assert len(keys) == len(set(keys))


def test_strands_cross_no_others_of_their_source_that_go_the_same_way(demo: ResolvedKit) -> None:
    flow = flow_of(demo)
    middle = {s.number: at for at, s in enumerate(s for node in flow.pockets for s in node.strands)}
    for node in flow.sources:
        assert [middle[s.number] for s in node.strands] == sorted(middle[s.number] for s in node.strands)


def test_what_is_spare_ends_in_the_middle_and_a_whole_base_passes_its_pocket() -> None:
    flow = flow_of(small_kit())
    names = [[strand.entry.name for strand in node.strands] for node in flow.pockets]
    assert [node.key for node in flow.pockets] == [None, "1", None]
    assert names == [["whole"], ["panel"], ["rest"]]
    assert [s.entry.name for node in flow.layouts for s in node.strands] == ["whole", "panel"]


# The picture.


def test_a_strand_leaves_its_sheet_and_arrives_at_its_page(demo: ResolvedKit) -> None:
    figure, flow = drawn(demo), flow_of(demo)
    found = strands(figure)
    assert sorted(found) == [strand.number for strand in flow.strands]
    nodes = {
        group.tag.split()[1]: bounds([group])
        for group, _ in groups(figure.shapes)
        if group.tag.startswith("node ")
    }
    for strand in flow.strands:
        group, _ = found[strand.number]
        assert group.tag == strand_tags(strand)
        (x, _), (to_x, _) = ends(group)
        source = nodes[node_tag("source", strand.source)]
        assert x >= source.right
        if strand.layout is not None:
            page = nodes[node_tag("layout", strand.layout)]
            assert to_x <= page.left
        if strand.pocket is not None:
            pocket = nodes[node_tag("pocket", strand.pocket)]
            assert pocket.left > x
            assert pocket.right < to_x


def test_strands_lie_side_by_side_where_they_begin_and_end(demo: ResolvedKit) -> None:
    found = [ends(group) for group, _ in strands(drawn(demo)).values()]
    for at in (0, 1):
        rows = sorted((each[at][0], each[at][1]) for each in found)
        apart = [below[1] - above[1] for above, below in pairwise(rows) if above[0] == below[0]]
        assert min(apart) > 4.0  # a strand is 3.2 thick, its edges 0.35


def test_words_stand_clear_and_within_the_picture(demo: ResolvedKit) -> None:
    figure = drawn(demo)
    nodes = [group for group, _ in groups(figure.shapes) if group.tag.startswith("node ")]
    texts = [shape.box for node in nodes for shape in node.children if isinstance(shape, Text)]
    pictures = [bounds([shape]) for node in nodes for shape in node.children if isinstance(shape, Use)]
    assert len(texts) >= 2 * len(demo.kit.sheets) + 2 * len(demo.kit.layouts)
    for box in texts:
        assert box.left >= 0.0
        assert box.top >= 0.0
        assert box.right <= figure.width
        assert box.bottom <= figure.height
        assert not any(box.overlaps(picture) for picture in pictures)
    for one, other in combinations(texts, 2):
        assert not one.grown(-1.0).overlaps(other.grown(-1.0))  # a line of print has white above and below


def test_all_sheets_and_layouts_are_numbered_as_their_pages_are(demo: ResolvedKit) -> None:
    texts = [leaf.text for leaf, _ in walk(drawn(demo).shapes) if isinstance(leaf, Text)]
    for numbered in (demo.sheets, demo.layouts):
        assert {str(number) for number in range(1, len(numbered) + 1)} <= set(texts)


def test_a_pocket_of_any_name_has_a_tag_of_one_word() -> None:
    for name in ("1", "A.3+", "Über 2", "top_left"):
        tag = node_tag("pocket", name)
        assert len(tag.split()) == 1
        assert all(sign.isalnum() or sign in "-_" for sign in tag)
    assert node_tag("pocket", "A.3") != node_tag("pocket", "A+3")
    tags = [group.tag.split() for group, _ in groups(drawn(small_kit("A.3+")).shapes)]
    assert sum(node_tag("pocket", "A.3+") in each for each in tags) == 2  # the pocket and what lies in it


@pytest.mark.parametrize("pattern", Pattern)
def test_every_pattern_has_its_strand(pattern: Pattern) -> None:
    colours = pattern_colours(Print(pattern=pattern, colours=("#dfe9ec", "#5d8794")))
    course: tuple[tuple[str, float, float], ...] = (("M", 0.0, 5.0), ("L", 50.0, 5.0))
    shapes = list(print_strand(course, 4.0, pattern, colours))
    box = bounds(shapes)
    assert box.top >= 5.0 - 2.4  # no thread lies outside the strand with its edges
    assert box.bottom <= 5.0 + 2.4
    assert (len(shapes) > 2) == (pattern is not Pattern.SOLID)


def test_the_picture_is_told_piece_by_piece(demo: ResolvedKit) -> None:
    told = [plain_text(line) for line in overview(demo, ENGLISH).pieces]
    assert len(told) == len(demo.ledger.entries)
    for entry, said in zip(demo.ledger.entries, told, strict=True):
        assert entry.name in said
        assert entry.label in said
        assert (", spare" in said) == (entry.use is None)


def test_it_is_an_svg_whose_groups_can_be_found() -> None:
    root = ElementTree.fromstring(figure_svgs([drawn(small_kit())])[0])
    classes = [each.get("class", "") for each in root.iter("{http://www.w3.org/2000/svg}g")]
    assert sum("strand" in name.split() for name in classes) == 3
    assert {"node pocket-1", "node unused"} <= set(classes)


def test_whatever_can_be_followed_is_a_node_of_the_picture(demo: ResolvedKit) -> None:
    told = overview(demo, ENGLISH)
    tags = {group.tag for group, _ in groups(drawn(demo).shapes)}
    followed = [each for column in (told.sources, told.pockets, told.layouts) for each in column]
    assert all(f"node {each.tag}" in tags for each in followed)
    assert len(told.layouts) == len(demo.layouts)
    assert plain_text(told.sources[0].name).startswith("1 ")
