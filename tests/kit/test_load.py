"""From a spec file to the kit: values mean what was typed, and files that are no spec are refused kindly."""

from __future__ import annotations

import os
from fractions import Fraction
from pathlib import Path

import pytest

from booklet.kit.errors import SpecError, UsageError
from booklet.kit.kit import Assembly, PageFormat
from booklet.kit.load import load_kit, parse_kit
from booklet.kit.position import Centring
from booklet.kit.sheet import CutStep, Sheet
from booklet.kit.steps import Photo, Place
from booklet.kit.text import MAX_BYTES
from booklet.kit.tree import MAX_DEPTH, MAX_NODES
from booklet.measure.length import Size, Unit
from tests.kit.samples import FOLDER, HARBOUR, parsed, problems, with_line


def written_cuts(sheet: Sheet) -> tuple[CutStep, ...]:
    """The cuts of a sheet that leaves none to be planned."""
    assert sheet.cuts is not None
    return sheet.cut_steps


def test_the_sample_reads_like_the_kit() -> None:
    kit = load_kit(FOLDER / "harbour.yaml").kit
    assert (kit.title, kit.unit, kit.page) == ("Harbour days", Unit.INCH, PageFormat.HALF_LETTER)
    assert kit.assembly is Assembly.FIRST
    first = written_cuts(kit.sheets[0])[0]
    assert first.at == (Fraction(8), Fraction(5, 2))
    assert first.leaves == (("edge strip",), ("panel",), ("wide strip",))
    assert kit.sheets[0].sizes == {"tall panel": Size(Fraction(11, 2), Fraction(7))}
    assert kit.papers["deep-sea"].front.colours == ("#17405c",)
    assert kit.pocket_tips == {"1": "Holds the long strip folded once."}


def test_one_word_may_stand_where_a_list_may() -> None:
    sheet = parsed(HARBOUR).kit.sheets[0]
    second = written_cuts(sheet)[1]
    assert (second.at, second.take, sheet.spare) == (
        (Fraction(7),),
        ("panel",),
        ("wide strip",),
    )


def test_the_key_on_is_a_word_and_yes_and_no_are_switches() -> None:
    steps = parsed(HARBOUR).kit.layouts[0].steps
    assert isinstance(steps[1], Place)
    assert isinstance(steps[2], Photo)
    assert isinstance(steps[3], Place)
    assert (steps[1].on, steps[1].centred) == ("tall panel", Centring.BOTH)
    assert (steps[2].tilt, steps[3].overhang, steps[4].optional) == (Fraction(-15, 2), False, True)


def test_a_length_in_another_unit_is_exact() -> None:
    (_, write) = parsed(HARBOUR).kit.layouts[1].steps
    assert getattr(write, "bottom", None) == Fraction(20 * 10, 254)


def test_a_bare_number_is_in_the_unit_of_the_kit() -> None:
    text, _ = with_line("unit: in", "unit: mm")
    text, _ = with_line("repeat: 3/4", "repeat: 3/4 in", text)
    assert written_cuts(parsed(text).kit.sheets[0])[0].at[0] == 8
    assert parsed(text).kit.layouts[1].steps[1] != parsed(HARBOUR).kit.layouts[1].steps[1]


@pytest.mark.parametrize(
    ("typed", "title"),
    [
        ("010", "010"),
        ("1:30", "1:30"),
        ("2031-05-01", "2031-05-01"),
        ("0x1F", "0x1F"),
        ("1_000", "1_000"),
        ("6.10", "6.10"),
        ("1e3", "1e3"),
        (".inf", ".inf"),
        ("no", "no"),
        ("On", "On"),
        ("true", "true"),
        ("'~'", "~"),
        ('"null"', "null"),
        ("=", "="),
        ("6-1/4", "6-1/4"),
    ],
)
def test_words_stay_as_they_were_typed(typed: str, title: str) -> None:
    text, _ = with_line("title: Harbour days", f"title: {typed}")
    assert parsed(text).kit.title == title


