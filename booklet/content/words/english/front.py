"""The words of all pages before cutting, between cutting and assembly, and at the end."""

from __future__ import annotations


class EnglishFront:
    """The words of front, sorting and back in English."""
