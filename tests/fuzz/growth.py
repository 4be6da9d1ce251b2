"""Changes that leave a spec sound, and take it to its limits: more pages, cuts, words and things than usual.

What only breaks a spec is refused as soon as it is read; these go on to the pages.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from hypothesis import strategies as st

from tests.fuzz.structure import paths, value_at, with_value
from tests.fuzz.values import long_texts

_PAGES = ("half letter", "a5", "letter", "a4", "square 6 in", "square 15 cm")
_SIZES = ("12 x 12 in", "8 1/2 x 11 in", "100 x 300 mm", "30 x 20 cm", "6 x 12 in", "1 x 12 in", "60 x 60 in")
_PATTERNS = (
    "solid", "stripes", "dots", "checks", "grid", "waves", "leaves", "stars", "scallops", "confetti",
)  # fmt: skip
_REPEATS = ("1/16 in", "1/4 in", "1 in", "12 in", "99 in")
# How long the words for each key may be.
_WORDS = {
    "title": 100, "publisher": 100, "month": 100, "welcome": 2000, "story": 2000, "tip": 2000, "say": 2000,
    "words": 60,
}  # fmt: skip
_STEPS: tuple[dict[str, Any], ...] = (
    {"write": "2 x 1 in", "left": "1 in", "top": "1 in"},
    {"photo": "4 x 6 in", "left": "2 in", "top": "2 in"},
    {"photo": "2 x 2 in", "centred": "yes", "tilt": "7.5"},
    {"do": "Press it flat."},
    {"row": [{"write": "1 x 1 in"}, {"photo": "1 x 1 in"}], "count": "3", "apart": "0.25 in", "left": "0",
     "top": "0"},
)  # fmt: skip


@st.composite
def grown_tree(draw: st.DrawFn, tree: Any) -> tuple[str, Any]:
    """A copy of a spec that has grown, and how."""
    kind = draw(st.sampled_from((_page, _sheet_size, _layouts, _words, _words, _cuts, _papers, _cautions)))
    return kind.__name__[1:], kind(draw, tree)


Grow = Callable[[st.DrawFn, Any], Any]


def _page(draw: st.DrawFn, tree: Any) -> Any:
    return {**tree, "page": draw(st.sampled_from(_PAGES))}


def _sheet_size(draw: st.DrawFn, tree: Any) -> Any:
    return {**tree, "sheet": draw(st.sampled_from(_SIZES))}


def _layouts(draw: st.DrawFn, tree: Any) -> Any:
    """Layouts on whole sheets, each with a few steps or with many."""
    paper = draw(st.sampled_from(sorted(tree["papers"])))
    count, many = draw(st.sampled_from((1, 2, 7, 30))), draw(st.sampled_from((1, 1, 6, 40, 190)))
    steps = draw(st.lists(st.sampled_from(_STEPS), min_size=1, max_size=3))
    steps = (steps * many)[: 190 // 6]
    more = [
        {"id": f"more {at}", "pocket": str(50 + at), "base": {"paper": paper}, "steps": steps}
        for at in range(count)
    ]
    return {**tree, "layouts": [*tree["layouts"], *more]}


def _words(draw: st.DrawFn, tree: Any) -> Any:
    """A text as long as it may be, where there is one or may be one."""
    holders = [()] + [
        path for path in paths(tree) if _may_bear_words(path) and isinstance(value_at(tree, path), dict)
    ]
    path = draw(st.sampled_from(holders))
    keys = ("title", "publisher", "month", "welcome") if not path else ("tip", "title")
    key = draw(st.sampled_from(keys))
    length = _WORDS[key] if not path or key == "tip" else 200
    text = draw(long_texts())[: draw(st.sampled_from((length, length // 2, 1)))].strip() or "x"
    return with_value(tree, path, lambda holder: {**holder, key: text})


def _may_bear_words(path: tuple[Any, ...]) -> bool:
    return len(path) == 2 and path[0] in ("sheets", "layouts", "supplies")


def _cuts(draw: st.DrawFn, tree: Any) -> Any:
    """A sheet that is cut in many strips, all of them left over."""
    count = draw(st.sampled_from((1, 5, 20, 59)))
    paper = draw(st.sampled_from(sorted(tree["papers"])))
    readings = [f"{at / 8:g} in" for at in range(8 + count, 8, -1)]
    strips = {
        "id": "strips", "paper": paper, "size": "12 x 12 in", "spare": ["strip"],
        "cuts": [{"at": readings, "leaves": ["strip"] * (count + 1)}],
    }  # fmt: skip
    return {**tree, "sheets": [*tree["sheets"], strips]}


def _papers(draw: st.DrawFn, tree: Any) -> Any:
    """Every paper in another pattern, as fine or as coarse as may be."""
    face = {
        "pattern": draw(st.sampled_from(_PATTERNS)),
        "colours": ["#204060", "#f0e0d0"],
        "repeat": draw(st.sampled_from(_REPEATS)),
    }
    papers = {name: {**paper, "front": face} for name, paper in tree["papers"].items()}
    return {**tree, "papers": papers}


def _cautions(draw: st.DrawFn, tree: Any) -> Any:
    text = draw(long_texts())[:2000].strip() or "x"
    count = draw(st.sampled_from((1, 3, 12)))
    return {**tree, "cautions": [text] * count, "bring": [text[:200]] * count}
