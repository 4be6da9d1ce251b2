"""Kits of papers for the black edition."""

from __future__ import annotations

from pathlib import Path
from typing import Any

from booklet.kit.kit import Kit
from tests.kits import make_kit, sheet

SPECS = Path(__file__).parents[2] / "kit_specs"


def kit_of_papers(fronts: dict[str, dict[str, Any]]) -> Kit:
    """A kit with a whole sheet of each paper, told by what its front is printed with."""
    papers = {name: {"front": front} for name, front in fronts.items()}
    whole = [sheet(id=f"sheet of {name}", paper=name) for name in fronts]
    return make_kit(*whole, papers=papers)
