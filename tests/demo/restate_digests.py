"""Writes the digests that the files have now into the records of the demo and of the small case.

For those who change a data file of the demo on purpose. Run it from the repository:
`python tests/demo/restate_digests.py`.
"""

import hashlib
import re
from pathlib import Path

FOLDERS = ("claims", "hazards", "site_templates/new_case")
NAMED = re.compile(r"\{file: (?P<file>[^,}]+), sha256: [0-9a-z]*\}")


def restated(path: Path) -> str:
    """The text of a record file with the digest of each named file as it is on disk."""

    def with_digest(found: re.Match[str]) -> str:
        digest = hashlib.sha256((path.parent / found["file"]).read_bytes()).hexdigest()
        return f"{{file: {found['file']}, sha256: {digest}}}"

    return NAMED.sub(with_digest, path.read_text("utf-8"))


def restate(root: Path) -> list[Path]:
    """The record files that changed."""
    changed = []
    for path in sorted(one for folder in FOLDERS for one in (root / folder).rglob("*.yml")):
        text = restated(path)
        if text != path.read_text("utf-8"):
            path.write_text(text, "utf-8", newline="\n")
            changed.append(path)
    return changed


if __name__ == "__main__":
    for changed_file in restate(Path(__file__).parents[2]):
        print(f"Digests restated in {changed_file}")
