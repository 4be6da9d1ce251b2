"""A live look at a small kit within the tests' own process, and a browser's part played by plain requests."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from http.client import HTTPConnection
from pathlib import Path
from time import monotonic
from typing import Any
from urllib.parse import urlsplit

from booklet.cli.starter import STARTER_SPEC
from booklet.content.words.english.view import EnglishView
from booklet.view.look import Look
from booklet.view.server import IPV4, ViewServer
from booklet.view.session import Session
from booklet.view.watch import SpecWatch

# Nobody waits for so long, in seconds, unless something is wrong.
PATIENCE = 30.0


def a_spec(folder: Path, text: str = STARTER_SPEC) -> Path:
    """The spec of a small kit in a folder of its own."""
    folder.mkdir(exist_ok=True)
    spec = folder / "kit.yaml"
    spec.write_text(text, encoding="utf-8")
    return spec


@contextmanager
def serving(look: Look) -> Iterator[str]:
    """A server for a look; its address without a slash."""
    server = ViewServer(look, IPV4, 0)
    server.start()
    try:
        yield server.address.rstrip("/")
    finally:
        look.viewers.close()
        server.close()


@contextmanager
def looking(spec: Path) -> Iterator[str]:
    """A live look at a spec, watched; its address."""
    look = Look(spec.name, EnglishView())
    session = Session(spec, None, look)
    watch = SpecWatch(spec, session.concerns, session.changed)
    session.start()
    watch.start()
    try:
        with serving(look) as address:
            yield address
    finally:
        watch.close()
        session.close()


@dataclass(frozen=True)
class Answer:
    """What a request got."""

    status: int
    headers: Mapping[str, str]
    body: bytes


def get(address: str, path: str = "/", **headers: str) -> Answer:
    """The answer to a request, read; headers that are named take the place of usual ones."""
    return ask("GET", address, path, **headers)


def ask(method: str, address: str, path: str, body: str | None = None, **headers: str) -> Answer:
    """The answer to a request of any kind; `body` is its text, an empty header is left out."""
    connection = HTTPConnection(urlsplit(address).netloc, timeout=PATIENCE)
    named = {name.replace("_", "-"): value for name, value in headers.items()}
    connection.putrequest(method, path, skip_host="Host" in named)
    for name, value in named.items():
        connection.putheader(name, value)
    if body is not None:
        connection.putheader("Content-Length", str(len(body)))
    connection.endheaders(None if body is None else body.encode())
    answer = connection.getresponse()
    read = Answer(answer.status, {name.lower(): value for name, value in answer.getheaders()}, answer.read())
    connection.close()
    return read


def got_json(address: str, path: str) -> Any:
    """What an answer in JSON says."""
    answer = get(address, path)
    assert answer.status == 200
    return json.loads(answer.body)


@dataclass
class Listener:
    """A browser that listens, and all that it has been told."""

    address: str
    told: list[tuple[str, Any]] = field(default_factory=list)

    def __post_init__(self) -> None:
        self._connection = HTTPConnection(urlsplit(self.address).netloc, timeout=PATIENCE)
        self._connection.request("GET", "/events")
        self._stream = self._connection.getresponse()
        assert self._stream.status == 200
        self.name = self.next("hello")["viewer"]

    def next(self, kind: str) -> Any:
        """What is told next of a kind; what else is told before it is kept, too."""
        end = monotonic() + PATIENCE
        while True:
            said = self._one()
            assert said is not None or monotonic() < end, f"no {kind} is told"
            if said is not None:
                self.told.append(said)
                if said[0] == kind:
                    return said[1]

    def state(self, status: str, after: int = 0) -> Any:
        """The next state of a status, of a later save than that."""
        while True:
            state = self.next("state")
            if state["status"] == status and state["save"] > after:
                return state

    def look_at(self, *pages: int, width: int = 300) -> None:
        """Have pages in view."""
        said = json.dumps({"viewer": self.name, "pages": pages, "width": width})
        assert ask("POST", self.address, "/look", said, Origin=self.address).status == 204

    def _one(self) -> tuple[str, Any] | None:
        name, data = "", None
        while (line := self._stream.readline().decode().rstrip("\n")) or not name:
            if line.startswith("event: "):
                name = line[len("event: ") :]
            elif line.startswith("data: "):
                data = json.loads(line[len("data: ") :])
            elif line.startswith(":"):
                return None
            assert line or self._stream.fp is not None, "the stream has ended"
        return name, data

    def close(self) -> None:
        """Listen no longer."""
        self._stream.close()
        self._connection.close()


@contextmanager
def listening(address: str) -> Iterator[Listener]:
    """A browser that listens until the end of the block."""
    listener = Listener(address)
    try:
        yield listener
    finally:
        listener.close()
