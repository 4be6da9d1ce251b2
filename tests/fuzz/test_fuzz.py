"""Mutants of the demos and of the starter: no traceback, and `make` refuses only what `check` refuses."""

from __future__ import annotations

import sys

import pytest

from tests.fuzz.campaign import run_campaign

# 300 in all, half of them made if nothing is wrong; a campaign of 10,000 is run by hand:
# `python -m tests.fuzz --mutants 10000`.
SEEDS = (1, 2, 3)
EACH = 100


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="limits on memory are those of Linux")
@pytest.mark.parametrize("seed", SEEDS)
def test_mutants_are_made_or_refused_with_a_line(seed: int) -> None:
    found = run_campaign(EACH, seed, figures_every=EACH, make_every=2)
    assert found.count == EACH
    assert found.refused > EACH / 4
    assert found.made > EACH / 20
    assert found.faulty == 0, "\n".join(found.lines())
