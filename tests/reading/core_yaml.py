"""YAML with the core types of YAML 1.2 and nothing of ours, to hold our schema against."""

import re

import yaml


class CoreLoader(yaml.SafeLoader):
    """Plain scalars after YAML 1.2.2, section 10.3.2 (core schema); `no` and `2026-03-12` are text."""


CoreLoader.yaml_implicit_resolvers = {}
for tag, pattern, starts in (
    ("null", r"null|Null|NULL|~|", [*"nN~", ""]),
    ("bool", r"true|True|TRUE|false|False|FALSE", "tTfF"),
    ("int", r"[-+]?[0-9]+|0o[0-7]+|0x[0-9a-fA-F]+", "-+0123456789"),
    ("float", r"[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?", "-+.0123456789"),
):
    CoreLoader.add_implicit_resolver(f"tag:yaml.org,2002:{tag}", re.compile(rf"^(?:{pattern})$"), starts)
CoreLoader.add_constructor(
    "tag:yaml.org,2002:float", lambda loader, node: float(loader.construct_scalar(node))
)


def core_yaml(text: str) -> object:
    """The plain value of a YAML text."""
    return yaml.load(text, CoreLoader)