@pytest.mark.parametrize("typed", ["6.10", "6.1", "6 1/10", "6-1/10", "61/10", '"6.1"', "154.94 mm"])
def test_a_length_is_the_same_however_it_is_typed(typed: str) -> None:
    text, _ = with_line("at: 7", f"at: {typed}")
    assert written_cuts(parsed(text).kit.sheets[0])[1].at == (Fraction(61, 10),)


@pytest.mark.parametrize("typed", ["", "~", "null", "# later"])
def test_nothing_is_nothing(typed: str) -> None:
    text, line = with_line("title: Harbour days", f"title: {typed}")
    (problem,) = problems(text)
    assert (problem.line, problem.key) == (line, "title")
    assert problem.found == "nothing"
    assert problem.expected.startswith("words")
    month, _ = with_line("month: June", f"month: {typed}")
    assert parsed(month).kit.month is None


def test_anchors_and_aliases_write_a_thing_once() -> None:
    text, _ = with_line('colours: ["#17405c"]', 'colours: &sea ["#17405c"]')
    text, _ = with_line('front: {colours: ["#ffffff"]}', "front: {colours: *sea}", text)
    assert parsed(text).kit.papers["labels"].front.colours == ("#17405c",)


def test_a_mistake_in_an_alias_is_reported_where_it_was_typed() -> None:
    text, line = with_line('colours: ["#17405c"]', "colours: &sea [blue]")
    text, _ = with_line('front: {colours: ["#ffffff"]}', "front: {colours: *sea}", text)
    assert [problem.line for problem in problems(text)] == [line, line]


def test_a_byte_order_mark_and_foreign_line_ends_are_accepted(tmp_path: Path) -> None:
    file = tmp_path / "harbour.yaml"
    file.write_bytes(b"\xef\xbb\xbf" + HARBOUR.replace("\n", "\r\n").encode())
    loaded = load_kit(file)
    assert loaded.kit == parsed(HARBOUR).kit
    assert loaded.source.line(("sheets", 0, "cuts", 0)) == parsed(HARBOUR).source.line(
        ("sheets", 0, "cuts", 0)
    )


