"""Ways to type the same kit otherwise: nothing that a check could mind is changed by any of them."""

from __future__ import annotations

import re
from collections.abc import Callable
from copy import deepcopy
from typing import Any

from booklet.kit.kit import trimmer_limits
from booklet.kit.sheet import SCRAP
from booklet.measure.exact import Fraction
from booklet.measure.length import Size, Unit, convert
from booklet.placing.model import ItemKind
from tests.spec_data import Data, lengths, places, resolved_data, scaled, typed, unit_of, value_at

Variation = Callable[[Data], Data]
VARIATIONS: dict[str, Variation] = {}

# Keys whose values, or whose lists of values, are names of pieces or of what is called by a name.
_NAMING = {
    *(
        "name",
        "leaves",
        "take",
        "spare",
        "place",
        "row",
        "column",
        "stack",
        "group",
        "snip",
        "trim_round",
        "round",
    ),
    *("punch", "ink", "wrap", "along", "raise", "stitch", "other_half", "on", "under", "tucked", "beside"),
    *("above", "below", "flush_with", "centred_on", "called", "base", "piece"),
}
_NAMES_AS_KEYS = {"sizes", "pockets"}
_KEEP = {SCRAP, "page"}
_OTHER_EDGE = {"left": "right", "top": "bottom"}


def variation(make: Variation) -> Variation:
    """Enter a way to type a kit otherwise under its name."""
    VARIATIONS[make.__name__] = make
    return make


# Units.


def _in_unit(data: Data, unit: Unit) -> Data:
    """Every length converted exactly, and the trimmer said, which else is what is usual for the unit."""
    before = unit_of(data)
    limits = trimmer_limits(resolved_data(data).kit)
    said = {key: typed(getattr(limits, key)) for key in ("mark", "reach", "blade", "hold")}
    told = {**deepcopy(data), "trimmer": {**said, "together": str(limits.together)}}
    factor = convert(Fraction(1), before, unit)
    for where, value in list(lengths(told)):
        value_at(told, where[:-1])[where[-1]] = typed(scaled(value, factor))
    return {**told, "unit": unit.value}


@variation
def in_millimetres(data: Data) -> Data:
    return _in_unit(data, Unit.MILLIMETRE)


@variation
def in_the_other_of_inches_and_centimetres(data: Data) -> Data:
    return _in_unit(data, Unit.INCH if unit_of(data) is not Unit.INCH else Unit.CENTIMETRE)


@variation
def every_length_with_its_unit(data: Data) -> Data:
    return _typed_as(data, lambda one: f"{typed(one)} {unit_of(data).value}")


@variation
def every_length_in_another_unit_than_the_kits(data: Data) -> Data:
    unit = unit_of(data)
    other = Unit.MILLIMETRE if unit is Unit.INCH else Unit.INCH
    return _typed_as(data, lambda one: f"{typed(convert(one, unit, other))} {other.value}")


@variation
def fractions_with_a_hyphen(data: Data) -> Data:
    return _typed_as(data, lambda one: re.sub(r"(\d) (\d+/)", r"\1-\2", typed(one)))


def _typed_as(data: Data, type_one: Callable[[Fraction], str]) -> Data:
    said = deepcopy(data)
    for where, value in list(lengths(data)):
        text = (
            f"{type_one(value.width)} x {type_one(value.height)}"
            if isinstance(value, Size)
            else type_one(value)
        )
        value_at(said, where[:-1])[where[-1]] = text
    return said


# Orders.


@variation
def keys_in_the_opposite_order(data: Data) -> Data:
    def turned_round(part: Any) -> Any:
        if isinstance(part, dict):
            return {key: turned_round(value) for key, value in reversed(part.items())}
        return [turned_round(item) for item in part] if isinstance(part, list) else part

    turned: Data = turned_round(data)
    return turned


@variation
def sheets_in_the_opposite_order(data: Data) -> Data:
    return {**data, "sheets": data["sheets"][::-1]}


@variation
def layouts_in_the_opposite_order(data: Data) -> Data:
    return {**data, "layouts": data["layouts"][::-1]}


@variation
def box_in_the_opposite_order(data: Data) -> Data:
    return {**data, **{key: data[key][::-1] for key in ("ready", "supplies", "bring", "cautions")}}


@variation
def elements_in_the_opposite_order(data: Data) -> Data:
    sheets = [
        {**one, "elements": one["elements"][::-1]} if "elements" in one else one for one in data["sheets"]
    ]
    return {**data, "sheets": sheets}


