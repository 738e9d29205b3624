"""The columns of a file of readings, as a plan writes it: told once, read back by the reader."""

from __future__ import annotations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from thermsim.csv_cells import cells_of
from thermsim.readings.columns import COLUMNS, NAMES, QUANTITIES, write_readings

TEXTS = st.text(st.characters(codec="utf-8", exclude_categories=["C", "Z"]), min_size=1,
                max_size=12).filter(lambda text: text == text.strip() and text.strip(',"'))


def test_the_first_six_columns_stay_as_they_are() -> None:
    """Files that people have filled in must stay readable."""
    assert NAMES[:6] == ("time", "spot", "quantity", "reading", "unit", "note")
    assert all(not column.needed for column in COLUMNS[5:])


@settings(max_examples=60)
@given(spot=TEXTS, note=TEXTS, number=st.floats(-200, 900), quantity=st.sampled_from(["draught"]))
def test_what_is_written_reads_back(spot: str, note: str, number: float, quantity: str) -> None:
    assert quantity in QUANTITIES
    row = ["90 s", spot, quantity, f"{number:.3f}", "Pa", note]
    head, line = write_readings([row]).splitlines()
    assert head == ",".join(NAMES)
    assert [cell.text for cell in cells_of(line)] == row


def test_a_row_of_another_length_is_refused() -> None:
    with pytest.raises(ValueError, match="5 cells"):
        write_readings([("90 s", "flue", "draught", "", "Pa")])
