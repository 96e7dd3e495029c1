"""Where a site may be put: never over a case, its records, or anything that no build has put there."""

import os
from collections.abc import Iterator
from pathlib import Path

MARKER = ".holdwater-site"  # a folder that holds this was published by us
MARKER_TEXT = "Published by holdwater. What stands in this folder is replaced by the next build.\n"
RECORDS = ("claims", "hazards")
SETTINGS = "mkdocs.yml"
_ELSEWHERE = "Name another folder as `site_dir` in `mkdocs.yml`."


class SiteFolderRefused(ValueError):  # noqa: N818 - it says what happened
    """The site may not be put there; the text says why and what would put it right."""


def refuse_folder(site_dir: Path, *, case_folder: Path) -> None:
    """Raises `SiteFolderRefused` where publishing would replace what is not a published site."""
    try:
        for why in _reasons(site_dir, case_folder):
            raise SiteFolderRefused(why)
    except RuntimeError:  # pathlib: a loop of links
        raise SiteFolderRefused(f"`{site_dir}` is a link that leads to itself. {_ELSEWHERE}") from None


def _reasons(site_dir: Path, case_folder: Path) -> Iterator[str]:
    site, case = site_dir.resolve(), case_folder.resolve()
    if case == site or site in case.parents:
        yield f"`{site_dir}` holds the case itself. {_ELSEWHERE}"
    if any(site == case / name or case / name in site.parents for name in RECORDS):
        yield f"`{site_dir}` lies among the records of the case. {_ELSEWHERE}"
    if any(_holds_records(folder) for folder in (site, *site.parents)):
        yield f"`{site_dir}` lies among the records of another case. {_ELSEWHERE}"
    if site_dir.is_symlink() or (site_dir.exists() and not site_dir.is_dir()):
        yield f"`{site_dir}` is not a folder. Move it away, or name another `site_dir`."
    if site_dir.is_dir():
        yield from _not_ours(site_dir)


def _holds_records(folder: Path) -> bool:
    """Whether a folder is one of those in which a case keeps its records."""
    return folder.name in RECORDS and ((folder.parent / SETTINGS).exists() or any(folder.glob("*.y*ml")))


def _not_ours(site_dir: Path) -> Iterator[str]:
    """What a folder holds that a build would take away and no build has put there."""
    if not (site_dir / MARKER).is_file():
        if any(site_dir.iterdir()):
            yield (
                f"`{site_dir}` is not empty and was not published by holdwater, so it is left as it is. "
                "Empty it, or name another `site_dir` in `mkdocs.yml`."
            )
        return
    for path in _of_somebody(site_dir):
        yield (
            f"`{path}` lies in the folder of the site, and no build has put it there, so the folder is "
            f"left as it is. Move it away, or name another `site_dir` in `{SETTINGS}`."
        )


def _of_somebody(site_dir: Path) -> Iterator[Path]:
    """Records, settings and repositories inside a published site."""
    for folder, folders, files in os.walk(site_dir):
        for name in (*folders, *files):
            if name == ".git" or name.lower().endswith((".yml", ".yaml")):
                yield Path(folder, name)
