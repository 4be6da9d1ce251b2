"""The kits whose booklets are read back, and how each is made: once in a run of the tests."""

from __future__ import annotations

import os
import time
from dataclasses import dataclass, field, replace
from functools import cache, cached_property
from pathlib import Path
from typing import Any

import yaml

from booklet.cli.starter import STARTER_SPEC
from booklet.content.blocks import Document
from booklet.content.document import document
from booklet.content.spans import plain_text
from booklet.content.words.language import ENGLISH
from booklet.kit.load import load_kit, parse_kit
from booklet.placing.resolved import ResolvedKit, resolve_kit
from tests.finished.book import Book, squeezed
from tests.once import laid_once, read_once, written_once
from tests.spec_data import DEMOS

SPECS = Path(__file__).parents[2] / "kit_specs"

# Nine pieces from two sheets, two layouts, words wherever a designer may put some.
PLAIN = """
title: A Week Outdoors
publisher: Harbour Paper
unit: in
sheet: 12 x 12
welcome: "Nine pieces, two pages, one evening. Don't hurry."
cautions: [The blade is sharper than it looks.]
pocket_tips: {1: Lay the bands side by side before you glue them.}
bring: [a paper trimmer, an adhesive for paper]
papers:
  reed: {title: Reed, front: {pattern: stripes, colours: ["#dfe7d2", "#7f9a72"]}, edges: {left: long edge}}
  drops: {title: Drops, front: {pattern: dots, colours: ["#dbe6ee", "#4f7390"]}}
  sand: {title: Sand, front: {colours: ["#efe3cf"]}, back: {colours: ["#efe3cf"]}}
sheets:
  - id: reed
    paper: reed
    lay: {left: long edge}
    tip: Hold the sheet flat with the whole hand.
    cuts:
      - {at: [10, 6], leaves: [wide strip, panel, band]}
      - take: wide strip
        turn: clockwise
        tip: The strip slips easily. Press it down.
        at: [8, 4]
        leaves: [mat, mat, mat]
    sizes: {panel: 4 x 12, mat: 6 x 4}
  - id: drops
    paper: drops
    cuts:
      - {at: [9 1/2, 3 3/4], leaves: [border, centre, ribbon strip]}
      - {take: centre, turn: clockwise, at: [6 1/8], leaves: [card, tall card]}
    sizes: {border: 3 3/4 x 12, card: 5 3/4 x 6 1/8}
  - {id: sand, paper: sand, count: 2}
supplies:
  - {id: cord, kind: ribbon, title: Waxed cord, length: 20, width: 1/8, colour: "#8d5a3b"}
layouts:
  - id: morning
    title: Morning
    pocket: 1
    facing: evening
    base: sand
    story: Nobody else was up.
    tip: A pale photograph looks best here.
    steps:
      - {place: band, turn: clockwise, left: 0, top: 1 1/4}
      - {place: panel, left: 7 3/4, top: 0, tip: Press its long edges last.}
      - {place: mat, left: 2, bottom: 1 1/8}
      - {photo: 3 x 4, on: mat}
      - {place: card, left: 1, above: mat, gap: 3/8, say: It stands a little way above the mat.}
  - id: evening
    title: Evening
    pocket: 1
    base: sand
    story: The lamps came on along the shore.
    steps:
      - {place: border, right: 0, top: 0}
      - {place: ribbon strip, left: 1/2, top: 0}
      - {place: tall card, left: 2, top: 3/4}
      - {place: mat, below: tall card, gap: 1/4, flush: left}
      - {place: mat, tucked: border, right: 2 1/8, bottom: 1/2, tilt: 3}
      - {ribbon: cord, run: across, top: 10, ends: 1}
"""

