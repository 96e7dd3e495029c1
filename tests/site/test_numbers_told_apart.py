"""What a page says of factors that are not put on, and of rows that a sum does not know."""

from markupsafe import Markup

from assurance.model.steps import Column
from assurance.site.sheet_rows import column_row


def test_a_column_says_which_rows_of_its_file_it_leaves_out():
    column = Column("values", (1.0, 2.0), "MPa", "claims/bars.csv", "1 of 3 rows left out by `keep` is `yes`")
    row = column_row(column, say=lambda text: Markup(text))
    assert (row.count, row.left_out) == ("2", "1 of 3 rows left out by `keep` is `yes`")
    assert not column_row(Column("values", (1.0,)), say=lambda text: Markup(text)).left_out
