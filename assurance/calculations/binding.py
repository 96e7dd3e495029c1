"""Works out one calculation: binds its inputs, asks the store, else the method."""

from collections.abc import Iterator, Mapping
from dataclasses import replace

from assurance.calculations import by_hand, by_table, data_files, inputs, stored
from assurance.calculations.bound import Inputs, fault, nearest
from assurance.calculations.keys import key_of
from assurance.calculations.uses import load_cases_of, parts_of
from assurance.methods.registry import METHODS
from assurance.model.assessment import Fault, ResultValue, Worked
from assurance.model.case import CaseText
from assurance.model.engineering_records import Calculation
from assurance.model.methods import Method, Outcome, Remark, WhyNot
from assurance.model.steps import Sheet
from assurance.store import Store

MOST_IN_WORDS = 2  # results that a message names; the others it counts
Results = Mapping[str, ResultValue]


def work_out(
    id: str, calculation: Calculation, case: CaseText, results: Results, store: Store | None
) -> Worked:
    """The results of a calculation, with its sheet, and a fault for whatever is wrong with what it is given.

    `results` holds the results of everything that comes before, by `record.result`. A calculation that
    gives nothing still speaks of the parts and load cases that its record names, so that one fault does
    not show up as a load case that nobody thought of too.
    """
    found = _work_out(id, calculation, case, results, store)
    if found.cells or any(one.value is not None for one in found.results.values()):
        return found
    return replace(found, parts=parts_of(calculation, case), load_cases=load_cases_of(calculation, case))


def _work_out(
    id_: str, calculation: Calculation, case: CaseText, results: Results, store: Store | None
) -> Worked:
    method = METHODS.get(calculation.method)
    if method is None:
        text = f"no method is called `{calculation.method}`{nearest(calculation.method, METHODS)}"
        remedy = f"name one of {', '.join(f'`{name}`' for name in METHODS)}"
        return Worked(id_, calculation.method, 0, {}, faults=(fault(("method",), text, remedy),))
    if method.name == "reserve_factors":
        way = by_hand.work_out if calculation.table is None else by_table.work_out
        return way(id_, calculation, case, results, store)
    return _by_method(id_, calculation, method, case, results, store)


def in_a_loop(id_: str, case: CaseText, group: tuple[str, ...]) -> Worked:
    """A calculation that takes a value from itself, straight or over others: none, which the loop tells."""
    calculation = case.entries[id_].record
    assert isinstance(calculation, Calculation)
    named = " and ".join(f"`{one}`" for one in group)
    why = f"{named} take their values from each other" if len(group) > 1 else f"{named} takes its own value"
    method = METHODS.get(calculation.method)
    return Worked(id_, calculation.method, 0, {}) if method is None else stored.nothing(id_, method, (), why)


def _by_method(
    id_: str, calculation: Calculation, method: Method, case: CaseText, results: Results, store: Store | None
) -> Worked:
    given = inputs.bind(id_, calculation, method, case, results)
    refused = (*given.faults, *inputs.no_table(calculation, method), *_no_load_case(calculation, method))
    if refused or given.why_not:
        return stored.nothing(id_, method, refused, given.why_not)
    key = key_of(method, given)
    kept = stored.fetch(store, key, id_, method)
    if kept is None:
        kept = _from_method(id_, method, given)
        read = {(column.absolute, column.sha256) for column in given.columns.values()}
        stored.keep(store, key, kept, read=read)
    return replace(
        kept, key=key, parts=calculation.parts,
        remarks=(*kept.remarks, *_not_carried(method, given)),
        faults=(*kept.faults, *_unlisted(id_, calculation, case, kept)),
        files=tuple(dict.fromkeys(column.file for column in given.columns.values())),
    )  # fmt: skip


def _unlisted(id_: str, calculation: Calculation, case: CaseText, kept: Worked) -> Iterator[Fault]:
    """Files without a digest; not while nothing can be worked out, since the file has to change anyway."""
    if any(one.value is not None for one in kept.results.values()):
        yield from data_files.of_no_evidence(id_, calculation, case)


def _no_load_case(calculation: Calculation, method: Method) -> tuple[Fault, ...]:
    """A method that knows no load case argues none, whatever the record lists."""
    if not calculation.load_cases or method.input("load_case") is not None:
        return ()
    text = f"method `{method.name}` has no load case, and `load_cases` names {len(calculation.load_cases)}"
    return (fault(("load_cases",), text, "take `load_cases` away"),)


