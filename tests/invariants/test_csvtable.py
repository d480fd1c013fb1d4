"""The one reader of tables: what was written comes back cell by cell, on its line, and nothing breaks it."""

from __future__ import annotations

import csv
import io

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from soffit.show.csvtable import DELIMITERS, Table, table_of

CELLS = st.text(st.sampled_from('ab1., ;\t#"\n'), max_size=6)


def read(text: str, remarks: bool = True) -> Table:
    return table_of(text, "t.csv", "is empty.", "has no row.", remarks)


@given(st.lists(st.lists(CELLS, min_size=2, max_size=2), max_size=6), st.sampled_from(DELIMITERS), st.booleans())
@example([["1", "x\n# no remark"], ["2", "y"]], ",", True)
def test_cells_come_back_on_the_line_they_were_written_on(rows: list[list[str]], cut: str, told: bool) -> None:
    out = io.StringIO()
    writer = csv.writer(out, delimiter=cut, lineterminator="\n")
    out.write(f'# of the bed, 5" wide\n\n{f"sep={cut}" if told else ""}\n')
    writer.writerow(["a (mm)", "b, h"])
    expected = []
    for first, second in rows:
        out.write("# remark\n")
        line = out.getvalue().count("\n") + 1
        row = [f"r{first}", second]  # no remark, and never empty
        writer.writerow(row)
        expected.append((line, row))
    table = read(out.getvalue())
    assert table.faults == []
    assert [(c.name, c.unit, c.head) for c in table.columns] == [("a", "mm", "a (mm)"), ("b", "h", "b, h")]
    assert (table.line, table.cut) == (4, cut)
    assert table.rows == expected


@given(st.text(max_size=120), st.booleans())
def test_a_text_is_a_table_or_a_fault_and_never_both(text: str, remarks: bool) -> None:
    table = read(text, remarks)
    assert bool(table.faults) != bool(table.columns)
    table.fit_rows(short=True)
    assert all(len(row) == table.width for _, row in table.rows)
    table.settle_decimals(table.columns)
    for line, row in table.rows:
        for column in table.columns:
            before = len(table.faults)
            assert (table.number(line, row, column) is None) == (len(table.faults) > before)


@pytest.mark.parametrize("first", ["#", '"#"'])
def test_a_cell_that_is_a_number_sign_alone_heads_a_column(first: str) -> None:
    table = read(f"{first},time (h)\n1,2\n#1,3\n")
    assert [c.name for c in table.columns] == ["#", "time"]
    assert table.rows == [(2, ["1", "2"])]
    assert read(f"{first},time (h)\n1,2\n#1,3\n", remarks=False).rows[1] == (3, ["#1", "3"])


@pytest.mark.parametrize(
    ("text", "kept", "faults"),
    [
        ("a;b\n1;2;\n3;4\n", 2, 0),
        ("a,b\n1,2,\n3,4,\n", 2, 0),
        # 1 and 2,5 with an empty cell behind, or 1 and 2 with a cut too many
        ("a,b,c\n1,2,5,\n3,4,\n", 1, 1),
    ],
)
def test_a_cut_behind_the_last_cell_is_dropped_unless_it_may_be_decimals(text: str, kept: int, faults: int) -> None:
    table = read(text)
    table.fit_rows()
    assert (len(table.rows), len(table.faults)) == (kept, faults)
