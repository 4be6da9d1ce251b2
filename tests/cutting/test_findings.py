"""Every finding of the cutting stage: a kit that has the fault, and one that is just inside."""

from __future__ import annotations

from pathlib import Path

import pytest

import booklet.cutting
from booklet.cutting.cut import cut_kit
from booklet.kit.finding import Finding, Severity, SpecPath
from booklet.kit.kit import Kit
from booklet.measure.length import Unit
from tests.cases import Case, assert_told_once
from tests.kits import Data, cut, element, finding_ids, ids, make_kit, sheet

SUN_AND_MOON = [element("sun", 1, 1), element("moon", 7, 1)]
# "tall" lies on its side, "broad" and "long" upright.
THREE_OF_4_X_8 = [
    cut(4, ["post", "field"]),
    cut(8, ["tall", "scrap"], take="post", turn="clockwise"),
    cut(8, ["field", "scrap"], take="field", turn="clockwise"),
    cut(4, ["broad", "long"], take="field", turn="anticlockwise"),
]
SIDEWAYS = {"sun": "12 x 6", "moon": "12 x 5", "edge": "12 x 1"}
# A tag of 6 x 12, and a hole in it.
HALVES = cut(6, ["tag", "b"])
HOLE: Data = {"punch": "tag", "hole": "1/2"}
LINED = {"lined": {"front": {}, "back": {"pattern": "stripes"}}}

# Two corners: one of the foot of the sheet, the other from above it.  A clockwise turn lays the foot at zero.
TO_CORNERS = [
    cut(6, ["first", "second"]),
    cut(2, ["corner", "scrap"], take="first", turn="clockwise"),
    cut(6, ["second", "scrap"], take="second", turn="clockwise"),
]


def wished(name: str, edge: str = "bottom") -> Data:
    """A wish for an edge of a printed paper."""
    return {"paper": "shingle", "wishes": {"edge": {name: edge}}}


def three_strips(*names: str) -> Data:
    """Three strips that are cut in one pass; what is left at the zero is called by these names."""
    strips = cut([8, 4], ["one", "two", "three"])
    return sheet(strips, cut(5, [names, "scrap"], take=["one", "two", "three"], turn="clockwise"))


def step(number: int, *more: str | int) -> SpecPath:
    return ("sheets", 0, "cuts", number, *more)


