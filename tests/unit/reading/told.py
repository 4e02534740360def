"""A piece told in words, worked: what the tests of several voices compare."""

from hookwright.reading import read
from hookwright.working import work
from hookwright.working.fabric import RowWork


def worked_rows(text: str) -> list[RowWork]:
    """The rows of every part in order, each read whole (foundation chains of nothing but chains left out)."""
    rows = [row for part in work(read(text)).parts for row in part.rows if not (row.foundation and not row.counted.total)]
    assert [(row.label, row.read, row.worked, row.state) for row in rows if row.read != "whole" or row.state == "differs"] == []
    return rows
