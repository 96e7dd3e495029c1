"""Rules about where the numbers of parts, materials and factors come from."""

from collections.abc import Iterator

from assurance.model.engineering_records import Calculation, FactorRecord, Material, PartRecord
from assurance.rules.seen import Seen, living
from assurance.rules.view import View


def factor_without_source(view: View) -> Iterator[Seen]:
    """A factor does not say where it comes from.

    Why: A factor of safety stands for what is not known; whoever reads it must be able to look it up.

    Put right: Give `source`, with `edition` where there is one.

    Bad::

        factors:
          ultimate: {title: Factor of safety, kind: safety, value: 1.5}  # here

    Good::

        factors:
          ultimate: {title: Factor of safety, kind: safety, value: 1.5, source: 14 CFR 25.303}
    """
    for id_, record in living(view, FactorRecord):
        if not record.source:
            yield Seen(
                id_, (), f"The factor `{id_}` ({record.value}) names no source.",
                "Say where it comes from under `source`.",
            )  # fmt: skip


def factor_put_on_nowhere(view: View) -> Iterator[Seen]:
    """A factor of the case is put on nothing.

    Why: A misspelt criterion takes a factor away without a sound, and every reserve factor looks
    better for it.

    Put right: Correct what it applies to, or take it out.

    Bad::

        factors:
          fitting:  # here
            title: Fitting factor
            kind: special
            value: 1.15
            source: 14 CFR 25.625
            applies_to: {criteria: [yeild]}

    Good::

        factors:
          fitting:
            title: Fitting factor
            kind: special
            value: 1.15
            source: 14 CFR 25.625
            applies_to: {criteria: [yield]}
    """
    put_on = _factors_put_on(view)
    for id_, record in living(view, FactorRecord):
        if id_ not in put_on and not view.may_be_named(id_):
            yield Seen(
                id_, (), f"The factor `{id_}` ({record.value}) is put on nothing.",
                "Correct what it stands under in `applies_to`, or take it out.",
            )  # fmt: skip


def _factors_put_on(view: View) -> set[str]:
    """Factors in a cell or a result, and those that a record names.

    While a calculation cannot be read or gives no cells, what may belong to it counts as put on.
    """
    calculations = view.assessment.of_kind("calculations")
    if any(entry.record is None for entry in calculations.values()):
        return set(view.assessment.of_kind("factors"))
    found: set[str] = set()
    for worked in view.assessment.worked.values():
        for cell in worked.cells:
            found.update(cell.factors, cell.already)
    for result in view.assessment.results.values():
        found.update(result.factors)
    used_by = view.assessment.used_by
    factors = view.assessment.of_kind("factors")
    return found | {id_ for id_ in factors if any(not _has_cells(view, one) for one in used_by.get(id_, ()))}


def _has_cells(view: View, id_: str) -> bool:
    worked = view.assessment.worked.get(id_)
    return worked is not None and bool(worked.cells)


def property_without_origin(view: View) -> Iterator[Seen]:
    """A material property is a bare number.

    Why: Nobody can tell whether it belongs to this material, this form or this heat.

    Put right: Name the record under `origin`, a `result`, or the `source`.

    Bad::

        materials:
          plate:
            title: Aluminium plate
            properties:
              yield_strength: {value: 250 MPa, basis: A, origin: plate-certificate}
              density: {value: 2700 kg/m3}  # here

    Good::

        materials:
          plate:
            title: Aluminium plate
            properties:
              yield_strength: {value: 250 MPa, basis: A, origin: plate-certificate}
              density: {value: 2700 kg/m3, source: data sheet of the mill}
    """
    for id_, record in living(view, Material):
        for name, one in record.properties.items():
            if not one.origin and not one.source and not one.result:
                stated = f" ({one.value})" if one.value is not None else ""
                yield Seen(
                    id_, ("properties", name), f"`{id_}.{name}`{stated} does not say where it comes from.",
                    "Name the record under `origin`, or the `source`.",
                )  # fmt: skip


def part_without_load_path(view: View) -> Iterator[Seen]:
    """A part that a calculation speaks of does not say whether another load path takes over.

    Why: It is read as single, which asks for A-basis allowables. That is the safe side, and it should
    be somebody's decision.

    Put right: Write `load_path: single` or `load_path: redundant`.

    Bad::

        parts:
          step: {title: Step}  # here

    Good::

        parts:
          step: {title: Step, load_path: single}
    """
    for id_, record in living(view, PartRecord):
        if record.load_path is None and _worked_for(view, id_):
            yield Seen(
                id_, (), f"`{id_}` does not state its load path; it is read as single.",
                "Write `load_path: single` or `load_path: redundant`.",
            )  # fmt: skip


def _worked_for(view: View, part: str) -> bool:
    users = view.assessment.used_by.get(part, ())
    return any(isinstance(view.assessment.entries[user].record, Calculation) for user in users)
