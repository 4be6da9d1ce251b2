"""What elements of an SVG look like, as attributes in words."""

from __future__ import annotations

from functools import lru_cache

from booklet.drawing.shapes.figure import BLACK, Anchor, Cap, Colour, Fill, Join, Stroke
from booklet.drawing.shapes.fonts import Font

_SANS, _SERIF = "'Booklet Sans', 'Source Sans 3', sans-serif", "'Booklet Serif', 'Source Serif 4', serif"
_FAMILIES = {
    Font.SANS: {},  # that of the whole document
    Font.SANS_BOLD: {"font_weight": "600"},
    Font.SANS_ITALIC: {"font_style": "italic"},
    Font.SERIF_BOLD: {"font_family": _SERIF, "font_weight": "600"},
}
_CAPS = {Cap.BUTT: "butt", Cap.ROUND: "round"}
_JOINS = {Join.MITRE: "miter", Join.ROUND: "round"}


def _number(value: float) -> str:
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def _hex(colour: Colour) -> str:
    digits = colour.hex
    return f"#{digits[1::2]}" if digits[1::2] == digits[2::2] else digits


def attributes(**values: str) -> str:
    """Attributes in words; they hold nothing to be escaped: numbers, colours and our own names."""
    return "".join([f' {name.replace("_", "-")}="{value}"' for name, value in values.items()])


@lru_cache(maxsize=512)
def painted(fill: Fill | None, stroke: Stroke | None) -> str:
    """The attributes of a surface and its edge."""
    # What is neither filled nor told otherwise is filled with black.
    written = {} if fill and fill.colour == BLACK else {"fill": _hex(fill.colour) if fill else "none"}
    if stroke is not None:
        written |= {"stroke": _hex(stroke.colour), "stroke_width": _number(stroke.width)}
        if stroke.dash:
            written["stroke_dasharray"] = " ".join(map(_number, stroke.dash))
        if stroke.cap is not Cap.BUTT:
            written["stroke_linecap"] = _CAPS[stroke.cap]
        if stroke.join is not Join.MITRE:
            written["stroke_linejoin"] = _JOINS[stroke.join]
    return attributes(**written)


@lru_cache(maxsize=512)
def lettered(font: Font, size: float, colour: Colour, anchor: Anchor) -> str:
    """The attributes of a text that others have as well."""
    written = {**_FAMILIES[font], "font_size": _number(size)}
    if colour != BLACK:
        written["fill"] = _hex(colour)
    if anchor is not Anchor.START:
        written["text_anchor"] = anchor.value
    return attributes(**written)


# What all texts have in common; on a group, as some viewers pass over what the outermost element says.
ALL_TEXTS = attributes(font_family=_SANS, style="font-kerning:none")
