"""A planner that soon gives up, so that what it says then can be seen."""

from __future__ import annotations

from fractions import Fraction

import pytest

import booklet.cutting.planner.kit_plan as kit_plan
from booklet.cutting.planner import Settings
from booklet.kit.kit import Kit


def tire(monkeypatch: pytest.MonkeyPatch, effort: int) -> None:
    """Let every sheet be planned with this effort."""

    def tired(kit: Kit, copies: int = 1) -> Settings:
        return Settings(Fraction(1, 8), Fraction(1), Fraction(15), copies, kit.unit, effort)

    monkeypatch.setattr(kit_plan, "trimmer_settings", tired)
