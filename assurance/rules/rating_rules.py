"""Rules about the ratings of failure modes, and about the scheme that a case brings for its hazards."""

from collections.abc import Iterator

from assurance.model.risk_records import FailureMode, Hazard, RiskScheme
from assurance.risk.scheme import standard_scheme
from assurance.rules.seen import Seen, listed, living
from assurance.rules.view import View


def failure_mode_not_rated(view: View) -> Iterator[Seen]:
    """A failure mode has no scale, no severity, no cause, or a cause without its ratings.

    Why: A rating means something only on a named scale, and what is not rated is not ranked.

    Put right: Give `scale`, a `severity` to an effect, `occurrence` and `detection` to each cause.

    Bad::

        failure_modes:
          step-breaks:  # here
            title: The step breaks
            item: step
            scale: team-scale
            effects: [{text: The person falls, severity: 9}]
            causes: {overload: {text: A load above the limit, occurrence: 3}}
            owner: ben

    Good::

        failure_modes:
          step-breaks:
            title: The step breaks
            item: step
            scale: team-scale
            effects: [{text: The person falls, severity: 9}]
            causes: {overload: {text: A load above the limit, occurrence: 3, detection: 4}}
            owner: ben
    """
    for id_, mode in living(view, FailureMode):
        lacking = list(_unrated(mode))
        if lacking:
            yield Seen(
                id_, (), f"The failure mode `{id_}` has no {listed(lacking)}.",
                "Give what is missing, on the scale of the team.",
            )  # fmt: skip


def _unrated(mode: FailureMode) -> Iterator[str]:
    if not mode.scale:
        yield "scale"
    if not any(effect.severity for effect in mode.effects):
        yield "severity"
    if not mode.causes:
        yield "cause"
    for name, one in mode.causes.items():
        for word in ("occurrence", "detection"):
            if getattr(one, word) is None:
                yield f"{word} of `{name}`"


def risk_rises_with_its_controls(view: View) -> Iterator[Seen]:
    """The risk after the controls of a hazard is higher than the risk before them.

    Why: Either the two are mixed up, or a control brings a risk of its own, which is a hazard by itself.

    Put right: Correct the rating, or write the new risk down as a hazard.

    Bad::

        hazards:
          fall:
            title: A fall from the step
            harm: Broken bones
            exposed: the person on the step
            causes: [{record: step-breaks}]
            before: {severity: Critical, likelihood: Remote}
            controls:
              rail:
                text: A rail on three sides
                type: design
                reduces: [likelihood]
                implemented_by: [rail-inspection]
                effective_by: [rail-pull-test]
            after: {severity: Critical, likelihood: Probable, controls: [rail]}  # here
            claim: fall-held-back
            owner: ann

    Good::

        hazards:
          fall:
            title: A fall from the step
            harm: Broken bones
            exposed: the person on the step
            causes: [{record: step-breaks}]
            before: {severity: Critical, likelihood: Remote}
            controls:
              rail:
                text: A rail on three sides
                type: design
                reduces: [likelihood]
                implemented_by: [rail-inspection]
                effective_by: [rail-pull-test]
            after: {severity: Critical, likelihood: Remote, controls: [rail]}
            claim: fall-held-back
            owner: ann
    """
    for id_, hazard in living(view, Hazard):
        outcome = view.assessment.hazards.get(id_)
        before, after = (outcome.before, outcome.after) if outcome else (None, None)
        if hazard.after and before and after and after.rank > before.rank:
            yield Seen(
                id_, ("after",),
                f"The risk of `{id_}` is {before.level} before its controls and {after.level} after them.",
                "Correct the rating, or write the new risk down as a hazard.",
            )  # fmt: skip


def scheme_laxer_than_the_standard(view: View) -> Iterator[Seen]:
    """The risk scheme of the case rates a risk lower than MIL-STD-882E does.

    Why: A project may have its own scheme. Whoever reads a level must know where it is the milder one.

    Put right: Rate it as the standard does. Where the milder level is meant, the mark stays.

    Bad::

        risk_scheme:
          team-scheme:
            title: Scheme of the team
            source: Agreed at the first review
            severities: [Catastrophic, Critical]
            likelihoods: [Probable, Remote]
            levels: [High, Serious, Medium]
            matrix:
              Probable: [High, Serious]  # here
              Remote: [Serious, Medium]

    Good::

        risk_scheme:
          team-scheme:
            title: Scheme of the team
            source: Agreed at the first review
            severities: [Catastrophic, Critical]
            likelihoods: [Probable, Remote]
            levels: [High, Serious, Medium]
            matrix:
              Probable: [High, High]
              Remote: [Serious, Medium]
    """
    milder = {id_: list(_milder_cells(record)) for id_, record in living(view, RiskScheme)}
    for id_, cells in milder.items():
        for likelihood, severity, given, asked in cells:
            yield Seen(
                id_, ("matrix", likelihood),
                f"`{id_}` rates {severity} and {likelihood} as {given}, MIL-STD-882E as {asked}.",
                f"Rate it {asked}; where the milder level is meant, the mark stays.",
            )  # fmt: skip


def _milder_cells(record: RiskScheme) -> Iterator[tuple[str, str, str, str]]:
    """The cells of a scheme whose words are those of the standard, and whose level is a better one."""
    standard = standard_scheme()
    ranks = {level: rank for rank, level in enumerate(standard.levels)}  # worst first
    for likelihood, row in record.matrix.items():
        for severity, given in zip(record.severities, row, strict=False):
            asked = standard.matrix.get((severity, likelihood))
            if asked is not None and given in ranks and ranks[given] > ranks[asked]:
                yield likelihood, severity, given, asked