def test_messages_name_the_file_as_given_but_never_the_way_to_it(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    (tmp_path / "june").mkdir()
    file = tmp_path / "june" / "kit.yaml"
    file.write_text("title: x\n")
    with pytest.raises(SpecError, match=r"^kit\.yaml:1: "):
        load_kit(file)
    monkeypatch.chdir(tmp_path)
    with pytest.raises(SpecError, match=r"^june/kit\.yaml:1: "):
        load_kit("june/kit.yaml")


def refusal(tmp_path: Path, data: bytes) -> str:
    """What is said of a file with these bytes."""
    file = tmp_path / "kit.yaml"
    file.write_bytes(data)
    with pytest.raises(SpecError) as caught:
        load_kit(file)
    return str(caught.value)


@pytest.mark.parametrize(
    ("data", "message"),
    [
        (b"", "kit.yaml:1: found an empty file, expected a kit spec"),
        (b"# only a thought\n", "kit.yaml:1: found an empty file, expected a kit spec"),
        (b"title: x\nmonth: caf\xe9\n", "kit.yaml:2: found a byte that is not UTF-8"),
        ("title: x\n".encode("utf-16"), "kit.yaml:1: found a byte that is not UTF-8"),
        (b"title: x\nmonth: a\x00b\n", "kit.yaml:2: found the control character U+0000, expected text only"),
        (b"title: x\n---\ntitle: y\n", "kit.yaml:2: found a second document (---), expected one document in"),
        (b"- a list\n", "kit.yaml:1: found a list, expected keys (title, publisher, sheet, papers, "),
        (b"just words\n", "kit.yaml:1: found just words, expected keys (title, "),
        (b"a: &x [*x]\n", "kit.yaml:1: found the alias *x inside or before what it stands for"),
        (b"a: *b\n", "kit.yaml:1: found the alias *b inside or before what it stands for"),
        (b"a: &x b\nc: &x d\n", "kit.yaml:2: found the anchor &x twice, expected each anchor once"),
        (b"x: &x {a: b}\ntitle: {<<: *x}\n", "kit.yaml:2: title: found a merge key (<<), expected the keys"),
        (b"? [a, b]\n: c\n", "kit.yaml:1: found a list or keys where a key belongs, expected a word"),
        (b"trimmer: {? [a] : b, c}\n", 'kit.yaml:1: trimmer: found the unknown key "c", expected'),
        (b'"\\ud800": x\n', "kit.yaml:1: found text that is not YAML"),
        (b'title: x\nmonth: "a\\bb"\n', "kit.yaml:2: month: found the character U+0008, which cannot be"),
        (b'title: "\\e]0;mine\\a"\n', "kit.yaml:1: title: found the character U+001B, which cannot be seen"),
        (b'title: "tip\\u202Eped"\n', "kit.yaml:1: title: found the character U+202E, which cannot be seen"),
        (b'title: x\n"mon\\u2066th": y\n', "kit.yaml:2: found the character U+2066, which cannot be seen"),
        ("title: tip\u202eped\n".encode(), "kit.yaml:1: title: found the character U+202E, which cannot be"),
    ],
)  # fmt: skip
def test_what_is_no_spec_is_reported_by_what_it_is(tmp_path: Path, data: bytes, message: str) -> None:
    assert any(line.startswith(message) for line in refusal(tmp_path, data).splitlines())


def test_breaks_and_joiners_within_words_are_text() -> None:
    said = 'title: "Two\\tparts\\nof bin\\u00ADding \\u200D"\n'
    with pytest.raises(SpecError) as caught:
        parse_kit(said, "kit.yaml", Path())
    assert "cannot be seen" not in str(caught.value)


def test_a_missing_file_is_reported_with_the_nearest_one(tmp_path: Path) -> None:
    (tmp_path / "harbour.yaml").touch()
    with pytest.raises(UsageError, match=r"there is no file harbor\.yaml \(nearest: harbour\.yaml\)"):
        load_kit(tmp_path / "harbor.yaml")


@pytest.mark.parametrize("name", ["", ".", "nowhere/kit.yaml", "kit\x00.yaml", "k" * 300, "fifo"])
def test_what_is_no_file_is_refused(tmp_path: Path, name: str) -> None:
    os.mkfifo(tmp_path / "fifo")
    with pytest.raises(UsageError):
        load_kit(tmp_path / name)


def test_a_file_without_end_is_refused(tmp_path: Path) -> None:
    file = tmp_path / "kit.yaml"
    file.write_bytes(b"#" * (MAX_BYTES + 1))
    with pytest.raises(UsageError, match="larger than a kit spec can be"):
        load_kit(file)
    file.write_bytes(b"#" * MAX_BYTES)
    with pytest.raises(SpecError, match="empty file"):
        load_kit(file)


@pytest.mark.parametrize(
    "text",
    [
        "a: " + "[" * (MAX_DEPTH + 1) + "]" * (MAX_DEPTH + 1),
        "[" * 200_000,
        "- " * 200_000,
        "{a: " * 100_000,
        "".join(f"a{n}: &a{n} [[[[[[[[{f'*a{n - 1}' if n else 'x'}]]]]]]]]\n" for n in range(100)),
    ],
    ids=["one too deep", "brackets", "dashes", "braces", "aliases in aliases"],
)
def test_nesting_has_a_limit(text: str) -> None:
    (problem,) = problems(text)
    assert problem.found in ("deeper nesting", "text that is not YAML")


def test_a_few_aliases_cannot_stand_for_too_many_values() -> None:
    doubling = "".join(f"a{n}: &a{n} [{', '.join([f'*a{n - 1}' if n else 'x'] * 10)}]\n" for n in range(9))
    (problem,) = problems(doubling)
    assert problem.found == "more values than a kit can have"
    (problem,) = problems("a: [" + "x," * MAX_NODES + "]")
    assert problem.found == "more values than a kit can have"
