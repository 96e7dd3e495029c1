"""Rules about numbers: results, the limits of methods, the basis of allowables, factors, empty cells."""

from collections.abc import Iterator

from assurance.model.verdicts import Finding, ReasonKind
from assurance.rules.seen import Seen
from assurance.rules.view import View, from_causes

CELLS_NAMED = 5  # of those without a row; the count tells of the others


def result_not_worked_out(view: View) -> Iterator[Finding]:
    """A calculation cannot be worked out.

    Why: Without the number nothing that rests on it can be judged.

    Put right: Correct the input that the message names.

    Bad::

        calculations:
          step-strength:
            title: Reserve factor of the step by hand
            method: reserve_factors
            inputs:  # here
              allowable: {material: plate.yield_strength}
              criterion: yield
              part: step
              load_case: landing
            author: ben
            checker: ann

    Good::

        calculations:
          step-strength:
            title: Reserve factor of the step by hand
            method: reserve_factors
            inputs:
              applied: 100 MPa
              allowable: {material: plate.yield_strength}
              criterion: yield
              part: step
              load_case: landing
            author: ben
            checker: ann
    """
    yield from from_causes(view, ReasonKind.RESULT_NOT_WORKED_OUT)


def outside_method_limits(view: View) -> Iterator[Finding]:
    """A result lies outside the published limits of its method.

    Why: Beyond its limits a formula still gives a number, and nobody has shown that it is right. A
    reserve factor that no factor of safety went into is such a number.

    Put right: Stay inside the limits, or use a method that reaches so far.

    Bad::

        calculations:
          coupon-strength:
            title: Strength of five coupons
            method: allowables  # here
            inputs:
              values: {file: data/five-coupons.csv, column: strength, unit: MPa}
              batch: {file: data/five-coupons.csv, column: plate}
            author: ben
            checker: ann
        materials:
          plate:
            title: Aluminium plate
            properties: {yield_strength: {result: coupon-strength.a_basis, basis: A}}
        evidence:
          plate-certificate:
            title: Five coupons cut from the plate
            kind: data
            state: issued
            producer: cleo
            files:
              - file: data/five-coupons.csv
                sha256: 7f42c84886eff9b0dd75933d8cd669b5724dc2ee392e3c3dfcba47279fa944e0

    Good::

        calculations:
          coupon-strength:
            title: Strength of twenty coupons
            method: allowables
            inputs:
              values: {file: data/coupons.csv, column: strength, unit: MPa}
              batch: {file: data/coupons.csv, column: plate}
            author: ben
            checker: ann
        materials:
          plate:
            title: Aluminium plate
            properties: {yield_strength: {result: coupon-strength.a_basis, basis: A}}
        evidence:
          plate-certificate:
            title: Twenty coupons cut from the plate
            kind: data
            state: issued
            producer: cleo
            files:
              - file: data/coupons.csv
                sha256: 897aa8b9c9d9e1c03b4f33939479b22881ec809ad581d86355d5086ba0d8e62b
    """
    yield from from_causes(view, ReasonKind.OUTSIDE_METHOD_LIMITS)


def method_caution(view: View) -> Iterator[Seen]:
    """A method gives its result, and says that it is to be taken with care.

    Why: The result stands, and whoever signs for it should have read the remark.

    Put right: Do what the remark asks for, or know why it does not matter here.

    Bad::

        calculations:
          coupon-strength:
            title: Strength of twelve coupons
            method: allowables  # here
            inputs:
              values: {file: data/twelve-coupons.csv, column: strength, unit: MPa}
              batch: {file: data/twelve-coupons.csv, column: plate}
            author: ben
            checker: ann
        materials:
          plate:
            title: Aluminium plate
            properties: {yield_strength: {result: coupon-strength.a_basis, basis: A}}
        evidence:
          plate-certificate:
            title: Twelve coupons cut from the plate
            kind: data
            state: issued
            producer: cleo
            files:
              - file: data/twelve-coupons.csv
                sha256: 94ddb9c1c39cec78abaadd3215dba8f2040cdeca5f44b3918e0fb5de35a9558f

    Good::

        calculations:
          coupon-strength:
            title: Strength of twenty coupons
            method: allowables
            inputs:
              values: {file: data/coupons.csv, column: strength, unit: MPa}
              batch: {file: data/coupons.csv, column: plate}
            author: ben
            checker: ann
        materials:
          plate:
            title: Aluminium plate
            properties: {yield_strength: {result: coupon-strength.a_basis, basis: A}}
        evidence:
          plate-certificate:
            title: Twenty coupons cut from the plate
            kind: data
            state: issued
            producer: cleo
            files:
              - file: data/coupons.csv
                sha256: 897aa8b9c9d9e1c03b4f33939479b22881ec809ad581d86355d5086ba0d8e62b
    """
    for id_, worked in sorted(view.assessment.worked.items()):
        for remark in worked.remarks:
            if not remark.outside:
                yield Seen(id_, ("method",), f"`{id_}`: {_ended(remark.text)}", _ended(remark.remedy))


