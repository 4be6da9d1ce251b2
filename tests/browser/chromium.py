"""Where the browser is, and what keeps it to the file that it is given."""

from __future__ import annotations

import os
import shutil

FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]


def chromium() -> str | None:
    """Debian's Chromium, or the one that the environment names."""
    return os.environ.get("CHROMIUM") or shutil.which("chromium")
