"""Layers point one way: each package imports only what its row permits, and every permission is used."""

import ast
from functools import cache
from pathlib import Path

import pytest

PACKAGE = Path(__file__).parents[1] / "assurance"

# Each layer may import those named here. A layer that is added stands in order: model first.
PERMITTED = {
    "model": set(),
    "methods": {"model"},
    "graph": {"model"},
    "reading": {"model", "methods"},
    "store": set(),
    "import_path": set(),
    "standing": {"model", "graph"},
    "calculations": {"model", "methods", "store"},
    "risk": {"model", "graph", "standing"},
    "argument": {"model", "graph", "standing"},
    "rules": {"model", "graph", "standing", "risk"},
    "results": {"model", "graph", "store", "standing", "calculations"},
    "assess": {"model", "graph", "store", "standing", "results", "risk", "argument", "rules"},
    "checking": {"model", "reading", "store", "results", "assess"},
    "site": {"model", "methods"},
    "reference": {"model", "methods", "reading", "rules", "site"},
    "publish": {"model", "store", "site", "reference"},
    "reports": {"model", "reading", "rules"},
    "findings_text": {"model", "reading", "rules", "reports"},
    "scaffold": {"model", "methods", "reading", "calculations", "risk", "site"},
    "serving": {"model", "reading", "site"},
    "mkdocs_plugin": {"publish", "reading", "assess", "store"},
    "commands": {
        "model", "reading", "store", "checking", "site", "publish",
        "reports", "findings_text", "scaffold", "serving", "mkdocs_plugin",
    },
    "cli": {"commands", "import_path"},
}  # fmt: skip
HOSTS = {"mkdocs": {"mkdocs_plugin"}, "material": set()}


def layer_of(path):
    inside = path.relative_to(PACKAGE)
    return inside.parts[0] if len(inside.parts) > 1 else inside.stem


def imported(path):
    for node in ast.walk(ast.parse(path.read_text("utf-8"))):
        if isinstance(node, ast.ImportFrom) and node.level == 0:
            yield node.module
        elif isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)


@cache
def layers_used():
    used = {}
    for path in sorted(PACKAGE.rglob("*.py")):
        layer = layer_of(path)
        for module in imported(path):
            parts = module.split(".")
            if parts[0] == "assurance" and len(parts) > 1 and parts[1] != layer:
                used.setdefault(layer, set()).add(parts[1])
    return used


@pytest.mark.parametrize("layer", sorted(PERMITTED))
def test_a_layer_imports_exactly_what_it_is_permitted(layer):
    assert layers_used().get(layer, set()) == PERMITTED[layer]


def test_every_module_stands_in_a_layer():
    layers = {layer_of(path) for path in PACKAGE.rglob("*.py")} - {"__init__"}
    assert layers == set(PERMITTED)


@pytest.mark.parametrize("host", sorted(HOSTS))
def test_only_the_plugin_knows_the_host(host):
    knowing = {
        layer_of(path)
        for path in PACKAGE.rglob("*.py")
        if any(module.split(".")[0] == host for module in imported(path))
    }
    assert knowing == HOSTS[host]


def test_no_module_is_longer_than_400_lines():
    long = {path.name for path in PACKAGE.rglob("*.py") if len(path.read_text("utf-8").splitlines()) > 400}
    assert not long


def test_no_function_is_longer_than_40_lines():
    long = [
        f"{path.name}:{node.name}"
        for path in sorted(PACKAGE.rglob("*.py"))
        for node in ast.walk(ast.parse(path.read_text("utf-8")))
        if isinstance(node, ast.FunctionDef) and body_lines(node) > 40
    ]
    assert not long


def body_lines(function):
    first = function.body[1] if ast.get_docstring(function) and len(function.body) > 1 else function.body[0]
    return function.end_lineno - first.lineno + 1
