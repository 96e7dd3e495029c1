"""Binds what a calculation is given to the inputs that its method declares."""

from collections.abc import Mapping
from dataclasses import replace
from pathlib import Path as FilePath
from typing import Any

from assurance.calculations import tables
from assurance.calculations.bound import (
    SMALLEST,
    BoundColumn,
    BoundNumber,
    Inputs,
    Path,
    fault,
    nearest,
    within_reach,
)
from assurance.calculations.references import number_of, stated_fields
from assurance.calculations.table_faults import TableError
from assurance.model import units
from assurance.model.assessment import Fault, ResultValue
from assurance.model.case import CaseText
from assurance.model.engineering_records import Calculation, Input
from assurance.model.methods import InputSpec, Method
from assurance.model.names import nearest_name

Results = Mapping[str, ResultValue]
PLAIN = "plain number"  # the dimension of what has no unit
HALF_WIDTH = "_half_width"  # after the name of a number: its uncertainty as a method takes it
KINDS = {"part": "parts", "load_case": "load_cases"}  # words that name records


def bind(id_: str, calculation: Calculation, method: Method, case: CaseText, results: Results) -> Inputs:
    """Every input in the unit that the method declares, with every fault found on the way."""
    given = Inputs(faults=_unknown(calculation, method))
    known = [spec.name for spec in method.inputs]
    misspelt = {nearest_name(name, known) for name in calculation.inputs if name not in known}
    for spec in method.inputs:
        one = calculation.inputs.get(spec.name)
        if one is None:
            given = given if spec.name in misspelt else _absent(given, spec, method)
        elif spec.kind == "word":
            given = _word(given, spec, one, case)
        elif spec.kind in ("column", "column of words"):
            given = _column(given, spec, one, id_, case)
        else:
            given = _number(given, spec, one, case, results)
    return given


def no_table(calculation: Calculation, method: Method) -> tuple[Fault, ...]:
    """A fault for a table or criteria that the method has no use for."""
    given = (("table", calculation.table), ("criteria", calculation.criteria))
    return tuple(
        fault((name,), f"method `{method.name}` takes no `{name}`", f"take `{name}` away")
        for name, value in given
        if value
    )


def for_method(given: Inputs, method: Method) -> tuple[dict[str, Any], tuple[Fault, ...]]:
    """The inputs as the method takes them: plain numbers, tuples and words; here columns are read."""
    bound: dict[str, Any] = {name: one.value for name, one in given.numbers.items()}
    for spec in method.inputs:
        width = given.numbers[spec.name].half_width if spec.name in given.numbers else None
        if spec.widening and width:
            bound[f"{spec.name}{HALF_WIDTH}"] = width
    faults = []
    for name, column in given.columns.items():
        try:
            bound[name] = _cells(column)
        except TableError as found:
            faults.append(_unreadable(name, column, found))
    return bound | dict(given.words), tuple(faults)


def left_out(given: Inputs) -> tuple[dict[str, str], tuple[Fault, ...]]:
    """Of each column that is narrowed by `where`: how many rows are left out, in words."""
    found, faults = {}, []
    for name, column in given.columns.items():
        if not column.where:
            continue
        try:
            out, count = tables.rows_left_out(FilePath(column.absolute), dict(column.where))
        except TableError as wrong:
            faults.append(_unreadable(name, column, wrong))
            continue
        if out:
            found[name] = f"{out} of {count} rows left out by {_narrowed(column)}"
    return found, tuple(faults)


def copied(given: Inputs) -> dict[str, tuple[tuple[int, int], ...]]:
    """The rows of each file that is read which are another of its rows over again."""
    read: dict[tuple[str, str], set[str]] = {}
    for column in given.columns.values():
        names = read.setdefault((column.absolute, column.file), set())
        names |= {column.column, *(name for name, _ in column.where)}
    found = {file: tables.copied_rows(FilePath(path), sorted(names)) for (path, file), names in read.items()}
    return {file: rows for file, rows in found.items() if rows}


def _unreadable(name: str, column: BoundColumn, wrong: TableError) -> Fault:
    return fault(("inputs", name, "file"), f"`{column.file}`: {wrong.text}", wrong.remedy)


def _cells(column: BoundColumn) -> tuple[str, ...] | tuple[float, ...]:
    """The words of a column, or its numbers in the unit that the method takes."""
    path, where = FilePath(column.absolute), dict(column.where)
    if column.of_words:
        return tables.read_words(path, column.column, where=where)
    values = tables.read_column(path, column.column, where=where)
    return tuple(units.convert(value, given=column.written_unit, wanted=column.unit) for value in values)


