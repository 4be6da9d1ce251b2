"""The words of the cutting pages."""

from __future__ import annotations


class EnglishCutting:
    """The words of the cutting pages in English."""
