"""`serve`: publishes a case again after each edit, and shows it in the browser while it is worked on."""

import gc
import signal
import sys
import time
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

import click

from assurance.commands.build import render_frames
from assurance.commands.options import NO_CASE, folder_argument, on_option, opened_store

if TYPE_CHECKING:
    from assurance.model.assessment import Assessment
    from assurance.model.case import CaseText
    from assurance.serving import Board, News, Rounds, Watch

PORT = 8425
LOOK = 0.2  # s between two looks at the files
QUIET = 0.05  # s without a change before an edit counts as finished


@click.command()
@folder_argument
@click.option("--port", type=click.IntRange(0, 65535), default=PORT, show_default=True,
              help="Port on this machine; 0 takes any that is free.")  # fmt: skip
@on_option
@click.option("--site-dir", type=click.Path(file_okay=False, path_type=Path),
              help="Where the site goes; `site_dir` of mkdocs.yml if left out.")  # fmt: skip
@click.option("--write-schema", is_flag=True, help="Keep `schema.json` of the case up to date as well.")
def serve(folder: Path, port: int, day: date | None, site_dir: Path | None, write_schema: bool) -> None:
    """Publish the case in FOLDER, serve it to this machine, and publish it anew after each edit.

    An open page is read again when it changed, or leads to what was edited; findings of the edited
    files stand at its foot. Ctrl-C ends it.
    """
    from assurance.reading.settings import read_settings
    from assurance.serving import Board, PortInUse, Rounds, Watch, serve_site

    folder = folder.resolve()
    target = site_dir or folder / read_settings(folder).settings.site_dir
    _refuse(target, folder)
    work = _Work(folder, day, target, write_schema)
    board = Board()
    rounds = Rounds(work.again, work.publish, meanwhile=board.put)
    try:
        with serve_site(target, board, port=port) as chosen, _ended_by_signal():
            click.echo(f"http://127.0.0.1:{chosen}/  (Ctrl-C ends)")
            _watch(Watch(folder), rounds, board, work)
    except PortInUse:
        click.echo(f"Port {port} is in use. Name another with `--port`, or 0 for any that is free.", err=True)
        sys.exit(NO_CASE)
    except KeyboardInterrupt:
        click.echo("\nEnded. The published site stays as it is.")


def _refuse(target: Path, folder: Path) -> None:
    """Ends here where the site may not be put there: nothing that we have not published is ever served."""
    from assurance.publish.site_folder import SiteFolderRefused, refuse_folder

    try:
        refuse_folder(target, case_folder=folder)
    except (SiteFolderRefused, OSError) as why:
        click.echo(f"Nothing is served: {why}", err=True)
        sys.exit(NO_CASE)


def _watch(watch: "Watch", rounds: "Rounds", board: "Board", work: "_Work") -> None:
    """Works a round at once, and one after each edit, for ever."""
    watch.changed()
    edited: tuple[str, ...] = ()
    while True:
        case, news = rounds.work(edited)
        work.keep_schema(case)
        watch.follow(case)
        board.put(news)
        _tell(news)
        gc.collect()  # while nobody waits for it: it stays off else, and this may run for days
        edited = _next_edit(watch)


def _next_edit(watch: "Watch") -> tuple[str, ...]:
    """The files of the next edit, once they have stopped changing."""
    edited: set[str] = set()
    while True:
        time.sleep(QUIET if edited else LOOK)
        changed = watch.changed()
        if edited and not changed:
            return tuple(sorted(edited))
        edited.update(changed)


def _tell(news: "News") -> None:
    if news.edited:
        click.echo(f"{', '.join(news.edited)}:")
    for one in news.findings if news.edited or not news.published else ():
        place = f"{one.place}: " if one.place else ""
        click.echo(f"  {place}{one.weight} [{one.rule}] {one.message}")
    click.echo(" ".join(filter(None, (news.elsewhere, news.said))))


class _Work:
    """What a round does with a case: reads and assesses it, publishes it, keeps its schema."""

    def __init__(self, folder: Path, day: date | None, site: Path, write_schema: bool) -> None:
        from assurance.checking.rechecking import Rechecker
        from assurance.store import cache_folder_for

        self.again = Rechecker(folder, day=day, store=opened_store(folder)).again
        self._cache = cache_folder_for(folder)
        self._site = site
        self._write_schema = write_schema

    def publish(self, case: "CaseText", assessment: "Assessment") -> int:
        """Publishes the case and gives the number of pages."""
        from assurance.publish import publish

        done = publish(case, assessment, self._site, render_frames=render_frames, cache_dir=self._cache)
        return done.pages

    def keep_schema(self, case: "CaseText") -> None:
        """Writes the schema of the case where that was asked for."""
        if not self._write_schema:
            return
        from assurance.scaffold import write_schema

        try:
            write_schema(case)
        except (ValueError, OSError) as why:
            click.echo(f"The schema was not written: {why}.", err=True)


@contextmanager
def _ended_by_signal() -> Iterator[None]:
    """A request to end, as a supervisor sends it, ends like Ctrl-C."""

    def end(_number: int, _frame: object) -> None:
        raise KeyboardInterrupt

    before = signal.signal(signal.SIGTERM, end)
    try:
        yield
    finally:
        signal.signal(signal.SIGTERM, before)