def _unknown(calculation: Calculation, method: Method) -> tuple[Fault, ...]:
    known = [spec.name for spec in method.inputs]
    return tuple(
        fault(
            ("inputs", name),
            f"method `{method.name}` has no input `{name}`{nearest(name, known)}",
            f"name one of {', '.join(f'`{one}`' for one in known)}",
        )
        for name in calculation.inputs
        if name not in known
    )


def _absent(given: Inputs, spec: InputSpec, method: Method) -> Inputs:
    if isinstance(spec.default, str):
        return replace(given, words={**given.words, spec.name: spec.default})
    if spec.default is not None:
        number = BoundNumber(spec.default, spec.unit)
        return replace(given, numbers={**given.numbers, spec.name: number})
    if not spec.required:
        return given
    text = f"method `{method.name}` needs the input `{spec.name}`: {spec.what}"
    return _faulty(given, fault(("inputs",), text, f"give `{spec.name}`"))


def _faulty(given: Inputs, *faults: Fault) -> Inputs:
    return replace(given, faults=(*given.faults, *faults))


def _word(given: Inputs, spec: InputSpec, one: Input, case: CaseText) -> Inputs:
    path: Path = ("inputs", spec.name)
    word = one.text or one.load_case
    if word is None or len(stated_fields(one)) != 1:
        return _faulty(given, fault(path, f"`{spec.name}` is not one word", f"write a word for {spec.what}"))
    kind = KINDS.get(spec.name)
    known = list(case.of_kind(kind)) if kind else list(spec.words)
    if (known and word not in known) or (kind and not known):
        text = f"`{word}` is no {spec.name.replace('_', ' ')}{nearest(word, known)}"
        return _faulty(given, fault(path, text, f"name one of the {kind or 'words that the method knows'}"))
    return replace(given, words={**given.words, spec.name: word})


def _number(given: Inputs, spec: InputSpec, one: Input, case: CaseText, results: Results) -> Inputs:
    path: Path = ("inputs", spec.name)
    found = number_of(one, path, case, results)
    given = _faulty(given, *found.faults)
    if found.number is None:
        return replace(given, why_not=given.why_not or found.why_not)
    converted, wrong = _in_unit(found.number, spec, given, path)
    if converted is None:
        return _faulty(given, *wrong)
    given = _faulty(given, *_beyond(converted, spec, path))
    return replace(given, numbers={**given.numbers, spec.name: converted})


def _in_unit(
    number: BoundNumber, spec: InputSpec, given: Inputs, path: Path
) -> tuple[BoundNumber | None, tuple[Fault, ...]]:
    wanted = _wanted_unit(spec, given, own=number.unit)
    wrong = _unlike(number.unit, spec, given) or _wrong_dimension(number.unit, wanted, spec, path)
    if wrong:
        return None, wrong
    return number.in_unit(wanted), ()


def _wanted_unit(spec: InputSpec, given: Inputs, *, own: str) -> str:
    """The unit of the method; of another input where it says so; its own where any will do."""
    if spec.unit == "@":
        return own
    if not spec.unit.startswith("@"):
        return spec.unit
    other = spec.unit[1:]
    return given.unit_of(other) if other in {*given.numbers, *given.columns} else own


def _wrong_dimension(unit: str, wanted: str, spec: InputSpec, path: Path) -> tuple[Fault, ...]:
    dimension = units.unit(unit).dimension
    needed = spec.dimension or units.unit(wanted).dimension
    if dimension == needed:
        return ()
    shown = f"in `{unit}`, which is {dimension}" if unit else "a plain number"
    text = f"`{spec.name}` is {shown}; {needed} is needed"
    return (fault(path, text, f"give `{spec.name}` in a unit of {needed}"),)


def _unlike(unit: str, spec: InputSpec, given: Inputs) -> tuple[Fault, ...]:
    """A fault where a number and the one that it is compared with are not of one dimension.

    It stands at the plain number where one of them is a plain number: that one lacks its unit.
    """
    other = spec.unit.removeprefix("@")
    if other == spec.unit or other not in given.numbers:
        return ()
    beside = given.numbers[other].unit
    if units.same_dimension(unit, beside):
        return ()
    plain = units.unit(beside).dimension == PLAIN
    path: Path = ("inputs", other if plain else spec.name)
    text = f"`{spec.name}` is {_of_dimension(unit)}, and `{other}` is {_of_dimension(beside)}"
    return (fault(path, text, "give both in units of one dimension"),)


