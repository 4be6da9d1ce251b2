"""A booklet that is too thick to be folded is told of before it is printed."""

from __future__ import annotations

import pytest

from booklet.kit.finding import Severity
from booklet.placing.resolved import ResolvedKit
from booklet.proof.thickness import check_thickness, least_pages
from tests.content.specs import DEMOS, demo
from tests.drawing.looks import resolved_kit
from tests.kits import cut, layout, make_kit, sheet
from tests.once import laid_once


def kit_of(cuts: int, layouts: int) -> ResolvedKit:
    """A kit of so many sheets that are cut, and so many layouts."""
    sheets = [sheet(cut([6], ["left", "right"]), id=f"sheet {at}") for at in range(cuts)]
    pages = [layout(f"base {at}", id=f"page {at}", pocket=1) for at in range(layouts)]
    return resolved_kit(make_kit(*sheets, layouts=pages))


@pytest.mark.parametrize(("cuts", "layouts", "sheets"), [(30, 31, None), (30, 32, 17), (20, 60, 21)])
def test_more_sheets_than_can_be_folded_as_one(cuts: int, layouts: int, sheets: int | None) -> None:
    found = list(check_thickness(kit_of(cuts, layouts)))
    assert len(found) == (sheets is not None)
    for finding in found:
        assert (finding.id, finding.severity, finding.where) == (
            "booklet-thick",
            Severity.WARNING,
            ("layouts",),
        )
        assert f"at least {sheets} sheets" in finding.found
        assert "--sheets-in-signature" in finding.cure
        assert "--flat" in finding.cure


@pytest.mark.parametrize("name", DEMOS)
def test_no_booklet_has_fewer_pages_than_are_counted_on(name: str) -> None:
    resolved = demo(name)
    assert 0 < least_pages(resolved) <= len(laid_once(resolved).pages)
