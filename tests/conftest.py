"""What all tests share."""

from __future__ import annotations

import os

import pytest
from hypothesis import settings

# No test is judged by seconds; and what decides whether a change lands must say the same twice.
settings.register_profile("house", deadline=None, derandomize=bool(os.environ.get("CI")))
settings.load_profile("house")

# A check that several tables share says as much when it fails as one that stands in a test.
pytest.register_assert_rewrite("tests.cases")
