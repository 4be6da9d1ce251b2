"""Pages by their numbers, as a person is told them."""

from __future__ import annotations

from collections.abc import Sequence


def page_numbers(pages: Sequence[int]) -> str:
    """`page 12`, or `pages 11, 12`."""
    return f"{'page' if len(pages) == 1 else 'pages'} {', '.join(map(str, pages))}"
