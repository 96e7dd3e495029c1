"""How many rows of a table stand on a page; the rest is in the data."""

MOST_ROWS = 200
MOST_BYTES = 150_000  # of the rows of one table, so that a page of long rows stays under 300 kB


def more_rows(count: int, *, shown: int = MOST_ROWS) -> str:
    """What is said under a table that was cut, or nothing."""
    return f"{count - shown:,} more rows in assessment.json" if count > shown else ""
