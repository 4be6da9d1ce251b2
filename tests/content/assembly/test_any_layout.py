"""Whatever a layout holds: every word of the designer's once, every measure that a hand needs, every unit."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from booklet.content.assembly.printed import printed_numbers, printed_steps
from booklet.content.assembly.section import layout_sections
from booklet.content.blocks import LayoutView, Section, StepList
from booklet.content.figures import NumberedLayout
from booklet.content.spans import Length, Own, PieceRef, StepRef, Words
from booklet.content.words.language import ENGLISH
from booklet.kit.bundled import bundled_kits
from booklet.kit.finding import Severity, SpecPath
from booklet.kit.load import load_kit
from booklet.measure.exact import Fraction
from booklet.placing.axis import Constraint, ConstraintKind
from booklet.placing.details import CutAtGutter, EvenGap, Held, Stencilled
from booklet.placing.model import ItemKind, PlacedLayout
from booklet.placing.resolved import ResolvedKit, resolve_kit
from tests.content.assembly.telling import block, lines_of, resolved, spans_of, typed
from tests.kits import used_by
from tests.placing.layouts import kit_of, steps_of
from tests.placing.test_designer_says import SAYINGS
from tests.placing.test_never_raises import STEPS, kit_if_valid

_NOISE = re.compile(r"None|Fraction|\d\.\d{3}|  | ,|\.\.|,\.|: :|:\.|\(\)|\bof of\b|\bin in\b|[{}_]")
# Small and soft things are put in the middle by eye.
_BY_EYE = {ItemKind.ADDED, ItemKind.RIBBON, ItemKind.TAPE}


@pytest.fixture(scope="module", params=["hill-line", "roof-garden"])
def demo(request: pytest.FixtureRequest) -> ResolvedKit:
    return resolve_kit(load_kit(bundled_kits()[request.param]))


def own_words(done: ResolvedKit) -> Counter[SpecPath]:
    """Every place where the designer's own words stand: stories, tips, what steps say."""
    found: Counter[SpecPath] = Counter()
    for index, layout in enumerate(done.kit.layouts):
        path: SpecPath = ("layouts", index)
        found.update((*path, key) for key in ("story", "tip") if getattr(layout, key))
        for number, step in enumerate(layout.steps):
            found.update((*path, "steps", number, key) for key in ("say", "tip") if getattr(step, key))
    return found


def told_words(sections: tuple[Section, ...]) -> Counter[SpecPath]:
    sources = (span.source for span in spans_of(sections) if isinstance(span, Own))
    return Counter(source for source in sources if source[-1] in {"story", "tip", "say"})


def needed(layout: PlacedLayout) -> Iterator[Fraction]:
    """The lengths for which a hand takes a ruler: what is cut by the fold or set by eye is none."""
    for step in layout.steps:
        across = not any(isinstance(one, CutAtGutter) for one in step.details)
        for one in step.details:
            if isinstance(one, EvenGap):
                yield from (abs(one.gap), one.middle or Fraction(0))
            elif isinstance(one, Stencilled):
                yield one.ruled or Fraction(0)
            elif isinstance(one, Held) and not any(isinstance(other, Stencilled) for other in step.details):
                for constraint in (*(one.across if across else ()), *one.down):
                    yield from _stated(layout, one, constraint)


def _stated(layout: PlacedLayout, held: Held, constraint: Constraint) -> Iterator[Fraction]:
    """What a ruler shows of a constraint: a distance or a gap, or what is left at both sides of a middle."""
    if constraint.kind is not ConstraintKind.CENTRED:
        yield abs(constraint.at - constraint.start)
    elif held.items and layout.item(held.items[0]).kind not in _BY_EYE:
        span = held.rect.across if constraint in held.across else held.rect.down
        yield max(span.low - constraint.start, Fraction(0))


def lengths_told(one: Section) -> set[Fraction]:
    return {span.value for said in lines_of(one) for span in said if isinstance(span, Length)}