def _not_carried(method: Method, given: Inputs) -> Iterator[Remark]:
    """A caution for each number with an uncertainty that the method has no use for."""
    for spec in method.inputs:
        number = given.numbers.get(spec.name)
        if number is not None and number.half_width and not spec.widening:
            yield Remark(
                "numbers without an uncertainty",
                f"The uncertainty of `{spec.name}` is not carried into any result.",
                "Work the results out at both ends too, and see which one is adverse.", False,
            )  # fmt: skip


def _from_method(id_: str, method: Method, given: Inputs) -> Worked:
    bound, faults = inputs.for_method(given, method)
    left_out, unreadable = inputs.left_out(given)
    if faults or unreadable:
        return stored.nothing(id_, method, (*faults, *unreadable), "")
    copied = inputs.copied(given)
    outcome = method.work(bound, {name: given.unit_of(name) for name in bound})
    sheet = None if outcome.sheet is None else with_origins(outcome.sheet, given, left_out)
    values = stored.results_of(method, outcome, given)
    return Worked(
        id_, method.name, method.version, values, sheet,
        remarks=(*outcome.remarks, *_left_out(method, left_out), *_copied(copied)),
        faults=_not_defined(id_, method, outcome),
    )  # fmt: skip


def _copied(copied: Mapping[str, tuple[tuple[int, int], ...]]) -> Iterator[Remark]:
    """A caution where rows of a file are other rows over again: more would seem tested than were."""
    for file, rows in copied.items():
        (row, first), more = rows[0], len(rows) - 1
        others = f"; so it is with {more} more" if more else ""
        told = f"Row {row} of `{file}` is row {first} over again, cell by cell{others}."
        remedy = "Take the copies out, or tell the rows apart if each was measured."
        yield Remark("each row of the file was measured", told, remedy, False)


def _left_out(method: Method, left_out: Mapping[str, str]) -> Iterator[Remark]:
    """A caution where a basis value does not know some rows of its file: a weak value is soon left out."""
    bases = tuple(spec.name for spec in method.results if spec.basis)
    if bases:
        for text in dict.fromkeys(left_out.values()):
            told = f"The result does not know every row of its file: {text}."
            remedy = "Take every row, or record who left them out and why."
            yield Remark("every row of the file is taken", told, remedy, False, bases)


def with_origins(sheet: Sheet, given: Inputs, left_out: Mapping[str, str]) -> Sheet:
    """The sheet with each given number pointing at its record, each column at its file.

    A column says which rows of the file it leaves out.
    """
    records = {name: one.record for name, one in given.numbers.items()}
    givens = (
        replace(one, record=records.get(one.name.removesuffix(inputs.HALF_WIDTH), one.record))
        for one in sheet.givens
    )
    columns = (
        replace(one, file=given.columns[one.name].file, left_out=left_out.get(one.name, ""))
        if one.name in given.columns else one
        for one in sheet.columns
    )  # fmt: skip
    return replace(sheet, givens=tuple(givens), columns=tuple(columns))


def _not_defined(id_: str, method: Method, outcome: Outcome) -> tuple[Fault, ...]:
    """One fault for each reason why the method gives no number, at the input it is drawn from."""
    names: dict[WhyNot, list[str]] = {}
    for name, why in outcome.why_not.items():
        names.setdefault(why, []).append(name)
    path = ("inputs", method.inputs[0].name)
    return tuple(
        fault(path, f"{_cannot(id_, method, which)}: {why.text}", why.remedy, results=tuple(which))
        for why, which in names.items()
    )


def _cannot(id_: str, method: Method, names: list[str]) -> str:
    """Which results of a calculation cannot be worked out: at most two in words, and how many more."""
    if len(names) == len(method.results):
        return f"No result of `{id_}` can be worked out"
    words = [f"the {spec.short}" for spec in method.results if spec.name in names]
    more = len(words) - MOST_IN_WORDS
    rest = f" (nor {more} more result{'s' if more > 1 else ''})" if more > 0 else ""
    return f"{' and '.join(words[:MOST_IN_WORDS])} of `{id_}` cannot be worked out{rest}"
