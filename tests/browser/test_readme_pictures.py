"""The README shows companions as they are."""

from __future__ import annotations

import pytest
from PIL import Image, ImageChops, ImageStat

from tests.browser.opened import Open, chromium_alone
from tests.browser.readme_pictures import SIZE, STATES, picture_of, taken

# How far a pixel may be off in the mean, of 255: the pictures have few colours, and browsers soften edges.
_MOST = 3.0


@chromium_alone
@pytest.mark.parametrize("name", STATES)
def test_a_picture_shows_the_companion_as_it_is(open_companion: Open, name: str) -> None:
    (width, height), (kit, state) = SIZE, STATES[name]
    viewport = {"width": width, "height": height}
    companion = open_companion(kit, viewport=viewport, reduced_motion="reduce")
    now = taken(companion.page, companion.file, state)
    shown = Image.open(picture_of(name)).convert("RGB")
    assert shown.size == now.size
    assert max(ImageStat.Stat(ImageChops.difference(shown, now)).mean) < _MOST