def _ended(text: str) -> str:
    """A remark of a method as a sentence with its full stop."""
    return text[:1].upper() + text[1:].rstrip(".") + "." if text else ""


def basis_too_weak(view: View) -> Iterator[Finding]:
    """An allowable is not on the basis that its part needs.

    Why: Where one load path carries everything, 14 CFR 25.613 asks for an A basis; a B basis will do
    where another path takes over. A mean, or a value without a basis, never does.

    Put right: Use a value on the basis that is needed, or say `load_path: redundant` where that is so.

    Bad::

        calculations:
          step-strength:
            title: Reserve factor of the step by hand
            method: reserve_factors
            inputs:
              applied: 100 MPa
              allowable: {material: plate.yield_strength}  # here
              criterion: yield
              part: step
              load_case: landing
            author: ben
            checker: ann
        materials:
          plate:
            title: Aluminium plate
            properties: {yield_strength: {value: 250 MPa, basis: B, origin: plate-certificate}}

    Good::

        parts:
          step: {title: Step, load_path: redundant}
        materials:
          plate:
            title: Aluminium plate
            properties: {yield_strength: {value: 250 MPa, basis: B, origin: plate-certificate}}
    """
    yield from from_causes(view, ReasonKind.BASIS_TOO_WEAK)


def empty_cell(view: View) -> Iterator[Seen]:
    """A result table has no row for a part, load case and criterion that it speaks of.

    Why: A reserve factor that nobody worked out is easily taken for one that is large.

    Put right: Complete the table, or narrow what the calculation speaks of.

    Bad::

        calculations:
          bracket-strength:
            title: Reserve factors of step and rail
            method: reserve_factors
            table:
              file: data/hole.csv  # here
              columns: {part: part, load_case: case}
              unit: MPa
            criteria:
              - {criterion: yield, stress: svm, allowable: plate.yield_strength}
            parts: [step, rail]
            load_cases: [landing, sideways]
            author: ben
            checker: ann
        load_cases:
          sideways: {title: A push from the side, value: 0.4 kN}
        evidence:
          stress-run:
            title: Stress run of step and rail
            kind: analysis
            state: issued
            producer: ben
            files:
              - file: data/hole.csv
                sha256: 3f2373dae6cd49238f767419b5ddd3941838bbe2a845e9e9e6997e64ccabf566
        claims:
          step-strong:
            statement: Step and rail keep a reserve factor of at least 1.0.
            about: [step, rail]
            argument:
              because: A stress run against the A-basis yield strength.
              checks: [{result: bracket-strength.least_reserve_factor, at_least: reserve-policy}]
              rests_on: [step-test, step-strength-checked]
            owner: ben
          step-strength-checked:
            statement: The sum by hand agrees.
            about: [step]
            argument:
              because: The sum by hand against the same limit.
              checks: [{result: step-strength.least_reserve_factor, at_least: reserve-policy}]
            owner: ben

    Good::

        calculations:
          bracket-strength:
            title: Reserve factors of step and rail
            method: reserve_factors
            table:
              file: data/bracket.csv
              columns: {part: part, load_case: case}
              unit: MPa
            criteria:
              - {criterion: yield, stress: svm, allowable: plate.yield_strength}
            parts: [step, rail]
            load_cases: [landing, sideways]
            author: ben
            checker: ann
        load_cases:
          sideways: {title: A push from the side, value: 0.4 kN}
        evidence:
          stress-run:
            title: Stress run of step and rail
            kind: analysis
            state: issued
            producer: ben
            files:
              - file: data/bracket.csv
                sha256: 303fc47f5b073be5f24362c95444a9f69b7c3465db9da1312b2186b31429b584
        claims:
          step-strong:
            statement: Step and rail keep a reserve factor of at least 1.0.
            about: [step, rail]
            argument:
              because: A stress run against the A-basis yield strength.
              checks:
                - {result: bracket-strength.least_reserve_factor, at_least: reserve-policy}
                - {result: step-strength.least_reserve_factor, at_least: reserve-policy}
              rests_on: [step-test]
            owner: ben
    """
    for id_, worked in sorted(view.assessment.worked.items()):
        if worked.empty_cells:
            named = "; ".join(
                " / ".join(f"`{word}`" for word in cell) for cell in worked.empty_cells[:CELLS_NAMED]
            )
            count = len(worked.empty_cells)
            more = f" and {count - CELLS_NAMED} more" if count > CELLS_NAMED else ""
            yield Seen(
                id_, ("table", "file"),
                f"The table of `{id_}` has no row for {count} of its cells (part / load case / criterion): "
                f"{named}{more}.",
                "Complete the table, or narrow `parts`, `load_cases` or the criterion.",
            )  # fmt: skip
