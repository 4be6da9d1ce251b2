"""Whatever a spec asks for that loads, a booklet comes of it, or a word about why none can."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import yaml
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from booklet.kit.errors import BookletError
from booklet.kit.load import parse_kit
from booklet.pages.booklet import make_booklet
from booklet.placing.resolved import resolve_kit

BASES = st.sampled_from(
    [(12, 12), (18, 4), (4, 18), (24, 24), (1, 1), (8, 8), (40, 40), (100, 100), (100, 1)]
)
MARKS = st.sampled_from(["1/64 in", "1/8 in", "1/7 in", "0.1 mm", "1 mm", "5 cm"])
# A short word, one without a place to break, and as many words as a spec may hold.
WORDS = st.sampled_from(["Ebb", "W" * 55, "Where the tide leaves a line of shells. ", "shingle " * 240])
NAMES = st.sampled_from(["strip", "W" * 50, "a strip of the widest shingle"])


@st.composite
def specs(draw: st.DrawFn) -> dict[str, Any]:
    """A small kit: a base left whole, a sheet cut in strips, and steps that lay them down."""
    wide, high = draw(BASES)
    size, name, count = f"{wide} x {high} in", draw(NAMES), draw(st.integers(1, 12))
    pieces = [f"{name} {number}" for number in range(count)]
    at = [f"{wide * part}/{count + 1} in" for part in range(count, 0, -1)]
    steps: list[dict[str, Any]] = [
        {"place": piece, "left": f"{number}/{count} in", "top": 0, "say": draw(WORDS)}
        for number, piece in enumerate(pieces)
    ]
    steps += draw(
        st.lists(
            st.sampled_from([{"do": "Press it flat."}, {"photo": "4 x 6 in"}, {"photo": "fits"}]), max_size=3
        )
    )
    return {
        "title": draw(WORDS),
        "publisher": "Harbour Paper",
        "welcome": draw(WORDS),
        "unit": draw(st.sampled_from(["in", "mm", "cm"])),
        "page": draw(st.sampled_from(["half letter", "a5"])),
        "sheet": size,
        "trimmer": {"mark": draw(MARKS)},
        "papers": {"plain": {"title": draw(WORDS), "front": {"pattern": "waves"}}},
        "sheets": [
            {"id": "base", "paper": "plain"},
            {"id": "strips", "paper": "plain", "cuts": [{"at": at, "leaves": [*pieces, "scrap"]}]},
        ],
        "layouts": [{"id": "ebb", "pocket": 1, "base": "base", "story": draw(WORDS), "steps": steps}],
    }


def booklet_or_refusal(text: str) -> str:
    """The beginning of the PDF, or the words that say why there is none."""
    try:
        resolved = resolve_kit(parse_kit(text, "kit.yaml", Path()))
        return make_booklet(resolved).pdf()[:8].decode()
    except BookletError as refused:
        return str(refused)


@settings(max_examples=30, suppress_health_check=[HealthCheck.too_slow])
@given(specs())
def test_a_kit_that_loads_becomes_a_pdf_or_is_refused_in_words(spec: dict[str, Any]) -> None:
    said = booklet_or_refusal(yaml.safe_dump(spec, allow_unicode=True))
    assert said.startswith("%PDF-") or "expected" in said or "shorten" in said
