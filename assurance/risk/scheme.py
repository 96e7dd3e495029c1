"""The risk scheme in force: MIL-STD-882E unless the case brings its own."""

from collections.abc import Mapping
from functools import cache

from assurance.model.assessment import Rated, Scheme
from assurance.model.risk_records import RiskScheme

# MIL-STD-882E (11 May 2012), Tables I to III.
SEVERITIES = ("Catastrophic", "Critical", "Marginal", "Negligible")
LIKELIHOODS = ("Frequent", "Probable", "Occasional", "Remote", "Improbable", "Eliminated")
LEVELS = ("High", "Serious", "Medium", "Low", "Eliminated")
MATRIX = {
    "Frequent": ("High", "High", "Serious", "Medium"),
    "Probable": ("High", "High", "Serious", "Medium"),
    "Occasional": ("High", "Serious", "Medium", "Low"),
    "Remote": ("Serious", "Medium", "Medium", "Low"),
    "Improbable": ("Medium", "Medium", "Medium", "Low"),
    "Eliminated": ("Eliminated",) * 4,
}


def standard_scheme() -> Scheme:
    """The matrix of MIL-STD-882E, Table III, with its codes 1 to 4 and A to F."""
    codes = {str(index + 1): word for index, word in enumerate(SEVERITIES)}
    codes |= {chr(ord("A") + index): word for index, word in enumerate(LIKELIHOODS)}
    return Scheme(
        title="MIL-STD-882E",
        source="MIL-STD-882E, 11 May 2012, Tables I to III",
        severities=SEVERITIES,
        likelihoods=LIKELIHOODS,
        levels=LEVELS,
        matrix=_cells(SEVERITIES, MATRIX),
        codes=codes,
    )


def own_scheme(record: RiskScheme) -> Scheme:
    """The scheme that a case brings.

    Raises `ValueError` with the fault where the matrix does not give each cell one known level.
    """
    for name in ("severities", "likelihoods", "levels"):
        words = [word.lower() for word in getattr(record, name)]
        if len(set(words)) < len(words) or not words:
            raise ValueError(f"`{name}` is empty or holds a word twice")
    for likelihood in record.likelihoods:
        row = record.matrix.get(likelihood)
        if row is None:
            raise ValueError(f"the matrix has no row for the likelihood `{likelihood}`")
        if len(row) != len(record.severities):
            raise ValueError(
                f"the row `{likelihood}` of the matrix has {len(row)} of the {len(record.severities)} levels "
                "that its severities need"
            )
        unknown = [level for level in row if level not in record.levels]
        if unknown:
            raise ValueError(f"the level `{unknown[0]}` in the row `{likelihood}` is not under `levels`")
    _not_milder_for_worse(record)
    return Scheme(
        title=record.title,
        source=record.source or "",
        severities=record.severities,
        likelihoods=record.likelihoods,
        levels=record.levels,
        matrix=_cells(record.severities, record.matrix),
        own=True,
    )


def _not_milder_for_worse(record: RiskScheme) -> None:
    """A worse severity or likelihood may never give a milder level."""
    rows = [[record.levels.index(level) for level in record.matrix[one]] for one in record.likelihoods]
    for likelihood, row in zip(record.likelihoods, rows, strict=True):
        if row != sorted(row):
            raise ValueError(f"in the row `{likelihood}` of the matrix a milder severity has a worse level")
    for severity, column in zip(record.severities, zip(*rows, strict=True), strict=True):
        if list(column) != sorted(column):
            raise ValueError(f"in the column `{severity}` of the matrix a rarer one has a worse level")


def _cells(severities: tuple[str, ...], rows: Mapping[str, tuple[str, ...]]) -> dict[tuple[str, str], str]:
    return {
        (severity, likelihood): level
        for likelihood, row in rows.items()
        for severity, level in zip(severities, row, strict=True)
    }


def rate(scheme: Scheme, severity: str | None, likelihood: str | None) -> Rated | None:
    """The level of a severity and a likelihood, or None where a word is not of the scheme."""
    known_severity = word_of(scheme, severity, scheme.severities)
    known_likelihood = word_of(scheme, likelihood, scheme.likelihoods)
    if known_severity is None or known_likelihood is None:
        return None
    level = scheme.matrix[known_severity, known_likelihood]
    rank = len(scheme.levels) - 1 - scheme.levels.index(level)
    return Rated(known_severity, known_likelihood, level, rank)


def word_of(scheme: Scheme, given: str | None, words: tuple[str, ...]) -> str | None:
    """The word of the scheme for a word in any case, or for a code such as `2` or `C`."""
    if given is None or given in words:
        return given
    by_code = scheme.codes.get(given.upper())
    return by_code if by_code in words else _folded(words).get(given.lower())


@cache
def _folded(words: tuple[str, ...]) -> Mapping[str, str]:
    """Each word by its small letters; of two that are alike the first."""
    return {word.lower(): word for word in reversed(words)}
