"""Rows of a data file that stand in it twice: told where something tells the rows apart."""

from pathlib import Path

from assurance.calculations.tables import copied_rows


def copies(folder: Path, text: str, *read: str) -> tuple[tuple[int, int], ...]:
    path = folder / "coupons.csv"
    path.write_text(text)
    return copied_rows(path, read)


def test_a_row_that_is_another_over_again_is_told_with_the_first(tmp_path: Path) -> None:
    text = "coupon,strength\nc1,268\nc2,271\nc1,268\nc1,268\n"
    assert copies(tmp_path, text, "strength") == ((4, 2), (5, 2))


def test_equal_values_of_two_coupons_are_no_copy(tmp_path: Path) -> None:
    assert copies(tmp_path, "coupon,strength\nc1,268\nc2,268\n", "strength") == ()


def test_where_no_column_tells_rows_apart_no_copy_is_told(tmp_path: Path) -> None:
    assert copies(tmp_path, "strength\n268\n268\n", "strength") == ()
    assert copies(tmp_path, "plate,strength\na,268\na,268\n", "strength", "plate") == ()