CASES = {
    "two edges of which one cannot lie there": Case(
        "lay-differs",
        ("sheets", 0, "lay", "bottom"),
        make_kit(sheet(paper="shingle", lay={"right": "wave border", "bottom": "selvedge"})),
        make_kit(sheet(paper="shingle", lay={"left": "wave border", "bottom": "selvedge"})),
    ),
    "the blade is an eighth too short": Case(
        "cut-longer-than-blade",
        step(0),
        make_kit(sheet(cut(4, ["a", "b"]), size="12 x 12 1/8")),
        make_kit(sheet(cut(4, ["a", "b"]), size="12 1/8 x 12")),
    ),
    "after a turn the blade must cut the other way": Case(
        "cut-longer-than-blade",
        step(0),
        make_kit(sheet(cut(4, ["a", "b"], turn="clockwise"), size="14 x 10")),
        make_kit(sheet(cut(4, ["a", "b"]), size="14 x 10")),
    ),
    "a cut at the far edge": Case(
        "cut-beyond-piece",
        step(0, "at", 0),
        make_kit(sheet(cut(12, ["a", "b"]))),
        make_kit(sheet(cut("11 7/8", ["a", "b"]))),
    ),
    "the same reading again": Case(
        "cut-twice",
        step(0, "at", 2),
        make_kit(sheet(cut([8, 4, 8], ["a", "b", "c", "d"]))),
        make_kit(sheet(cut([8, 4, "3 7/8"], ["a", "b", "c", "d"]))),
    ),
    "readings that rise": Case(
        "reading-away-from-zero",
        step(0, "at", 1),
        make_kit(sheet(cut([4, 8], ["a", "b", "c"]))),
        make_kit(sheet(cut([8, 4], ["a", "b", "c"]))),
        Severity.WARNING,
    ),
    "a reading past the end of the scale": Case(
        "reading-beyond-scale",
        step(0, "at", 0),
        make_kit(sheet(cut("15 1/8", ["a", "b"]), size="18 x 12")),
        make_kit(sheet(cut(15, ["a", "b"]), size="18 x 12")),
    ),
    "a sixteenth on a scale of eighths": Case(
        "reading-off-mark",
        step(0, "at", 0),
        make_kit(sheet(cut("4 1/16", ["a", "b"]))),
        make_kit(sheet(cut("4 1/8", ["a", "b"]))),
        Severity.WARNING,
    ),
    "half a millimetre": Case(
        "reading-off-mark",
        step(0, "at", 0),
        make_kit(sheet(cut(100.5, ["a", "b"])), unit=Unit.MILLIMETRE),
        make_kit(sheet(cut("10.1 cm", ["a", "b"])), unit=Unit.MILLIMETRE),
        Severity.WARNING,
    ),
    "a strip of 1 3/4 cut down the middle": Case(
        "narrow-hold",
        step(1, "at", 0),
        make_kit(sheet(cut("1 3/4", ["strip", "rest"]), cut("7/8", ["a", "b"], take="strip"))),
        make_kit(sheet(cut("1 7/8", ["strip", "rest"]), cut("7/8", ["a", "b"], take="strip"))),
    ),
    "a hand needs 25 mm of a metric strip": Case(
        "narrow-hold",
        step(1, "at", 0),
        make_kit(sheet(cut(48, ["strip", "rest"]), cut(24, ["a", "b"], take="strip")), unit=Unit.MILLIMETRE),
        make_kit(sheet(cut(49, ["strip", "rest"]), cut(24, ["a", "b"], take="strip")), unit=Unit.MILLIMETRE),
    ),
    "the last cut of a step leaves nothing to hold": Case(
        "narrow-hold",
        step(0, "at", 1),
        make_kit(sheet(cut(["1 1/2", "3/4"], ["a", "b", "rest"]))),
        make_kit(sheet(cut(["1 3/4", "3/4"], ["a", "b", "rest"]))),
    ),
    "away from zero, too, what is cut off is not in the hand": Case(
        "narrow-hold",
        step(0, "at", 1),
        make_kit(sheet(cut(["10 1/4", "11 1/8"], ["a", "b", "c"]))),
        make_kit(sheet(cut(["10 1/8", "11 1/8"], ["a", "b", "c"]))),
    ),
    "away from zero only the nearest cut below counts": Case(
        "narrow-hold",
        step(0, "at", 2),
        make_kit(sheet(cut([3, "10 1/4", "11 1/8"], ["a", "b", "c", "d"]))),
        make_kit(sheet(cut([3, "10 1/8", "11 1/8"], ["a", "b", "c", "d"]))),
    ),
    "a safe hold of the member's own": Case(
        "narrow-hold",
        step(0, "at", 0),
        make_kit(sheet(cut(6, ["a", "b"])), trimmer={"hold": "6 1/8"}),
        make_kit(sheet(cut(6, ["a", "b"])), trimmer={"hold": "6"}),
    ),
    "the left hand runs the blade, and little lies where the right one holds": Case(
        "hold-across-blade",
        step(0, "at", 0),
        make_kit(sheet(cut(["11 1/8", 6], ["a", "b", "c"])), trimmer={"hand": "left"}),
        make_kit(sheet(cut([11, 6], ["a", "b", "c"])), trimmer={"hand": "left"}),
        Severity.WARNING,
    ),
    "the right hand runs the blade, and little lies where the left one holds": Case(
        "hold-across-blade",
        step(0, "at", 1),
        make_kit(sheet(cut([6, "7/8"], ["a", "b", "c"])), trimmer={"hand": "right"}),
        make_kit(sheet(cut([6, 1], ["a", "b", "c"])), trimmer={"hand": "right"}),
        Severity.WARNING,
    ),
    "whichever hand runs the blade where it is not said": Case(
        "hold-across-blade",
        step(0, "at", 0),
        make_kit(sheet(cut("7/8", ["a", "b"])), trimmer={"hand": "right"}),
        make_kit(sheet(cut("7/8", ["a", "b"]))),
        Severity.WARNING,
    ),
    "a size of no piece": Case(
        "size-of-nothing",
        ("sheets", 0, "sizes", "panle"),
        make_kit(sheet(cut(8, ["panel", "b"]), sizes={"panle": "8 x 12"})),
        make_kit(sheet(cut(8, ["panel", "b"]), sizes={"panel": "8 x 12"})),
    ),
    "a size of scrap": Case(
        "size-of-nothing",
        ("sheets", 0, "sizes", "scrap"),
        make_kit(sheet(cut(8, ["panel", "scrap"]), sizes={"scrap": "4 x 12"})),
        make_kit(sheet(cut(8, ["panel", "scrap"]), sizes={"panel": "8 x 12"})),
    ),
    "a size that the cuts do not give": Case(
        "size-differs",
        ("sheets", 0, "sizes", "panel"),
        make_kit(sheet(cut(8, ["panel", "b"]), sizes={"panel": "8 1/8 x 12"})),
        make_kit(sheet(cut(8, ["panel", "b"]), sizes={"panel": "12 x 8"})),
    ),
    "a printed piece stated lying on its side": Case(
        "size-differs",
        ("sheets", 0, "sizes", "panel"),
        make_kit(sheet(cut(8, ["panel", "b"]), paper="shingle", sizes={"panel": "12 x 8"})),
        make_kit(sheet(cut(8, ["panel", "b"]), paper="shingle", sizes={"panel": "8 x 12"})),
    ),
    "an element of a plain cut-apart stated lying on its side": Case(
        "size-differs",
        ("sheets", 0, "sizes", "sun"),
        make_kit(sheet(cut(6), elements=SUN_AND_MOON, sizes={"sun": "12 x 6"})),
        make_kit(sheet(cut(6), elements=SUN_AND_MOON, sizes={"sun": "6 x 12"})),
    ),
    "a plain edge of a cut-apart stated lying on its side": Case(
        "size-lies",
        ("sheets", 0, "sizes", "edge"),
        make_kit(
            sheet(cut([11, 6], ["sun", "moon", "edge"]), elements=SUN_AND_MOON, sizes={"edge": "12 x 1"})
        ),
        make_kit(
            sheet(cut([11, 6], ["sun", "moon", "edge"]), elements=SUN_AND_MOON, sizes={"edge": "1 x 12"})
        ),
        Severity.NOTE,
    ),
    "a plain piece stated lying on its side": Case(
        "size-lies",
        ("sheets", 0, "sizes", "panel"),
        make_kit(sheet(cut(8, ["panel", "b"]), sizes={"panel": "12 x 8"})),
        make_kit(sheet(cut(8, ["panel", "b"]), sizes={"panel": "8 x 12"})),
        Severity.NOTE,
    ),
    "a name stands for what is left under it at the end": Case(
        "size-differs",
        ("sheets", 0, "sizes", "mat"),
        make_kit(sheet(cut(6, ["mat", "b"]), cut(5, ["mat", "scrap"], take="mat"), sizes={"mat": "6 x 12"})),
        make_kit(sheet(cut(6, ["mat", "b"]), cut(5, ["mat", "scrap"], take="mat"), sizes={"mat": "5 x 12"})),
    ),
    "print on the back alone shows which way a piece stands": Case(
        "size-differs",
        ("sheets", 0, "sizes", "panel"),
        make_kit(sheet(cut(8, ["panel", "b"]), paper="lined", sizes={"panel": "12 x 8"}), papers=LINED),
        make_kit(sheet(cut(8, ["panel", "b"]), paper="lined", sizes={"panel": "8 x 12"}), papers=LINED),
    ),
    "a piece that is cut on is checked as it was": Case(
        "size-differs",
        ("sheets", 0, "sizes", "panel"),
        make_kit(sheet(cut(6, ["panel", "b"]), cut(5, ["c", "d"], take="panel"), sizes={"panel": "5 x 12"})),
        make_kit(sheet(cut(6, ["panel", "b"]), cut(5, ["c", "d"], take="panel"), sizes={"panel": "6 x 12"})),
    ),
    "a sheet's own size": Case(
        "size-differs",
        ("sheets", 0, "sizes", "sheet"),
        make_kit(sheet(cut(6, ["a", "b"]), sizes={"sheet": "12 x 12 1/2"})),
        make_kit(sheet(cut(6, ["a", "b"]), sizes={"sheet": "12 x 12"})),
    ),
    "two names for three pieces": Case(
        "leaves-count",
        step(0, "leaves"),
        make_kit(sheet(cut([8, 4], ["a", "b"]))),
        make_kit(sheet(cut([8, 4], ["a", "b", "scrap"]))),
    ),
    "four names for three pieces": Case(
        "leaves-count",
        step(0, "leaves"),
        make_kit(sheet(cut([8, 4], ["a", "b", "c", "d"]))),
        make_kit(sheet(cut([8, 4], ["a", "b", "c"]))),
    ),
    "two names for three papers": Case(
        "leaves-papers",
        step(1, "leaves", 0),
        make_kit(three_strips("a", "b")),
        make_kit(three_strips("a", "b", "c")),
    ),
    "a name for each of two papers where one is cut": Case(
        "leaves-papers",
        step(0, "leaves", 1),
        make_kit(sheet(cut(6, ["a", ["b", "c"]]))),
        make_kit(sheet(cut(6, ["a", ["b", "b"]]), count=2)),
    ),
    "a whole sheet that is rounded": Case(
        "work-before-cuts",
        step(0, "round"),
        make_kit(sheet({"round": "sheet", "radius": 1})),
        make_kit(sheet(cut(6, ["a", "b"]), {"round": "a", "radius": 1})),
    ),
    "work on a piece that is not there": Case(
        "work-on-missing",
        step(1, "punch"),
        make_kit(sheet(cut(6, ["tag", "b"]), {"punch": "tga", "corners": "all"})),
        make_kit(sheet(cut(6, ["tag", "b"]), {"punch": "tag", "corners": "all"})),
    ),
    "a snip at the far edge": Case(
        "snip-beyond",
        step(1, "at"),
        make_kit(sheet(cut(6, ["tag", "b"]), {"snip": "tag", "at": [3, 6], "leaves": ["c", "d", "e"]})),
        make_kit(sheet(cut(6, ["tag", "b"]), {"snip": "tag", "at": [3, "5 7/8"], "leaves": ["c", "d", "e"]})),
    ),
    "two snips and two parts": Case(
        "snip-leaves",
        step(1, "leaves"),
        make_kit(sheet(cut(6, ["tag", "b"]), {"snip": "tag", "at": [3, 4], "leaves": ["c", "d"]})),
        make_kit(sheet(cut(6, ["tag", "b"]), {"snip": "tag", "at": [3], "leaves": ["c", "d"]})),
    ),
    "trimmed to more than there is": Case(
        "trim-too-large",
        step(1, "size"),
        make_kit(sheet(cut(6, ["tag", "b"]), {"trim_round": "tag", "size": "6 1/8 x 5"})),
        make_kit(sheet(cut(6, ["tag", "b"]), {"trim_round": "tag", "size": "6 x 5"})),
    ),
    "a rounded piece that is cut": Case(
        "work-too-early",
        step(2, "take"),
        make_kit(sheet(HALVES, {"round": "tag", "radius": 1}, cut(3, ["c", "d"], take="tag"))),
        make_kit(sheet(HALVES, cut(3, ["c", "d"], take="tag"), {"round": "c", "radius": 1})),
    ),
    "a punched piece that is snipped": Case(
        "work-too-early",
        step(2, "snip"),
        make_kit(sheet(HALVES, HOLE, {"snip": "tag", "at": 3, "leaves": ["c", "d"]})),
        make_kit(sheet(HALVES, {"snip": "tag", "at": 3, "leaves": ["tag", "d"]}, HOLE)),
    ),
    "a punched piece that is trimmed": Case(
        "work-too-early",
        step(2, "trim_round"),
        make_kit(sheet(HALVES, HOLE, {"trim_round": "tag", "size": "5 x 5"})),
        make_kit(sheet(HALVES, HOLE, {"trim_round": "tag"})),
    ),
    "corners rounder than the piece": Case(
        "radius-too-large",
        step(1, "radius"),
        make_kit(sheet(HALVES, {"round": "tag", "radius": "3 1/8"})),
        make_kit(sheet(HALVES, {"round": "tag", "radius": 3})),
    ),
    "a punch of nothing": Case(
        "punch-what",
        step(1, "punch"),
        make_kit(sheet(HALVES, {"punch": "tag"})),
        make_kit(sheet(HALVES, {"punch": "tag", "corners": "top left"})),
    ),
    "a hole measured from both sides": Case(
        "hole-twice",
        step(1, "punch"),
        make_kit(sheet(HALVES, {**HOLE, "left": 1, "right": 1})),
        make_kit(sheet(HALVES, {**HOLE, "left": 1, "top": 1})),
    ),
    "a hole that breaks an edge": Case(
        "hole-off-piece",
        step(1, "hole"),
        make_kit(sheet(HALVES, {**HOLE, "left": "5 1/2"})),
        make_kit(sheet(HALVES, {**HOLE, "left": "5 3/8"})),
    ),
    "no names at all on a sheet without elements": Case(
        "leaves-count",
        step(0),
        make_kit(sheet(cut(6))),
        make_kit(sheet(cut(6), elements=SUN_AND_MOON)),
    ),
    "a second step that takes nothing": Case(
        "cut-takes-nothing",
        step(1),
        make_kit(sheet(cut(8, ["a", "b"]), cut(4, ["c", "d"]))),
        make_kit(sheet(cut(8, ["a", "b"]), cut(4, ["c", "d"], take="a"))),
    ),
    "a piece that is not there": Case(
        "cut-takes-missing",
        step(1, "take", 0),
        make_kit(sheet(cut(8, ["panel", "b"]), cut(4, ["c", "d"], take="panle"))),
        make_kit(sheet(cut(8, ["panel", "b"]), cut(4, ["c", "d"], take="panel"))),
    ),
    "a piece that is cut up already": Case(
        "cut-takes-missing",
        step(2, "take", 0),
        make_kit(sheet(cut(8, ["a", "b"]), cut(4, ["c", "d"], take="a"), cut(2, ["e", "f"], take="a"))),
        make_kit(sheet(cut(8, ["a", "b"]), cut(4, ["a", "d"], take="a"), cut(2, ["e", "f"], take="a"))),
    ),
    "scrap is not taken again": Case(
        "cut-takes-missing",
        step(1, "take", 0),
        make_kit(sheet(cut(8, ["a", "scrap"]), cut(2, ["c", "d"], take="scrap"))),
        make_kit(sheet(cut(8, ["a", "remnant"]), cut(2, ["c", "d"], take="remnant"))),
    ),
    "more of a name than there are": Case(
        "cut-takes-missing",
        step(1, "take", 2),
        make_kit(sheet(cut([8, 4], ["a", "a", "b"]), cut(2, ["c", "d"], take=["a", "a", "a"]))),
        make_kit(sheet(cut([8, 4], ["a", "a", "a"]), cut(2, ["c", "d"], take=["a", "a", "a"]))),
    ),
    "pieces that differ by an eighth": Case(
        "cut-together-sizes",
        step(1, "take"),
        make_kit(sheet(cut("6 1/8", ["a", "b"]), cut(4, ["c", "d"], take=["a", "b"]))),
        make_kit(sheet(cut(6, ["a", "b"]), cut(4, ["c", "d"], take=["a", "b"]))),
    ),
    "two pieces of 4 x 8, one of them lying on its side": Case(
        "cut-together-sizes",
        step(4, "take"),
        make_kit(sheet(*THREE_OF_4_X_8, cut(2, ["c", "d"], take=["tall", "broad"]))),
        make_kit(sheet(*THREE_OF_4_X_8, cut(2, ["c", "d"], take=["long", "broad"]))),
    ),
    "four papers in one pass": Case(
        "cut-together-many",
        step(1, "take"),
        make_kit(sheet(cut([9, 6, 3], ["a"] * 4), cut(1, ["c", "d"], take=["a"] * 4))),
        make_kit(sheet(cut([9, 6, 3], ["a"] * 4), cut(1, ["c", "d"], take=["a"] * 3))),
    ),
    "four sheets alike in one pass": Case(
        "cut-together-many",
        ("sheets", 0, "count"),
        make_kit(sheet(cut(6, ["a", "b"]), count=4)),
        make_kit(sheet(cut(6, ["a", "b"]), count=3)),
    ),
    "a trimmer that takes one paper": Case(
        "cut-together-many",
        ("sheets", 0, "count"),
        make_kit(sheet(cut(6, ["a", "b"]), count=2), trimmer={"together": 1}),
        make_kit(sheet(cut(6, ["a", "b"], take="sheet"), count=2), trimmer={"together": 1}),
    ),
    "spare of a piece that is not cut": Case(
        "spare-missing",
        ("sheets", 0, "spare", 0),
        make_kit(sheet(cut(6, ["panel", "b"]), spare="panle")),
        make_kit(sheet(cut(6, ["panel", "b"]), spare="panel")),
    ),
    "more spare than cut": Case(
        "spare-missing",
        ("sheets", 0, "spare", 2),
        make_kit(sheet(cut([8, 4], ["a", "a", "b"]), spare=["a", "a", "a"])),
        make_kit(sheet(cut([8, 4], ["a", "a", "a"]), spare=["a", "a", "a"])),
    ),
    "scrap is spare already": Case(
        "spare-missing",
        ("sheets", 0, "spare", 0),
        make_kit(sheet(cut(6, ["a", "scrap"]), spare="scrap")),
        make_kit(sheet(cut(6, ["a", "remnant"]), spare="remnant")),
    ),
    "a sheet called scrap": Case(
        "name-reserved", ("sheets", 0, "id"), make_kit(sheet(id="scrap")), make_kit(sheet(id="scraps"))
    ),
    "an element called scrap": Case(
        "name-reserved",
        ("sheets", 0, "elements", 1, "name"),
        make_kit(sheet(cut(6), elements=[element("sun", 1, 1), element("scrap", 7, 1)])),
        make_kit(sheet(cut(6), elements=[element("sun", 1, 1), element("scrap of sky", 7, 1)])),
    ),
    "an element over the right edge": Case(
        "element-off-sheet",
        ("sheets", 0, "elements", 0),
        make_kit(sheet(elements=[element("sun", "9 1/16", 1)])),
        make_kit(sheet(elements=[element("sun", 9, 1)])),
    ),
    "an element above the top edge": Case(
        "element-off-sheet",
        ("sheets", 0, "elements", 0),
        make_kit(sheet(elements=[element("sun", 1, "-1/16")])),
        make_kit(sheet(elements=[element("sun", 1, 0)])),
    ),
    "elements printed over each other": Case(
        "elements-overlap",
        ("sheets", 0, "elements", 1),
        make_kit(sheet(elements=[element("sun", 1, 1), element("moon", "3 15/16", "3 15/16")])),
        make_kit(sheet(elements=[element("sun", 1, 1), element("moon", 4, "3 15/16")])),
    ),
    "elements with a gap that no cut is meant for": Case(
        "elements-nearly-meet",
        ("sheets", 0, "elements", 1),
        make_kit(sheet(elements=[element("sun", 1, 1), element("moon", "4 1/32", 1)])),
        make_kit(sheet(elements=[element("sun", 1, 1), element("moon", "4 1/16", 1)])),
        Severity.WARNING,
    ),
    "an element that all but reaches the edge of its sheet": Case(
        "elements-nearly-meet",
        ("sheets", 0, "elements", 0),
        make_kit(sheet(elements=[element("sun", "8 31/32", 1)])),
        make_kit(sheet(elements=[element("sun", "8 15/16", 1)])),
        Severity.WARNING,
    ),
    "an element that begins in line with the one beside it, and ends beyond it": Case(
        "elements-nearly-meet",
        ("sheets", 0, "elements", 1),
        make_kit(sheet(elements=[element("sun", 1, 1), element("moon", 4, 1, "3 x 3 1/32")])),
        make_kit(sheet(elements=[element("sun", 1, 1), element("moon", 4, "31/32", "3 x 3 1/16")])),
        Severity.WARNING,
    ),
    "register marks that cannot be seen": Case(
        "marks-face-down",
        ("sheets", 0, "lay", "face"),
        make_kit(sheet(cut(6), elements=SUN_AND_MOON, lay={"face": "back"})),
        make_kit(sheet(cut(6), elements=SUN_AND_MOON, lay={"face": "front"})),
        Severity.WARNING,
    ),
    "a cut through an element": Case(
        "cut-through-element",
        step(0, "at", 0),
        make_kit(sheet(cut("3 15/16", ["left", "moon"]), elements=SUN_AND_MOON)),
        make_kit(sheet(cut(4, ["sun", "moon"]), elements=SUN_AND_MOON)),
    ),
    "an element in scrap": Case(
        "element-in-scrap",
        step(0, "leaves", 1),
        make_kit(sheet(cut(6, ["sun", "scrap"]), elements=SUN_AND_MOON)),
        make_kit(sheet(cut(6, ["sun", "scrap"]), elements=SUN_AND_MOON[:1])),
    ),
    "a strip of two elements without a name": Case(
        "strip-unnamed",
        step(0),
        make_kit(sheet(cut(11), elements=SUN_AND_MOON)),
        make_kit(sheet(cut(6), elements=SUN_AND_MOON)),
    ),
    "a strip of two elements that is never cut on": Case(
        "element-not-cut-out",
        step(0, "leaves", 0),
        make_kit(sheet(cut(11, ["row", "scrap"]), elements=SUN_AND_MOON)),
        make_kit(sheet(cut(11, ["row", "scrap"]), cut(6, take="row"), elements=SUN_AND_MOON)),
    ),
    "a piece with another name than its element": Case(
        "element-not-cut-out",
        step(0, "leaves", 0),
        make_kit(sheet(cut(6, ["sunshine", "moon"]), elements=SUN_AND_MOON)),
        make_kit(sheet(cut(6, ["sun", "moon"]), elements=SUN_AND_MOON)),
    ),
    "a cut-apart that is never cut": Case(
        "element-not-cut-out",
        ("sheets", 0),
        make_kit(sheet(elements=SUN_AND_MOON)),
        make_kit(sheet(cut(6), elements=SUN_AND_MOON)),
    ),
    "a strip that is not cut from the printed border": Case(
        "edge-differs",
        ("sheets", 0, "wishes", "edge", "border strip"),
        make_kit(sheet(cut(2, ["edging", "border strip"]), **wished("border strip", "wave border"))),
        make_kit(sheet(cut(2, ["border strip", "field"]), **wished("border strip", "wave border"))),
    ),
    "one of two that have an eighth between them and the foot of the sheet": Case(
        "edge-differs",
        ("sheets", 0, "wishes", "edge", "corner"),
        make_kit(sheet(*TO_CORNERS, cut("1/8", ["scrap", "corner"], take="second"), **wished("corner"))),
        make_kit(sheet(*TO_CORNERS, cut(2, ["corner", "scrap"], take="second"), **wished("corner"))),
    ),
    "an edge wished for of a piece that is not cut": Case(
        "wish-for-nothing",
        ("sheets", 0, "wishes", "edge", "border strop"),
        make_kit(sheet(cut(2, ["border strip", "field"]), **wished("border strop", "wave border"))),
        make_kit(sheet(cut(2, ["border strip", "field"]), **wished("border strip", "wave border"))),
    ),
    "a piece named after an element that lies elsewhere": Case(
        "element-not-in-piece",
        step(0, "leaves", 2),
        make_kit(sheet(cut([11, 6], ["sun", "moon", "sun"]), elements=SUN_AND_MOON)),
        make_kit(sheet(cut([11, 6], ["sun", "moon", "edge"]), elements=SUN_AND_MOON)),
    ),
}


