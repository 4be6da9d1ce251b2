"""Words as a designer types them, set as a typesetter would."""

from __future__ import annotations

import re

from booklet.measure.exact import Fraction
from booklet.measure.words import print_fraction

# Quotes as they are typed: opening after a space, a dash or a bracket, closing after anything else.
_OPENING = re.compile(r"(^|[\s(\[\u2013\u2014\u201c\u2018])([\"'])")
# Between two numbers, with or without the unit of the first.
_BY = re.compile(
    r"(?:(?<=[\d₀₁₂₃₄₅₆₇₈₉])|(?<=[\d₀₁₂₃₄₅₆₇₈₉] in)|(?<=[\d₀₁₂₃₄₅₆₇₈₉] [cm]m)) ?x ?(?=[\d⁰¹²³⁴⁵⁶⁷⁸⁹])"
)
# A typed fraction: proper, in the parts of a ruler, and no date or ratio of more than two numbers.
_FRACTION = re.compile(r"(?<![\d/.])(?:(\d{1,3})[ -])?(\d{1,2})/(2|3|4|8|16|32|64)(?![\d/])")


def typographic(text: str) -> str:
    """Round quotes, set fractions, real signs of times: `the page's 4 1/2 x 6` -> `the page’s 4¹⁄₂ × 6`."""
    if "/" in text:
        text = _FRACTION.sub(_set_fraction, text)
    if "x" in text:
        text = _BY.sub("\u00a0×\u00a0", text)
    if "'" not in text and '"' not in text:
        return text
    opened = _OPENING.sub(lambda found: found[1] + ("“" if found[2] == '"' else "‘"), text)
    return _closed(opened.replace("'", "’"))


def _set_fraction(found: re.Match[str]) -> str:
    part = Fraction(int(found[2]), int(found[3]))
    return (found[1] or "") + print_fraction(part) if 0 < part < 1 else found[0]


def _closed(text: str) -> str:
    """Closing quotes; a mark after a figure closes only what was opened, else it is that of inches."""
    made: list[str] = []
    is_open = False
    for sign in text:
        is_inch = sign == '"' and bool(made) and made[-1].isdigit() and not is_open
        made.append("”" if sign == '"' and not is_inch else sign)
        is_open = sign == "“" or (is_open and made[-1] != "”")
    return "".join(made)
