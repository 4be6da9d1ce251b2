"""What all tests share."""

from __future__ import annotations

import os

from hypothesis import settings

# No test is judged by seconds; and what decides whether a change lands must say the same twice.
settings.register_profile("house", deadline=None, derandomize=bool(os.environ.get("CI")))
settings.load_profile("house")
