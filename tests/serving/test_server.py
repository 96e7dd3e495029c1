"""The server over real sockets: this machine only, reading only, and news for whoever waits."""

import http.client
import json
import socket
import threading

import pytest

from assurance.serving import Board, News, PortInUse, serve_site
from assurance.serving.server import is_local

pytestmark = pytest.mark.slow


@pytest.fixture
def site(tmp_path):
    (tmp_path / "index.html").write_text("<head></head>Hello")
    (tmp_path / "data.js").write_text("var secret = 1;")
    return tmp_path


@pytest.fixture
def board():
    return Board()


@pytest.fixture
def port(site, board):
    with serve_site(site, board, port=0) as chosen:
        yield chosen


def ask(port, method="GET", target="/", host=None):
    line = http.client.HTTPConnection("127.0.0.1", port, timeout=20)
    line.request(method, target, headers={"Host": host or f"127.0.0.1:{port}"})
    answer = line.getresponse()
    return answer, answer.read()


def test_the_site_is_sent(port):
    answer, body = ask(port)
    assert answer.status == 200
    assert b"Hello" in body
    assert answer.headers["Content-Type"] == "text/html; charset=utf-8"


def test_asking_for_the_head_gives_the_same_head_and_no_body(port):
    got, body = ask(port)
    head, nothing = ask(port, "HEAD")
    assert (head.headers["ETag"], head.headers["Content-Length"]) == (got.headers["ETag"], str(len(body)))
    assert nothing == b""


@pytest.mark.parametrize("method", ["POST", "PUT", "DELETE", "PATCH", "OPTIONS", "TRACE", "CONNECT"])
def test_nothing_but_looking_is_answered(port, method):
    answer, _ = ask(port, method)
    assert answer.status == 501


MADE_UP = ["evil.example", "evil.example:8425", "127.0.0.1.evil.example", "localhost.evil.example"]


@pytest.mark.parametrize("host", [*MADE_UP, "10.0.0.1", "x", "127.0.0.1:a"])
def test_a_name_that_was_made_to_point_here_is_refused(port, host):
    for target in ("/", "/data.js", "/-/news", "/-/overlay.js"):
        answer, body = ask(port, target=target, host=host)
        assert answer.status == 403
        assert b"secret" not in body


@pytest.mark.parametrize("host", ["localhost", "127.0.0.1", "LOCALHOST:8425"])
def test_the_names_of_this_machine_are_answered(port, host):
    assert ask(port, host=host)[0].status == 200


def test_a_request_without_a_host_is_refused(port):
    assert not is_local("")
    with socket.create_connection(("127.0.0.1", port), timeout=20) as line:
        line.sendall(b"GET / HTTP/1.0\r\n\r\n")
        assert b" 403 " in line.recv(1000)


def test_no_other_site_may_load_what_is_sent(port):
    for target in ("/", "/data.js", "/-/overlay.js", "/nothing"):
        answer, _ = ask(port, target=target)
        assert answer.headers["Cross-Origin-Resource-Policy"] == "same-origin"
        assert answer.headers["X-Content-Type-Options"] == "nosniff"
        assert answer.headers["Cache-Control"] == "no-store"
        assert "Access-Control-Allow-Origin" not in answer.headers


def test_only_this_machine_is_listened_to(board, site):
    with serve_site(site, board, port=0) as port, socket.socket() as other:
        other.bind(("127.0.0.2", port))  # would be taken if all addresses were listened on


def test_the_script_and_the_style_are_served_and_nothing_else_beside_them(port):
    assert ask(port, target="/-/overlay.js")[0].headers["Content-Type"].startswith("text/javascript")
    assert ask(port, target="/-/overlay.css")[0].status == 200
    for target in ("/-/no-such-page.html", "/-/../index.html", "/-/%2e%2e/pages/claim.html", "/-/"):
        assert ask(port, target=target)[0].status == 404


def next_news(answer):
    while line := answer.readline():
        if line.startswith(b"data: "):
            return json.loads(line[6:])
    return None


def test_news_comes_at_once_and_with_every_round(port, board):
    board.put(News(published=True, said="first"))
    line = http.client.HTTPConnection("127.0.0.1", port, timeout=20)
    line.request("GET", "/-/news", headers={"Host": "localhost"})
    answer = line.getresponse()
    first = next_news(answer)
    board.put(News(published=True, said="second", edited=("claims/a.yml",)))
    second = next_news(answer)

    assert answer.headers["Content-Type"] == "text/event-stream"
    assert (first["said"], second["said"], second["edited"]) == ("first", "second", ["claims/a.yml"])
    assert first["build"] != second["build"]


def test_who_knows_the_present_round_waits_for_the_next(board):
    board.put(News(published=True, said="first"))
    known = board.build
    told = []
    waiting = threading.Thread(target=lambda: told.append(board.wait(known, seconds=20)))
    waiting.start()
    board.put(News(published=True, said="second"))
    waiting.join(20)
    assert json.loads(told[0].text)["said"] == "second"


def test_whoever_waits_is_sent_home_at_the_end(site, board):
    with serve_site(site, board, port=0) as port:
        line = http.client.HTTPConnection("127.0.0.1", port, timeout=20)
        line.request("GET", "/-/news", headers={"Host": "localhost"})
        answer = line.getresponse()
        assert next_news(answer) is not None
    assert next_news(answer) is None


def test_a_port_that_is_taken_is_told(site, board):
    with serve_site(site, board, port=0) as port, pytest.raises(PortInUse):  # noqa: SIM117
        with serve_site(site, Board(), port=port):
            pass


def test_another_start_of_the_server_is_another_build():
    assert Board().build != Board().build
