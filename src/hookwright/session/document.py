"""One open document: its text, the pattern read from it, the fabric worked from that, and what proofing says."""

from __future__ import annotations

from ..pattern import LIMITS, Edit, Finding, Limits, Part, Pattern, Row, Span, apply_edits
from ..reading import read
from ..working import Fabric, PartWork, RowWork, work


class Session:
    """An open document. Every `update` re-reads and re-works only what depends on the edit (by handing the last pattern and fabrics on).

    `size` is the size that the running counts are told in; findings always cover all sizes.

    >>> session = Session("Row 1: Ch 4, sc in 2nd ch from hook and in next 2 ch. (3 sc)\\n")
    >>> session.version
    1
    """

    def __init__(self, text: str = "", *, size: int = 0, limits: Limits = LIMITS) -> None:
        self.limits = limits
        self.size = size
        self.version = 0
        self.text = ""
        self.pattern: Pattern | None = None
        self._fabrics: dict[int, Fabric] = {}
        self._before: dict[int, Fabric] = {}
        self._findings: tuple[Finding, ...] | None = None
        self.update(text)

    def update(self, text: str) -> None:
        """Take the document's new text. Fabrics and findings are made when first asked for."""
        if self.pattern is not None and text == self.text:
            return
        self.version += 1
        self.text = text
        self.pattern = read(text, before=self.pattern)
        self._before = {**self._before, **self._fabrics}
        self._fabrics = {}
        self._findings = None

    @property
    def read(self) -> Pattern:
        assert self.pattern is not None
        return self.pattern

    def fabric(self, size: int | None = None) -> Fabric:
        """The fabric in `size` (the session's own when not told; never beyond the pattern's last size)."""
        wanted = min(self.size if size is None else size, self.read.sizes - 1)
        if wanted not in self._fabrics:
            self._fabrics[wanted] = work(self.read, size=wanted, before=self._before.get(wanted), limits=self.limits)
        return self._fabrics[wanted]

    @property
    def fabrics(self) -> tuple[Fabric, ...]:
        """The fabric in every size."""
        return tuple(self.fabric(size) for size in range(self.read.sizes))

    @property
    def findings(self) -> tuple[Finding, ...]:
        """What a maker should look at, in the order of the text."""
        if self._findings is None:
            from ..proofing import proof

            self._findings = tuple(sorted(proof(self.read, self.fabrics), key=lambda finding: (finding.span, finding.rule)))
        return self._findings

    def row_at(self, point: int) -> tuple[Part, Row] | None:
        """The written row that holds the code point `point`."""
        for part in self.read.parts:
            for row in part.rows:
                if row.span.start <= point <= row.span.end:
                    return part, row
        return None

    def worked(self, row: Row) -> tuple[tuple[int, RowWork], ...]:
        """(part number, row) for every worked row that an instruction gave, in the session's size."""
        return tuple(
            (number, done) for number, part in enumerate(self.fabric().parts) for done in part.rows if done.written.span == row.span
        )

    def part_of(self, done: RowWork) -> PartWork | None:
        """The part a worked row belongs to."""
        return next((part for part in self.fabric().parts if any(row is done for row in part.rows)), None)

    def repaired(self, finding: Finding) -> str:
        """The text with a finding's repair made (the text itself when it has none)."""
        return self.text if finding.repair is None else self.with_edits(finding.repair.edits)

    def with_edits(self, edits: tuple[Edit, ...]) -> str:
        """The text with edits made. Raises ValueError when they touch the same words."""
        return apply_edits(self.text, edits)

    def words(self, span: Span) -> str:
        return span.of(self.text)
