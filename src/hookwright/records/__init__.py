"""What is kept over time: versions of patterns, the log at the hook, swatches."""

from .kept import KINDS, LogEntry, LogKind, RecordsTrouble, SwatchRecord, Version
from .logbook import LogSum, rows_written, sum_up
from .store import HEAD, Records

__all__ = [
    "HEAD", "KINDS", "LogEntry", "LogKind", "LogSum", "Records", "RecordsTrouble", "SwatchRecord", "Version", "rows_written", "sum_up",
]  # fmt: skip