@variation
def last_layout_first(data: Data) -> Data:
    return {**data, "assembly": "last layout first"}


# Names.


@variation
def pieces_renamed(data: Data) -> Data:
    return _renamed(data, lambda name: f"{name} of paper")


@variation
def pieces_in_capitals(data: Data) -> Data:
    return _renamed(data, str.upper)


def _renamed(data: Data, rename: Callable[[str], str]) -> Data:
    """Every piece and every other thing of a layout by another name; sheets and supplies keep theirs."""
    kept = {one["id"] for key in ("sheets", "supplies") for one in data[key]} | _KEEP
    of_row = re.compile(r"(.*) (\d+)")

    def new(name: str) -> str:
        numbered = of_row.fullmatch(name)
        if numbered and numbered[1] in called:
            return f"{rename(numbered[1])} {numbered[2]}"
        return name if name in kept else rename(name)

    rows = (
        one
        for where, one in places(data["layouts"])
        if isinstance(one, dict) and {"row", "column"} & set(one)
    )
    called = {one["called"] for one in rows if "called" in one}
    said = deepcopy(data)
    for where, value in list(places(data)):
        keys = [key for key in where if isinstance(key, str)]
        if keys[:1] in (["papers"], ["supplies"]) or not keys:
            continue
        is_else = (keys[0], keys[-1]) in {("sheets", "ink"), ("ready", "spare")}
        if isinstance(value, str) and keys[-1] in _NAMING and not is_else:
            value_at(said, where[:-1])[where[-1]] = new(value)
        elif keys[-1] in _NAMES_AS_KEYS or (keys[-2:] == ["wishes", "edge"]):
            value_at(said, where[:-1])[where[-1]] = {new(name): stated for name, stated in value.items()}
    return said


@variation
def ids_renamed(data: Data) -> Data:
    """Papers, supplies and layouts by other names, and every sheet that is cut; whole ones name a piece."""
    said = deepcopy(data)
    new = {
        kind: {one: f"{one} 2041" for one in _ids(data, kind)} for kind in ("papers", "supplies", "layouts")
    }
    said["papers"] = {new["papers"][name]: paper for name, paper in said["papers"].items()}
    for one in [*said["sheets"], *said["ready"]]:
        one["paper"] = new["papers"][one["paper"]]
    for sheet in said["sheets"]:
        sheet["id"] += " 2041" if "cuts" in sheet else ""
    for supply in said["supplies"]:
        supply["id"] = new["supplies"][supply["id"]]
    for layout in said["layouts"]:
        layout["id"] = new["layouts"][layout["id"]]
        if "paper" in layout["base"]:
            layout["base"]["paper"] = new["papers"][layout["base"]["paper"]]
        if "facing" in layout:
            layout["facing"] = new["layouts"][layout["facing"]]
        for step in layout["steps"]:
            for key in {"ribbon", "tape", "foam", "add", "stencil", "supply", "thread"} & set(step):
                step[key] = new["supplies"][step[key]]
    return said


def _ids(data: Data, kind: str) -> list[str]:
    return list(data[kind]) if isinstance(data[kind], dict) else [one["id"] for one in data[kind]]


@variation
def edges_by_their_plain_names(data: Data) -> Data:
    """The member's words for edges are kept for print; the spec itself says top, right, bottom and left."""
    said = deepcopy(data)
    for sheet in said["sheets"]:
        plain = {word: edge for edge, word in data["papers"][sheet["paper"]].get("edges", {}).items()}
        if "left" in sheet.get("lay", {}):
            sheet["lay"]["left"] = plain.get(sheet["lay"]["left"], sheet["lay"]["left"])
        edges = sheet.get("wishes", {}).get("edge", {})
        edges.update({name: plain.get(word, word) for name, word in edges.items()})
    return said


# What may be said or left out, and what is said twice.


@variation
def nothing_stated_twice(data: Data) -> Data:
    sheets = [
        {k: v for k, v in one.items() if k not in ("sizes", "pockets", "wishes")} for one in data["sheets"]
    ]
    return {**data, "sheets": sheets}


@variation
def every_size_stated_again(data: Data) -> Data:
    stated = {
        one.index: {piece.name: typed(piece.size) for piece in one.pieces if piece.is_useful}
        for one in resolved_data(data).sheets
    }
    sheets = [
        {**one, "sizes": stated[index]} if "cuts" in one else one for index, one in enumerate(data["sheets"])
    ]
    return {**data, "sheets": sheets}


