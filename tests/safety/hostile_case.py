"""A case whose every file would like to be run, and processes started inside it."""

import os
import subprocess
import sys
from pathlib import Path

BIN = Path(sys.executable).parent
CASE = """\
case:
  tiny: {title: Tiny, item: Thing, issue: A, top_claims: {use: top}, as_of: 2026-03-12, people: {lead: Lead}}
claims:
  top:
    statement: The thing is safe.
    owner: lead
    argument: {because: By hand., checks: [{result: sum.least_reserve_factor, at_least: 1, because: so}]}
calculations:
  sum: {title: By hand, method: reserve_factors, inputs: {applied: 100 MPa, allowable: 200 MPa}, author: lead}
"""
# What `python -m` itself imports before the first line of the module that it was asked for.
BEFORE_US = {
    "importlib", "warnings", "contextlib", "collections", "keyword", "operator", "reprlib", "functools",
    "types",
}  # fmt: skip
LIBRARIES = {
    "click", "conftest", "jinja2", "markdown", "markupsafe", "material", "matplotlib", "mkdocs", "numpy",
    "polars", "pydantic", "scipy", "sitecustomize", "usercustomize", "yaml",
}  # fmt: skip
MODULES = sorted((set(sys.stdlib_module_names) | LIBRARIES) - BEFORE_US)


def write_case(folder):
    for name, text in (("claims/case.yml", CASE), ("guide/index.md", "# Notes\n")):
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(text)
    return folder


def leaves_canary(canary):
    """Python that leaves a trace and then stops whoever ran it."""
    return f"import os\nos.close(os.open({str(canary)!r}, os.O_CREAT | os.O_WRONLY))\nraise SystemExit(99)\n"


def run(*command, folder, **environment):
    """A command in a new process inside a folder, with an environment that names no import path."""
    kept = {name: text for name, text in os.environ.items() if not name.startswith("PYTHON")}
    kept["HOLDWATER_CACHE"] = str(folder.parent / "cache")
    return subprocess.run(
        command, cwd=folder, env=kept | environment, capture_output=True, text=True, check=False, timeout=300
    )


def site_texts(site):
    """Every file of a site as text, by address."""
    return {
        file.relative_to(site).as_posix(): file.read_text("utf-8", errors="replace")
        for file in sorted(site.rglob("*"))
        if file.is_file()
    }
