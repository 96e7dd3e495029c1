"""What the browser is told after each round: what was edited, what was found there, which pages changed."""

import json
import secrets
import threading
from dataclasses import asdict, dataclass, field


@dataclass(frozen=True, slots=True)
class FoundLine:
    """One finding as the browser lists it."""

    weight: str
    mark: str
    place: str
    rule: str
    message: str
    remedy: str
    href: str


@dataclass(frozen=True, slots=True)
class PageLink:
    """A page of a record that was edited."""

    text: str
    href: str


@dataclass(frozen=True, slots=True)
class News:
    """One round: what to say about the files that were edited, and whether the site is published anew."""

    said: str
    published: bool = False
    publishing: bool = False
    edited: tuple[str, ...] = ()
    findings: tuple[FoundLine, ...] = ()
    left_out: int = 0
    elsewhere: str = ""
    pages: tuple[PageLink, ...] = ()


@dataclass(frozen=True, slots=True)
class Told:
    """The news of one round as JSON, with the name of the round."""

    build: str
    text: str


@dataclass
class Board:
    """The latest news, for every browser that waits for it. `run` is another at each start of the server."""

    run: str = field(default_factory=lambda: secrets.token_hex(4))
    number: int = 0
    closed: bool = False
    _news: News = field(default_factory=lambda: News(said="The first build is under way."))
    _changed: threading.Condition = field(default_factory=threading.Condition)

    def put(self, news: News) -> None:
        """Replaces the news, and wakes whoever waits."""
        with self._changed:
            self._news = news
            self.number += 1
            self._changed.notify_all()

    def close(self) -> None:
        """Sends home whoever waits."""
        with self._changed:
            self.closed = True
            self._changed.notify_all()

    @property
    def build(self) -> str:
        """The name of the present round."""
        return f"{self.run}-{self.number}"

    def wait(self, known: str, *, seconds: float) -> Told | None:
        """The news once it is another than the known; none when the time is over before."""
        with self._changed:
            self._changed.wait_for(lambda: self.closed or self.build != known, timeout=seconds)
            if self.closed or self.build == known:
                return None
            return Told(self.build, json.dumps({"build": self.build, **asdict(self._news)}))
