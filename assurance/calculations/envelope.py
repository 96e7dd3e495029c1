"""From the rows of a result table to the worst one of each part, load case and criterion."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any

from assurance.calculations import tables
from assurance.calculations.bound import SMALLEST, nearest
from assurance.calculations.cells import Bar, Worst
from assurance.calculations.table_faults import TableError
from assurance.calculations.tables import Piece
from assurance.methods import reserve_sheet, stress

if TYPE_CHECKING:
    import polars

At = tuple[int, str, str]  # criterion by its place, part, load case
Worsts = dict[At, Worst]
FactorsAt = Callable[[int, str, str], tuple[float, float]]  # already inside, needed
GROUP = ("part", "load_case")


@dataclass(frozen=True, slots=True)
class Plan:
    """How to read a table: its columns, what its words mean, what is judged.

    `known_parts` are those a word may mean; `only_parts` narrows to some of them, if it is given.
    """

    columns: Mapping[str, str]
    bars: tuple[Bar, ...]
    parts: Mapping[str, str]
    load_cases: Mapping[str, str]
    known_parts: tuple[str, ...]
    known_load_cases: tuple[str, ...]
    only_parts: tuple[str, ...] = ()
    only_load_cases: tuple[str, ...] = ()

    def components(self) -> dict[str, str]:
        """The heading of each stress component that the table has."""
        return {name: self.columns[name] for name in stress.COMPONENTS if name in self.columns}

    def own_columns(self) -> list[str]:
        """The headings that a criterion takes as they are."""
        return list(dict.fromkeys(bar.stress for bar in self.bars if bar.stress not in stress.STRESSES))

    def taken_as_zero(self) -> tuple[str, ...]:
        """The stress components without a column that a criterion is worked out from."""
        worked_out = any(bar.stress in stress.STRESSES for bar in self.bars)
        return tuple(name for name in stress.COMPONENTS if worked_out and name not in self.columns)

    def named(self) -> set[str]:
        """Every heading that the record names, for whatever."""
        return {*self.columns.values(), *self.own_columns()}

    def numbers(self) -> list[str]:
        """Every heading that is read as numbers."""
        worked_out = any(bar.stress in stress.STRESSES for bar in self.bars)
        return list(dict.fromkeys([*(self.components().values() if worked_out else ()), *self.own_columns()]))

    def words(self) -> list[str]:
        """Every heading that is read as words."""
        return [self.columns[name] for name in ("part", "load_case", "row") if name in self.columns]


def envelope(
    path: Path, plan: Plan, factors_at: FactorsAt, *, piece_bytes: int = tables.PIECE_BYTES
) -> Worsts:
    """The worst row of each cell; of equal rows the first. Raises `TableError` with row and value."""
    found: Worsts = {}
    factors: dict[At, tuple[float, float]] = {}
    for piece in tables.pieces(path, words=plan.words(), numbers=plan.numbers(), piece_bytes=piece_bytes):
        frame = _frame(piece, plan)
        for at, bar in enumerate(plan.bars):
            for worst in _worst_rows(frame, at, bar, plan, factors, factors_at):
                place = (at, worst.part, worst.load_case)
                found[place] = _worse(found.get(place), worst)
    return found


def _worse(before: Worst | None, new: Worst) -> Worst:
    if before is None:
        return new
    kept = before if before.applied >= new.applied else new
    below_one = before.below_one + new.below_one
    return Worst(kept.part, kept.load_case, kept.applied, kept.row, kept.row_name, below_one, kept.components)


def _frame(piece: Piece, plan: Plan) -> "polars.DataFrame":
    """The piece with part and load case by id, narrowed to what the record names."""
    import polars

    count = len(piece.rows)
    columns: dict[str, Any] = {
        "part": _ids(piece, plan, "part"),
        "load_case": _ids(piece, plan, "load_case"),
        "row": polars.Series(piece.rows, dtype=polars.Int64),
        "row_name": piece.words[plan.columns["row"]] if "row" in plan.columns else [""] * count,
    }
    columns |= {f"number {name}": piece.numbers[name] for name in plan.numbers()}
    frame = polars.DataFrame(columns)
    for name, only in (("part", plan.only_parts), ("load_case", plan.only_load_cases)):
        frame = frame.filter(polars.col(name).is_in(list(only))) if only else frame
    return frame


def _ids(piece: Piece, plan: Plan, name: str) -> Any:
    """The word of each row as the id that it means; a word that means nothing is a fault with its row."""
    mapped, known, only = (
        (plan.parts, plan.known_parts, plan.only_parts)
        if name == "part"
        else (plan.load_cases, plan.known_load_cases, plan.only_load_cases)
    )
    if name not in plan.columns:
        return [only[0]] * len(piece.rows)
    words = piece.words[plan.columns[name]].str.strip_chars()
    meaning = {word: mapped.get(word, word) for word in words.unique(maintain_order=True)}
    for word, id_ in meaning.items():
        if word not in mapped and id_ not in known:
            at = f"row {piece.rows[(words == word).arg_max() or 0]}, column `{plan.columns[name]}`"
            _unknown_word(word, name, at, [*mapped, *known])
    return words.replace_strict(meaning)


def _unknown_word(word: str, name: str, at: str, known: list[str]) -> None:
    kind = name.replace("_", " ")
    if not word:
        raise TableError(f"{at}: the cell is empty", f"give every row its {kind}")
    text = f"{at}: `{word}` is no {kind} that the record names{nearest(word, known)}"
    raise TableError(text, f"say which {kind} it means, under `table.{name}s`")


def _worst_rows(
    frame: "polars.DataFrame",
    at: int,
    bar: Bar,
    plan: Plan,
    factors: dict[At, tuple[float, float]],
    factors_at: FactorsAt,
) -> list[Worst]:
    import polars

    if bar.parts:
        frame = frame.filter(polars.col("part").is_in(list(bar.parts)))
    if frame.height == 0:
        return []
    frame = frame.with_columns(polars.Series("applied", _applied(frame, bar, plan)))
    ordered = frame.sort("applied", descending=True, maintain_order=True)
    worst = ordered.group_by(GROUP, maintain_order=True).first()
    short = _below_one(frame, worst, at, bar, factors, factors_at)
    return [_worst(row, bar, plan, short) for row in worst.iter_rows(named=True)]


def _applied(frame: "polars.DataFrame", bar: Bar, plan: Plan) -> Any:
    """The stress that the criterion looks at, for every row; a component without a column is zero."""
    import numpy

    if bar.stress not in stress.STRESSES:
        return frame[f"number {bar.stress}"].to_numpy()
    zero = numpy.zeros(frame.height)
    headings = plan.components()
    values = [
        frame[f"number {headings[name]}"].to_numpy() if name in headings else zero
        for name in stress.COMPONENTS
    ]
    found = numpy.asarray(stress.STRESSES[bar.stress](*values), dtype=float)
    return numpy.where(numpy.abs(found) < SMALLEST, 0.0, found)


def _below_one(
    frame: "polars.DataFrame",
    cells: "polars.DataFrame",
    at: int,
    bar: Bar,
    factors: dict[At, tuple[float, float]],
    factors_at: FactorsAt,
) -> dict[tuple[str, str], int]:
    """How many rows of each cell have a reserve factor below 1."""
    import polars

    places = list(cells.select(GROUP).iter_rows())
    for part, load_case in places:
        if (at, part, load_case) not in factors:
            factors[at, part, load_case] = factors_at(at, part, load_case)
    pairs = [factors[at, *place] for place in places]
    by_cell = cells.select(GROUP).with_columns(
        polars.Series("already", [one for one, _ in pairs]),
        polars.Series("needed", [one for _, one in pairs]),
    )
    governed = frame.select(*GROUP, "applied").filter(polars.col("applied") > 0)
    joined = governed.join(by_cell, on=GROUP, how="left")
    reserve = stress.reserve_factor(
        bar.allowable.least,
        polars.col("applied"),
        already=polars.col("already"),  # type: ignore[arg-type]
        needed=polars.col("needed"),  # type: ignore[arg-type]
    )
    counted = joined.filter(reserve_sheet.falls_short(reserve)).group_by(GROUP).len()
    return {(part, load_case): int(count) for part, load_case, count in counted.iter_rows()}


def _worst(row: Mapping[str, Any], bar: Bar, plan: Plan, short: Mapping[tuple[str, str], int]) -> Worst:
    headings = plan.components() if bar.stress in stress.STRESSES else {}
    return Worst(
        row["part"], row["load_case"], float(row["applied"]), int(row["row"]), row["row_name"] or "",
        short.get((row["part"], row["load_case"]), 0),
        {name: float(row[f"number {heading}"]) for name, heading in headings.items()},
    )  # fmt: skip
