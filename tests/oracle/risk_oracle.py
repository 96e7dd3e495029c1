"""Risk now, a second and slow reading: which controls count today, and what they may lower."""

from oracle_facts import HOLDS, LEVELS, LIKELIHOODS, SEVERITIES, WORDS, Facts, Plain
from verdict_oracle import Oracle


def risk_now(oracle: Oracle, i: str) -> tuple[str, str, str] | None:
    """Severity, likelihood and level with the controls that count today."""
    record = oracle.record[i]
    if not oracle.known_words(record.get("before")):
        return None
    controls = record.get("controls") or {}
    counted = {name for name in controls if counts(oracle, i, name)}
    stated, before = None, record["before"]
    after = record.get("after") or {}
    if after.get("controls") and set(after["controls"]) <= counted:
        stated = after
    exact = [one for one in [after, *(record.get("risk_with") or [])]
             if one.get("controls") and set(one["controls"]) == counted]  # fmt: skip
    if exact:
        stated = max(exact, key=lambda one: rank(allowed(before, one, controls)))
    doubts = [x for x in oracle.laid_on(i) if oracle.kind[x] == "challenges"]
    if any(oracle.verdict(x) != HOLDS for x in doubts):
        stated = None
    severity, likelihood = allowed(before, stated or before, controls)
    return severity, likelihood, LEVELS[likelihood][SEVERITIES.index(severity)]


def rank(rated: tuple[str, str]) -> int:
    order = ["Eliminated", "Low", "Medium", "Serious", "High"]
    return order.index(LEVELS[rated[1]][SEVERITIES.index(rated[0])])


def allowed(before: Plain, stated: Plain, controls: Plain) -> tuple[str, str]:
    """The stated rating, as far as the controls it names may lower it."""
    named = [controls[name] for name in stated.get("controls") or [] if name in controls]
    severity = stated.get("severity") or before["severity"]
    likelihood = stated.get("likelihood") or before["likelihood"]
    if SEVERITIES.index(severity) > SEVERITIES.index(before["severity"]) and not any(
        c.get("type") in ("design", "safeguard") and lowers(c, "severity") for c in named
    ):
        severity = before["severity"]
    rarer = LIKELIHOODS.index(likelihood) > LIKELIHOODS.index(before["likelihood"])
    if rarer and not any(c.get("type") and lowers(c, "likelihood") for c in named):
        likelihood = before["likelihood"]
    if likelihood == LIKELIHOODS[-1] and not any(
        c.get("type") == "design" and lowers(c, "likelihood") for c in named
    ):
        likelihood = before["likelihood"]
    return severity, likelihood


def lowers(control: Plain, dimension: str) -> bool:
    """Whether the control says that it lowers this dimension."""
    return dimension in (control.get("reduces") or [])


def counts(oracle: Oracle, i: str, name: str) -> bool:
    control = oracle.record[i]["controls"][name]
    proofs = [*(control.get("implemented_by") or []), *(control.get("effective_by") or [])]
    both = control.get("implemented_by") and control.get("effective_by")
    doubts = [x for x in oracle.laid_on(f"{i}.{name}") if oracle.kind[x] == "challenges"]
    return bool(both) and all(x in oracle.kind and oracle.verdict(x) == HOLDS for x in proofs + doubts)


def judge_case(facts: Facts) -> tuple[dict[str, str], dict[str, tuple[str, str, str] | None]]:
    """The verdict of every record in words, and the risk now of every hazard."""
    oracle = Oracle(facts)
    verdicts = {i: WORDS[oracle.verdict(i)] for i in oracle.kind}
    return verdicts, {h: risk_now(oracle, h) for h in oracle.of("hazards")}