def check(done: ResolvedKit) -> None:
    """What must hold of the layouts' sections of any kit."""
    sections = layout_sections(done, ENGLISH)
    assert told_words(sections) == own_words(done)
    for layout in done.layouts:
        one = next(found for found in sections if found.anchor == f"layout-{layout.id}")
        steps = block(one, StepList).steps
        numbers = printed_numbers(done, layout.index)
        assert [item.number for item in steps] == list(range(1, len(steps) + 1))
        assert set(numbers) == {printed.number for printed in printed_steps(done, layout.index)}
        rings = {span.number for said in lines_of(one) for span in said if isinstance(span, StepRef)}
        assert rings <= set(numbers)
        figure = block(one, LayoutView).picture.figure
        assert isinstance(figure, NumberedLayout)
        assert all(set(flag.steps) <= set(numbers) for flag in figure.flags)
        told = lengths_told(one)
        assert all(span.with_unit for said in lines_of(one) for span in said if isinstance(span, Length))
        assert {length for length in needed(layout) if length} <= told


@settings(max_examples=150, deadline=None)
@given(STEPS, STEPS)
def test_whatever_a_spec_holds_its_layouts_are_told(
    left: list[dict[str, Any]], right: list[dict[str, Any]]
) -> None:
    kit = kit_if_valid(left, right)
    if kit is not None:
        layout_sections(resolved(kit), ENGLISH)


OWN = st.fixed_dictionaries(
    {},
    optional={"say": st.just("As you like it."), "tip": st.just("Slowly."), "optional": st.booleans()},
)


@settings(max_examples=150, deadline=None)
@given(st.lists(st.tuples(st.sampled_from(sorted(SAYINGS)), OWN), min_size=1, max_size=2), st.booleans())
def test_of_a_kit_as_it_should_be_nothing_is_left_out(sayings: list[Any], has_story: bool) -> None:
    layouts = []
    for number, (saying, own) in enumerate(sayings, start=1):
        steps = [{**step, **own} for step in steps_of(SAYINGS[saying])]
        more = {"story": "Once.", "tip": "Mind the gap."} if has_story else {}
        layouts.append({"id": f"page {number}", "steps": steps, **more})
    done = resolved(kit_of(*layouts))
    if any(one.severity is Severity.ERROR for layout in done.layouts for one in layout.findings):
        return
    check(done)


def test_of_the_demo_kits_nothing_is_left_out(demo: ResolvedKit) -> None:
    check(demo)


def test_the_demo_kits_are_told_in_whole_sentences(demo: ResolvedKit) -> None:
    sections = layout_sections(demo, ENGLISH)
    assert len(sections) == len(demo.kit.layouts)
    for one in sections:
        for item in block(one, StepList).steps:
            assert typed(item.parts[0].head)
            for part in item.parts:
                text = typed(part.said)
                assert text[-1] in ".!?", text
                assert not text[0].islower(), text
                assert not _NOISE.search(f"{typed(part.head)}|{text}"), text


SIDES = re.compile(
    r"left (and right|to right|edge|corner|end|part|half|one)|(the|top|bottom|page’s) left|(from|at) the left"
    r"|Tilt\s#\sleft"
)


def test_left_names_a_side_and_nothing_else(demo: ResolvedKit) -> None:
    for one in layout_sections(demo, ENGLISH):
        for said in lines_of(one):
            words = "".join(span.text if isinstance(span, Words) else "#" for span in said)
            for found in re.finditer(r"\bleft\b", words):
                around = words[max(0, found.start() - 12) : found.end() + 12]
                assert SIDES.search(around), around


def test_every_piece_of_a_pocket_is_named_by_its_label(demo: ResolvedKit) -> None:
    by_title = {found.anchor: found for found in layout_sections(demo, ENGLISH)}
    for index, layout in enumerate(demo.layouts):
        _base, *entries = used_by(demo.ledger, index)
        steps = block(by_title[f"layout-{layout.id}"], StepList).steps
        told = {
            span.label
            for item in steps
            for part in item.parts
            for span in part.head
            if isinstance(span, PieceRef)
        }
        assert {entry.label for entry in entries if entry.label} <= told


@pytest.mark.parametrize("saying", SAYINGS)
def test_whatever_a_designer_says_makes_whole_sentences(saying: str) -> None:
    done = resolved(kit_of({"steps": steps_of(SAYINGS[saying])}))
    for one in layout_sections(done, ENGLISH):
        for item in block(one, StepList).steps:
            for part in item.parts:
                text = typed(part.said)
                assert text[-1:] in {".", "!", "?"}, text
                assert not _NOISE.search(text), text
