"""The words of the layouts' pages."""

from __future__ import annotations


class EnglishAssembly:
    """The words of the layouts' pages in English."""
