"""Specs broken in one line: the message names that line and the cure."""

from __future__ import annotations

import pytest
import yaml

from booklet.kit.errors import problem_text
from tests.kit.samples import HARBOUR, problems, with_line

# What stands in the sample, what a hand typed instead, and what is read after the file and the line.
BROKEN = {
    "a length with a slip of the finger": (
        "at: [8, 2 1/2]",
        "at: [8, 2 1/w]",
        "sheets › shingle › cuts › 1 › at › 2: found 2 1/w, expected a length such as 6 1/4, 6.25 or 108 mm",
    ),
    "a decimal comma": (
        "at: 7",
        "at: 7,5",
        "sheets › shingle › cuts › 2 › at: found 7,5, expected a length such as 6 1/4, 6.25 or 108 mm "
        "(nearest: 7.5)",
    ),
    "a word for cuts that means nothing": (
        "size: 6 x 6",
        "cuts: plann",
        "sheets › 1 › cuts: found plann, expected a list of cuts, or the word plan",
    ),
    "no cuts after all": (
        "size: 6 x 6",
        "cuts:",
        "sheets › 1 › cuts: found nothing, expected a list",
    ),
    "a wish for three side by side": (
        "size: 6 x 6",
        "wishes: {beside: [[low tide, gull, low tide]]}",
        "sheets › 1 › wishes › beside › 1: found a list, expected a list of at most 2",
    ),
    "an element of no name": (
        "{name: low tide, left: 1/2, top: 1/2, size: 2 x 1, words: Low tide, frame: ticket}",
        "{left: 0, top: 0, size: 3 x 3}",
        "sheets › 1 › elements › 1: found the keys left, top, size, expected one of name, row and column",
    ),
    "an element that is a row as well": (
        "{name: low tide, left: 1/2, top: 1/2, size: 2 x 1, words: Low tide, frame: ticket}",
        "{name: sun, row: [moon], left: 0, top: 0, size: 3 x 3}",
        "sheets › 1 › elements › sun: found the keys name, row, left, top, size, expected one of name, row "
        "and column",
    ),
    "one element several times": (
        "{name: low tide, left: 1/2, top: 1/2, size: 2 x 1, words: Low tide, frame: ticket}",
        "{name: sun, count: 3, left: 0, top: 0, size: 1 x 1}",
        "sheets › 1 › elements › sun: found the keys name, count, left, top, size, expected row or column in "
        "place of name where count, lines or apart are said",
    ),
    "a place of one in a row": (
        "{name: low tide, left: 1/2, top: 1/2, size: 2 x 1, words: Low tide, frame: ticket}",
        "{row: [{name: sun, left: 2}], left: 0, top: 0, size: 1 x 1}",
        'sheets › 1 › elements › 1 › row › sun: found the unknown key "left", expected name, words, picture, '
        "frame, ground or ink",
    ),
    "a key misspelt": (
        "leaves: [tall panel, scrap]",
        "leavs: [tall panel, scrap]",
        'sheets › shingle › cuts › 2: found the unknown key "leavs", expected at, leaves, take, turn or tip '
        "(nearest: leaves)",
    ),
    "a choice misspelt": (
        "turn: clockwise",
        "turn: clokwise",
        "sheets › shingle › cuts › 2 › turn: found clokwise, expected clockwise, anticlockwise or half "
        "(nearest: clockwise)",
    ),
    "another word for a choice, nearer in letters to its opposite": (
        "turn: clockwise",
        "turn: counterclockwise",
        "sheets › shingle › cuts › 2 › turn: found counterclockwise, expected clockwise, anticlockwise or "
        "half (nearest: anticlockwise)",
    ),
    "degrees where a quarter or half turn is meant": (
        "turn: clockwise",
        "turn: 180",
        "sheets › shingle › cuts › 2 › turn: found 180, expected clockwise, anticlockwise or half "
        "(nearest: half)",
    ),
    "a strip that is a key": (
        "leaves: [tall panel, scrap]",
        "leaves: [{tall panel: 1}, scrap]",
        "sheets › shingle › cuts › 2 › leaves › 1: found the keys tall panel, expected a name, or a list of "
        "names",
    ),
    "a unit in full": (
        "unit: in",
        "unit: millimetres",
        "unit: found millimetres, expected in, mm or cm (nearest: mm)",
    ),
    "a title that is a story": (
        "title: Shingle",
        f"title: {'Shingle ' * 30}",
        "papers › shingle-print › title: found Shingle Shingle Shingle Shingle Shingle Shingle Shingle Shi…, "
        "expected words of at most 200 letters",
    ),
    "a list without brackets between braces": (
        "- {write: 3 x 2, right: 1, bottom: 20 mm}",
        "- {snip: 1, at: 9 3/8, 4 7/8, leaves: [a, b, c]}",
        "layouts › high-tide › steps › 2: found 4 7/8 after a comma, expected brackets round a list, "
        "as in [8, 2 1/2]",
    ),
    "a key of a row said of one thing in it": (
        "- {write: 3 x 2, right: 1, bottom: 20 mm}",
        "- {row: [low tide, {place: gull, tilt: 5}], left: 1, top: 0}",
        'layouts › high-tide › steps › 2 › row › 2: found the unknown key "tilt", expected place, photo, '
        "write or called",
    ),
    "a colour without quotes": (
        'accent: "#1d5c7a"',
        "accent: #1d5c7a",
        "accent: found nothing, since #1d5c7a without quotes begins a comment, expected the colour in quotes "
        '(nearest: "#1d5c7a")',
    ),
    "a colour without quotes in a list": (
        'colours: ["#17405c"]',
        "colours: [#17405c]",
        'found a colour without quotes, #17405c, expected it in quotes, "#17405c"',
    ),
    "a colour without its sign": (
        'colours: ["#17405c"]',
        "colours: [17405C]",
        "papers › deep-sea › front › colours › 1: found 17405C, expected a colour in quotes such as "
        '"#1d5c7a" '
        '(nearest: "#17405c")',
    ),
    "more colours than a print has": (
        'colours: ["#17405c"]',
        'colours: ["#17405c", "#17405d", "#17405e", "#17405f", "#174060"]',
        "papers › deep-sea › front › colours: found a list, expected a list of at most 4",
    ),
    "a sheet as large as a field": (
        "    size: 6 x 6",
        "    size: 6 x 999999",
        "sheets › 1 › size: found 6 x 999999, expected a size with sides of at most 100 in",
    ),
    "a sheet in metres by mistake": (
        "    size: 6 x 6",
        "    size: 150 x 2541 mm",
        "sheets › 1 › size: found 150 x 2541 mm, expected a size with sides of at most 100 in",
    ),
    "a sheet narrower than a ruler shows": (
        "    size: 6 x 6",
        "    size: 1/65 x 6",
        "sheets › 1 › size: found 1/65 x 6, expected a size with sides of at least 1/64 in",
    ),
    "a reading without its point": (
        "at: 7",
        "at: 725",
        "sheets › shingle › cuts › 2 › at: found 725, expected a length of at most 100 in",
    ),
    "a size with the wrong word": (
        "    size: 6 x 6",
        "    size: 6 by 6",
        "sheets › 1 › size: found 6 by 6, expected a size such as 5 1/2 x 7 (nearest: 6 x 6)",
    ),
    "more sheets than are cut together": (
        "    count: 2",
        "    count: 20",
        "sheets › base › count: found 20, expected a whole number from 1 to 12 (nearest: 12)",
    ),
    "a step whose verb is misspelt": (
        "- place: tall panel",
        "- plase: tall panel",
        "layouts › low-tide › steps › 1: found the keys plase, left, top, say, expected one of them to "
        "be a verb "
        "(nearest: place)",
    ),
    "a step without a colon": (
        "- do: Ink the edges.",
        "- do Ink the edges.",
        "found a line without a key, expected key: value, with a space after the colon",
    ),
    "a step with two verbs": (
        "{write: 3 x 2,",
        "{write: 3 x 2, photo: 3 x 2,",
        "layouts › high-tide › steps › 2: found write and photo in one step, expected one of them, or "
        "two steps",
    ),
    "a tilt beyond the page": (
        "tilt: -7.5",
        "tilt: 700",
        "layouts › low-tide › steps › 3 › tilt: found 700, expected degrees from -90 to 90, clockwise",
    ),
    "a paper that is not there": (
        "paper: shingle-print",
        "paper: shingle-prints",
        "sheets › shingle › paper: found shingle-prints, expected a paper of this kit: "
        "shingle-print, deep-sea or labels (nearest: shingle-print)",
    ),
    "an edge that the paper does not have": (
        "left: wave border}    #",
        "left: wave boarder}    #",
        "sheets › shingle › lay › left: found wave boarder, expected an edge of this paper: top, "
        "right, bottom, left or wave border (nearest: wave border)",
    ),
    "words with a colon": (
        "tip: Cut this sheet first.",
        "tip: First: cut this sheet.",
        "found a second colon, expected words that hold a colon to stand in quotes "
        '(nearest: tip: "First: cut this sheet.")',
    ),
    "a title with a colon": (
        "title: Harbour days",
        "title: Harbour days: low tide",
        "found a second colon, expected words that hold a colon to stand in quotes "
        '(nearest: title: "Harbour days: low tide")',
    ),
    "a colon in a step's words": (
        "- do: Ink the edges.",
        "- do: Ink: the edges.",
        "found a second colon, expected words that hold a colon to stand in quotes",
    ),
    "a colon in words between braces": (
        "- {write: 3 x 2, right: 1, bottom: 20 mm}",
        "- {write: 3 x 2, tip: Note: write first, right: 1, bottom: 20 mm}",
        "found a second colon, expected words that hold a colon to stand in quotes "
        '(nearest: tip: "Note: write first")',
    ),
    "a colon in the words of a list": (
        "bring: [scissors, a pencil]",
        "bring: [scissors: sharp ones, a pencil]",
        "bring › 1: found the keys scissors, expected words, in quotes if they hold a colon "
        '(nearest: "scissors: sharp ones")',
    ),
    "a comma in words between braces": (
        "- {write: 3 x 2, right: 1, bottom: 20 mm}",
        "- {write: 3 x 2, right: 1, tip: Cut, then file, bottom: 20 mm}",
        'layouts › high-tide › steps › 2 › tip: found "then file" after a comma, and no value, expected '
        "words that hold a comma to stand in quotes, or a key with its value "
        '(nearest: tip: "Cut, then file")',
    ),
    "two commas in words between braces": (
        "- {write: 3 x 2, right: 1, bottom: 20 mm}",
        "- {do: Wait, go on, and wait again}",
        'layouts › high-tide › steps › 2 › do: found "go on" after a comma, and no value, expected '
        "words that hold a comma to stand in quotes, or a key with its value "
        '(nearest: do: "Wait, go on, and wait again")',
    ),
    "a comma before a word that is a key": (
        "- {write: 3 x 2, right: 1, bottom: 20 mm}",
        "- {write: 3 x 2, right: 1, tip: Write here, turn, bottom: 20 mm}",
        'layouts › high-tide › steps › 2 › tip: found "turn" after a comma, and no value, expected words '
        'that hold a comma to stand in quotes, or a key with its value (nearest: tip: "Write here, turn")',
    ),
    "a comma and a colon in words between braces": (
        "- {write: 3 x 2, right: 1, bottom: 20 mm}",
        "- {write: 3 x 2, right: 1, bottom: 20 mm, tip: Cut this, then: file it}",
        'layouts › high-tide › steps › 2 › tip: found "then" after a comma, which is no key, expected words '
        'that hold a comma to stand in quotes, or a known key (nearest: tip: "Cut this, then: file it")',
    ),
    "a key without its colon between braces": (
        "- {write: 3 x 2, right: 1, bottom: 20 mm}",
        "- {write: 3 x 2, right: 1, bottom 20 mm}",
        'layouts › high-tide › steps › 2 › right: found "bottom 20 mm" after a comma, and no value, expected '
        "words that hold a comma to stand in quotes, or a key with its value",
    ),
    "words that go on after their quotes": (
        "title: Harbour days",
        'title: "Harbour" days',
        "found words after a quote that is closed, expected one pair of quotes round all of them; inside, "
        "other quotes or each typed twice",
    ),
    "an apostrophe in single quotes": (
        "bring: [scissors, a pencil]",
        "bring: ['the member's scissors', a pencil]",
        "found words after a quote that is closed, expected one pair of quotes round all of them",
    ),
    "brackets in words between braces": (
        "- {write: 3 x 2, right: 1, bottom: 20 mm}",
        "- {write: 3 x 2, right: 1, tip: Write [first], bottom: 20 mm}",
        "found [ within words, expected words that hold such a sign to stand in quotes",
    ),
    "a quote that stays open": (
        "title: Shingle",
        'title: "Shingle',
        "found a quote that is never closed, expected a second one where the words end",
    ),
    "a list that stays open": (
        "bring: [scissors, a pencil]",
        "bring: [scissors, a pencil",
        "found a list that begins with [ and is not closed, expected commas between its items and ] at "
        "its end",
    ),
    "a tab": (
        "    tip: Cut this sheet first.",
        "\ttip: Cut this sheet first.",
        "found a tab at the start of a line, expected spaces",
    ),
    "a key that slipped to the left": (
        "        turn: clockwise",
        "     turn: clockwise",
        "found a line that does not fit those above it, "
        "expected keys of one group, and dashes of one list, to begin in the same column",
    ),
    "words in bold": (
        "say: Lay it straight.",
        "say: **Lay** it straight.",
        "found * at the start of a value, expected words that begin with such a sign to stand in quotes",
    ),
    "words for a switch": (
        "overhang: no",
        "overhang: never",
        "layouts › low-tide › steps › 4 › overhang: found never, expected yes or no",
    ),
    "a border below nothing": (
        "centred: both, tilt: -7.5",
        "border: [-1/8, 0]",
        "layouts › low-tide › steps › 3 › border › 1: found -1/8, expected 0, or a length above 0",
    ),
    "a unit that is not one": (
        "unit: in",
        "unit: ins",
        "unit: found ins, expected in, mm or cm (nearest: in)",
    ),
    "words where a list belongs": (
        "cautions: [Keep your fingers clear of the blade.]",
        "cautions: Keep your fingers clear of the blade.",
        "cautions: found Keep your fingers clear of the blade., expected a list",
    ),
    "an edge in a paper that is no edge": (
        "edges: {left: wave border}",
        "edges: {lefft: wave border}",
        'papers › shingle-print › edges › lefft: found the key "lefft", expected top, right, bottom or left '
        "(nearest: left)",
    ),
    "a ribbon that does not close round a mat": (
        "{write: 3 x 2, right: 1, bottom: 20 mm}",
        "{ribbon: twine, wrap: edge strip, overlap: 0}",
        "layouts › high-tide › steps › 2 › overlap: found 0, expected a length above 0",
    ),
    "an outline that is not known": (
        "{id: squares, kind: dots, count: 12}",
        "{id: squares, kind: charm, outline: hart, size: 1 x 1, count: 12}",
        "supplies › squares › outline: found hart, expected circle, half circle, rectangle, diamond, drop, "
        "heart, star or flower (nearest: heart)",
    ),
    "a supply from elsewhere": (
        "{id: squares, kind: dots, count: 12}",
        "{id: squares, kind: dots, from: hone}",
        "supplies › squares › from: found hone, expected box or home (nearest: home)",
    ),
    "a list for a kind": (
        "{id: squares, kind: dots, count: 12}",
        "{id: squares, kind: [dots], count: 12}",
        "supplies › squares › kind: found a list, expected ribbon, tape, adhesive, stencil, ink, foam, dots, "
        "brads or a kind of your own",
    ),
    "a snip that leaves one part": (
        "place: edge strip, flush: [left, top]",
        "snip: mat, at: 1, leaves: [half]",
        "layouts › high-tide › steps › 1 › leaves: found a list, expected a list of at least 2",
    ),
    "a program in the spec": (
        "title: Shingle",
        "title: !!python/object/apply:os.system [ls]",
        "papers › shingle-print › title: found the tag tag:yaml.org,2002:python/object/apply:os.system, "
        'expected plain values; words that begin with "!" need quotes',
    ),
}


