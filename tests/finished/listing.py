"""What a test found wrong, for its message."""

from __future__ import annotations

from collections.abc import Sequence

_MOST = 60


def listed(wrong: Sequence[str]) -> str:
    """All that is wrong, one below another, what is said twice once; of very many the first."""
    lines = list(dict.fromkeys(wrong))
    more = [f"... and {len(lines) - _MOST} more"] if len(lines) > _MOST else []
    return "\n".join(["", *lines[:_MOST], *more])