def _of_dimension(unit: str) -> str:
    dimension = units.unit(unit).dimension
    shown = f"in `{unit}`, " if unit else ""
    return f"{shown}a plain number" if dimension == PLAIN else f"{shown}which is {dimension}"


def _beyond(number: BoundNumber, spec: InputSpec, path: Path) -> tuple[Fault, ...]:
    """A fault where the number, or an end of its interval, leaves the bounds or is none to work with."""
    for value in dict.fromkeys((number.value, number.least, number.most)):
        wanted = _out_of_bounds(value, spec)
        if wanted:
            shown = f"is `{value:g}`" if value == number.value else f"reaches `{value:g}`"
            text = f"`{spec.name}` {shown}; it must be {wanted}"
            return (fault(path, text, f"give `{spec.name}` a value that is {wanted}"),)
    return ()


def _out_of_bounds(value: float, spec: InputSpec) -> str:
    """What a value must be, where it is not."""
    if not within_reach(value):
        return "zero, or from 1e-60 to 1e60 in size"
    if spec.lower is not None and value < spec.lower:
        return "above 0" if 0 < spec.lower < SMALLEST else f"at least {spec.lower:g}"
    if spec.upper is not None and value > spec.upper:
        return f"at most {spec.upper:g}"
    return ""


def _column(given: Inputs, spec: InputSpec, one: Input, id_: str, case: CaseText) -> Inputs:
    path: Path = ("inputs", spec.name)
    wrong = _column_as_stated(one, spec, path)
    if wrong:
        return _faulty(given, *wrong)
    fact = case.files.get((id_, one.file or ""))
    if fact is None or fact.fault:
        why = fact.fault if fact else "is not in the case folder"
        remedy = "put the file in its place, or name another"
        return _faulty(given, fault((*path, "file"), f"file `{one.file}` {why}", remedy))
    written = one.unit or ""
    wanted = _wanted_unit(spec, given, own=written)
    wrong = _wrong_dimension(written, wanted, spec, (*path, "unit"))
    if wrong:
        return _faulty(given, *wrong)
    column = BoundColumn(
        fact.absolute, fact.path, fact.sha256, one.column or "", tuple(sorted(one.where.items())),
        written, wanted, spec.kind == "column of words",
    )  # fmt: skip
    given = _faulty(given, *_other_rows(column, spec, given))
    return replace(given, columns={**given.columns, spec.name: column})


def _other_rows(column: BoundColumn, spec: InputSpec, given: Inputs) -> tuple[Fault, ...]:
    """A fault where a column is not of the rows of the one that it stands beside."""
    path: Path = ("inputs", spec.name)
    other = given.columns.get(spec.beside)
    if other is None or (column.absolute, column.where) == (other.absolute, other.where):
        return ()
    if column.absolute != other.absolute:
        text = f"`{spec.name}` is read from `{column.file}`, `{spec.beside}` from `{other.file}`"
        return (fault((*path, "file"), text, "take both from one file, so that their rows belong together"),)
    text = f"`{spec.name}` is of other rows than `{spec.beside}`: {_rows(column)}, not {_rows(other)}"
    return (fault(path, text, f"give `{spec.name}` the `where` of `{spec.beside}`"),)


def _rows(column: BoundColumn) -> str:
    return f"where {_narrowed(column)}" if column.where else "all rows"


def _narrowed(column: BoundColumn) -> str:
    return " and ".join(f"`{name}` is `{word}`" for name, word in column.where)


def _column_as_stated(one: Input, spec: InputSpec, path: Path) -> tuple[Fault, ...]:
    of_words = spec.kind == "column of words"
    if stated_fields(one) != ["file"] or not one.column:
        text = f"`{spec.name}` is not a column of a data file"
        return (fault(path, text, f"give `file`{' and `column`' if of_words else ', `column` and `unit`'}"),)
    if one.unit and of_words:
        text = f"`{spec.name}` is a column of words; it has the unit `{one.unit}`"
        return (fault((*path, "unit"), text, "take `unit` away"),)
    if one.unit is None and spec.unit:
        text = f"the column `{one.column}` has no unit"
        return (fault(path, text, "give its `unit`, such as `MPa`"),)
    if one.unit and one.unit not in units.units():
        text = f"`{one.unit}` is not a unit of the list{units.nearest_unit(one.unit)}"
        return (fault((*path, "unit"), text, "use a unit of the list"),)
    return ()
