"""Kits for the content before cutting, of sorting and at the end, from the text of a spec."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from booklet.kit.load import load_kit, parse_kit
from booklet.placing.resolved import ResolvedKit, resolve_kit

SPECS = Path(__file__).parents[2] / "kit_specs"
DEMOS = ("hill-line", "roof-garden")

SMALL = """
title: Low Tide
publisher: Harbour Paper
unit: in
sheet: 12 x 12
papers:
  shingle:
    title: Shingle print
    front: {pattern: waves, colours: ["#dfe9ec", "#5d8794"]}
    edges: {left: wave border}
  sand: {title: Sand, front: {colours: ["#efe3cf"]}, back: {colours: ["#efe3cf"]}}
sheets:
  - id: shingle
    paper: shingle
    lay: {left: wave border}
    cuts:
      - {at: [8, 2 1/2], leaves: [strip, panel, strap]}
      - {take: panel, turn: clockwise, at: [7], leaves: [tall panel, scrap]}
  - {id: sand, paper: sand}
layouts:
  - id: ebb
    pocket: 1
    base: sand
    steps:
      - {place: strip, left: 0, top: 0}
      - {place: strap, right: 0, top: 0}
      - {place: tall panel, left: 3, top: 1}
"""

# The strap is 4 x 12: 4 of it, then 5 of it in 1 and 3, the rest is scrap.
SNIPPED = SMALL.replace(
    "      - {place: strap, right: 0, top: 0}\n",
    """
      - {snip: strap, measured_from: top, at: [4, 9], leaves: [head, middle, scrap]}
      - {snip: middle, at: 1, leaves: [thin, wide]}
      - {place: head, left: 6, top: 0}
      - {place: thin, left: 3, top: 1}
      - {place: wide, left: 4, top: 1, optional: yes}
""",
).replace("{place: tall panel,", "{place: tall panel, optional: yes,")


@cache
def demo(name: str) -> ResolvedKit:
    """A kit that comes with the project."""
    return resolve_kit(load_kit(SPECS / f"{name}.yaml"))


def resolved_spec(text: str) -> ResolvedKit:
    """The kit of a spec's text."""
    return resolve_kit(parse_kit(text, "kit.yaml", SPECS))
