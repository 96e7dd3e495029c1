"""The folder beside the published site in which the next one is built, whole, before it takes its place."""

import hashlib
import os
import re
import shutil
import stat
from pathlib import Path
from types import TracebackType

from assurance.publish.exchange import exchange
from assurance.publish.site_folder import MARKER, MARKER_TEXT


class Staging:
    """Builds a site beside the published one and exchanges the two at the end.

    A file that did not change is a hard link to the published one. Left by an exception, the
    published site stays as it was.
    """

    def __init__(self, site_dir: Path) -> None:
        self.site_dir = site_dir
        self.folder = site_dir.with_name(f".{site_dir.name}-staging-{os.getpid()}")
        self.written = 0
        self.linked = 0
        self.digests: dict[str, str] = {}  # sha256 of each file by its address
        self._folders: set[str] = set()

    def __enter__(self) -> "Staging":
        self.site_dir.parent.mkdir(parents=True, exist_ok=True)
        _remove_stale(self.site_dir)
        _remove(self.folder)
        self.folder.mkdir()
        self.put(MARKER, MARKER_TEXT.encode())
        return self

    def __exit__(self, kind: type[BaseException] | None, value: object, trace: TracebackType | None) -> None:
        shutil.rmtree(self.folder, ignore_errors=True)

    def put(self, address: str, content: bytes) -> None:
        """One file of the new site; every address is put once."""
        self.digests[address] = hashlib.sha256(content).hexdigest()
        file = self.folder / address
        folder = address.rpartition("/")[0]
        if folder not in self._folders:
            (self.folder / folder).mkdir(parents=True, exist_ok=True)
            self._folders.add(folder)
        if _link_unchanged(self.site_dir / address, file, content):
            self.linked += 1
        else:
            with file.open("xb") as opened:
                opened.write(content)
            self.written += 1

    def take_over(self) -> None:
        """Puts the new site in the place of the old one."""
        exchange(self.folder, self.site_dir)


def _link_unchanged(published: Path, staged: Path, content: bytes) -> bool:
    try:
        found = published.lstat()
        if not stat.S_ISREG(found.st_mode) or found.st_size != len(content):
            return False  # a link that somebody put there would lead out of the site
        with published.open("rb", buffering=0) as opened:
            if opened.read() != content:
                return False
        os.link(published, staged, follow_symlinks=False)
    except OSError:
        return False  # not there, or a file system without hard links: written anew
    return True


def _remove_stale(site_dir: Path) -> None:
    """Removes what builds that were killed have left beside the site."""
    named = re.compile(re.escape(f".{site_dir.name}-staging-") + r"(\d+)(-old)?")
    for folder in sorted(site_dir.parent.iterdir()):
        found = named.fullmatch(folder.name)
        if not found or _alive(int(found[1])):
            continue
        if found[2] and not folder.is_symlink() and not site_dir.exists():
            folder.rename(site_dir)  # killed between two renames: this is the last good site
        else:
            _remove(folder)


def _remove(folder: Path) -> None:
    """Takes a folder of ours away, or a link that stands in its place; never what a link leads to."""
    if folder.is_symlink():
        folder.unlink()
    shutil.rmtree(folder, ignore_errors=True)


def _alive(process: int) -> bool:
    if os.name != "posix":
        return process != os.getpid()  # asking would end the process there
    try:
        os.kill(process, 0)
    except ProcessLookupError:
        return False
    except (OSError, OverflowError):
        return True
    return process != os.getpid()
