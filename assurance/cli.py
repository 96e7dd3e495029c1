"""The command line: the commands under one name."""

import gc
import sys
from pathlib import Path

import click

from assurance import __version__
from assurance.commands.build import build
from assurance.commands.check import check
from assurance.commands.explain import explain
from assurance.commands.new import new
from assurance.commands.schema import schema


@click.group(
    commands=[new, check, build, explain, schema], context_settings={"help_option_names": ["-h", "--help"]}
)
@click.version_option(__version__, prog_name="holdwater")
def main() -> None:
    """An assurance case and risk analysis as YAML, worked out and published as a static site."""
    gc.disable()  # one short run: collecting costs a tenth of it and frees next to nothing
    own = str(Path(__file__).resolve().parents[1])
    here = {"", ".", str(Path.cwd())} - {own}  # a case folder holds data, never code
    sys.path[:] = [folder for folder in sys.path if folder not in here]


if __name__ == "__main__":
    main()
