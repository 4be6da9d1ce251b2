"""What to put in the place of a value: hostile, extreme, or next to what stands there."""

from __future__ import annotations

import re

from hypothesis import strategies as st

LENGTHS = (
    "0", "-1", "-0.001", "1/64", "1/65", "1/128", "1/1000000", "0.01", "3.14159265358979", "1/3", "7/8", "1",
    "2 1/2", "5 63/64", "8", "11 7/8", "12", "12 1/64", "15", "16", "40", "99.99", "100", "100.01", "2540",
    "9999 mm", "0.1 mm", "1 mm", "254 cm", "1e9", "1e-9", "1/0", "½", "٣", "6 1/4 in", "nan", "inf", "--2",
    "9" * 400,
)  # fmt: skip
SIZES = (
    "12 x 12", "1/64 x 100", "100 x 1/64", "100 x 100", "1 x 1", "1/64 x 1/64", "3 x 60", "60 x 3", "0 x 3",
    "-2 x 2", "4 x 6", "6 x 4", "1/8 x 12", "0.1 x 0.1 mm", "10 x 15 cm", "1 x", "x", "3 x 3 x 3", "1e5 x 2",
    "11 63/64 x 12", "2 x 2 furlongs", "30 x 30", "5", "A4",
)  # fmt: skip
COUNTS = ("0", "-1", "1", "2", "3", "7", "12", "40", "98", "99", "100", "999", "1000", "10000000", "1.5", "x")
COLOURS = ("#000000", "#ffffff", "#FFF", "red", "#12345", "#1d5c7g", "rgb(1,2,3)", "#010203", "url(#x)", "#")
WORDS = (
    "", " ", "~", "null", "yes", "no", "top", "left", "front", "back", "page", "scrap", "plan", "all", "both",
    "across", "down", "clockwise", "half", "a4", "a5", "letter", "square 6 in", "square 15 cm", "in", "mm",
    "cm", "box", "home", "ribbon", "tape", "stencil", "brads", "stripes", "stars", "leaves", "confetti",
    "scallop", "wave", "last layout first", "right", "../../etc/passwd", "/dev/zero", "CON", "a\\b", "A/B",
)  # fmt: skip
MARKUP = (
    "<b>bold</b>", "</para>", "<img src='x'/>", "A & B &amp; &#0; <", "%s %d {0} {x}", "=SUM(A1)", "${HOME}",
    "]]>", "*anchor", "&anchor x", "!tag x", "# x", "a: b: c", "- x", "'", '"', "`rm -rf`", "\\n", "[x](y)",
)  # fmt: skip
LETTERS = (
    "ä", "ß", "Ω", "水", "🦀", "\U0001f469\u200d\U0001f467", "e\u0301", "\u202e", "\u200b", "\u00ad",
    "\u0301", "ﬁ", "ﷺ", "א", "ع", "\U000e0041", "\ufffd", "½", "²", "Ⅷ", "\u2028", "\x1b[31m", "\x07",
    "\x85", "\x00", "\xa0", "\t", "\n", "ᚠ", "क्ष", "W", "i", "m",
)  # fmt: skip
# Lengths of a text: about the limits of names (60), titles (200) and words (2000), and far beyond.
_TEXT_LENGTHS = (1, 2, 20, 59, 60, 61, 120, 199, 200, 201, 399, 400, 700, 1000, 1999, 2000, 2001, 20000)
_NUMBER = re.compile(r"\d+(?:\.\d+)?")

hostile = st.sampled_from(LENGTHS + SIZES + COUNTS + COLOURS + WORDS + MARKUP + LETTERS)


@st.composite
def long_texts(draw: st.DrawFn) -> str:
    """A text of many letters: one word, many words, or letters that few fonts have."""
    unit = draw(
        st.sampled_from(("W", "i", "mount ", "Photographs ", "a ", "an unusually long word, ", *LETTERS))
    )
    length = draw(st.sampled_from(_TEXT_LENGTHS))
    return (unit * (length // len(unit) + 1))[:length]


@st.composite
def neighbours(draw: st.DrawFn, text: str) -> str:
    """A value with one of its numbers made a little, or far, more or less; other words as they are."""
    found = list(_NUMBER.finditer(text))
    if not found:
        return draw(st.sampled_from((text.upper(), text[:-1], text + "s", text * 2, text[::-1], f" {text} ")))
    match = draw(st.sampled_from(found))
    factor, more = draw(st.sampled_from(((1, 1), (1, -1), (1, 0.125), (1, -0.125), (2, 0), (10, 0), (0.1, 0),
        (0, 0), (1, 0.015625), (-1, 0), (0.5, 0), (100, 0))))  # fmt: skip
    value = f"{float(match[0]) * factor + more:g}"
    return text[: match.start()] + value + text[match.end() :]


def values_near(text: str) -> st.SearchStrategy[str]:
    """What may stand in the place of a typed value."""
    if " x " in text:
        width, _, height = text.partition(" x ")
        alike: st.SearchStrategy[str] = st.sampled_from((f"{height} x {width}", *SIZES))
    elif text[:1] == "#":
        alike = st.sampled_from(COLOURS)
    elif text[:1].isdigit():
        alike = st.sampled_from(LENGTHS + COUNTS)
    else:
        alike = st.one_of(long_texts(), st.sampled_from(WORDS + MARKUP))
    return st.one_of(neighbours(text), alike, alike, hostile, st.text(max_size=30))
