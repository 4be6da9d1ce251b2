"""The words of the layouts' pages in English."""

from __future__ import annotations

from booklet.content.words.english.assembly.page import EnglishLayoutPage
from booklet.content.words.english.assembly.work import EnglishWork


class EnglishAssembly(EnglishWork, EnglishLayoutPage):
    """The words of the layouts' pages in English."""