# Names that no column holds in one piece, and readings in millimetres.
LONG_NAMES = """
title: Sommernachtslaternenwanderung
publisher: Papierwerkstatt Hinterwaldwiesenbach
unit: mm
sheet: 305 x 305
page: a5
accent: "#6b3f7a"
welcome: Everything here has a long name, and every name stands whole.
papers:
  nacht:
    title: Mitternachtsschwarz mit Sternenstaubglitzer
    front: {pattern: dots, colours: ["#2b2b3d", "#d9b45f"]}
    back: {colours: ["#3d3a55"]}
    edges: {left: Sternschnuppenrandstreifen}
  blatt:
    title: Herbstblätterdurcheinander
    front: {pattern: leaves, colours: ["#8a5a2b", "#d99a4e", "#e9d9b0"]}
    edges: {top: Baumkronenkante}
  grund: {title: Pergamentgrundbogen, front: {colours: ["#efe6d2"]}, back: {colours: ["#efe6d2"]}}
sheets:
  - id: nacht
    paper: nacht
    lay: {left: Sternschnuppenrandstreifen}
    tip: Der Sternschnuppenrandstreifen gehört an den Anschlag.
    cuts:
      - at: [295, 215, 205, 195, 130]
        leaves:
          - Laternenanzünderinnenbogen
          - Mondscheinpromenadenstreifen
          - Zierleiste
          - Zierleiste
          - Hintergrundtafel
          - scrap
      - take: Laternenanzünderinnenbogen
        turn: clockwise
        tip: Langsam schneiden, denn die Glitzerkörnchen springen.
        at: [290, 187, 84]
        leaves: [Erinnerungskärtchen, Blätterhintergrundtafel, Blätterhintergrundtafel, scrap]
    sizes: {Erinnerungskärtchen: 84 x 130, Zierleiste: 10 x 305}
  - id: blatt
    paper: blatt
    lay: {left: Baumkronenkante}
    cuts:
      - {at: [200, 100], leaves: [Waldrandpanorama, Waldrandpanorama, Lichtungsbreitstreifen]}
      - {take: Lichtungsbreitstreifen, turn: clockwise, at: [150], leaves: [Kastanienfoto, Kastanienblatt]}
    sizes: {Waldrandpanorama: 305 x 100, Kastanienfoto: 150 x 105}
  - {id: grund, paper: grund}
  - {id: grund two, paper: grund, title: Zweitgrundbogen}
bring: [eine Papierschneidemaschine, ein säurefreier Doppelklebeband-Abroller]
layouts:
  - id: eins
    title: Die Laternenanzünderin kommt
    pocket: 1
    base: grund
    story: Ein Licht nach dem anderen ging an.
    steps:
      - {place: Waldrandpanorama, left: 0, top: 0}
      - {place: Waldrandpanorama, left: 0, bottom: 0}
      - {place: Blätterhintergrundtafel, left: 102, top: 25}
      - {place: Erinnerungskärtchen, on: Blätterhintergrundtafel, tip: Mit wenigen Klebepunkten.}
      - {place: Zierleiste, left: 110, bottom: 0}
      - {place: Zierleiste, left: 180, bottom: 0}
  - id: zwei
    title: Herbstblätterdurcheinander am Wegesrand
    pocket: 2
    base: grund two
    story: Der Heimweg dauerte länger als gedacht.
    steps:
      - {place: Mondscheinpromenadenstreifen, left: 0, top: 0}
      - {place: Hintergrundtafel, right: 0, top: 0}
      - {place: Kastanienfoto, left: 70, top: 0}
      - {place: Kastanienblatt, left: 70, below: Kastanienfoto, gap: 2}
      - {place: Blätterhintergrundtafel, tucked: Hintergrundtafel, right: 50, bottom: 5}
"""

SMALL = {"starter": STARTER_SPEC, "plain": PLAIN, "long-names": LONG_NAMES}
KITS = (*DEMOS, *SMALL)


@dataclass(frozen=True, eq=False)
class Finished:
    """A kit and its finished booklet: the spec as typed, what follows from it, and the file's bytes."""

    name: str
    data: bytes = field(repr=False)

    @cached_property
    def spec(self) -> dict[str, Any]:
        """The spec as plain data, read without the loader."""
        loaded = yaml.safe_load(_spec_text(self.name))
        assert isinstance(loaded, dict)
        return loaded

    @property
    def resolved(self) -> ResolvedKit:
        """The kit with its pieces and places."""
        return _resolved(self.name)

    @cached_property
    def document(self) -> Document:
        """What the booklet is to say; optional sections only where they are printed."""
        asked = _document(self.name)
        printed = {part.title for part in self.book.parts}
        kept = (
            section
            for section in asked.sections
            if not section.is_optional or squeezed(plain_text(section.title)) in printed
        )
        return replace(asked, sections=tuple(kept))

    @cached_property
    def book(self) -> Book:
        """The file read back."""
        return Book(read_once(self.data).pages)


def _spec_text(name: str) -> str:
    return SMALL[name] if name in SMALL else (SPECS / f"{name}.yaml").read_text(encoding="utf-8")


@cache
def _resolved(name: str) -> ResolvedKit:
    if name in SMALL:
        return resolve_kit(parse_kit(SMALL[name], "kit.yaml", SPECS))
    return resolve_kit(load_kit(SPECS / f"{name}.yaml"))


@cache
def _document(name: str) -> Document:
    return document(_resolved(name), ENGLISH)


def reading_pdf(name: str) -> bytes:
    """The booklet of a kit as its reader gets it."""
    return written_once(laid_once(_resolved(name)))


def made_once(name: str, shelf: Path) -> bytes:
    """The booklet of a kit, from `shelf` where another process of this run has put it there.

    Raises what making it raises; whoever waits for it then makes it as well, and says the same.
    """
    made, claim = shelf / f"{name}.pdf", shelf / f"{name}.claim"
    while not made.exists():
        try:
            os.close(os.open(claim, os.O_CREAT | os.O_EXCL))
        except FileExistsError:
            time.sleep(0.05)
            continue
        try:
            part = shelf / f"{name}.part"
            part.write_bytes(reading_pdf(name))
            part.replace(made)
        finally:
            claim.unlink()
    return made.read_bytes()
