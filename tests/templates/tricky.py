"""A small kit with whatever scissors, punches and needles do to a piece."""

TRICKY = """
title: Odd corners
publisher: Harbour Paper
unit: in
sheet: 12 x 12
papers:
  reed: {title: Reed, front: {pattern: stripes, colours: ["#dfe7d2", "#7f9a72"]}, edges: {left: long edge}}
  sand: {title: Sand, front: {colours: ["#efe3cf"]}, back: {colours: ["#efe3cf"]}}
sheets:
  - id: reed
    paper: reed
    cuts:
      - {at: [9, 5], leaves: [wide strip, panel, band]}
      - {take: wide strip, turn: clockwise, at: [8, 4], leaves: [card, flap, note]}
      - {take: panel, turn: clockwise, at: [6], leaves: [mat, long card]}
    sizes: {card: 5 x 4, flap: 5 x 4, note: 5 x 4, mat: 4 x 6, long card: 4 x 6}
  - {id: sand, paper: sand, count: 2}
ready:
  - {name: parcel tag, size: 2 x 4, paper: sand, outline: tag}
  - {name: moon, size: 2 x 2, paper: sand, outline: circle}
supplies:
  - {id: stars, kind: stencil, title: Star stencil, size: 3 x 2, repeat: 1 x 1, count: 1}
  - {id: thread, kind: ribbon, title: Red thread, length: 30, width: 1/16, colour: "#8d2b2b"}
bring: [a corner rounder, a corner punch, a hole punch, a needle, a pencil, an adhesive]
layouts:
  - id: left page
    pocket: 1
    facing: right page
    base: sand
    steps:
      - {round: card, corners: [top left, bottom right], radius: 1/2}
      - {punch: card, hole: 1/4, left: 1/2, bottom: 3/8}
      - {place: card, face: back, turn: clockwise, left: 1, top: 1}
      - {place: mat, left: 1, bottom: 1/2}
      - {punch: mat, corners: all, shape: a scallop}
      - {stencil: stars, size: 3 x 2, on: mat, left: 1/2, top: 3/4}
      - {place: flap, called: laid flap, left: 6, top: 1 1/2, tilt: 8}
      - {stitch: [laid flap, page], along: top, inset: 1/4, length: 3/8, spacing: 1/8, thread: thread}
      - {place: long card, turn: clockwise, spread: yes, left: 9, bottom: 1}
  - id: right page
    pocket: 1
    base: sand
    steps:
      - {other_half: long card}
      - {snip: note, at: 2, leaves: [short note, long note]}
      - {snip: long note, at: 2, leaves: [middle note, scrap]}
      - {place: short note, left: 5, top: 1}
      - {place: middle note, left: 8, top: 1}
      - {place: band, run: across, top: 6}
      - {place: parcel tag, turn: clockwise, left: 1, top: 1}
      - {place: moon, left: 1, top: 4, overhang: yes}
"""
