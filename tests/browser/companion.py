"""A companion as hands and eyes use it."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from playwright.sync_api import ConsoleMessage, Error, Locator, Page, Request

_CARD = "document.querySelector('.view:not([hidden]) .card:not([hidden])')"


@dataclass
class Companion:
    """An open companion, what it has complained of, and what it has asked for besides its own file."""

    page: Page
    file: Path
    complaints: list[str] = field(default_factory=list)
    asked_for: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.page.on("console", self._heard)
        self.page.on("pageerror", self._failed)
        self.page.on("request", self._asked)

    def _heard(self, message: ConsoleMessage) -> None:
        if message.type in {"error", "warning"}:
            self.complaints.append(message.text)

    def _failed(self, error: Error) -> None:
        self.complaints.append(str(error))

    def _asked(self, request: Request) -> None:
        own = self.file.as_uri()
        if not request.url.startswith("data:") and request.url.split("#")[0] != own:
            self.asked_for.append(request.url)

    def go(self, at: str = "") -> None:
        """Open the file at an address after the `#`, as from a link."""
        self.page.goto("about:blank")
        self.page.goto(self.file.as_uri() + at)
        self.page.evaluate("document.fonts.ready")

    def to(self, at: str) -> None:
        """Go to another address of the page that is open."""
        self.page.evaluate("at => { location.hash = at; }", at)

    def view(self, name: str) -> None:
        self.page.click(f"#head [data-view={name}]")

    @property
    def card(self) -> Locator:
        return self.page.locator(".card:visible")

    @property
    def key(self) -> str:
        """Which card is shown, as content names it."""
        return str(self.page.evaluate(f"decodeURIComponent({_CARD}.dataset.key)"))

    def tap(self, *, right: bool = True) -> None:
        """Tap on a half of the picture."""
        box = self.page.locator(".view:visible .bench").bounding_box()
        assert box is not None
        self.page.mouse.click(
            box["x"] + box["width"] * (0.52 if right else 0.1), box["y"] + box["height"] - 8
        )

    def press(self, key: str) -> None:
        self.page.keyboard.press(key)

    def do(self, what: str) -> None:
        self.page.click(f".view:visible [data-do={what}]:visible")

    def wait_for(self, key: str) -> None:
        self.page.wait_for_function(f"key => decodeURIComponent({_CARD}.dataset.key) === key", arg=key)

    @property
    def drawing(self) -> Locator:
        return self.page.locator(".view:visible .board:not([hidden]) svg")

    @property
    def ticks(self) -> set[str]:
        """What the browser keeps as ticked."""
        kept: dict[str, Any] = self.page.evaluate("JSON.parse(Object.values(localStorage)[0])")
        return set(self.page.evaluate("ids => ids.map(decodeURIComponent)", list(kept["ticks"])))

    def shown_layers(self) -> list[str]:
        """The layers of the drawing that are seen, by their classes."""
        found: list[str] = self.page.evaluate(
            "[...document.querySelectorAll('.view:not([hidden]) .board:not([hidden]) svg [class]')]"
            ".filter((layer) => layer.getClientRects().length && layer.checkVisibility())"
            ".map((layer) => layer.getAttribute('class'))"
        )
        return found
