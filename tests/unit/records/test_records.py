"""Versions, log and swatches: kept, brought up to date, and whole after whatever befalls the disk."""

from __future__ import annotations

import signal
import sqlite3
import subprocess
import sys
import time
from pathlib import Path

import pytest

from hookwright.records import HEAD, LogEntry, Records, RecordsTrouble, SwatchRecord, rows_written, sum_up
from hookwright.records import store as store_module


@pytest.fixture
def file(tmp_path: Path) -> Path:
    return tmp_path / "patterns" / ".hookwright" / "records.db"


def test_versions(file: Path) -> None:
    records = Records.at(file)
    first = records.keep_version("Hat", "one", at=1.0, counts={"Row 1": "3 sc"})
    assert first is not None and first.counts == {"Row 1": "3 sc"}
    assert records.keep_version("Hat", "one", at=2.0) is None
    assert records.keep_version("Hat", "one", at=2.5, why="sent to the editor") is not None
    assert records.keep_version("Hat", "two", at=3.0) is not None
    assert [version.at for version in records.versions("Hat")] == [3.0, 2.5, 1.0]
    assert records.versions("Scarf") == ()
    again = records.version(first.id)
    assert again is not None and again.text == "one"
    records.rename("Hat", "Cap")
    assert len(records.versions("Cap")) == 3
    records.close()


