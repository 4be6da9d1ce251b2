"""What a command says to a program."""

from __future__ import annotations

import json
from typing import Any


def json_text(report: dict[str, Any]) -> str:
    """JSON in ASCII: what a program reads from a pipe must not depend on how this terminal writes letters."""
    return json.dumps(report, indent=2)
