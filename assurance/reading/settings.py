"""The few settings that are taken from `mkdocs.yml`; nothing else of it is read and nothing runs."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from yaml.nodes import MappingNode, Node, ScalarNode

from assurance.model.case import SiteSettings
from assurance.model.verdicts import Finding
from assurance.reading.composing import IMPLICIT, compose, spot_of
from assurance.reading.faults import Fault, as_finding, shown_value
from assurance.reading.folders import RECORD_FOLDERS, TOP, TextFile, read_text
from assurance.reading.real_paths import leads_out, real_path
from assurance.reading.scalars import plain_value

SETTINGS_FILE = "mkdocs.yml"
DEFAULTS = SiteSettings()


@dataclass(frozen=True, slots=True)
class ReadSettings:
    """The settings, what in them cannot be used, and the file that they were read from, if any."""

    settings: SiteSettings
    findings: tuple[Finding, ...] = ()
    file: TextFile | None = None


def read_settings(folder: Path) -> ReadSettings:
    """The settings of a case folder; the defaults where it has no `mkdocs.yml`."""
    path, root = folder / SETTINGS_FILE, folder.resolve()
    if not path.exists() and not path.is_symlink():
        return ReadSettings(DEFAULTS)
    if leads_out(path, root):
        message = f"`{SETTINGS_FILE}` is a link that leads out of the case folder; it is not followed."
        fault = Fault("file-outside-the-case", TOP, message, "Put the file itself into the case.")
        return replace(_refused(fault), file=TextFile(SETTINGS_FILE, "", fault))
    read = read_text(path, SETTINGS_FILE)
    composed = compose(read.text)
    wrong = read.fault or composed.fault or _no_settings(composed.root)
    taken = _refused(wrong) if wrong else _taken(_fields(composed.root), root)
    return replace(taken, file=read)


def _no_settings(root: Node | None) -> Fault | None:
    if root is None or isinstance(root, MappingNode):
        return None
    held = shown_value(root.value) if isinstance(root, ScalarNode) else "a list"
    message = f"`{SETTINGS_FILE}` holds {held} where settings are expected; the usual ones are used."
    return Fault("value-wrong", spot_of(root), message, "Write each setting as a key, such as `site_name:`.")


def _refused(*faults: Fault, settings: SiteSettings = DEFAULTS) -> ReadSettings:
    return ReadSettings(settings, tuple(as_finding(fault, file=SETTINGS_FILE) for fault in faults))


def _taken(nodes: Mapping[str, Node], root: Path) -> ReadSettings:
    site_fault = _folder_fault("site_dir", nodes, root)
    docs_fault = _folder_fault("docs_dir", nodes, root)
    settings = SiteSettings(
        site_name=_text(nodes.get("site_name")),
        site_dir=(not site_fault and _text(nodes.get("site_dir"))) or DEFAULTS.site_dir,
        docs_dir=(not docs_fault and _text(nodes.get("docs_dir"))) or DEFAULTS.docs_dir,
        extra=_extra(nodes.get("extra")),
    )
    return _refused(*(fault for fault in (site_fault, docs_fault) if fault), settings=settings)


def _fields(node: Node | None) -> dict[str, Node]:
    """The untagged values of a mapping by key; a tagged value counts as not written."""
    if not isinstance(node, MappingNode) or node.tag != IMPLICIT:
        return {}
    pairs = ((key, value) for key, value in node.value if isinstance(key, ScalarNode))
    return {key.value: value for key, value in pairs if value.tag == IMPLICIT}


def _text(node: Node | None) -> str:
    """A scalar as it is written; nothing for a list, a mapping or an empty value."""
    if not isinstance(node, ScalarNode):
        return ""
    empty = not node.style and plain_value(node.value) is None
    return "" if empty else str(node.value)


def _extra(node: Node | None) -> dict[str, str]:
    written = _fields(_fields(node).get("holdwater"))
    return {key: _text(value) for key, value in written.items() if isinstance(value, ScalarNode)}


def _folder_fault(setting: str, nodes: Mapping[str, Node], root: Path) -> Fault | None:
    """Why a folder setting cannot be used: it leaves the case, or would cover what is read."""
    node = nodes.get(setting)
    written = _text(node)
    if node is None or not written:
        return None
    why = _why_not(setting, written, root)
    if not why:
        return None
    default = getattr(DEFAULTS, setting)
    message = f"`{setting}` is {shown_value(written)}, which {why}; `{default}` is used."
    return Fault("folder-not-usable", spot_of(node), message, "Name a folder of its own inside the case.")


def _why_not(setting: str, written: str, root: Path) -> str:
    path = real_path(root / written)
    if path is None:
        return "is not a name that a folder can have"
    if not path.is_relative_to(root):
        return "lies outside the case folder"
    if path == root:
        return "is the case folder itself"
    kept = [(root / name).resolve() for name in RECORD_FOLDERS]
    if setting == "site_dir" and any(path.is_relative_to(k) or k.is_relative_to(path) for k in kept):
        return "holds the records of the case"
    return ""
