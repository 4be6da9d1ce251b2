"""The pages served to browsers of this computer, and to nobody else."""

from __future__ import annotations

import json
import re
import socket
import sys
from collections.abc import Callable
from http import HTTPStatus
from http.server import BaseHTTPRequestHandler, ThreadingHTTPServer
from pathlib import Path
from queue import Empty
from threading import Lock, Thread
from typing import Any
from urllib.parse import unquote, urlsplit

from booklet.measure.dataclass import dataclass
from booklet.view.lines import read_place
from booklet.view.look import Look
from booklet.view.viewers import InView, Viewer, event

_HERE = Path(__file__).parent / "static"
# The companion and this look follow one thing through a kit in the same way.
_COMPANION = Path(__file__).parents[1] / "web"
# The port of http (RFC 9110, 4.2.1), which a browser leaves out of the Host that it says (7.2).
_USUAL_PORT = 80
IPV4, IPV6 = "127.0.0.1", "::1"
# A request is a few hundred letters long.
_MOST_BYTES = 4096
# So often a browser that listens is told that all is well, in seconds; one that has gone shows then.
_HEARTBEAT = 15.0
# A browser that keeps a connection open asks again within so many seconds, or connects anew.
_PATIENCE = 60.0
_MOST_IN_VIEW = 64
# Nothing but what this server gives may be loaded or run, in no other site's frame; what is shown of a kit
# stays in the memory of the browser (headers: CSP level 3, Fetch, HTML; from memory).
_POLICY = {
    "default-src": "'none'",
    "script-src": "'self'",
    "style-src": "'self'",
    "img-src": "'self' data:",  # what the picture of the whole kit holds
    "font-src": "'self'",
    "connect-src": "'self'",
    "base-uri": "'none'",
    "form-action": "'none'",
    "frame-ancestors": "'none'",
}
_HEADERS = {
    "Content-Security-Policy": "; ".join(f"{what} {whence}" for what, whence in _POLICY.items()),
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Referrer-Policy": "no-referrer",
    "X-Content-Type-Options": "nosniff",
    "Cache-Control": "no-store",
}
_SAME_SITE = {"same-origin", "none"}


@dataclass(frozen=True)
class Answer:
    """What a request gets: its status, its body, and what kind of file that is."""

    status: HTTPStatus
    body: bytes = b""
    kind: str = "text/plain"


def json_answer(data: Any) -> Answer:
    """Data as an answer."""
    body = json.dumps(data, ensure_ascii=False).encode("utf-8")
    return Answer(HTTPStatus.OK, body, "application/json")


def _with_letters(kind: str) -> str:
    """A kind of file, with the way in which letters are coded where it is a text."""
    return f"{kind}; charset=utf-8" if kind[:5] == "text/" else kind


def _refusal(status: HTTPStatus) -> Answer:
    return Answer(status, f"{status.value} {status.phrase}\n".encode())


class ViewServer(ThreadingHTTPServer):
    """A server on the loopback address, a thread for each connection."""

    daemon_threads = False  # all are waited for at the end
    allow_reuse_address = True

    def __init__(self, look: Look, host: str, port: int) -> None:
        self.address_family = socket.AF_INET6 if host == IPV6 else socket.AF_INET
        self.look = look
        self._open: set[socket.socket] = set()
        self._lock = Lock()
        super().__init__((host, port), _Handler)
        named = f"[{host}]" if host == IPV6 else host
        port = self.server_address[1]
        self.hosts = hosts_of(named, port)
        self.address = f"http://{named}:{port}/"
        self._thread = Thread(target=self.serve_forever, args=(0.05,), name="serve", daemon=True)

    def start(self) -> None:
        """Begin to answer."""
        self._thread.start()

    def close(self) -> None:
        """End every connection and every thread."""
        self.shutdown()
        self._thread.join()
        with self._lock:
            for connection in self._open:
                _hang_up(connection)
        self.server_close()

    def process_request(self, request: Any, client_address: Any) -> None:
        """Answer on one more connection, noting that it is open."""
        with self._lock:
            self._open.add(request)
        super().process_request(request, client_address)

    def shutdown_request(self, request: Any) -> None:
        """End a connection."""
        with self._lock:
            self._open.discard(request)
        super().shutdown_request(request)

    def handle_error(self, request: Any, client_address: Any) -> None:
        """A connection broke, which is the browser's affair; what fails in an answer is told there."""