def found_in(kit: Kit, id: str) -> list[Finding]:
    return [finding for one in cut_kit(kit) for finding in one.findings if finding.id == id]


@pytest.mark.parametrize("case", CASES.values(), ids=CASES.keys())
def test_the_fault_is_found_where_it_stands(case: Case) -> None:
    assert_told_once(case, found_in(case.faulty, case.id))


@pytest.mark.parametrize("case", CASES.values(), ids=CASES.keys())
def test_just_inside_nothing_is_found(case: Case) -> None:
    assert found_in(case.sound, case.id) == []


def test_no_finding_of_this_stage_goes_untested() -> None:
    folder = Path(str(booklet.cutting.__file__)).parent
    assert finding_ids(folder) == {case.id for case in CASES.values()}


def test_a_fault_is_said_once_however_many_sheets_are_cut_together() -> None:
    kit = make_kit(sheet(cut("3 1/2", ["left", "moon"]), elements=SUN_AND_MOON, count=3))
    assert ids(cut_kit(kit)[0].findings) == ["cut-through-element"]


def test_an_element_that_is_cut_through_is_not_blamed_on_later_cuts() -> None:
    kit = make_kit(
        sheet(
            cut("3 1/2", ["left", "moon"]),
            cut(6, ["low", "high"], take="left", turn="clockwise"),
            elements=SUN_AND_MOON,
        )
    )
    assert [finding.where for finding in found_in(kit, "cut-through-element")] == [step(0, "at", 0)]


