"""The words of the companion: the booklet on a screen, step by step."""

from __future__ import annotations

from booklet.content.spans import line


class EnglishCompanion:
    """What the companion says besides the booklet, in English."""

    true_on_paper = line("True to size where this page is printed at 100 %.")