def hosts_of(named: str, port: int) -> frozenset[str]:
    """What a browser may say as the host that it asks; the port goes unsaid where it is the usual one."""
    hosts = {f"{name}:{port}" for name in (named, "localhost")}
    return frozenset(hosts | {named, "localhost"} if port == _USUAL_PORT else hosts)


def _hang_up(connection: socket.socket) -> None:
    try:
        connection.shutdown(socket.SHUT_RDWR)
    except OSError:
        return


class _Handler(BaseHTTPRequestHandler):
    """One connection: requests one after the other, each checked for whose it is."""

    server: ViewServer
    protocol_version = "HTTP/1.1"
    disable_nagle_algorithm = True
    wbufsize = -1  # an answer goes out whole
    timeout = _PATIENCE

    def do_GET(self) -> None:
        """Answer with a page of ours, a picture, or what there is to tell."""
        if not self._is_ours():
            self._give(_refusal(HTTPStatus.FORBIDDEN))
        elif urlsplit(self.path).path == "/events":
            self._tell_events()
        else:
            self._give(self._answered(_got))

    def do_POST(self) -> None:
        """Note what a browser has in view."""
        if not self._is_ours() or self.headers.get("Origin") is None:
            self.close_connection = True  # its body is not read
            self._give(_refusal(HTTPStatus.FORBIDDEN))
        else:
            self._give(self._answered(_noted, self._body()))

    def do_HEAD(self) -> None:
        """Nothing is told apart from what it is."""
        self._give(_refusal(HTTPStatus.METHOD_NOT_ALLOWED))

    def _is_ours(self) -> bool:
        """Whether the page that asks is our own, by the address that it was given and where it came from.

        A page elsewhere may have a name that leads here; its browser says that name, and whose page asks.
        """
        host, origin = self.headers.get_all("Host", []), self.headers.get("Origin")
        site = self.headers.get("Sec-Fetch-Site", "none")
        if len(host) != 1 or host[0].lower() not in self.server.hosts or site not in _SAME_SITE:
            return False
        return origin is None or origin.lower() == f"http://{host[0].lower()}"

    def _body(self) -> bytes | None:
        """The body of the request; None where it is not said how long it is, or too long."""
        said = self.headers.get("Content-Length", "")
        if not said.isascii() or not said.isdigit() or int(said) > _MOST_BYTES:
            self.close_connection = True
            return None
        return self.rfile.read(int(said))

    def _answered(self, answer: Callable[..., Answer], *given: Any) -> Answer:
        """An answer; where that fails, that it does: a browser is told as a terminal is, without a trace."""
        try:
            return answer(self.server.look, urlsplit(self.path).path, *given)
        except Exception as fault:
            if sys.flags.dev_mode:
                raise
            said = self.server.look.words.fault(type(fault).__name__)
            return Answer(HTTPStatus.INTERNAL_SERVER_ERROR, said.encode("utf-8"))

    def _give(self, answer: Answer) -> None:
        self.send_response(answer.status)
        for name, value in _HEADERS.items():
            self.send_header(name, value)
        self.send_header("Content-Type", _with_letters(answer.kind))
        self.send_header("Content-Length", str(len(answer.body)))
        if self.close_connection:
            self.send_header("Connection", "close")
        self.end_headers()
        if self.command != "HEAD":
            self.wfile.write(answer.body)
        self.wfile.flush()

    def _tell_events(self) -> None:
        """Tell of every change until the browser goes, or all is over (server-sent events, HTML 9.2)."""
        look = self.server.look
        joined = look.viewers.join()
        if joined is None:
            self._give(_refusal(HTTPStatus.SERVICE_UNAVAILABLE))
            return
        name, viewer = joined
        self.close_connection = True
        try:
            self._begin_events()
            self._send(event("hello", {"viewer": name, "run": look.run}))
            self._send(event("state", look.state()))
            while (told := self._next_event(viewer)) is not None:
                self._send(told)
        except OSError:
            return  # it has gone
        finally:
            look.viewers.leave(name)

    def _begin_events(self) -> None:
        self.send_response(HTTPStatus.OK)
        for header, value in _HEADERS.items():
            self.send_header(header, value)
        self.send_header("Content-Type", _with_letters("text/event-stream"))
        self.send_header("Connection", "close")
        self.end_headers()

    def _next_event(self, viewer: Viewer) -> bytes | None:
        try:
            told: bytes | None = viewer.untold.get(timeout=_HEARTBEAT)
        except Empty:
            return b": well\n\n"
        return told

    def _send(self, told: bytes) -> None:
        self.wfile.write(told)
        self.wfile.flush()

    def version_string(self) -> str:
        """What serves, without the versions of what it is made of."""
        return "booklet"

    def log_message(self, format: str, *args: Any) -> None:
        """Nothing is logged: the terminal is for the designer."""


