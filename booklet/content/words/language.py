"""A language: the words of every part of the booklet, and of its figures.

English is the reference: another language is a class for each part with the same messages.
"""

from __future__ import annotations

from booklet.content.blocks import Furniture
from booklet.content.spans import line, quiet
from booklet.content.words.english.assembly import EnglishAssembly
from booklet.content.words.english.basics import BASICS, EnglishBasics
from booklet.content.words.english.closing import EnglishClosing
from booklet.content.words.english.companion import EnglishCompanion
from booklet.content.words.english.cutting import EnglishCutting
from booklet.content.words.english.front import EnglishFront
from booklet.content.words.english.index import EnglishIndex
from booklet.content.words.english.overview import EnglishOverview
from booklet.content.words.english.press import EnglishPress
from booklet.content.words.english.proof import EnglishProof
from booklet.content.words.english.reprint import EnglishReprint
from booklet.content.words.english.sorting import EnglishSorting
from booklet.content.words.english.template import EnglishTemplate
from booklet.content.words.english.tools import EnglishTools
from booklet.drawing.shapes.labels import FigureLabels
from booklet.measure.dataclass import dataclass


@dataclass(frozen=True)
class Language:
    """The words of one language; `code` is its tag (BCP 47)."""

    code: str
    basics: EnglishBasics
    cutting: EnglishCutting
    assembly: EnglishAssembly
    front: EnglishFront
    tools: EnglishTools
    sorting: EnglishSorting
    closing: EnglishClosing
    proof: EnglishProof
    press: EnglishPress
    reprint: EnglishReprint
    index: EnglishIndex
    template: EnglishTemplate
    companion: EnglishCompanion
    overview: EnglishOverview
    labels: FigureLabels
    furniture: Furniture


ENGLISH = Language(
    code="en",
    basics=BASICS,
    cutting=EnglishCutting(),
    assembly=EnglishAssembly(),
    front=EnglishFront(),
    tools=EnglishTools(),
    sorting=EnglishSorting(),
    closing=EnglishClosing(),
    proof=EnglishProof(),
    press=EnglishPress(),
    reprint=EnglishReprint(),
    index=EnglishIndex(),
    template=EnglishTemplate(),
    companion=EnglishCompanion(),
    overview=EnglishOverview(),
    labels=FigureLabels(scale="Scale", scrap="scrap", spare="spare", stop="stop"),
    furniture=Furniture(
        continued=line(quiet(", continued")),
        notes=line("Notes"),
        draft=line("DRAFT"),
        front_cover=line("Front cover"),
        back_cover=line("Back cover"),
    ),
)
