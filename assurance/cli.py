"""The command line: the commands under one name."""

import assurance.import_path  # noqa: F401  # isort: skip  (before any library: see there)

import errno
import gc
import io
import os
import sys

import click

from assurance import __version__
from assurance.commands.build import build
from assurance.commands.check import check
from assurance.commands.completion import completion
from assurance.commands.explain import explain
from assurance.commands.new import new
from assurance.commands.schema import schema
from assurance.commands.serve import serve

NOT_WRITTEN = 2  # exit: what was asked for could not be printed whole
FULL = {errno.ENOSPC, errno.EDQUOT, errno.EFBIG, errno.EIO}  # what a full or broken disk answers


@click.group(
    commands=[new, check, build, serve, explain, schema, completion],
    context_settings={"help_option_names": ["-h", "--help"]},
)
@click.version_option(__version__, prog_name="holdwater")
def main() -> None:
    """An assurance case and risk analysis as YAML, worked out and published as a static site."""
    gc.disable()  # one short run: collecting costs a tenth of it and frees next to nothing


def run() -> None:
    """Runs the command line; where its words cannot be printed it ends with a word on that, if any can."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, io.TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")  # a narrow encoding shows the rest
    out = sys.stdout
    try:
        main(prog_name="holdwater")
    except OSError as fault:
        if fault.filename is not None or fault.errno not in FULL:
            raise
        _leave_stdout()
        click.echo(f"What was to be printed could not be written: {fault.strerror}.", err=True)
        sys.exit(NOT_WRITTEN)
    except SystemExit:
        if sys.stdout is not out:  # click put another in its place: nobody reads on
            sys.exit(NOT_WRITTEN)
        raise


def _leave_stdout() -> None:
    """Lets what is still waiting to be written go nowhere, so that Python does not try it at its end."""
    nowhere = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nowhere, sys.stdout.fileno())


if __name__ == "__main__":
    run()