def test_only_the_reading_that_runs_through_an_element_is_blamed() -> None:
    kit = make_kit(sheet(cut([8, 6], ["sun", "a", "b"]), elements=SUN_AND_MOON))
    assert [finding.where for finding in found_in(kit, "cut-through-element")] == [step(0, "at", 0)]


@pytest.mark.parametrize(
    ("reading", "mark", "cure"),
    [
        ("4 1/16", "1/8", "the nearest mark is 4"),
        ("4 3/32", "1/8", "the nearest mark is 4 1/8"),
        ("1/64", "1/8", "the nearest mark is 1/8"),
        ("11 63/64", "1/8", "the nearest mark is 11 7/8"),
        ("7", "16", "no mark lies on so narrow a piece"),
    ],
)
def test_the_mark_that_is_advised_can_be_cut(reading: str, mark: str, cure: str) -> None:
    kit = make_kit(sheet(cut(reading, ["a", "b"])), trimmer={"mark": mark})
    (finding,) = found_in(kit, "reading-off-mark")
    assert finding.cure == cure


def test_a_reading_barely_off_a_mark_is_reported_exactly() -> None:
    kit = make_kit(sheet(cut("2.000000001", ["a", "b"])))
    (finding,) = found_in(kit, "reading-off-mark")
    assert finding.found == "2.000000001 is on no mark of a scale in 1/8 (trimmer: mark)"
    assert finding.cure == "the nearest mark is 2"


