"""What is prepared in a fork while pages are laid out: the same figures as without a second core."""

from __future__ import annotations

import os
import threading
from pathlib import Path

import pytest

from booklet.cli.starter import STARTER_NAME, STARTER_SPEC
from booklet.content import artist
from booklet.drawing.layouts.ring_places import RingPlace, place_rings
from booklet.drawing.layouts.ring_question import RingQuestion
from booklet.drawing.shapes.figure import Figure
from booklet.kit.load import parse_kit
from booklet.pages.booklet import figures_of, make_booklet
from booklet.placing.resolved import resolve_kit

pytestmark = pytest.mark.usefixtures("made_afresh")


def figures() -> tuple[Figure, ...]:
    return figures_of(make_booklet(resolve_kit(parse_kit(STARTER_SPEC, STARTER_NAME, Path()))))


@pytest.mark.skipif(not hasattr(os, "fork"), reason="this system cannot copy a process")
def test_numbers_stand_where_they_stand_without_a_second_core(monkeypatch: pytest.MonkeyPatch) -> None:
    placed_here: list[RingQuestion] = []

    def place(question: RingQuestion) -> tuple[RingPlace, ...]:
        placed_here.append(question)
        return place_rings(question)

    monkeypatch.setattr(artist, "place_rings", place)
    monkeypatch.setattr(threading, "active_count", lambda: 1)  # the test runner may have threads of its own

    monkeypatch.setattr(os, "cpu_count", lambda: 1)
    alone = figures()
    assert placed_here

    placed_here.clear()
    monkeypatch.setattr(os, "cpu_count", lambda: 2)
    assert figures() == alone
    assert not placed_here  # they came from the fork
