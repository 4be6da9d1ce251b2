"""The whole document: what stands in it, in which order, and that no word of a spec is lost or repeated."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

import pytest

from booklet.content.blocks import Contents, ContentsEntry, Document, Heading, Paragraph
from booklet.content.document import document
from booklet.content.figures import PrintCheck
from booklet.content.words.language import ENGLISH
from booklet.kit.finding import SpecPath
from booklet.kit.kit import Kit
from booklet.kit.steps import Do
from booklet.placing.resolved import ResolvedKit
from tests.content.specs import DEMOS, SMALL, demo, resolved_spec
from tests.content.walking import all_of, own_words, said

MORE_WORDS = """
ready: [{name: mat, size: 2 x 3, paper: sand, spare: 1, tip: One for a friend.}]
supplies: [{id: rope, kind: ribbon, length: 30, width: 3/8, tip: Singe the ends.}]
bring: [a boat, an oar]
cautions: [The shears bite., The glue dries at once.]
pocket_tips: {1: The strips go first.}
"""


def with_words(text: str) -> str:
    """The small kit, or one that is made of it, with words wherever a spec may have them."""
    return (
        text.replace("    paper: shingle\n", "    paper: shingle\n    tip: Mind the border.\n")
        .replace("turn: clockwise, at: [7]", 'turn: clockwise, tip: "Turn it gently.", at: [7]')
        .replace("{id: sand, paper: sand}", "{id: sand, paper: sand, tip: The rough side is the back.}")
        .replace("    base: sand\n", "    base: sand\n    tip: Let it dry.\n    story: The water went out.\n")
        .replace("{place: strip,", "{place: strip, say: Its wave hangs down., tip: Smooth it.,")
        .replace(
            "      - {place: tall panel", '      - {do: "Now wait for the tide."}\n      - {place: tall panel'
        )
        .replace("unit: in", "unit: in\nwelcome: Here is the sea.\nmonth: May")
    ) + MORE_WORDS


def made(text: str) -> Document:
    return document(resolved_spec(text), ENGLISH)


def anchors(one: Document) -> list[str]:
    return [section.anchor for section in one.sections]


# What stands where.


@pytest.mark.parametrize("name", DEMOS)
def test_sections_stand_in_the_order_in_which_they_are_needed(name: str) -> None:
    kit = demo(name)
    cut = sorted((sheet for sheet in kit.sheets if sheet.stages), key=lambda sheet: sheet.number)
    assert anchors(document(kit, ENGLISH)) == [
        *("cover", "welcome", "box", "tools", "care", "how-to-read", "trimmer", "rescue", "left-over"),
        *(f"sheet-{sheet.sheet.id}" for sheet in cut),
        *("pockets", "labels", "planner"),
        *(f"layout-{layout.id}" for layout in kit.layouts),
    ]


@pytest.mark.parametrize("name", DEMOS)
def test_every_entry_of_the_contents_leads_to_something_that_is_there_once(name: str) -> None:
    one = document(demo(name), ENGLISH)
    there = Counter([*anchors(one), *(heading.anchor for heading in all_of(Heading, one) if heading.anchor)])
    assert set(there.values()) == {1}
    listed = {entry.anchor for entry in all_of(ContentsEntry, one)}
    assert listed
    assert listed <= there.keys()


def test_a_document_bears_the_names_that_a_file_is_found_by() -> None:
    one = document(demo("hill-line"), ENGLISH)
    assert one.language == "en"
    assert said(one.title) == "The Slow Train Uphill, June 2041"
    assert said(one.author) == "Wimberfold Paper Post"
    assert said(one.subject) == "Cutting and assembly instructions"


def test_a_kit_without_cuts_has_nothing_of_the_trimmer() -> None:
    bases = "".join(f"  - {{id: base{at}, paper: sand}}\n" for at in range(3))
    layouts = "".join(f"  - {{id: page{at}, pocket: 1, base: base{at}}}\n" for at in range(3))
    one = made(SMALL[: SMALL.index("sheets:")] + f"sheets:\n{bases}layouts:\n{layouts}")
    assert "trimmer" not in anchors(one)
    assert "rescue" not in anchors(one)
    assert "left-over" not in anchors(one)
    assert "how-to-read" in anchors(one)


def test_labels_planner_and_what_is_left_over_stand_where_they_cost_nothing_and_are_listed() -> None:
    one = document(demo("hill-line"), ENGLISH)
    optional = [section.anchor for section in one.sections if section.is_optional]
    assert optional == ["left-over", "labels", "planner"]
    assert [section.anchor for section in one.fillers] == ["keepsake", "notes"]
    listed = [entry.anchor for entry in all_of(ContentsEntry, one)]
    assert listed.index("pockets") < listed.index("labels") < listed.index("planner")


# Small kits.


def test_a_draft_without_layouts_says_nothing_of_pockets_or_of_how_many_layouts_there_are() -> None:
    one = made(SMALL[: SMALL.index("layouts:")])
    assert anchors(one) == ["cover", "welcome", "trimmer", "rescue", "sheet-shingle"]
    assert (one.sections[0].blocks, one.sections[0].lead) == ((), ())


def test_a_small_kit_says_all_before_cutting_in_one_section() -> None:
    one = made(SMALL)
    always = [section.anchor for section in one.sections if not section.is_optional]
    assert always == ["cover", "welcome", "sheet-shingle", "layout-ebb"]
    headings = [heading.anchor for heading in all_of(Heading, one.sections[1]) if heading.anchor]
    assert headings == ["box", "tools", "care", "how-to-read"]
    assert "What you bring" in [said(heading.text) for heading in all_of(Heading, one.sections[1])]
    assert all_of(Contents, one) == []


def test_a_small_kit_has_its_bar_on_the_back_and_others_also_where_the_contents_are() -> None:
    small = made(SMALL)
    assert all_of(PrintCheck, small.sections) == []
    assert len(all_of(PrintCheck, small.back)) == 1
    large = document(demo("hill-line"), ENGLISH)
    assert [len(all_of(PrintCheck, part)) for part in (large.sections, large.back)] == [1, 1]


def test_a_small_kit_tries_the_trimmer_and_lists_its_pockets_where_pages_are_to_spare() -> None:
    one = made(SMALL)
    assert [section.anchor for section in one.sections if section.is_optional] == [
        "trimmer",
        "rescue",
        "pockets",
        "labels",
    ]
    assert anchors(one).index("rescue") < anchors(one).index("sheet-shingle")
    assert (
        anchors(one).index("sheet-shingle") < anchors(one).index("pockets") < anchors(one).index("layout-ebb")
    )


def test_a_small_kit_tells_the_tip_for_a_pocket_at_its_first_layout_before_the_steps() -> None:
    tipped = made(SMALL + "pocket_tips: {1: The strips go first.}\n")
    (layout,) = [section for section in tipped.sections if section.anchor == "layout-ebb"]
    assert isinstance(layout.blocks[0], Paragraph)
    assert said(layout.blocks[0].text) == "The strips go first."


def more_layouts(text: str, count: int) -> str:
    """The small kit with more layouts, each on a whole sheet."""
    bases = "".join(f"  - {{id: base{at}, paper: sand}}\n" for at in range(count))
    layouts = "".join(f"  - {{id: page{at}, pocket: 1, base: base{at}}}\n" for at in range(count))
    return text.replace("layouts:", f"{bases}layouts:") + layouts


def more_cut(text: str, sheets: int, pieces: int) -> str:
    """The small kit with more sheets cut in strips, all of them placed on its one layout."""
    names = [[f"piece {at} {place}" for place in range(pieces)] for at in range(sheets)]
    readings = ", ".join(str(pieces - place) for place in range(1, pieces))
    cuts = "".join(
        f"  - {{id: s{at}, paper: sand, size: {pieces} x 12, "
        f"cuts: [{{at: [{readings}], leaves: [{', '.join(row)}]}}]}}\n"
        for at, row in enumerate(names)
    )
    placed = "".join(f"      - {{place: {name}, left: 0, top: 0}}\n" for row in names for name in row)
    return text.replace("layouts:", f"{cuts}layouts:") + placed


@pytest.mark.parametrize(
    ("text", "is_small"),
    [
        (more_layouts(SMALL, 1), True),
        (more_layouts(SMALL, 2), False),
        (more_cut(SMALL, 1, 2), True),
        (more_cut(SMALL, 2, 2), False),
        (more_cut(SMALL, 1, 9), True),
        (more_cut(SMALL, 1, 10), False),
    ],
)
def test_a_kit_is_small_up_to_two_layouts_two_cut_sheets_and_a_dozen_pieces(
    text: str, is_small: bool
) -> None:
    assert ("box" not in anchors(made(text))) is is_small


# The designer's own words.


def typed_words(kit: Kit) -> dict[SpecPath, str | None]:
    """Everything that a spec tells the member in its own sentences, and where it is typed."""
    return {where: words for where, words in _typed(kit) if words is not None}


def _typed(kit: Kit) -> Iterator[tuple[SpecPath, str | None]]:
    yield ("welcome",), kit.welcome
    yield from ((("bring", at), words) for at, words in enumerate(kit.bring))
    yield from ((("cautions", at), words) for at, words in enumerate(kit.cautions))
    yield from ((("pocket_tips", pocket), words) for pocket, words in kit.pocket_tips.items())
    for at, sheet in enumerate(kit.sheets):
        yield ("sheets", at, "tip"), sheet.tip
        yield from ((("sheets", at, "cuts", n, "tip"), step.tip) for n, step in enumerate(sheet.cuts or ()))
    yield from ((("ready", at, "tip"), ready.tip) for at, ready in enumerate(kit.ready))
    yield from ((("supplies", at, "tip"), supply.tip) for at, supply in enumerate(kit.supplies))
    for at, layout in enumerate(kit.layouts):
        yield ("layouts", at, "tip"), layout.tip
        yield ("layouts", at, "story"), layout.story
        for n, step in enumerate(layout.steps):
            yield ("layouts", at, "steps", n, "tip"), step.tip
            yield ("layouts", at, "steps", n, "say"), step.say
            yield ("layouts", at, "steps", n, "do"), step.do if isinstance(step, Do) else None


def assert_told_once(kit: ResolvedKit) -> None:
    one = document(kit, ENGLISH)
    told = Counter(own.source for own in own_words((one.sections, one.fillers, one.back)))
    typed = typed_words(kit.kit)
    assert {where: told[where] for where in typed} == dict.fromkeys(typed, 1)
    shown = {own.source: own.text for own in own_words(one)}
    assert {where: shown[where] for where in typed} == typed


@pytest.mark.parametrize("name", DEMOS)
def test_every_word_to_the_member_in_a_demo_is_told_once(name: str) -> None:
    assert_told_once(demo(name))


@pytest.mark.parametrize("text", [SMALL, more_layouts(SMALL, 2)], ids=["small", "large"])
def test_every_tip_caution_and_story_is_told_once_in_a_kit_of_any_size(text: str) -> None:
    kit = resolved_spec(with_words(text))
    assert len(typed_words(kit.kit)) == 16
    assert_told_once(kit)


@pytest.mark.parametrize("name", DEMOS)
def test_a_name_of_the_designer_s_is_said_as_it_was_typed(name: str) -> None:
    titled = [own for own in own_words(document(demo(name), ENGLISH)) if own.source == ("title",)]
    assert titled
    assert {own.text for own in titled} == {demo(name).kit.title}