def test_a_misspelt_piece_is_answered_with_the_nearest_one() -> None:
    kit = make_kit(sheet(cut(8, ["panel", "border"]), cut(4, ["c", "d"], take="Panle")))
    (finding,) = found_in(kit, "cut-takes-missing")
    assert finding.cure == 'did you mean "panel"?'


def test_readings_on_register_marks_need_no_mark_of_the_scale() -> None:
    done = cut_kit(make_kit(sheet(cut("6 1/7"), elements=SUN_AND_MOON)))[0]
    assert done.findings == ()
    assert [one.approximate for one in done.stages[0].cuts] == [True]
    assert [piece.name for piece in done.pieces] == ["sun", "moon"]


def test_the_cuts_of_one_step_at_which_a_hand_crosses_over_are_told_together() -> None:
    kit = make_kit(sheet(cut(["11 1/4", "10 1/2", 6], ["a", "b", "c", "d"])), trimmer={"hand": "left"})
    (finding,) = found_in(kit, "hold-across-blade")
    assert finding.found == "at 11 1/4, 10 1/2 less than 1 (trimmer: hold) lies beyond the blade"


def test_what_no_hand_can_hold_is_not_said_to_want_the_other_hand() -> None:
    strip = sheet(cut("1 3/4", ["strip", "rest"]), cut("7/8", ["a", "b"], take="strip"))
    assert ids(cut_kit(make_kit(strip, trimmer={"hand": "left"}))[0].findings) == ["narrow-hold"]


