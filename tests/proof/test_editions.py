"""Two editions of one booklet: what has changed, and which pages must be read again."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from booklet.kit.load import parse_kit
from booklet.placing.resolved import resolve_kit
from booklet.proof.claims import claims
from booklet.proof.editions import Changed, Edition, compare
from booklet.proof.pictures import page_pictures
from tests.finished.kits import PLAIN
from tests.once import laid_once, written_once


@cache
def edition(spec: str) -> Edition:
    loaded = parse_kit(spec, "plain.yaml", Path())
    resolved = resolve_kit(loaded)
    laid = laid_once(resolved)
    claimed = claims(laid, resolved, loaded.source.words)
    said = {claim.key: claim.said for claim in claimed if claim.has_number}
    return Edition(said, [picture.digest for picture in page_pictures(written_once(laid))])


def test_the_same_kit_is_the_same_to_the_last_stroke() -> None:
    found = compare(edition(PLAIN), edition(PLAIN + "\n# a remark\n"))
    assert (found.changed, found.came, found.went, found.again, found.moved) == ((), (), (), (), {})


def test_another_length_is_told_by_its_key_and_only_its_pages_are_read_again() -> None:
    found = compare(edition(PLAIN), edition(PLAIN.replace("at: [10, 6]", "at: [10, 6 1/8]")))
    key = "sheet-reed / cut 2 / reading / sheets › reed › cuts › 1 › at › 2"
    assert Changed(key, "6", "6¹⁄₈") in found.changed
    assert 0 < len(found.again) < len(edition(PLAIN).pages)


def test_another_title_changes_no_number() -> None:
    found = compare(edition(PLAIN), edition(PLAIN.replace("title: Drops", "title: Rain")))
    assert (found.changed, found.came, found.went) == ((), (), ())
    assert found.again


def test_sheets_that_change_places_keep_their_keys() -> None:
    before = PLAIN
    start, other, end = (before.index(mark) for mark in ("  - id: reed", "  - id: drops", "  - {id: sand"))
    swapped = before[:start] + before[other:end] + before[start:other] + before[end:]
    found = compare(edition(before), edition(swapped))
    cuts = [key for key in (*found.came, *found.went) if " / reading / " in key]
    # Cuts are numbered on each sheet, so a sheet that moves keeps all of them.
    assert cuts == []
    assert not any(" / reading / " in one.key for one in found.changed)


def test_a_layout_of_another_id_is_told_as_renamed_and_keeps_its_numbers() -> None:
    found = compare(edition(PLAIN), edition(PLAIN.replace("- id: morning", "- id: dawn")))
    assert found.renamed == {"morning": "dawn"}
    assert (found.changed, found.came, found.went) == ((), (), ())


def test_a_renamed_layout_with_another_length_tells_only_that() -> None:
    changed = PLAIN.replace("- id: morning", "- id: dawn").replace("photo: 3 x 4", "photo: 3 x 3 1/2")
    found = compare(edition(PLAIN), edition(changed))
    assert found.renamed == {"morning": "dawn"}
    place = "layouts › dawn › steps › 4"
    changes = {one.key: (one.before, one.now) for one in found.changed}
    assert changes[f"layout-dawn / size / {place}"] == ("3\u00a0×\u00a04", "3\u00a0×\u00a03¹⁄₂")
    whole = len(edition(changed).said)
    assert len(found.came) + len(found.went) < whole / 10


def test_a_layout_that_is_gone_is_not_renamed() -> None:
    whole = edition(PLAIN)
    rest = {key: text for key, text in whole.said.items() if not key.startswith("layout-morning")}
    found = compare(whole, Edition(rest, ()))
    assert found.renamed == {}
    assert {key.partition(" / ")[0] for key in found.went} == {"layout-morning"}
