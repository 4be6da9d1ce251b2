"""Whatever steps a spec holds, placing answers with findings, and with nothing that points nowhere."""

from __future__ import annotations

from typing import Any

from hypothesis import given, settings
from hypothesis import strategies as st
from pydantic_core import ValidationError

from booklet.kit.kit import Kit
from booklet.placing.photos import photo_slots
from booklet.placing.place_layouts import place_layouts
from booklet.placing.supplies import balance_supplies, check_supplies
from booklet.placing.visible import visible_parts
from tests.placing.layouts import PIECES, SUPPLIES, kit_of, pieces

NAMES = st.sampled_from([*PIECES, "page", "photo", "end", "nothing like it", "block"])
LENGTHS = st.sampled_from(["0", "1/4", "1", "2 1/2", "6", "13", "-1"])
SUPPLY = st.sampled_from([*(supply["id"] for supply in SUPPLIES), "no such thing"])
SIZES = st.sampled_from(["4 x 6", "2 x 2", "13 x 1", "fits"])
EDGES = st.lists(st.sampled_from(["top", "left", "right", "bottom"]), max_size=2)
ENTRY = st.one_of(NAMES, st.fixed_dictionaries({"photo": st.just("3 x 4")}))

POSITION: dict[str, st.SearchStrategy[Any]] = {
    "on": NAMES,
    "under": NAMES,
    "beside": NAMES,
    "side": st.sampled_from(["left", "right"]),
    "above": NAMES,
    "below": NAMES,
    "gap": LENGTHS,
    "left": LENGTHS,
    "right": LENGTHS,
    "top": LENGTHS,
    "bottom": LENGTHS,
    "flush": EDGES,
    "centred": st.sampled_from(["yes", "across", "down"]),
    "border": LENGTHS,
    "tucked": NAMES,
    "turn": st.sampled_from(["clockwise", "half"]),
    "tilt": st.sampled_from(["0", "10", "-45"]),
    "loose": st.sampled_from(["yes", "no"]),
    "spread": st.sampled_from(["yes", "no"]),
    "called": NAMES,
}
VERBS: dict[str, dict[str, st.SearchStrategy[Any]]] = {
    "place": {"place": NAMES},
    "row": {"row": st.lists(ENTRY, min_size=1, max_size=3), "apart": LENGTHS},
    "column": {"column": st.lists(ENTRY, min_size=1, max_size=3)},
    "group": {"group": st.lists(NAMES, min_size=1, max_size=2)},
    "photo": {"photo": SIZES},
    "write": {"write": st.just("2 x 1")},
    "stencil": {"stencil": SUPPLY},
    "ribbon": {"ribbon": SUPPLY, "run": st.sampled_from(["across", "down"])},
    "wrap": {"ribbon": SUPPLY, "wrap": NAMES},
    "tied": {"ribbon": SUPPLY, "wrap": NAMES, "knot": LENGTHS, "tied_at": LENGTHS},
    "knot": {"ribbon": SUPPLY, "knot": LENGTHS, "tails": LENGTHS},
    "strip": {"place": NAMES, "run": st.sampled_from(["across", "down"])},
    "tape": {"tape": SUPPLY, "along": NAMES},
    "add": {"add": SUPPLY, "count": st.integers(1, 3)},
    "punch": {"punch": NAMES, "hole": LENGTHS},
}
WORK: list[st.SearchStrategy[dict[str, Any]]] = [
    st.fixed_dictionaries({"snip": NAMES, "at": LENGTHS, "leaves": st.just(["end", "scrap"])}),
    st.fixed_dictionaries({"trim_round": NAMES, "size": st.just("1 x 1")}),
    st.fixed_dictionaries({"round": NAMES, "radius": LENGTHS}),
    st.fixed_dictionaries({"ink": NAMES}),
    st.fixed_dictionaries({"raise": NAMES, "foam": SUPPLY, "halves": st.integers(0, 3)}),
    st.fixed_dictionaries({"do": st.just("press"), "on": st.lists(NAMES, min_size=1, max_size=3)}),
    st.fixed_dictionaries({"other_half": NAMES}),
    st.fixed_dictionaries(
        {
            "stitch": st.lists(NAMES, min_size=2, max_size=2),
            "along": st.sampled_from(["top", "right", "bottom", "left"]),
            "inset": st.just("1/4"),
            "length": st.just("1/4"),
            "spacing": st.just("1/8"),
            "thread": SUPPLY,
        }
    ),
]


@st.composite
def positioned(draw: st.DrawFn) -> dict[str, Any]:
    """A step of some verb with a handful of words about its position, sensible or not."""
    step = {key: draw(value) for key, value in VERBS[draw(st.sampled_from(list(VERBS)))].items()}
    words = draw(st.lists(st.sampled_from(list(POSITION)), max_size=5, unique=True))
    return {**{word: draw(POSITION[word]) for word in words}, **step}


STEPS = st.lists(st.one_of(positioned(), *WORK), max_size=8)


def kit_if_valid(left: list[dict[str, Any]], right: list[dict[str, Any]]) -> Kit | None:
    try:
        return kit_of({"steps": left, "facing": "page-2"}, {"steps": right, "base": "other base"})
    except ValidationError:
        return None


@settings(max_examples=150, deadline=None)
@given(STEPS, STEPS)
def test_every_kit_gets_an_answer(left: list[dict[str, Any]], right: list[dict[str, Any]]) -> None:
    kit = kit_if_valid(left, right)
    if kit is None:
        return
    layouts = place_layouts(kit, pieces())
    for layout in layouts:
        on_page = {layout.base.id, *(item.id for item in layout.items)}
        assert [item.layer for item in layout.items] == list(range(1, len(layout.items) + 1))
        assert all(set(detail.ids) <= on_page for step in layout.steps for detail in step.details)
        visible = visible_parts(layout.items)
        assert [seen.id for seen in visible] == [item.id for item in layout.items]
        assert all(0 <= seen.share <= 1 for seen in visible)
        assert len(set(layout.findings)) == len(layout.findings)
    again = place_layouts(kit, pieces())
    assert layouts == again
    assert [layout.findings for layout in layouts] == [layout.findings for layout in again]
    balance_supplies(kit, layouts)
    list(check_supplies(kit, layouts))
    assert [photo_slots(layout, kit.unit) for layout in layouts]