@pytest.mark.parametrize(
    ("key", "id", "kit"),
    [
        ("mark", "reading-off-mark", make_kit(sheet(cut("6 1/3", ["a", "b"])))),
        ("reach", "reading-beyond-scale", make_kit(sheet(cut(16, ["a", "b"]), size="20 x 12"))),
        ("blade", "cut-longer-than-blade", make_kit(sheet(cut(6, ["a", "b"]), size="12 x 13"))),
        ("hold", "narrow-hold", make_kit(sheet(cut(["1 1/2", "3/4"], ["a", "b", "c"])))),
        ("together", "cut-together-many", make_kit(sheet(cut(6, ["a", "b"]), count=4))),
        ("hand", "hold-across-blade", make_kit(sheet(cut(0.5, ["a", "b"])), trimmer={"hand": "right"})),
    ],
)
def test_a_finding_names_the_key_of_the_trimmer_that_it_comes_from(key: str, id: str, kit: Kit) -> None:
    (finding,) = found_in(kit, id)
    assert f"(trimmer: {key})" in f"{finding.found} {finding.cure}"


def test_an_element_is_never_turned_to_the_size_that_is_stated() -> None:
    kit = make_kit(sheet(cut([11, 6], ["sun", "moon", "edge"]), elements=SUN_AND_MOON, sizes=SIDEWAYS))
    (done,) = cut_kit(kit)
    assert [(piece.name, piece.is_turned) for piece in done.pieces] == [
        ("sun", False),
        ("moon", False),
        ("edge", True),
    ]


def test_a_cut_too_long_says_how_long_the_blade_cuts() -> None:
    (finding,) = found_in(make_kit(sheet(cut(6, ["a", "b"]), size="12 x 13")), "cut-longer-than-blade")
    assert finding.found == "the cut is 13 long"
    assert finding.cure.startswith("the blade cuts 12 (trimmer: blade)")


def test_a_misspelt_spare_piece_is_answered_with_what_the_sheet_gives() -> None:
    (finding,) = found_in(make_kit(sheet(cut(6, ["a", "b"]), spare=["moonlight"])), "spare-missing")
    assert finding.cure == 'the sheet gives "a", "b"'