def test_old_versions_are_thinned_out_but_named_ones_stay(file: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(store_module, "VERSIONS_KEPT", 3)
    records = Records.at(file)
    records.keep_version("Hat", "named", at=0.0, why="published")
    for n in range(1, 8):
        records.keep_version("Hat", str(n), at=float(n))
    assert [version.at for version in records.versions("Hat")] == [7.0, 6.0, 5.0, 0.0]
    records.close()


def test_log_and_swatches(file: Path) -> None:
    records = Records.at(file)
    entry = records.log("Hat", LogEntry(kind="row", at=1.0, row=1, value=12, words="Ch 1, sc in each st"))
    records.log("Hat", LogEntry(kind="grams", at=2.0, value=48.5))
    assert [one.kind for one in records.entries("Hat")] == ["row", "grams"]
    assert records.unlog("Scarf", entry.id) is False
    assert records.unlog("Hat", entry.id) is True
    assert [one.kind for one in records.entries("Hat")] == ["grams"]
    kept = records.keep_swatch("Hat", SwatchRecord(stitch="dc", stitches=20, rows=10, at=3.0, grams=6.1))
    assert records.swatches("Hat") == (kept,)
    with pytest.raises(RecordsTrouble, match="knows no entry"):
        records.log("Hat", LogEntry(kind="sigh", at=1.0))  # type: ignore[arg-type]
    records.close()


def test_the_newest_migration_is_the_one_named() -> None:
    scripts = Path(store_module.__file__).parent / "migrations" / "versions"
    assert max(path.name[1:5] for path in scripts.glob("m*.py")) == HEAD


def test_the_migrations_make_the_tables_that_are_declared(file: Path) -> None:
    from sqlalchemy import create_engine, inspect

    from hookwright.records.tables import Base

    Records.at(file).close()
    engine = create_engine(f"sqlite:///{file}")
    there = inspect(engine)
    for table in Base.metadata.sorted_tables:
        found = {column["name"]: str(column["type"]) for column in there.get_columns(table.name)}
        assert found == {column.name: str(column.type) for column in table.columns}
        assert {index["name"] for index in there.get_indexes(table.name)} == {index.name for index in table.indexes}
    engine.dispose()


def test_an_older_file_is_brought_up_to_date_and_kept_beside(file: Path) -> None:
    from alembic import command
    from alembic.config import Config

    file.parent.mkdir(parents=True)
    engine = store_module._engine(file)
    settings = Config()
    settings.set_main_option("script_location", str(Path(store_module.__file__).parent / "migrations"))
    with engine.begin() as connection:
        settings.attributes["connection"] = connection
        command.upgrade(settings, "0001")
    engine.dispose()
    with sqlite3.connect(file) as old:
        old.execute("INSERT INTO version (pattern, at, why, text, counts) VALUES ('Hat', 1.0, '', 'one', '{}')")
    old.close()
    records = Records.at(file)
    assert records.versions("Hat")[0].at == 1.0
    assert records.swatches("Hat") == ()
    assert file.with_suffix(".before.db").exists()
    records.close()


WRITER = """
import sys
from pathlib import Path
from hookwright.records import Records
records = Records.at(Path(sys.argv[1]))
n = 0
while True:
    n += 1
    records.keep_version("Hat", f"{n} " + "row " * 20_000, at=float(n))
    print(n, flush=True)
"""


def test_a_kill_in_mid_write_loses_nothing_written_before(file: Path) -> None:
    process = subprocess.Popen([sys.executable, "-c", WRITER, str(file)], stdout=subprocess.PIPE, text=True)
    assert process.stdout is not None
    seen = 0
    while seen < 8:
        seen = int(process.stdout.readline())
    time.sleep(0.013)
    process.send_signal(signal.SIGKILL)
    told = [int(line) for line in process.stdout.read().split()]
    process.stdout.close()
    process.wait()
    records = Records.at(file)
    kept = {int(version.at) for version in records.versions("Hat")}
    assert set(range(1, max([seen, *told]) + 1)) <= kept
    newest = records.version(records.versions("Hat")[0].id)
    assert newest is not None and newest.text == f"{int(newest.at)} " + "row " * 20_000
    records.close()
    with sqlite3.connect(file) as looked:
        assert looked.execute("PRAGMA integrity_check").fetchone() == ("ok",)
    looked.close()


def test_a_full_disk_is_told_and_harms_nothing(file: Path) -> None:
    from sqlalchemy import event

    records = Records.at(file)
    records.keep_version("Hat", "one", at=1.0)
    engine = records._engine
    engine.dispose()

    @event.listens_for(engine, "connect")
    def small(connection: sqlite3.Connection, _record: object) -> None:
        pages = connection.execute("PRAGMA page_count").fetchone()[0]
        connection.execute(f"PRAGMA max_page_count={pages}")

    with pytest.raises(RecordsTrouble, match="disk is full"):
        records.keep_version("Hat", "x" * 1_000_000, at=2.0)
    assert [version.at for version in records.versions("Hat")] == [1.0]
    records.close()


def test_a_folder_that_may_not_be_written_is_told(file: Path) -> None:
    from sqlalchemy import event

    records = Records.at(file)
    records.keep_version("Hat", "one", at=1.0)
    records._engine.dispose()

    @event.listens_for(records._engine, "connect")
    def closed(connection: sqlite3.Connection, _record: object) -> None:
        connection.execute("PRAGMA query_only=ON")

    with pytest.raises(RecordsTrouble, match="may not be written"):
        records.keep_version("Hat", "two", at=2.0)
    assert len(records.versions("Hat")) == 1
    records.close()
    (file.parent / "plain").write_text("a file")
    with pytest.raises(RecordsTrouble):
        Records.at(file.parent / "plain" / "records.db")


def test_a_damaged_file_is_told(file: Path) -> None:
    file.parent.mkdir(parents=True)
    file.write_bytes(b"this is no database, whatever its name says" * 100)
    with pytest.raises(RecordsTrouble, match="damaged"):
        Records.at(file)


def test_a_newer_file_is_told(file: Path) -> None:
    Records.at(file).close()
    with sqlite3.connect(file) as later:
        later.execute("UPDATE alembic_version SET version_num = '9999'")
    later.close()
    with pytest.raises(RecordsTrouble, match="newer Hookwright"):
        Records.at(file)


def row(number: int, at: float, stitches: float | None = None, words: str = "") -> LogEntry:
    return LogEntry(kind="row", at=at, row=number, value=stitches, words=words)


def test_the_log_adds_up() -> None:
    log = [
        LogEntry(kind="hook", at=0, value=4.5),
        LogEntry(kind="grams", at=0, value=50.0),
        row(1, 60, 12),
        row(2, 120),
        row(3, 180, 14),
        LogEntry(kind="ripped", at=240, row=2),
        row(3, 300, 13, "Ch 1, sc2tog, sc across"),
        LogEntry(kind="grams", at=310, value=44.5),
        LogEntry(kind="minutes", at=320, value=6),
    ]
    total = sum_up(log, {2: 12})
    assert (total.row, total.stitches, total.ripped, total.hook_mm) == (3, 12 + 12 + 13, 1, 4.5)
    assert (total.grams_used, total.grams_stitches) == (5.5, 37)
    assert total.minutes == 6 and total.minutes_from == "told"
    assert total.seconds_per_stitch == pytest.approx(360 / (12 + 12 + 14 + 13), abs=0.01)
    assert rows_written(total) == ("Row 1: (12 sts)", "Row 2:", "Row 3: Ch 1, sc2tog, sc across. (13 sts)")


def test_pauses_are_no_work() -> None:
    total = sum_up([row(1, 0), row(2, 600), row(3, 600 + 9 * 3600), row(4, 1200 + 9 * 3600)])
    assert total.minutes == 20 and total.minutes_from == "between taps"


def test_an_empty_log() -> None:
    total = sum_up([])
    assert (total.row, total.stitches, total.seconds_per_stitch, total.grams_used) == (0, 0, None, None)


def test_everything_ripped() -> None:
    total = sum_up([row(1, 0), row(2, 60), LogEntry(kind="ripped", at=90, row=0)])
    assert total.row == 0 and total.done == ()
