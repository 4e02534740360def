"""The pieces that speed is measured on, as texts: a 126-row strip, a 12-round motif, a blanket of 100,000 stitches."""

from __future__ import annotations


def strip(rows: int = 126, width: int = 28, grow: int = 24) -> str:
    """A strip with bevelled ends, every row written out with its count: about 2,900 stitches in 126 rows."""
    lines = ["US terms", "Gauge: 13 dc and 6.5 rows = 10 cm", "Hook: 5 mm", "", "Ch 4.", "Row 1: Dc in 4th ch from hook. (2 dc)"]
    count = 2
    for row in range(2, rows + 1):
        if row <= grow:
            count += 1
            work = "2 dc in first st, dc in each st across" if row % 2 == 0 else "dc in each st to last st, 2 dc in last st"
        elif row > rows - grow:
            count -= 1
            work = (
                "dc2tog over first 2 sts, dc in each st across" if row % 2 == 0 else "dc in each st to last 2 sts, dc2tog over last 2 sts"
            )
        else:
            work = "dc in each st across"
        lines.append(f"Row {row}: Ch 2 (does not count as st), turn, {work}. ({count} dc)")
    del width
    return "\n".join(lines) + "\n"


def motif(rounds: int = 12) -> str:
    """A flat circle of double crochet, 12 more each round."""
    lines = [
        "US terms",
        "Gauge: 14 dc and 7 rows = 10 cm",
        "",
        "Rnd 1: Ch 3 (counts as dc), 11 dc in magic ring, join with sl st to top of ch-3. (12 dc)",
    ]
    for n in range(2, rounds + 1):
        if n == 2:
            words = "dc in same st, 2 dc in each st around"
        else:
            plain = f"dc in next {n - 2} sts" if n > 3 else "dc in next st"
            words = f"dc in same st, {plain}, * 2 dc in next st, {plain}; rep from * around"
        lines.append(f"Rnd {n}: Ch 3 (counts as dc), {words}, join with sl st to top of ch-3. ({12 * n} dc)")
    return "\n".join(lines) + "\n"


def blanket(width: int = 334, rows: int = 300, distinct: bool = False) -> str:
    """A shell blanket of about 100,000 stitches; `distinct` writes every row out."""
    unit = width // 6
    chain = unit * 6 + 2
    lines = [
        "US terms",
        "Gauge: 14 dc and 7 rows = 10 cm",
        "",
        f"Ch {chain}.",
        f"Row 1: Sc in 2nd ch from hook and in each ch across. ({chain - 1} sc)",
    ]
    words = (
        "Ch 1 (does not count as st), turn, sc in first st, * skip 2 sts, 5 dc in next st, skip 2 sts, sc in next st; rep from * across."
    )
    if distinct:
        lines += [f"Row {n}: {words} ({unit + 1} sc, {unit * 5} dc)" for n in range(2, rows + 1)]
    else:
        lines.append(f"Rows 2-{rows}: {words} ({unit + 1} sc, {unit * 5} dc)")
    return "\n".join(lines) + "\n"