# What there is to get, by its address.

_FILES = {
    "/view.css": (_HERE / "view.css", "text/css"),
    "/view.js": (_HERE / "view.js", "text/javascript"),
    "/focus.js": (_HERE / "focus.js", "text/javascript"),
    "/turn.js": (_HERE / "turn.js", "text/javascript"),
    "/lines.js": (_HERE / "lines.js", "text/javascript"),
    "/whole-kit.js": (_HERE / "whole-kit.js", "text/javascript"),
    "/follow.js": (_COMPANION / "follow.js", "text/javascript"),
    "/icon.svg": (_HERE / "icon.svg", "image/svg+xml"),
}
_PICTURE = re.compile(r"/picture/([0-9a-f]{24})/([1-9][0-9]{0,3})")
_FONT = re.compile(r"/font/([A-Za-z-]+)")
_LINES = re.compile(r"/lines/(.{1,4000})")
_FILE_LINES = re.compile(r"/file-lines/([1-9][0-9]{0,6})")
_PLACES = re.compile(r"/places/([1-9][0-9]{0,3})")


def _got(look: Look, path: str) -> Answer:
    if path == "/":
        return Answer(HTTPStatus.OK, look.front_page(_HERE / "view.html"), "text/html")
    if path in _FILES:
        file, kind = _FILES[path]
        return Answer(HTTPStatus.OK, file.read_bytes(), kind)
    if path == "/whole-kit":
        return _told(look.whole_kit())
    if found := _LINES.fullmatch(path):
        place = read_place(unquote(found[1]))
        return _refusal(HTTPStatus.BAD_REQUEST) if place is None else _told(look.lines(place))
    if found := _FILE_LINES.fullmatch(path):
        return json_answer(look.file_lines(int(found[1])))
    if found := _PICTURE.fullmatch(path):
        png = look.pictures.png(found[1], int(found[2]))
        return Answer(HTTPStatus.OK, png, "image/png") if png else _refusal(HTTPStatus.NOT_FOUND)
    if found := _PLACES.fullmatch(path):
        return json_answer(look.places(int(found[1])))
    if found := _FONT.fullmatch(path):
        font = look.font(found[1])
        return Answer(HTTPStatus.OK, font, "font/ttf") if font else _refusal(HTTPStatus.NOT_FOUND)
    return _refusal(HTTPStatus.NOT_FOUND)


def _told(data: Any | None) -> Answer:
    """What there is to tell; nothing is found before there is anything."""
    return json_answer(data) if data else _refusal(HTTPStatus.NOT_FOUND)


def _noted(look: Look, path: str, body: bytes | None) -> Answer:
    """Note what is said to be in view: `{"viewer": "1", "pages": [6, 7], "width": 560}`."""
    if path != "/look":
        return _refusal(HTTPStatus.NOT_FOUND)
    said = _read_look(body)
    if said is None:
        return _refusal(HTTPStatus.BAD_REQUEST)
    name, in_view = said
    return Answer(HTTPStatus.NO_CONTENT) if look.note(name, in_view) else _refusal(HTTPStatus.GONE)


def _read_look(body: bytes | None) -> tuple[str, InView] | None:
    try:
        said = json.loads(body or b"")
        name, pages, width = said["viewer"], said["pages"], said["width"]
    except (ValueError, KeyError, TypeError, RecursionError):
        return None
    if not isinstance(name, str) or not isinstance(pages, list) or type(width) is not int:
        return None
    if len(pages) > _MOST_IN_VIEW or not all(type(page) is int and page > 0 for page in pages):
        return None
    return name, InView(tuple(pages), width)
