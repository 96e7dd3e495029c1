"""The folder beside the published site in which the next one is built, whole, before it takes its place."""

import os
import re
import shutil
from pathlib import Path
from types import TracebackType

from assurance.publish.exchange import exchange

MARKER = ".holdwater-site"  # a folder that holds this was published by us
MARKER_TEXT = "Published by holdwater. What stands in this folder is replaced by the next build.\n"


class SiteFolderRefused(ValueError):  # noqa: N818 - it says what happened
    """The site may not be put there; the text says why and what would put it right."""


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
        self._folders: set[str] = set()

    def __enter__(self) -> "Staging":
        self.site_dir.parent.mkdir(parents=True, exist_ok=True)
        _remove_stale(self.site_dir)
        shutil.rmtree(self.folder, ignore_errors=True)
        self.folder.mkdir()
        self.put(MARKER, MARKER_TEXT.encode())
        return self

    def __exit__(self, kind: type[BaseException] | None, value: object, trace: TracebackType | None) -> None:
        shutil.rmtree(self.folder, ignore_errors=True)

    def put(self, address: str, content: bytes) -> None:
        """One file of the new site; every address is put once."""
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


def refuse_folder(site_dir: Path, *, case_folder: Path) -> None:
    """Raises `SiteFolderRefused` where publishing would replace what is not a published site."""
    site, case = site_dir.resolve(), case_folder.resolve()
    if case == site or site in case.parents:
        raise SiteFolderRefused(
            f"`{site_dir}` holds the case itself. Name another folder as `site_dir` in `mkdocs.yml`."
        )
    if any(site == case / name or case / name in site.parents for name in ("claims", "hazards")):
        raise SiteFolderRefused(
            f"`{site_dir}` lies among the records of the case. "
            "Name another folder as `site_dir` in `mkdocs.yml`."
        )
    if site_dir.is_symlink() or (site_dir.exists() and not site_dir.is_dir()):
        raise SiteFolderRefused(f"`{site_dir}` is not a folder. Move it away, or name another `site_dir`.")
    if site_dir.is_dir() and not (site_dir / MARKER).is_file() and any(site_dir.iterdir()):
        raise SiteFolderRefused(
            f"`{site_dir}` is not empty and was not published by holdwater, so it is left as it is. "
            "Empty it, or name another `site_dir` in `mkdocs.yml`."
        )


def _link_unchanged(published: Path, staged: Path, content: bytes) -> bool:
    try:
        if published.stat().st_size != len(content):
            return False
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
        if found and not _alive(int(found[1])):
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
