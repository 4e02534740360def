"""The same pattern in other words makes the same fabric: `python benches/rewordings.py [--corpus FOLDER] [--rule N] [--show 3]`.

Each rule of `rewordings.toml` says one thing of the trade in several ways. It is applied on its own to every text; a text fares
badly when one of its rows is then worked otherwise, or less surely, than in the words it was written in. What is counted is texts.
"""

from __future__ import annotations

import argparse
import re
import textwrap
import tomllib
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from hookwright.reading import read
from hookwright.working import Fabric, work

ROOT = Path(__file__).parent.parent
CASES = ROOT / "tests" / "cases"

RULES: tuple[tuple[str, tuple[str, ...]], ...] = tuple(
    (rule["find"], tuple(rule["said"])) for rule in tomllib.loads(Path(__file__).with_suffix(".toml").read_text(encoding="utf-8"))["rule"]
)


def _wrapped(words: str) -> str:
    """Every line broken at 60 columns, as a printed page breaks it."""
    return "\n".join("\n".join(textwrap.wrap(line, 60, break_on_hyphens=False)) if len(line) > 60 else line for line in words.split("\n"))


_ROW_LINE = re.compile(r"\n(?=(?:Row|Rnd|Round)s? \d)")
SETTINGS: dict[str, Callable[[str], str]] = {
    "all in capitals": str.upper,
    "lines end in CR LF": lambda words: words.replace("\n", "\r\n"),
    "no-break spaces": lambda words: re.sub(r"(?<=\d) (?=[a-z])", "\u00a0", words),
    "rows parted by blank lines": lambda words: _ROW_LINE.sub("\n\n", words),
    "rows run on in one paragraph": lambda words: _ROW_LINE.sub(" ", words),
    "rows as a list": lambda words: _ROW_LINE.sub("\n- ", words),
    "two spaces after each stop": lambda words: words.replace(". ", ".  "),
    "wrapped at 60 columns": _wrapped,
}
"""The same words set otherwise on the page."""


@dataclass(frozen=True, slots=True)
class Text:
    name: str
    words: str


def texts(corpus: Path | None) -> Iterator[Text]:
    """Our own whole patterns, then the corpus when it is there."""
    for path in [*sorted((CASES / "reading").glob("*.md")), *sorted((ROOT / "examples").glob("*.md"))]:
        if "mistake" not in path.stem:  # said otherwise, a planted mistake may well be another one
            yield Text(path.stem, path.read_text(encoding="utf-8"))
    if corpus:
        for path in sorted((corpus / "patterns").glob("*.txt")):
            body = re.sub(r"\A(?:# (?:url|text|title|source)[^\n]*\n)+", "", path.read_text(encoding="utf-8"))
            yield Text(f"corpus {path.stem}", body)


@dataclass(frozen=True, slots=True)
class Worked:
    """One row as it came out."""

    number: str
    total: int
    read: str
    worked: str
    state: str
    words: str


def outcome(words: str) -> list[Worked]:
    """What the first size is worked to, row by row."""
    fabric: Fabric = work(read(words))
    rows = [row for part in fabric.parts for row in part.rows if not row.foundation]
    return [
        Worked(str(row.number), row.counted.total, row.read, row.worked, row.state, " ".join(row.written.span.of(words).split()))
        for row in rows
    ]


def worse(before: list[Worked], after: list[Worked]) -> str:
    """In one line what went wrong, or nothing."""
    if len(before) != len(after):
        return f"{len(before)} rows became {len(after)}"
    for was, now in zip(before, after, strict=True):
        if was.worked != "yes":
            continue
        told = f"row {was.number}: "
        if was.total != now.total:
            told += f"{was.total} became {now.total}"
        elif was.read == "whole" and now.read != "whole":
            told += "no longer read whole"
        elif now.worked != "yes":
            told += f"worked {now.worked}"
        elif now.state == "differs" and was.state != "differs":
            told += "now said to differ"
        else:
            continue
        return f"{told} | {now.words}"
    return ""


def _capital(match: re.Match[str], other: str) -> str:
    said = match.expand(other)
    return said[:1].upper() + said[1:] if match[0][:1].isupper() else said


def changes() -> list[tuple[str, Callable[[str], str]]]:
    """Every rewording by name, then every setting."""
    return [
        (f"{number:3} {other!r} for {told}", partial(_said, told, other)) for number, (told, others) in enumerate(RULES) for other in others
    ] + list(SETTINGS.items())


def _said(told: str, other: str, words: str) -> str:
    return re.sub(told, lambda match: _capital(match, other), words)


def main() -> None:
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("--corpus", type=Path)
    asked.add_argument("--rule", type=int, action="append")
    asked.add_argument("--show", type=int, default=2)
    choice = asked.parse_args()
    pieces = [(text, outcome(text.words)) for text in texts(choice.corpus)]
    tried = bad = 0
    every = changes()
    for name, change in every:
        if choice.rule and name[:3].strip() not in map(str, choice.rule):
            continue
        hit, wrong = 0, []
        for text, before in pieces:
            words = change(text.words)
            if words == text.words:
                continue
            hit += 1
            if why := worse(before, outcome(words)):
                wrong.append(f"{text.name}: {why}"[:240])
        tried, bad = tried + hit, bad + len(wrong)
        if wrong:
            print(f"{len(wrong):3} of {hit:3}  {name}", *(f"          {line}" for line in wrong[: choice.show]), sep="\n", flush=True)
    print(f"{len(every)} rewordings; {tried} reworded texts, {tried - bad} worked as before ({(tried - bad) / max(1, tried):.1%})")


if __name__ == "__main__":
    main()
