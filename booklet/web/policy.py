"""What a page may do: show itself.  A content-security policy in the file forbids all else."""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Iterable
from hashlib import sha256


def policy(styles: Iterable[str], scripts: Iterable[str]) -> str:
    """A policy (CSP level 3) that lets nothing in but these styles and scripts, by their digests, and what
    the file holds itself: pictures and faces."""
    allowed = {
        "default-src": ["'none'"],
        "img-src": ["data:"],
        "font-src": ["data:"],
        "style-src": [_source(style) for style in styles],
        "script-src": [_source(script) for script in scripts],
        "base-uri": ["'none'"],
        "form-action": ["'none'"],
    }
    return "; ".join(f"{name} {' '.join(sources)}" for name, sources in allowed.items() if sources)


def _source(text: str) -> str:
    return f"'sha256-{b64encode(sha256(text.encode()).digest()).decode()}'"
