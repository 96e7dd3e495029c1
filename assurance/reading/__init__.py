"""Text to records: reads a case folder into records and findings. Nothing of it is ever run."""

from assurance.reading.case_folder import read_case

__all__ = ["read_case"]
