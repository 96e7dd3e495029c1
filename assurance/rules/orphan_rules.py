"""Rules about what nothing rests on: evidence, results, assumptions and contexts that stand alone."""

from collections.abc import Iterator

from assurance.model.argument_records import Assumption, ClaimRecord, Context
from assurance.model.engineering_records import Calculation, EvidenceRecord, LoadCaseRecord, Material
from assurance.model.risk_records import Hazard
from assurance.model.verdicts import ReasonKind
from assurance.rules.evidence_rules import NO_LONGER_USED
from assurance.rules.seen import Seen, living, nobody_names
from assurance.rules.view import View


def evidence_nobody_relies_on(view: View) -> Iterator[Seen]:
    """No record relies on a piece of evidence.

    Why: Either a link is missing, or somebody measured something that the case does not need; and what
    it says has not been weighed. Evidence that speaks against a claim is no orphan: it opens the claim.

    Put right: Link it under `rests_on`, or withdraw it.

    Bad::

        evidence:
          grit-report:  # here
            title: Grit on the step
            kind: analysis
            state: issued
            producer: cleo
            results: {roughness: {value: 0.4 mm, where: table 2, read_by: cleo}}

    Good::

        evidence:
          grit-report:
            title: Grit on the step
            kind: analysis
            state: issued
            producer: cleo
            results: {roughness: {value: 0.4 mm, where: table 2, read_by: cleo}}
        claims:
          fall-held-back:
            statement: A person on the step cannot fall off it.
            argument:
              because: The rail was inspected, and the grit was measured.
              rests_on: [rail-inspection, grit-report]
            owner: ann
    """
    adverse = {reason.record for reason in view.causes.get(ReasonKind.EVIDENCE_ADVERSE, ())}
    newer = _newer_of_what_is_used(view)
    for id_, record in living(view, EvidenceRecord):
        past = record.state in NO_LONGER_USED or record.superseded_by
        if nobody_names(view, id_) and not past and id_ not in newer and id_ not in adverse:
            yield Seen(id_, (), f"No record relies on `{id_}`.", "Link it under `rests_on`, or withdraw it.")


def _newer_of_what_is_used(view: View) -> set[str]:
    """Evidence that supersedes what is still relied on: the fault is reported at the older record."""
    used_by = view.assessment.used_by
    return {
        record.superseded_by
        for id_, record in living(view, EvidenceRecord)
        if record.superseded_by and used_by.get(id_)
    }


def result_nobody_checks(view: View) -> Iterator[Seen]:
    """A calculation is worked out, and none of its results is compared with anything or used further.

    Why: A number that nothing depends on can be bad without anybody noticing.

    Put right: Check one of its results in a claim, or take the calculation out.

    Bad::

        calculations:
          rail-strength:  # here
            title: Reserve factor of the rail by hand
            method: reserve_factors
            inputs:
              applied: 90 MPa
              allowable: {material: plate.yield_strength}
              criterion: yield
              part: rail
              load_case: landing
            author: ben
            checker: ann

    Good::

        calculations:
          rail-strength:
            title: Reserve factor of the rail by hand
            method: reserve_factors
            inputs:
              applied: 90 MPa
              allowable: {material: plate.yield_strength}
              criterion: yield
              part: rail
              load_case: landing
            author: ben
            checker: ann
        claims:
          fall-held-back:
            statement: A person on the step cannot fall off it.
            argument:
              because: The rail was inspected, and is strong by hand.
              checks: [{result: rail-strength.least_reserve_factor, at_least: reserve-policy}]
              rests_on: [rail-inspection]
            owner: ann
    """
    checked = _records_of_checked_results(view)
    for id_, _ in living(view, Calculation):
        users = view.assessment.used_by.get(id_, ())
        used = id_ in checked or any(_takes_results(view, user) for user in users)
        if not used and not view.may_be_named(id_):
            yield Seen(
                id_, (), f"No check and no record uses a result of `{id_}`.",
                "Check one of its results in a claim, or take it out.",
            )  # fmt: skip


def _records_of_checked_results(view: View) -> set[str]:
    return {
        (check.result or "").partition(".")[0]
        for _, claim in living(view, ClaimRecord)
        for argument in claim.each_argument().values()
        for check in argument.checks
    }


def _takes_results(view: View, user: str) -> bool:
    record = view.assessment.entries[user].record
    return record is None or isinstance(record, Calculation | Material | LoadCaseRecord | Hazard)


def assumption_nobody_declares(view: View) -> Iterator[Seen]:
    """No claim declares an assumption.

    Why: Either a claim was argued on it silently, or it is no longer needed.

    Put right: Name it under `assumes` of the claim that needs it, or retire it.

    Bad::

        assumptions:
          dry-deck:  # here
            statement: The deck is dry.
            owner: ann
            state: confirmed
            confirmed_by: [rail-inspection]

    Good::

        assumptions:
          dry-deck:
            statement: The deck is dry.
            owner: ann
            state: confirmed
            confirmed_by: [rail-inspection]
        claims:
          fall-held-back:
            statement: A person on the step cannot fall off it.
            argument: {because: The rail was inspected., rests_on: [rail-inspection]}
            assumes: [dry-deck]
            owner: ann
    """
    for id_, _ in living(view, Assumption):
        if nobody_names(view, id_):
            yield Seen(
                id_, (), f"No claim declares the assumption `{id_}`.",
                "Name it under `assumes` of the claim that needs it, or retire it.",
            )  # fmt: skip


def context_nobody_uses(view: View) -> Iterator[Seen]:
    """No claim is read within a context.

    Why: A definition that nothing refers to explains nothing.

    Put right: Name it under `context` of the claims that need it, or take it out.

    Bad::

        contexts:
          use-meant: {statement: Use means one person at a time.}  # here

    Good::

        contexts:
          use-meant: {statement: Use means one person at a time.}
        claims:
          fall-held-back:
            statement: A person on the step cannot fall off it.
            argument: {because: The rail was inspected., rests_on: [rail-inspection]}
            context: [use-meant]
            owner: ann
    """
    for id_, _ in living(view, Context):
        if nobody_names(view, id_):
            yield Seen(
                id_, (), f"No claim is read within the context `{id_}`.",
                "Name it under `context` of the claims that need it, or take it out.",
            )  # fmt: skip
