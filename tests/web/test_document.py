"""The companion as a document: all that the booklet says and shows is there, and nothing else gets in."""

from __future__ import annotations

from base64 import b64encode
from collections import Counter
from hashlib import sha256
from typing import Any

import pytest
import yaml

from booklet.content.blocks import Picture
from booklet.content.other_unit import other_text
from booklet.content.spans import Extent, Length, Role, extent_text, length_text, plain_text
from booklet.kit.bundled import find_spec
from booklet.kit.load import parse_kit
from booklet.measure.exact import Fraction
from booklet.measure.length import Size, Unit
from booklet.placing.resolved import resolve_kit
from booklet.web.companion import make_companion
from booklet.web.document import sections_of
from tests.content.walking import all_of, lines_of
from tests.finished.kits import PLAIN
from tests.spec_data import WHOLE_DEMOS
from tests.web.demos import Made, made
from tests.web.reading import plain, read_page


@pytest.mark.parametrize("kit", WHOLE_DEMOS)
def test_every_sentence_of_the_booklet_is_on_the_page(kit: str) -> None:
    one = made(kit)
    alts = {plain(value) for value in one.page.all_of("aria-label")}
    lines = {plain(said) for section in sections_of(one.said) for said in lines_of(section)}
    assert len(lines) > 300
    assert [said for said in lines if said not in one.page.text and said not in alts] == []


@pytest.mark.parametrize("kit", WHOLE_DEMOS)
def test_every_measure_is_on_the_page_as_often_as_in_the_booklet(kit: str) -> None:
    one = made(kit)
    spoken = [picture.alt for picture in all_of(Picture, sections_of(one.said))]
    measures = said_measures(sections_of(one.said)) - said_measures(spoken) - drawn_measures(one)
    assert measures.total() > 200
    assert measures - one.page.measures == Counter()


def said_measures(part: object) -> Counter[str]:
    lengths = Counter(plain(length_text(span)) for span in all_of(Length, part))
    return lengths + Counter(plain(extent_text(span)) for span in all_of(Extent, part))


def drawn_measures(one: Made) -> Counter[str]:
    """What is written in figures, not in lines."""
    return said_measures([picture.figure for picture in all_of(Picture, sections_of(one.said))])


@pytest.mark.parametrize("kit", WHOLE_DEMOS)
def test_every_picture_says_what_it_shows(kit: str) -> None:
    one = made(kit)
    svgs = [named for tag, named in one.page.elements if tag == "svg"]
    labels = Counter(label for named in svgs if (label := named.get("aria-label")))
    asked = Counter(plain_text(picture.alt) for picture in all_of(Picture, sections_of(one.said)))
    assert asked - labels == Counter()
    assert all(
        named.get("aria-label") or named.get("aria-hidden")
        for tag, named in one.page.elements
        if tag == "svg"
    )


@pytest.mark.parametrize("kit", WHOLE_DEMOS)
def test_the_page_is_well_formed_and_its_links_lead_somewhere(kit: str) -> None:
    page = made(kit).page
    ids = page.all_of("id")
    assert page.faults == []
    assert [id for id, count in Counter(ids).items() if count > 1] == []
    goals = [goal for goal in (*page.all_of("href"), *page.all_of("xlink:href")) if goal.startswith("#")]
    views = {goal for goal in goals if goal.startswith("#/")}
    assert {goal.removeprefix("#") for goal in goals if goal not in views} <= set(ids)
    keys = page.all_of("data-key")
    for goal in views:
        name, *card = goal.removeprefix("#/").split("/")
        assert name == "booklet" or any(id.startswith(f"view-{name}") for id in ids)
        assert not card or card[0] in keys
    clips = {clip.removeprefix("url(#").removesuffix(")") for clip in page.all_of("clip-path")}
    assert clips <= set(ids)


@pytest.mark.parametrize("kit", WHOLE_DEMOS)
def test_nothing_is_asked_for_from_elsewhere(kit: str) -> None:
    page = made(kit).page
    loading = [*page.all_of("src"), *page.all_of("href"), *page.all_of("xlink:href"), *page.all_of("data")]
    assert loading
    assert [each[:40] for each in loading if not each.startswith(("#", "data:image/"))] == []
    assert not {tag for tag, _ in page.elements} & {
        "link",
        "iframe",
        "object",
        "embed",
        "form",
        "base",
        "img",
    }
    assert page.all_of("style") == []


