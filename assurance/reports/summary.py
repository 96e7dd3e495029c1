"""The few lines that say how a case stands: its top claims, its claims counted, its findings counted."""

from collections.abc import Iterable, Iterator, Mapping

from assurance.model.verdicts import Finding, Verdict, Weight

COUNTED = {Weight.BLOCKING: "blocking finding", Weight.CAUTION: "caution", Weight.NOTE: "note"}


def top_lines(top_claims: Mapping[str, str], verdicts: Mapping[str, Verdict]) -> Iterator[str]:
    """The verdict of the top claim of each stage."""
    if not top_claims:
        yield "No top claim: name one under `top_claims` of the case."
    for stage, claim in sorted(top_claims.items()):
        yield f"{stage}: the top claim {claim} {says(verdicts[claim])}."


def says(verdict: Verdict) -> str:
    """A verdict as the end of a sentence."""
    return verdict.word if verdict in (Verdict.HOLDS, Verdict.FAILS) else f"is {verdict.word}"


def tally_line(verdicts: Iterable[Verdict]) -> str:
    """How many claims have each verdict, given the verdict of each claim."""
    given = list(verdicts)
    counts = ", ".join(f"{given.count(word)} {word.word}" for word in Verdict)
    return f"{len(given)} {'claim' if len(given) == 1 else 'claims'}: {counts}"


def count_line(findings: Iterable[Finding]) -> str:
    """How many findings there are of each weight."""
    given = [one.weight for one in findings]
    return ", ".join(_counted(given.count(weight), COUNTED[weight]) for weight in Weight)


def _counted(count: int, word: str) -> str:
    return f"{count} {word}" if count == 1 else f"{count} {word}s"
