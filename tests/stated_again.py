"""Which values of a spec are stated twice, so that a change of one contradicts the other.

The rule reads the spec as it is typed, and asks no check: for each kind of change it says where the same
thing is said again.  A kit balances (what is made is used or spare, what is boxed is used or left, where that
is said), its cuts leave what is named, elements meet edge to edge, a circle is as wide as it is high.  Where
nothing says it again, the changed booklet is simply of another kit: what the value drives follows it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Any

from booklet.kit.finding import SpecPath
from booklet.measure.exact import Fraction
from booklet.measure.length import parse_length, parse_size
from tests.changes import Change, all_changes, demo_as_typed, last_key, verb_of_data
from tests.spec_data import Data, places, unit_of, value_at

_FAR = {"left": "right", "right": "left", "top": "bottom", "bottom": "top"}
_IN_LINE = ("row", "column", "run")
# What a step names that something else of the spec counts, or that another step refers to.
_PIECE_KEYS = ("place", "row", "column", "stack", "group", "snip", "other_half", "raise")
_SUPPLY_KEYS = ("ribbon", "tape", "add", "foam")
_REFERRING = ("on", "under", "above", "below", "beside", "tucked", "raise", "wrap", "group")
# The lengths of a ribbon or tape that are used up; of a knot's tails nothing more is.
_USED_UP = {"length", "ends", "overlap", "loop", "bow", "knot"}


def stated_again(change: Change) -> str | None:
    """Where what is changed is said again, in words; None where it is said once."""
    return _RULES[change.kind](demo_as_typed(change.demo), change)


def twice_stated(kind: str) -> list[Change]:
    """Every change of a kind to what is stated twice."""
    return [change for change in all_changes(kind) if stated_again(change)]


def _holder(data: Data, where: SpecPath) -> Any:
    """What the value at a place is a value of: the last mapping round it."""
    return next(
        held
        for depth in range(len(where) - 1, -1, -1)
        if isinstance(held := value_at(data, where[:depth]), dict)
    )


# Lengths, sizes, counts.


def _reading(data: Data, change: Change) -> str | None:
    sheet = value_at(data, change.where[:2])
    return "the sheet's elements and sizes" if {"elements", "sizes"} & set(sheet) else None


def _size(data: Data, change: Change) -> str | None:
    where, key, holder = change.where, last_key(change.where), _holder(data, change.where)
    if where[0] == "sheets":
        if where[2] == "elements":
            return _element_meets(data, change)
        return "the cuts of the sheet"
    if where[0] == "ready":
        if holder.get("outline") == "circle":
            return "the other side of the circle"
        return "what lies on it" if _is_referred_to(data, holder["name"]) else None
    if where[0] == "supplies":
        return _supply_size(data, holder, key)
    if where[0] == "layouts":
        if key == "photo":
            return "the sizes of usual prints, and what it lies on"
        is_centred = "stack" in where or ("on" in holder and not set(_FAR) & set(holder))
        return "the even border of what it lies on" if is_centred else None
    return "what is cut from it"


def _supply_size(data: Data, supply: Data, key: str) -> str | None:
    if supply["kind"] == "brads":
        return "the other side of what is round"
    if supply["kind"] == "stencil" and _is_whole(data, supply):
        return "the whole repeats that it holds" if key == "size" else "the size of the whole stencil"
    return None


def _is_whole(data: Data, stencil: Data) -> bool:
    """Whether a stencil is a whole number of its repeats wide and high."""
    if "repeat" not in stencil:
        return False
    size, repeat = (parse_size(stencil[key], unit_of(data)) for key in ("size", "repeat"))
    return not (size.width % repeat.width or size.height % repeat.height)


def _distance(data: Data, change: Change) -> str | None:
    where, key, holder = change.where, last_key(change.where), _holder(data, change.where)
    if where[0] == "sheets":
        return _element_meets(data, change)
    if key == "border":
        return "the two sizes"
    if key in _USED_UP and _has_spare(data, holder):
        return "what is left of the supply"
    is_in_line = bool(set(_IN_LINE) & set(holder)) and "apart" not in holder
    if is_in_line and key in _FAR and holder.get(_FAR[key]) == holder[key]:
        return "the other end of the row"
    return _on_facing_page(data, change, holder, key)


def _on_facing_page(data: Data, change: Change, holder: Data, key: str) -> str | None:
    """What runs on at the same height across the gutter says that height again."""
    mine = value_at(data, change.where[:2])
    facing = [
        one for one in data["layouts"] if one.get("facing") == mine["id"] or mine.get("facing") == one["id"]
    ]
    runs = holder.get("run") == "across" and key in ("top", "bottom") and "on" not in holder
    alike = [
        step
        for one in facing
        for step in one["steps"]
        if runs and step.get("run") == "across" and step.get(key) == holder[key]
    ]
    is_piece_or_ribbon = {"place", "ribbon", "tape"} & set(holder)
    return "its like on the facing page" if alike and is_piece_or_ribbon else None


def _length(data: Data, change: Change) -> str | None:
    where, key, holder = change.where, last_key(change.where), _holder(data, change.where)
    if where[0] == "supplies" and key in ("length", "spare"):
        return "what is used of it" if "spare" in holder else None
    if where[0] == "layouts" and key in _USED_UP and _has_spare(data, holder):
        return "what is left of the supply"
    return None


def _count(data: Data, change: Change) -> str | None:
    holder = _holder(data, change.where)
    if change.where[0] == "supplies":
        return "what is used of it" if "spare" in holder else None
    if change.where[0] in ("sheets", "ready"):
        return "the pieces that the layouts use"
    if {"row", "column"} & set(holder):
        is_piece = "photo" not in holder and "write" not in holder
        return "the pieces that the sheets give" if is_piece else None
    return "what is left of the supply" if _has_spare(data, holder) else None


def _has_spare(data: Data, step: Data) -> bool:
    """Whether it is said what is left of the supply that a step uses."""
    used = {step[key] for key in _SUPPLY_KEYS if isinstance(step.get(key), str)}
    return any("spare" in supply for supply in data["supplies"] if supply["id"] in used)


# Elements.


def _element_meets(data: Data, change: Change) -> str | None:
    """Written cuts run between elements; else their edges say again where those of their neighbours lie."""
    sheet, element = value_at(data, change.where[:2]), value_at(data, change.where[:4])
    if isinstance(sheet["cuts"], list):
        return "the cuts between the elements"
    across, down = _edges(data, element)
    others = [_edges(data, one) for one in sheet["elements"] if one is not element]
    whole = parse_size(sheet.get("size", data["sheet"]), unit_of(data))
    meets = {whole.width, Fraction(0)} | {edge for one, _ in others for edge in one}
    meets_down = {whole.height, Fraction(0)} | {edge for _, one in others for edge in one}
    if change.where[-1] == "left" or change.where[-1] == "size":
        return "the elements that it meets" if set(across) & meets and set(down) & meets_down else None
    return "the elements that it meets" if set(down) & meets_down else None


def _edges(data: Data, element: Data) -> tuple[tuple[Fraction, ...], tuple[Fraction, ...]]:
    unit = unit_of(data)
    left, top = (parse_length(element[key], unit) for key in ("left", "top"))
    size = parse_size(element["size"], unit)
    across = size.width * len(element.get("row", ("one",)))
    return (left, left + across), (top, top + size.height)


# Ways and names.


def _face(data: Data, change: Change) -> str | None:
    step = value_at(data, change.where[:-1])
    if change.where[-2] == "lay":
        return "the edges that are named, and the order of the pieces"
    return "the edge that is to be up" if "up" in step else None


def _turn(data: Data, change: Change) -> str | None:
    if change.where[0] == "sheets":
        return "the sizes of what it leaves"
    step = value_at(data, change.where[:-1])
    return "the edge that is to be up" if "up" in step else "what lies on it, or what it lies on"


def _tilt(data: Data, change: Change) -> str | None:
    """What is mounted on a tilted thing is tilted with it; what lies on a straight one may lie anyhow."""
    step, steps = value_at(data, change.where[:-1]), value_at(data, change.where[:3])
    own = step.get("called") or step.get("place")
    below = [one for one in steps if "place" in one and one["place"] == step.get("on")]
    above = [one for one in steps if "place" in one and own and one.get("on") == own]
    nested = below if change.put is None else [*below, *above]
    return "what it is mounted with" if any(one.get("tilt") == step["tilt"] for one in nested) else None


def _reference(data: Data, change: Change) -> str | None:
    key, holder = last_key(change.where), _holder(data, change.where)
    if key == "paper":
        return "the sheet that nothing else uses" if change.where[0] == "layouts" else None
    if key == "on" and "wrap" in holder:
        return "what the ribbon is wrapped round"
    return "what is made, and what each step refers to"


def _pocket(data: Data, change: Change) -> str | None:  # noqa: ARG001 - one form for all rules
    return "the layouts that use the pieces, and the facing page"


# Steps.


def _cut_step(data: Data, change: Change) -> str | None:  # noqa: ARG001 - one form for all rules
    return "the pieces that its cuts leave"


def _assembly_step(data: Data, change: Change) -> str | None:
    """A step is said again by what it takes, and by what refers to it; its order, where the next needs it."""
    step = value_at(data, change.where)
    if change.said.endswith("doubled"):
        return "the same step before it"
    later = value_at(data, change.where[:3])[int(change.where[3]) + 1 :]
    own = {step.get("called"), *_names(step)} - {None}
    if "exchanged" in change.said:
        return "what the next one refers to" if own & set(_refers_to(later[0])) else None
    if set(_PIECE_KEYS) & set(step):
        return "the piece that is then left over"
    if _has_spare(data, step):
        return "what is left of the supply"
    return "what refers to it" if any(own & set(_refers_to(one)) for one in later) else None


def _names(step: Data) -> Iterator[str]:
    said = step.get(verb_of_data(step))
    if isinstance(said, str):
        yield said


def _refers_to(step: Data) -> Iterator[str]:
    for key in _REFERRING:
        said = step.get(key)
        yield from [said] if isinstance(said, str) else said or ()


def _is_referred_to(data: Data, name: str) -> bool:
    """Whether anything is laid on a piece, or it lies in a stack."""
    return any(
        ("stack" in where or where[-1:] == ("on",)) and value == name
        for where, value in places(data["layouts"])
    )


_RULES: dict[str, Callable[[Data, Change], str | None]] = {
    "reading": _reading,
    "size": _size,
    "distance": _distance,
    "length": _length,
    "count": _count,
    "pocket": _pocket,
    "face": _face,
    "turn": _turn,
    "tilt": _tilt,
    "reference": _reference,
    "cut step": _cut_step,
    "assembly step": _assembly_step,
}

# Why nothing says a thing again, and what a check would have to ask of the designer.
WHY_ONCE = {
    "reading": "a strip of no stated size; it would take its size",
    "size": "nothing else is as large, and what lies there follows; it would take a new key",
    "distance": "nothing else says where it lies; it would take flush_with: or centred_on:",
    "length": "a measure of print or material alone; it would take a new key",
    "count": "nothing says how many are left; it would take spare: of the supply",
    "pocket": "a pocket of no piece; it would take a piece",
    "face": "nothing says which face shows; it would take up:, which a face without a way up cannot have",
    "turn": "nothing says which way up it lies; it would take up:",
    "tilt": "nothing else is tilted with it; it would take a new key",
    "reference": "no edge of this paper is named; it would take up:, which plain paper cannot have",
    "cut step": "a step that leaves nothing; it would take a piece",
    "assembly step": "nothing counts it or refers to it; it would take the number of photographs or of steps",
}
