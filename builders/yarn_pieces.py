"""Turn a table of published pieces into the numeric facts that the yarn model is fitted on (`authorities/yarn_pieces.csv`).

Only figures and the address they were published at are kept: size, amount, yarn, hook, and two readings of the stitch (open, relief).
"""

from __future__ import annotations

import csv
import sys
from pathlib import Path

KEPT = (
    "id", "stitch", "open", "heavy", "kind", "hook_mm", "weight_class", "m_per_100g", "width_cm", "area_cm2", "metres_lo", "metres_hi",
    "metres_point", "source",
)  # fmt: skip


def keep_figures(source: Path, target: Path) -> int:
    """Copy the columns in KEPT from `source` to `target`; answers how many pieces were kept."""
    with source.open(newline="", encoding="utf-8") as file:
        rows = [{key: row[key] for key in KEPT} for row in csv.DictReader(file)]
    with target.open("w", newline="", encoding="utf-8") as file:
        writer = csv.DictWriter(file, KEPT, lineterminator="\n")
        writer.writeheader()
        writer.writerows(rows)
    return len(rows)


if __name__ == "__main__":
    root = Path(__file__).resolve().parent.parent
    print(keep_figures(Path(sys.argv[1]), root / "authorities" / "yarn_pieces.csv"), "pieces kept")  # noqa: T201
