"""The demo kits typed otherwise: no check minds what means the same."""

from __future__ import annotations

from collections import Counter
from functools import cache

import pytest

from booklet.measure.exact import Fraction
from booklet.measure.length import Unit, convert
from booklet.placing.resolved import ResolvedKit
from booklet.proof.findings import kit_findings
from tests.spec_data import DEMOS, demo_data, resolved_data, unit_of
from tests.variations import VARIATIONS, in_millimetres


def counted(resolved: ResolvedKit) -> Counter[str]:
    """How many findings of each kind there are, notes too."""
    return Counter(finding.id for finding in kit_findings(resolved))


@cache
def as_it_is(demo: str) -> Counter[str]:
    return counted(resolved_data(demo_data(demo)))


def test_there_are_twenty_of_them() -> None:
    assert len(VARIATIONS) >= 20


@pytest.mark.parametrize("demo", DEMOS)
@pytest.mark.parametrize("name", VARIATIONS)
def test_nothing_new_is_found(name: str, demo: str) -> None:
    data = VARIATIONS[name](demo_data(demo))
    assert counted(resolved_data(data)) - as_it_is(demo) == Counter()


@pytest.mark.parametrize("name", VARIATIONS)
def test_a_demo_is_typed_otherwise(name: str) -> None:
    said = [(demo_data(demo), VARIATIONS[name](demo_data(demo))) for demo in DEMOS]
    assert any(data != other or list(data) != list(other) for data, other in said)


@pytest.mark.parametrize("demo", DEMOS)
def test_units_are_converted_exactly(demo: str) -> None:
    """Every piece of every page lies where it did, and is as large."""
    data = demo_data(demo)
    factor = convert(Fraction(1), unit_of(data), Unit.MILLIMETRE)
    before, after = resolved_data(data), resolved_data(in_millimetres(data))
    rects = [item.rect for layout in before.layouts for item in layout.items]
    again = [item.rect for layout in after.layouts for item in layout.items]
    assert len(rects) > 50
    for one, other in zip(rects, again, strict=True):
        assert (one.x * factor, one.y * factor) == (other.x, other.y)
        assert (one.width * factor, one.height * factor) == (other.width, other.height)
