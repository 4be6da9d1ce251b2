"""Whatever a spec asks for, a document comes of it: a draft is printed of a kit that has errors, too."""

from __future__ import annotations

from typing import Any

from hypothesis import HealthCheck, given, settings

from booklet.content.document import document
from booklet.content.spans import Length, plain_text
from booklet.content.words.language import ENGLISH
from booklet.kit.kit import Kit
from booklet.measure.exact import Fraction
from tests.content.walking import all_of, lines_of
from tests.drawing.looks import resolved_kit
from tests.placing.test_never_raises import STEPS, kit_if_valid
from tests.sorting.test_hostile import kits


def assert_a_document_comes_of(kit: Kit) -> None:
    one = document(resolved_kit(kit), ENGLISH)
    assert all(section.anchor and plain_text(section.title) for section in (*one.sections, *one.fillers))
    assert lines_of(one)
    assert all(isinstance(length.value, Fraction) for length in all_of(Length, one))


@settings(max_examples=60, suppress_health_check=[HealthCheck.too_slow])
@given(kits())
def test_of_any_sheets_comes_a_document(kit: Kit) -> None:
    assert_a_document_comes_of(kit)


@settings(max_examples=200, suppress_health_check=[HealthCheck.too_slow])
@given(STEPS, STEPS)
def test_of_any_steps_comes_a_document(left: list[dict[str, Any]], right: list[dict[str, Any]]) -> None:
    kit = kit_if_valid(left, right)
    if kit is not None:
        assert_a_document_comes_of(kit)
