"""One hazard: the formula of its verdict, and its risk before, now and after."""

from collections.abc import Iterator, Mapping

from assurance.graph.formula import All, Formula, Laid, Link
from assurance.model.argument_records import PRECEDENCE
from assurance.model.assessment import HazardOutcome, Rated, Scheme
from assurance.model.risk_records import Control, Hazard, Risk, RiskWith
from assurance.model.verdicts import ReasonKind, Verdict
from assurance.risk.scheme import rate
from assurance.standing.facts import Facts, Path, cause, common, laid_on_part

LOWERS_SEVERITY = ("design", "safeguard")
ELIMINATES = ("design",)


def hazard_formula(facts: Facts, id_: str, scheme: Scheme) -> Formula:
    """The worst among what shows its controls, its causes, and what is laid on itself."""
    record = facts.record(id_)
    own: list[Formula] = []
    if isinstance(record, Hazard):
        own += _rating(facts, id_, record, scheme)
        own += [Link(one.record) for one in record.causes if one.record and facts.kind(one.record)]
        own += _controls(facts, id_, record)
        own += [Link(one) for one in facts.case.of_kind("risk_scheme")]
    return All((*common(facts, id_), *own))


def _rating(facts: Facts, id_: str, record: Hazard, scheme: Scheme) -> Iterator[Formula]:
    stated: list[tuple[Path, Risk | RiskWith]] = list(stated_risks(record))
    if record.before is not None:
        stated.insert(0, (("before",), record.before))
    else:
        yield Laid(cause(
            facts, id_, ReasonKind.RISK_NOT_RATED, Verdict.OPEN,
            f"The risk of `{id_}` before any control is not rated.",
            "Give `before: {severity: ..., likelihood: ...}`.",
        ))  # fmt: skip
    for path, risk in stated:
        if rate(scheme, risk.severity, risk.likelihood) is None:
            yield Laid(cause(
                facts, id_, ReasonKind.RISK_NOT_RATED, Verdict.OPEN,
                f"The risk of `{id_}` under `{path[0]}`, {_words(risk)}, has no cell in the matrix of "
                f"{scheme.title}.",
                f"Write one of the severities {', '.join(scheme.severities)}, and one of the likelihoods "
                f"{', '.join(scheme.likelihoods)}.",
                path=path,
            ))  # fmt: skip


def stated_risks(record: Hazard) -> Iterator[tuple[Path, RiskWith]]:
    """Each risk that a hazard states for a set of its controls, with its field: `after`, `risk_with`."""
    if record.after is not None:
        yield ("after",), record.after
    for index, one in enumerate(record.risk_with):
        yield ("risk_with", index), one


def _words(risk: Risk | RiskWith) -> str:
    severity = f"severity `{risk.severity}`" if risk.severity else "no severity"
    return f"{severity} and " + (f"likelihood `{risk.likelihood}`" if risk.likelihood else "no likelihood")


def _controls(facts: Facts, id_: str, record: Hazard) -> Iterator[Formula]:
    if not record.controls:
        yield Laid(cause(
            facts, id_, ReasonKind.HAZARD_WITHOUT_CONTROL, Verdict.OPEN,
            f"The hazard `{id_}` has no control.", "Add one under `controls`.",
        ))  # fmt: skip
    for name, control in record.controls.items():
        yield from laid_on_part(facts, id_, name)
        for word in ("implemented_by", "effective_by"):
            if not proofs(facts, control, word):
                yield Laid(cause(
                    facts, id_, ReasonKind.CONTROL_NOT_SHOWN, Verdict.OPEN,
                    f"Nothing shows that the control `{name}` of `{id_}` {_shown(word)}.",
                    f"Name what shows it under `{word}`.", path=("controls", name, word),
                ))  # fmt: skip
        for proof in (*proofs(facts, control, "implemented_by"), *proofs(facts, control, "effective_by")):
            yield Link(proof)


def _shown(word: str) -> str:
    return "is there" if word == "implemented_by" else "works"


def proofs(facts: Facts, control: Control, word: str) -> tuple[str, ...]:
    """The records that show one side of a control, those that exist."""
    return facts.known(getattr(control, word))


def counts(facts: Facts, hazard: str, name: str, control: Control, verdicts: Mapping[str, Verdict]) -> bool:
    """Whether a control is shown to be there and shown to work, and no challenge to it stands."""
    shown = [proofs(facts, control, word) for word in ("implemented_by", "effective_by")]
    if not all(shown):
        return False
    doubts = facts.challenges.get(f"{hazard}.{name}", ())
    return all(verdicts[one] == Verdict.HOLDS for one in (*shown[0], *shown[1], *doubts))