# A colon in words that go on in the next line is found there.
CARRIED_ON = {
    "words of the line above, with a colon": (
        "title: Harbour days",
        "title: Harbour days\n  and: nights",
        "found a key under words that go on, expected it in the column of the keys above it, or words that "
        "hold a colon to stand in quotes",
    ),
    "words in a line of their own, with a colon": (
        "month: June",
        "month:\n  June: the long days",
        "month: found the keys June, expected words, in quotes if they hold a colon (nearest: "
        '"June: the long days")',
    ),
}


@pytest.mark.parametrize("slip", CARRIED_ON)
def test_a_colon_in_words_of_two_lines_is_reported(slip: str) -> None:
    old, new, message = CARRIED_ON[slip]
    text, line = with_line(old, new)
    (problem,) = problems(text)
    assert problem_text(problem).split(": ", 1)[1].startswith(message)
    assert problem.line in (line, line + 1)


@pytest.mark.parametrize(
    "sound",
    [
        '- {write: 3 x 2, right: 1, bottom: 20 mm, tip: "Cut, then file"}',
        '- {write: 3 x 2, right: 1, bottom: 20 mm, tip: "Note: write first"}',
        "- {write: 3 x 2, right: 1, bottom: 20 mm, tip: 'Write [first] at 3:00'}",
        "- {write: 3 x 2, right: 1, bottom: 20 mm, tip: Write at 3:00}",
    ],
)
def test_quoted_words_may_hold_any_sign(sound: str) -> None:
    text, _ = with_line("- {write: 3 x 2, right: 1, bottom: 20 mm}", sound)
    assert problems(text) == ()


