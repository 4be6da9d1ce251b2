"""The spec that `booklet new` writes: small, commented, and it builds."""

from __future__ import annotations

STARTER_NAME = "kit.yaml"

STARTER_SPEC = """\
# A kit spec: one YAML file from which `booklet make` computes every cut, draws every sheet and lays out
# the booklet.  Lengths are typed as they are said: 6 1/4, 6-1/4, 6.25, 6 1/4 in, 108 mm.  A bare number is
# in the kit's unit.  `booklet check kit.yaml` tells what is wrong and where.

title: First kit
publisher: Your name here
unit: in                # in, mm or cm
page: half letter       # or a5, letter, a4, square 6 in, square 15 cm
accent: "#1d5c7a"       # one colour for the whole booklet; a colour always needs its quotes
sheet: 12 x 12          # the size of every sheet that does not say otherwise

# What each paper looks like.  A face is a pattern in its colours, the ground first, or an image file that
# lies beside this spec.  `edges` are the words that a member knows an edge by.
papers:
  ripple:
    title: Ripple
    front:
      pattern: waves
      colours: ["#dbe8e6", "#9fc3c1"]
      borders: [{edge: left, width: 3/4, colour: "#2f6f73", style: band}]
    edges: {left: dark border}
  plain-sand:
    title: Sand
    front: {colours: ["#f1e7d6"]}
    back: {colours: ["#f1e7d6"]}
  plain-teal:
    title: Teal
    front: {colours: ["#2f6f73"]}
    back: {colours: ["#2f6f73"]}

# The sheets, in the order in which they are cut.  A cut step says the readings in cutting order, the largest
# first, and names what then lies between them, from the scale's zero outwards.
sheets:
  - id: ripple
    paper: ripple
    lay: {face: front, left: dark border}
    cuts:
      - at: [9, 2]
        leaves: [border strip, broad panel, side strip]
      - take: broad panel
        turn: clockwise
        at: [11, 8]
        leaves: [panel, title block, scrap]
    sizes: {panel: 7 x 8}          # stated again on purpose: checked against the cuts
  - id: sand                       # no cuts: used whole, as a base
    paper: plain-sand

# What comes ready-cut in the box.
ready:
  - {name: photo mat, size: 4 1/4 x 6 1/4, paper: plain-teal, count: 1}

bring: [a photograph of 4 x 6, "a pen that does not bleed", an adhesive for paper]

# The finished pages.  Steps stand in the order of assembly; every position is said once across and once down.
layouts:
  - id: first-page
    title: First page
    pocket: 1
    base: sand
    steps:
      - {place: border strip, left: 0, top: 0}
      - {place: side strip, right: 0, top: 0}
      - {place: panel, left: 2 1/2, top: 1/2, say: "The panel covers the side strip's edge by half an inch."}
      - {place: photo mat, on: panel}
      - {photo: 4 x 6, on: photo mat}
      - {place: title block, below: panel, gap: 1/4, flush: left}
      - {write: 6 x 2, on: title block}
"""