def hazard_outcome(
    facts: Facts, id_: str, record: Hazard, scheme: Scheme, verdicts: Mapping[str, Verdict]
) -> HazardOutcome:
    """The risk of a hazard before, now and after; now counts only controls that are shown."""
    counted = tuple(
        name for name, control in record.controls.items() if counts(facts, id_, name, control, verdicts)
    )
    lifted = tuple(name for name in record.controls if name not in counted)
    before = rate(scheme, record.before.severity, record.before.likelihood) if record.before else None
    after, refused = allowed(record, record.after, before, scheme)
    now, why = before, "The hazard itself is challenged, so the risk before stands."
    refused_now: tuple[str, ...] = ()
    if all(verdicts[one] == Verdict.HOLDS for one in facts.challenges.get(id_, ())):
        stated = stated_now(record, counted, before, scheme)
        now, refused_now = allowed(record, stated, before, scheme)
        why = _why(record, counted, lifted, stated)
    refused = tuple(dict.fromkeys((*refused, *refused_now)))
    return HazardOutcome(before, now or before, after, counted, lifted, why, refused)


def stated_now(
    record: Hazard, counted: tuple[str, ...], before: Rated | None, scheme: Scheme
) -> RiskWith | None:
    """The rating that the case states for the controls that count now, if it states one.

    The exact set comes first, the worse where it is rated twice; else `after`, once all that it
    counts on do.
    """
    exact = [one for _, one in stated_risks(record) if one.controls and set(one.controls) == set(counted)]
    if exact:
        return max(exact, key=lambda one: _rank(allowed(record, one, before, scheme)[0]))
    whole = record.after is not None and record.after.controls and set(record.after.controls) <= set(counted)
    return record.after if whole else None


def _rank(rated: Rated | None) -> int:
    return -1 if rated is None else rated.rank


def allowed(
    record: Hazard, stated: RiskWith | None, before: Rated | None, scheme: Scheme
) -> tuple[Rated | None, tuple[str, ...]]:
    """A stated risk, with each dimension that its controls may not lower put back to before.

    A dimension falls only where a control that is counted on names it under `reduces`. Severity is
    lowered by design or safeguards alone, likelihood reaches the last word of the scheme by design
    alone (MIL-STD-882E 4.3.3.b).
    """
    if stated is None or before is None:
        return None, ()
    rated = rate(scheme, stated.severity, stated.likelihood)
    if rated is None:
        return None, ()
    severity, likelihood, refused = rated.severity, rated.likelihood, []
    milder = scheme.severities.index(severity) > scheme.severities.index(before.severity)
    if milder and not _any_of(record, stated, LOWERS_SEVERITY, "severity"):
        severity = before.severity
        refused.append(f"severity stays {before.severity}: no design or safeguard it counts on reduces it")
    rarer = scheme.likelihoods.index(likelihood) > scheme.likelihoods.index(before.likelihood)
    if rarer and not _any_of(record, stated, PRECEDENCE, "likelihood"):
        likelihood = before.likelihood
        refused.append(
            f"likelihood stays {before.likelihood}: no control it counts on says that it reduces it"
        )
    gone = likelihood == scheme.likelihoods[-1] != before.likelihood
    if gone and not _any_of(record, stated, ELIMINATES, "likelihood"):
        likelihood = before.likelihood
        refused.append(f"likelihood stays {before.likelihood}: only a design control can eliminate it")
    return rate(scheme, severity, likelihood), tuple(refused)


def _any_of(record: Hazard, stated: RiskWith, types: tuple[str, ...], dimension: str) -> bool:
    named = [record.controls[name] for name in stated.controls if name in record.controls]
    return any(control.type in types and dimension in control.reduces for control in named)


def _why(record: Hazard, counted: tuple[str, ...], lifted: tuple[str, ...], stated: RiskWith | None) -> str:
    if not record.controls:
        return "It has no control."
    if not lifted:
        return _all_hold(len(counted))
    names = " and ".join(f"`{name}`" for name in lifted)
    text = f"{names} {'does' if len(lifted) == 1 else 'do'} not count."
    if stated is None and counted:
        text += f" No risk is stated for the {len(counted)} that count, so the risk before stands."
    return text


def _all_hold(count: int) -> str:
    if count == 1:
        return "Its control holds."
    return "Both controls hold." if count == 2 else f"All {count} controls hold."