def test_the_policy_lets_in_the_style_and_the_script_of_the_file_alone() -> None:
    page = made("roof-garden").page
    (policy,) = (named["content"] for tag, named in page.elements if named.get("http-equiv"))
    assert policy is not None
    rules = dict(rule.split(" ", 1) for rule in policy.split("; "))
    assert rules["default-src"] == "'none'"
    for kind in ("style", "script"):
        held = [
            f"'sha256-{b64encode(sha256(text.encode()).digest()).decode()}'"
            for text in page.raw.get(kind, [])
        ]
        assert rules.get(f"{kind}-src", "").split() == held
    assert "unsafe" not in policy
    assert "http" not in policy


def test_the_same_kit_gives_the_same_bytes() -> None:
    def html() -> bytes:
        return make_companion(resolve_kit(parse_kit(PLAIN, "kit.yaml", KITS_FOLDER))).html

    assert html() == html()


@pytest.mark.parametrize("kit", WHOLE_DEMOS)
def test_it_is_small_enough_for_a_mail(kit: str) -> None:
    assert len(made(kit).companion.html) < 2_000_000


# A spec that would like to be markup.

KITS_FOLDER = find_spec("hill-line").parent
SHARP = """</style></script><script>alert('x')</script><b onclick="y"> & '`--><!--"""
WORDS = {"title", "publisher", "month", "welcome", "tip", "story", "say", "words", "bring", "cautions"}


def spec_text(kit: str) -> str:
    return find_spec(kit).read_text(encoding="utf-8")


def sharpened(part: Any, *, is_text: bool = False) -> Any:
    """A spec with the sharp text in every value that is printed as it is."""
    if isinstance(part, dict):
        return {
            key: sharpened(value, is_text=is_text or key in WORDS or key == "pocket_tips")
            for key, value in part.items()
        }
    if isinstance(part, list):
        return [sharpened(value, is_text=is_text) for value in part]
    return f"{part} {SHARP}" if is_text and isinstance(part, str) else part


def test_words_of_a_spec_never_become_markup() -> None:
    spec = yaml.safe_dump(sharpened(yaml.load(spec_text("roof-garden"), yaml.BaseLoader)), allow_unicode=True)
    sharp = read_page(make_companion(resolve_kit(parse_kit(spec, "sharp.yaml", KITS_FOLDER))).html)
    plain_one = made("roof-garden").page
    assert sharp.faults == []
    assert sharp.text.count("alert(") > 20
    assert {tag for tag, _ in sharp.elements} <= {tag for tag, _ in plain_one.elements}
    names = {name for _, named in sharp.elements for name in named}
    assert names <= {name for _, named in plain_one.elements for name in named}
    assert len(sharp.raw.get("script", [])) == len(plain_one.raw.get("script", []))


# The other unit.


@pytest.mark.parametrize(
    ("span", "said"),
    [
        (Length(Fraction(25, 4), Unit.INCH, Role.READING, ()), "≈ 159 mm"),
        (Length(Fraction(5), Unit.INCH, Role.READING, ()), "127 mm"),
        (Length(Fraction(254), Unit.MILLIMETRE, Role.READING, ()), "10 in"),
        (Length(Fraction(21, 2), Unit.CENTIMETRE, Role.READING, ()), "≈ 4¹⁄₈ in"),
        (Length(Fraction(3, 8), Unit.INCH, Role.DISTANCE, ()), "≈ 9.5 mm"),
        (Length(Fraction(1, 100), Unit.INCH, Role.READING, ()), "≈ 1 mm"),
        (Extent(Size(Fraction(5), Fraction(7)), Unit.INCH, ()), "≈ 127 × 178 mm"),
        (Extent(Size(Fraction(10), Fraction(5)), Unit.INCH, ()), "254 × 127 mm"),
    ],
)
def test_a_measure_in_the_other_unit_is_the_nearest_mark_and_says_when_it_is_rounded(
    span: Length | Extent, said: str
) -> None:
    assert other_text(span).replace("\u00a0", " ") == said
