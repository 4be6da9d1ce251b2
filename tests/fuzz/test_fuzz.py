"""Mutants of the demos and of the starter: no traceback, and `make` refuses only what `check` refuses."""

from __future__ import annotations

import sys
from concurrent.futures import ProcessPoolExecutor
from functools import partial
from multiprocessing import get_context

import pytest

from tests.fuzz.campaign import run_campaign

pytestmark = pytest.mark.thorough

# A few for each thorough run; 300 decide with all else whether a change lands (.ci/run), and a campaign of
# 10,000 is run by hand: `python -m tests.fuzz --mutants 10000`.
COUNT = 40
# No test is judged by seconds: this only ends what would never end.
SECONDS = 60


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="limits on memory are those of Linux")
def test_mutants_are_made_or_refused_with_a_line() -> None:
    # In a process of its own: this one holds all that tests before have made, and so would each fork of it.
    with ProcessPoolExecutor(1, get_context("spawn")) as fresh:
        run = partial(run_campaign, COUNT, 1, figures_every=COUNT, make_every=2, seconds=SECONDS)
        found = fresh.submit(run).result()
    assert found.count == COUNT
    assert found.refused > COUNT / 4
    assert found.made > COUNT / 20
    assert found.faulty == 0, "\n".join(found.lines())
