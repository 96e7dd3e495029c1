"""Reading stays light and runs nothing that a case brings."""

import subprocess
import sys
from pathlib import Path

from marked_text import read_text, write_case

HEAVY = ("numpy", "scipy", "polars", "mkdocs", "matplotlib", "jinja2")


def test_reading_a_case_imports_nothing_heavy(tmp_path: Path) -> None:
    write_case(tmp_path, "claims:\n  top: {statement: A., argument: {checks: [{result: reserve.x}]}}\n")
    program = (
        "import sys; from pathlib import Path; from assurance.reading import read_case; "
        f"read_case(Path({str(tmp_path)!r})); print(sorted(set(sys.modules) & set({HEAVY!r})))"
    )

    ran = subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True)

    assert ran.stdout.strip() == "[]"


def test_a_tag_runs_nothing(tmp_path: Path) -> None:
    owned = tmp_path / "owned"
    text = f"claims:\n  top:\n    statement: !!python/object/apply:os.mkdir ['{owned}']\n"

    read_text(tmp_path / "case", text)

    assert not owned.exists()
