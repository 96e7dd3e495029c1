"""Builds the same case in two states, again and again, and kills each build at a random moment.

Run as a program with a case folder, a number of kills and a seed: it prints how many builds were killed,
how many of those after the exchange, and every site that was neither the old nor the new one.
"""

import hashlib
import json
import os
import random
import signal
import sys
import time
import traceback
from pathlib import Path

from assurance.assess import assess
from assurance.mkdocs_plugin import render_frames
from assurance.publish import publish
from assurance.reading import read_case
from assurance.store import Store

STATES = ("The thing is safe.", "The thing is sound.")
CLOSE = 0.4  # share of kills that are drawn around the exchange of the folders
EXCHANGE = 0.008  # s; from the last file of the new site until the old one is cleared away


def digest(site: Path) -> str:
    """One number for every name and every byte of a site."""
    whole = hashlib.sha256()
    for file in sorted(site.rglob("*")):
        whole.update(f"{file.relative_to(site)} {file.is_dir()}\n".encode())
        whole.update(b"" if file.is_dir() else file.read_bytes())
    return whole.hexdigest()


def build(folder: Path) -> None:
    cache = folder.parent / "cache"
    case = read_case(folder)
    assessment = assess(case, store=Store(cache))
    publish(case, assessment, folder / "site", render_frames=render_frames, cache_dir=cache)


def state(folder: Path, number: int) -> None:
    """Puts a case into one of its two states."""
    file = folder / "claims" / "case.yml"
    file.write_text(file.read_text().replace(STATES[1 - number], STATES[number]))


def killed(folder: Path, after: float, *, from_exchange: bool = False) -> bool:
    """Whether a build in a process of its own was killed before it ended.

    The time counts from its start, or from when the new site is whole and about to take its place.
    """
    process = os.fork()
    if not process:
        try:
            build(folder)
        except BaseException:
            traceback.print_exc()
            os._exit(1)
        os._exit(0)
    staged = folder / f".site-staging-{process}" / "manifest.json"
    ended = None
    while from_exchange and not staged.exists() and ended is None:
        ended = signal.sigtimedwait([signal.SIGCHLD], 0.0002)
    if ended is None and signal.sigtimedwait([signal.SIGCHLD], after) is None:
        os.kill(process, signal.SIGKILL)
    _, status = os.waitpid(process, 0)
    signal.sigtimedwait([signal.SIGCHLD], 0)
    return os.WIFSIGNALED(status)


def measured(folder: Path) -> float:
    start = time.monotonic()
    killed(folder, 60)
    return time.monotonic() - start


def main(folder: Path, kills: int, seed: int) -> dict[str, object]:
    signal.pthread_sigmask(signal.SIG_BLOCK, [signal.SIGCHLD])
    whole = {}
    for number in (0, 1, 0):
        state(folder, number)
        build(folder)
        whole[digest(folder / "site")] = number
    rng, ended, after_exchange, wrong, longest = random.Random(seed), 0, 0, [], measured(folder)
    while ended < kills:
        wanted = rng.randrange(2)
        before = digest(folder / "site")
        state(folder, wanted)
        close = rng.random() < CLOSE
        after = rng.uniform(0, EXCHANGE) if close else rng.uniform(0, longest)
        was_killed = killed(folder, after, from_exchange=close)
        found = digest(folder / "site")
        ended += was_killed
        after_exchange += was_killed and found != before
        if found not in whole or (not was_killed and whole[found] != wanted):
            wrong.append({"after": after, "close": close, "killed": was_killed})
    build(folder)
    left = sorted(one.name for one in folder.iterdir() if "staging" in one.name)
    return {"kills": ended, "after_exchange": after_exchange, "wrong": wrong, "left": left,
            "last": whole.get(digest(folder / "site")) == wanted}  # fmt: skip


if __name__ == "__main__":
    print(json.dumps(main(Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3]))))
