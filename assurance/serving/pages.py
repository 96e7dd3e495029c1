"""What is sent for an address: a file of the site, with the script that hears of news added to each page."""

import hashlib
import re
from dataclasses import dataclass
from html import escape
from pathlib import Path
from urllib.parse import unquote

from assurance.site.sections import FIRST_PAGE
from assurance.site.templates import templates_folder

OWN = "/-/"  # below it stands what is served but never published
POLICY = re.compile(rb'(<meta http-equiv="Content-Security-Policy" content=")([^"]*)(")')
HEARS = b"; connect-src 'self'"
STYLE = '<link rel="stylesheet" href="/assets/site.css">\n<script src="/assets/scheme.js"></script>'
TYPES = {
    ".html": "text/html; charset=utf-8",
    ".css": "text/css; charset=utf-8",
    ".js": "text/javascript; charset=utf-8",
    ".json": "application/json",
    ".svg": "image/svg+xml",
    ".png": "image/png",
    ".csv": "text/csv; charset=utf-8",
    ".txt": "text/plain; charset=utf-8",
    ".dot": "text/plain; charset=utf-8",
    ".md": "text/plain; charset=utf-8",
}
OTHERWISE = "application/octet-stream"


@dataclass(frozen=True, slots=True)
class Reply:
    """What is sent: status, kind of content, the content, its digest, and the policy of a page."""

    status: int
    kind: str
    content: bytes
    digest: str = ""
    policy: str = ""


def file_of(site: Path, target: str) -> Path | None:
    """The file of the site that an address names; none where it names none, or leads out of the site."""
    if not target.startswith("/"):
        return None
    address = unquote(re.split(r"[?#]", target)[0], errors="strict")
    parts = (address.removeprefix("/") or f"{FIRST_PAGE}.html").split("/")
    if any(not part or part.startswith(".") or not _plain(part) for part in parts):
        return None
    try:
        file, root = site.joinpath(*parts).resolve(), site.resolve()
        return file if file.is_relative_to(root) and file.is_file() else None
    except (OSError, ValueError, RuntimeError):
        return None


def _plain(part: str) -> bool:
    return part.isprintable() and not any(one in part for one in '\\:*?"<>|')


def reply(site: Path, target: str, *, build: str) -> Reply:
    """What is sent for an address of the site."""
    try:
        file = file_of(site, target)
        content = file.read_bytes() if file else None
    except (OSError, UnicodeDecodeError):
        file, content = None, None
    if file is None or content is None:
        return page(_not_there(site, target), build, status=404)
    kind = TYPES.get(file.suffix.lower(), OTHERWISE)
    if not kind.startswith("text/html"):
        return Reply(200, kind, content, _digest(content))
    return page(content, build, status=200)


def page(html: bytes, build: str, *, status: int) -> Reply:
    """A page as it is sent: it hears of news, and its own policy allows that and nothing more."""
    found = POLICY.search(html)
    policy = (found[2] if found else b"default-src 'none'") + HEARS
    sent = POLICY.sub(lambda meta: meta[1] + policy + meta[3], html, count=1)
    digest = _digest(html)
    added = (
        f'<link rel="stylesheet" href="{OWN}overlay.css">\n'
        f'<script src="{OWN}overlay.js" data-build="{build}" data-page="{digest}" defer></script>\n'
    )
    head, closing, rest = sent.partition(b"</head>")
    return Reply(
        status,
        TYPES[".html"],
        head + added.encode() + closing + rest,
        digest,
        f"{policy.decode()}; frame-ancestors 'none'",
    )


def _digest(content: bytes) -> str:
    return hashlib.sha256(content).hexdigest()[:16]


def _not_there(site: Path, target: str) -> bytes:
    """The page for an address without a file: it waits for one, in the dress of the site if there is one."""
    text = (templates_folder() / "serving" / "no-such-page.html").read_text("utf-8")
    style = STYLE if (site / "assets" / "site.css").is_file() else ""
    return text.replace("<!--style-->", style).replace("<!--address-->", escape(target)).encode()
