"""The server: this machine only, reading only. It sends the site, and news to every page that is open."""

import errno
import socketserver
import sys
import threading
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from http.server import BaseHTTPRequestHandler
from pathlib import Path
from typing import Any
from urllib.parse import parse_qs, urlsplit

from assurance.serving.news import Board
from assurance.serving.pages import OWN, TYPES, Reply, reply
from assurance.site.templates import templates_folder

LOCAL = "127.0.0.1"
NAMES = (LOCAL, "localhost")  # any other name was made up elsewhere to reach this machine
PULSE = 15.0  # s between signs of life to a page that waits
SENT = {
    "Cache-Control": "no-store",
    "Cross-Origin-Resource-Policy": "same-origin",  # no other site may load the data of this one
    "Referrer-Policy": "no-referrer",
    "X-Content-Type-Options": "nosniff",
}


class PortInUse(OSError):  # noqa: N818 - it says what happened
    """Another program listens on the port already."""


class _Listener(socketserver.ThreadingTCPServer):
    """One thread a request; a page that waits for news does not keep the program from ending."""

    allow_reuse_address = sys.platform != "win32"  # there it would share the port with another program
    daemon_threads = True

    def __init__(self, port: int, site: Path, board: Board) -> None:
        self.site = site
        self.board = board
        super().__init__((LOCAL, port), _Handler)

    def handle_error(self, request: Any, client_address: Any) -> None:
        """A browser that went away is no fault; anything else is ours and shows its traceback."""
        if not isinstance(sys.exc_info()[1], ConnectionError):
            super().handle_error(request, client_address)


class _Handler(BaseHTTPRequestHandler):
    """Answers one request to look at something; there is nothing else to ask for."""

    server: _Listener
    server_version = "holdwater"
    sys_version = ""

    def do_GET(self) -> None:
        """Sends what was asked for."""
        if not is_local(self.headers.get("Host", "")):
            self._send(_plain(403, "This address is served to this machine only."))
        elif self.path.startswith(f"{OWN}news"):
            self._tell()
        elif self.path.startswith(OWN):
            self._send(own_file(self.path))
        else:
            self._send(reply(self.server.site, self.path, build=self.server.board.build))

    do_HEAD = do_GET  # noqa: N815 - the name that the standard library asks for

    def log_message(self, format: str, *args: object) -> None:
        """Nothing: the terminal is for what was built."""

    def _send(self, sent: Reply) -> None:
        headers = {"Content-Type": sent.kind, "Content-Length": str(len(sent.content))}
        if sent.digest:
            headers["ETag"] = f'"{sent.digest}"'
        if sent.policy:
            headers["Content-Security-Policy"] = sent.policy
        self._head(sent.status, headers)
        if self.command != "HEAD":
            self.wfile.write(sent.content)

    def _head(self, status: int, headers: Mapping[str, str]) -> None:
        self.send_response(status)
        for name, value in {**SENT, **headers}.items():
            self.send_header(name, value)
        self.end_headers()

    def _tell(self) -> None:
        """Keeps the line open and sends each round as it comes."""
        board = self.server.board
        known = parse_qs(urlsplit(self.path).query).get("build", [""])[0]
        self._head(200, {"Content-Type": "text/event-stream"})
        if self.command == "HEAD":
            return
        self.wfile.write(b"retry: 1000\n\n")
        while not board.closed:
            news = board.wait(known, seconds=PULSE)
            self.wfile.write(f"data: {news.text}\n\n".encode() if news else b": still here\n\n")
            known = news.build if news else known


@contextmanager
def serve_site(site: Path, board: Board, *, port: int) -> Iterator[int]:
    """Serves the site while the context lasts; gives the port, which is chosen where it is 0.

    Raises `PortInUse` where another program listens there.
    """
    try:
        listener = _Listener(port, site, board)
    except OSError as refused:
        if refused.errno in (errno.EADDRINUSE, errno.EACCES):
            raise PortInUse(refused.errno, refused.strerror) from None
        raise
    thread = threading.Thread(target=listener.serve_forever, kwargs={"poll_interval": 0.1}, daemon=True)
    thread.start()
    try:
        yield listener.server_address[1]
    finally:
        board.close()
        listener.shutdown()
        listener.server_close()


def is_local(host: str) -> bool:
    """Whether a `Host` header names this machine, and not a name that somebody let point to it."""
    name, _, port = host.partition(":")
    return name.lower() in NAMES and (port == "" or port.isdecimal())


def own_file(target: str) -> Reply:
    """The script and the style that are added to each page."""
    name = urlsplit(target).path.removeprefix(OWN)
    if name not in ("overlay.js", "overlay.css"):
        return _plain(404, "There is nothing under this address.")
    file = templates_folder() / "serving" / name
    return Reply(200, TYPES[file.suffix], file.read_bytes())


def _plain(status: int, text: str) -> Reply:
    return Reply(status, TYPES[".txt"], f"{text}\n".encode())
