"""Who is answered: pages of our own address on this computer, and nobody else."""

from __future__ import annotations

import json
import threading
from collections.abc import Iterator
from contextlib import ExitStack, closing
from http.client import HTTPConnection
from urllib.parse import quote, urlsplit

import pytest

from booklet.content.words.english.view import EnglishView
from booklet.view.look import Look
from booklet.view.server import ViewServer, hosts_of
from tests.view.looking import ask, get, listening, serving


@pytest.fixture
def address() -> Iterator[str]:
    with serving(Look("kit.yaml", EnglishView())) as given:
        yield given


def port(address: str) -> int:
    found = urlsplit(address).port
    assert found is not None
    return found


def test_the_page_is_given_to_its_own_address_by_either_name(address: str) -> None:
    for host in (f"127.0.0.1:{port(address)}", f"localhost:{port(address)}", f"LOCALHOST:{port(address)}"):
        answer = get(address, Host=host)
        assert answer.status == 200
        assert b"kit.yaml" in answer.body


@pytest.mark.parametrize(
    "host",
    ["kit.example", "kit.example:{port}", "127.0.0.1", "127.0.0.1:1", "127.0.0.1.kit.example:{port}", ""],
)
@pytest.mark.parametrize(
    "path", ["/", "/events", "/file-lines/1", "/picture/0123456789abcdef01234567/300", "/view.js"]
)
def test_a_foreign_host_is_refused(address: str, host: str, path: str) -> None:
    answer = get(address, path, Host=host.format(port=port(address)))
    assert answer.status == 403
    assert b"kit.yaml" not in answer.body


def test_a_host_is_said_without_its_port_where_that_is_the_usual_one() -> None:
    assert hosts_of("[::1]", 80) == {"[::1]", "[::1]:80", "localhost", "localhost:80"}
    assert hosts_of("127.0.0.1", 8080) == {"127.0.0.1:8080", "localhost:8080"}


def test_a_browser_is_answered_on_the_usual_port() -> None:
    try:
        server = ViewServer(Look("kit.yaml", EnglishView()), "127.0.0.80", 80)
    except OSError:
        pytest.skip("the usual port is not to be had")
    server.start()
    with closing(server):
        for host in ("127.0.0.80", "localhost"):
            assert get(server.address, Host=host).status == 200
            assert get(server.address, Host=host, Origin=f"http://{host}").status == 200
            assert get(server.address, Host=host, Origin="http://kit.example").status == 403
        assert get(server.address, Host="kit.example").status == 403


def test_a_request_without_a_host_or_with_two_is_refused(address: str) -> None:
    for hosts in ([], [urlsplit(address).netloc, "kit.example"]):
        connection = HTTPConnection(urlsplit(address).netloc)
        connection.putrequest("GET", "/", skip_host=True)
        for host in hosts:
            connection.putheader("Host", host)
        connection.endheaders()
        assert connection.getresponse().status == 403
        connection.close()


def test_a_foreign_origin_is_refused_and_none_is_allowed_across(address: str) -> None:
    for origin in ("http://kit.example", "null", f"https://{urlsplit(address).netloc}", "http://127.0.0.1:1"):
        assert get(address, Origin=origin).status == 403
    assert get(address, Sec_Fetch_Site="cross-site").status == 403
    assert get(address, Sec_Fetch_Site="same-site").status == 403
    ours = get(address, Origin=address, Sec_Fetch_Site="same-origin")
    assert ours.status == 200
    assert not [name for name in ours.headers if name.startswith("access-control")]


def test_what_may_be_loaded_and_kept_is_said_with_every_answer(address: str) -> None:
    for path in ("/", "/view.js", "/file-lines/1", "/nothing-there"):
        answer = get(address, path)
        assert "default-src 'none'" in answer.headers["content-security-policy"]
        assert answer.headers["x-content-type-options"] == "nosniff"
        assert answer.headers["cache-control"] == "no-store"
        assert answer.headers["cross-origin-resource-policy"] == "same-origin"


def test_only_what_belongs_to_the_look_is_there(address: str) -> None:
    for path in (
        "/../pyproject.toml",
        "/view.py",
        "/static/view.js",
        "/font/..",
        "/font/other",
        "/places/0",
    ):
        assert get(address, path).status == 404
    assert get(address, "/font/BookletSans-Regular").status == 200


def test_what_is_looked_at_is_noted_of_a_browser_that_listens(address: str) -> None:
    with listening(address) as browser:
        said = {"viewer": browser.name, "pages": [2, 3], "width": 500}
        assert ask("POST", address, "/look", json.dumps(said), Origin=address).status == 204
        assert ask("POST", address, "/look", json.dumps(said)).status == 403  # a browser says its origin
        assert ask("POST", address, "/look", json.dumps(said), Origin="http://kit.example").status == 403
        assert (
            ask("POST", address, "/look", json.dumps(said | {"viewer": "99"}), Origin=address).status == 410
        )
        wrong = (
            "",
            "[",
            "[]",
            "[" * 3000,
            json.dumps(said | {"pages": "2"}),
            json.dumps(said | {"pages": [True]}),
            json.dumps(said | {"pages": [0]}),
            json.dumps(said | {"pages": [2, -5000]}),
            json.dumps(said | {"pages": list(range(65))}),
            json.dumps(said | {"width": "500"}),
            " " * 5000,
        )
        for body in wrong:
            assert ask("POST", address, "/look", body, Origin=address).status == 400
        assert ask("POST", address, "/places/1", json.dumps(said), Origin=address).status == 404


@pytest.mark.parametrize(
    "place",
    ["x", "{}", "7", "[7]", "[[0, 1, 1]]", "[[-1, null, 1]]", '[["0", null, 1]]', "[null]", "[" * 900],
)
def test_what_is_no_place_of_a_spec_has_no_lines(address: str, place: str) -> None:
    assert get(address, f"/lines/{quote(place, safe='')}").status == 400


def test_before_there_is_a_kit_there_are_no_lines_of_it(address: str) -> None:
    assert get(address, f"/lines/{quote(json.dumps(['layouts', [0, None, 1]]), safe='')}").status == 404


def test_other_ways_to_ask_change_nothing(address: str) -> None:
    assert ask("HEAD", address, "/").status == 405
    for method in ("PUT", "DELETE", "OPTIONS", "PATCH"):
        assert ask(method, address, "/").status == 501


def test_a_fault_of_the_program_is_told_in_a_line(monkeypatch: pytest.MonkeyPatch) -> None:
    look = Look("kit.yaml", EnglishView())
    monkeypatch.setattr(look, "whole_kit", lambda: 1 / 0)
    with serving(look) as given:
        answer = get(given, "/whole-kit")
        said = answer.body.decode()
        assert answer.status == 500
        assert said == "this is a fault of the program, not of your kit: ZeroDivisionError"


def test_no_more_than_so_many_browsers_listen(address: str) -> None:
    with ExitStack() as opened:
        for _ in range(24):
            opened.enter_context(listening(address))
        assert get(address, "/events").status == 503


def test_no_thread_is_left_when_it_is_closed_while_browsers_listen() -> None:
    before = set(threading.enumerate())
    with serving(Look("kit.yaml", EnglishView())) as given:
        browser = listening(given)
        browser.__enter__()
        assert set(threading.enumerate()) > before
    assert set(threading.enumerate()) == before
