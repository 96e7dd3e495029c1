"""Text to records: reads a case folder into records and findings. Nothing of it is ever run."""

from pathlib import Path
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from assurance.model.case import CaseText


def read_case(folder: Path) -> "CaseText":
    """Every record of a case folder, and a finding for everything that cannot be read whole."""
    from assurance.reading.case_folder import read_case as read  # a kept answer needs no record

    return read(folder)


__all__ = ["read_case"]
