"""A copy of the demonstration case that a test may edit, and what its assessment says."""

import json
import shutil
from pathlib import Path

from click.testing import CliRunner

from assurance.cli import main

ROOT = Path(__file__).parents[2]


def copy_demo(folder):
    for name in ("claims", "hazards"):
        shutil.copytree(ROOT / name, folder / name)
    shutil.copyfile(ROOT / "mkdocs.yml", folder / "mkdocs.yml")
    return folder


def edit(folder, file, old, new):
    path = folder / file
    text = path.read_text("utf-8")
    assert text.count(old) == 1, f"{old!r} stands {text.count(old)} times in {file}"
    path.write_text(text.replace(old, new), "utf-8")


def find(folder, text):
    """The one file under the case that holds this text."""
    holding = [path for path in sorted(folder.rglob("*.yml")) if text in path.read_text("utf-8")]
    assert len(holding) == 1, f"{text!r} stands in {holding}"
    return holding[0].relative_to(folder).as_posix()


def check(folder):
    """What `holdwater check --format json` gives, and its exit code."""
    ran = CliRunner().invoke(main, ["check", str(folder), "--format", "json"], catch_exceptions=False)
    return json.loads(ran.stdout), ran.exit_code