@variation
def no_words_of_the_designers(data: Data) -> Data:
    words = {"tip", "say", "story", "welcome", "pocket_tips", "cautions", "month"}

    def without(part: Any) -> Any:
        if isinstance(part, dict):
            return {key: without(value) for key, value in part.items() if key not in words}
        return [without(item) for item in part] if isinstance(part, list) else part

    bare: Data = without(data)
    return bare


@variation
def what_is_usual_is_said(data: Data) -> Data:
    said = deepcopy(data)
    for sheet in said["sheets"]:
        sheet.setdefault("size", data["sheet"])
        sheet.setdefault("count", "1")
        edge = {} if {"left", "top", "right", "bottom"} & set(sheet.get("lay", ())) else {"left": "left"}
        sheet["lay"] = {"face": "front", **edge, **sheet.get("lay", {})}
    for layout in said["layouts"]:
        base = layout["base"]
        layout["base"] = {"face": "front", **(base if isinstance(base, dict) else {"piece": base})}
        for step in layout["steps"]:
            step.setdefault("optional", "no")
            if "place" in step:
                for key, usual in (("face", "front"), ("tilt", "0"), ("overhang", "no"), ("loose", "no")):
                    step.setdefault(key, usual)
    return said


@variation
def the_other_page_format(data: Data) -> Data:
    return {**data, "page": "a5" if data["page"] == "half letter" else "half letter"}


@variation
def other_colours(data: Data) -> Data:
    said = deepcopy(data)
    for where, value in list(places(data)):
        if isinstance(value, str) and re.fullmatch("#[0-9a-f]{6}", value):
            value_at(said, where[:-1])[where[-1]] = "#" + value[3:] + value[1:3]
    return said


# The same work in another way.


@variation
def measured_from_the_other_edges(data: Data) -> Data:
    """What is so far from the page's left or top is said to be so far from its right or bottom."""
    said = deepcopy(data)
    for layout in resolved_data(data).layouts:
        page = layout.base.rect
        # A stack is one step as it is typed, and a step for each of its things as it is placed.
        typed_steps = [
            at
            for at, step in enumerate(data["layouts"][layout.index]["steps"])
            for _ in step.get("stack", (step,))
        ]
        for item in layout.items:
            where = ("layouts", layout.index, "steps", typed_steps[item.step_number - 1])
            step = value_at(said, where)
            is_alone = item.kind in (ItemKind.PIECE, ItemKind.WRITING) and {"place", "write"} & set(step)
            if not is_alone or {"on", "under", "loose", "spread"} & set(step):
                continue
            past = {"left": page.right - item.rect.right, "top": page.bottom - item.rect.bottom}
            for near, far in _OTHER_EDGE.items():
                if near in step:
                    del step[near]
                    step[far] = typed(past[near])
    return said


@variation
def stacks_cut_one_by_one(data: Data) -> Data:
    """Pieces that are cut in one pass are cut one after another."""
    said = deepcopy(data)
    for sheet in said["sheets"]:
        steps = [
            {**step, "take": taken}
            for step in (sheet["cuts"] if isinstance(sheet.get("cuts"), list) else ())
            for taken in (step["take"] if isinstance(step.get("take"), list) else [step.get("take")])
        ]
        if steps:
            sheet["cuts"] = [
                {key: value for key, value in step.items() if value is not None} for step in steps
            ]
    return said


@variation
def equal_pieces_exchanged(data: Data) -> Data:
    """Printed elements of one size change places, each first with each second one."""
    said = deepcopy(data)
    for sheet in said["sheets"]:
        waiting: dict[str, Data] = {}
        for element in sheet.get("elements", []):
            other = waiting.pop(element["size"], None)
            if other is None:
                waiting[element["size"]] = element
                continue
            for key in ("left", "top"):
                element[key], other[key] = other[key], element[key]
    return said


@variation
def plain_paper_laid_by_its_other_edges(data: Data) -> Data:
    """Paper that shows no direction may be laid by any edge: equal pieces come from other places of it."""
    opposite = {"left": "right", "right": "left", "top": "bottom", "bottom": "top"}
    said = deepcopy(data)
    resolved = resolved_data(data)
    for sheet in resolved.sheets:
        paper = value_at(data, ("papers", sheet.sheet.paper))
        is_plain = not sheet.sheet.is_cut_apart and "edges" not in paper and sheet.stages
        if is_plain and not resolved.kit.papers[sheet.sheet.paper].has_direction:
            spec = said["sheets"][sheet.index]
            lay = spec.get("lay", {})
            spec["lay"] = {**lay, "left": opposite[lay.get("left", "left")]}
    return said