@pytest.mark.parametrize("slip", BROKEN)
def test_a_mistake_is_reported_with_its_line_and_its_cure(slip: str) -> None:
    old, new, message = BROKEN[slip]
    text, line = with_line(old, new)
    first = problems(text)[0]
    assert problem_text(first).startswith(f"harbour.yaml:{line}: {message}")


def test_the_sample_itself_is_whole() -> None:
    assert problems(HARBOUR) == ()


@pytest.mark.parametrize("slip", BROKEN)
def test_one_mistake_is_one_problem(slip: str) -> None:
    text, _ = with_line(*BROKEN[slip][:2])
    follow_ups = 1 if slip in ("an edge in a paper that is no edge", "a program in the spec") else 0
    assert len(problems(text)) <= 1 + follow_ups


def test_a_missing_key_is_reported_at_the_item_that_lacks_it() -> None:
    text, line = with_line("    paper: deep-sea     #", "    tip: The ground of both pages. #")
    (problem,) = problems(text)
    assert problem.line == line - 1
    assert (problem.key, problem.found) == ("sheets › base", 'no key "paper"')
    assert problem.expected == "paper: a name"


def test_a_misspelt_key_is_not_reported_again_as_missing() -> None:
    text, line = with_line("    paper: deep-sea     #", "    papre: deep-sea #")
    (problem,) = problems(text)
    assert (problem.line, problem.nearest) == (line, "paper")


def test_a_key_typed_twice_is_reported_with_both_lines() -> None:
    text, line = with_line("month: June", "title: June")
    (problem,) = problems(text)
    assert (problem.line, problem.found) == (line, f'the key "title" twice, first in line {line - 1}')


def test_every_mistake_of_a_file_is_reported_at_once_in_the_order_of_the_file() -> None:
    text = HARBOUR
    lines = []
    for old, new in [("at: 7", "at: x"), ("unit: in", "unit: foot"), ("tilt: -7.5", "tilt: much")]:
        text, line = with_line(old, new, text)
        lines.append(line)
    assert [problem.line for problem in problems(text)] == sorted(lines)


@pytest.mark.parametrize("slip", BROKEN)
def test_the_slow_reader_of_yaml_says_the_same(slip: str, monkeypatch: pytest.MonkeyPatch) -> None:
    text, _ = with_line(*BROKEN[slip][:2])
    told = problems(text)
    monkeypatch.delattr(yaml, "CSafeLoader")
    assert problems(text) == told
