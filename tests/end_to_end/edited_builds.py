"""Edits a case at random, again and again, and builds it twice: with all that is kept, and from nothing.

Run as a program with a case folder, a number of edits and a seed: it prints each edit after which the two
sites differ, with the files. Each build has a process of its own, so that nothing is kept but on disk.
"""

import json
import os
import random
import shutil
import sys
import traceback
from pathlib import Path

from assurance.assess import assess
from assurance.mkdocs_plugin import render_frames
from assurance.publish import publish
from assurance.reading import read_case
from assurance.store import Store


def build(folder: Path, site: Path, cache: Path) -> None:
    case = read_case(folder)
    assessment = assess(case, store=Store(cache))
    publish(case, assessment, site, render_frames=render_frames, cache_dir=cache)


def started(folder: Path, site: Path, cache: Path) -> int:
    """The process in which a site is built."""
    process = os.fork()
    if process:
        return process
    try:
        build(folder, site, cache)
    except BaseException:
        traceback.print_exc()
        os._exit(1)
    os._exit(0)


def content(site: Path) -> dict[str, bytes]:
    files = (file for file in site.rglob("*") if file.is_file())
    return {file.relative_to(site).as_posix(): file.read_bytes() for file in files}


def edit(folder: Path, rng: random.Random) -> str:
    """Changes one line of one file: a digit, a letter; or takes it out, or writes it twice."""
    files = sorted(file for kind in ("*.yml", "*.csv") for file in folder.glob(f"[ch]*/**/{kind}"))
    file = rng.choice(files)
    lines = file.read_text("utf-8").splitlines(keepends=True)
    at = rng.randrange(len(lines))
    digits = [place for place, one in enumerate(lines[at]) if one.isdigit()]
    kind = rng.choice(["digit"] * 4 + ["letter", "letter", "out", "twice"])
    if kind == "digit" and digits:
        place = rng.choice(digits)
        lines[at] = lines[at][:place] + str(rng.randrange(10)) + lines[at][place + 1 :]
    elif kind == "letter":
        place = rng.randrange(len(lines[at]))
        lines[at] = lines[at][:place] + rng.choice("aex-") + lines[at][place + 1 :]
    else:
        lines[at] = lines[at] * 2 if kind == "twice" else ""
    file.write_text("".join(lines), "utf-8")
    return f"{kind} at {file.relative_to(folder)}:{at + 1}"


def differing(folder: Path, number: int) -> list[str]:
    """The files in which a site built from nothing differs from the one built with all that is kept."""
    work = folder.parent
    clean, cache = work / f"clean-{number}", work / f"cache-{number}"
    shutil.copytree(work / "cache" / "frames", cache / "frames")  # frames know nothing of the records
    processes = [started(folder, work / "site", work / "cache"), started(folder, clean, cache)]
    ended = [os.waitstatus_to_exitcode(os.waitpid(one, 0)[1]) for one in processes]
    if any(ended):
        return ["a build ended with a traceback"]
    kept, new = content(work / "site"), content(clean)
    shutil.rmtree(clean)
    shutil.rmtree(cache)
    return sorted(name for name in kept.keys() | new.keys() if kept.get(name) != new.get(name))


def main(folder: Path, edits: int, seed: int) -> dict[str, object]:
    rng, wrong, changed, before = random.Random(seed), {}, 0, b""
    build_of = started(folder, folder.parent / "site", folder.parent / "cache")
    os.waitpid(build_of, 0)
    for number in range(edits):
        done = edit(folder, rng)
        found = differing(folder, number)
        listed = (folder.parent / "site" / "site.sha256").read_bytes()
        changed += listed != before
        before = listed
        wrong |= {f"{number}: {done}": found} if found else {}
        if number % 4 == 3:  # or the case would soon be nothing but broken
            shutil.rmtree(folder)
            shutil.copytree(folder.parent / "kept", folder)
    return {"changed": changed, "wrong": wrong}


if __name__ == "__main__":
    started_from = Path(sys.argv[1])
    shutil.copytree(started_from, started_from.parent / "kept")
    print(json.dumps(main(started_from, int(sys.argv[2]), int(sys.argv[3]))))
