"""What `check` answers of a case: worked out, and kept while nothing that it follows from changes."""

from assurance.checking.answering import check_case, checked

__all__ = ["check_case", "checked"]
