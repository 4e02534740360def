"""The tuple of rules is complete, every rule has a page, and every trouble that reading and working record is judged by a rule."""

from __future__ import annotations

import ast
import importlib
import inspect
import pkgutil
import re
from collections.abc import Iterator
from pathlib import Path

import jsonschema
import pytest

from hookwright import proofing
from hookwright.pattern import Edit, Finding, Pattern, Repair, Span
from hookwright.proofing import RULES, Rule, proof
from hookwright.proofing.opened_row import show_row
from hookwright.proofing.report import STATES, Lines, report, schema
from hookwright.proofing.rules import TROUBLES
from hookwright.proofing.terminal import WIDE, show_counts, show_findings
from hookwright.reading import read
from hookwright.working import work

SRC = Path(proofing.__file__).parents[1]
HELPERS = {"rule", "arithmetic", "fits", "abbreviations"}


def test_every_rule_module_is_in_the_tuple() -> None:
    import hookwright.proofing.rules as rules

    modules = {found.name for found in pkgutil.iter_modules(rules.__path__)} - HELPERS
    told = {inspect.getmodule(rule.check).__name__.rpartition(".")[2] for rule in RULES}  # type: ignore[union-attr]
    assert told == modules
    assert len({rule.name for rule in RULES}) == len(RULES)
    for rule in RULES:
        assert rule.name.replace("-", "_") == inspect.getmodule(rule.check).__name__.rpartition(".")[2]  # type: ignore[union-attr]


@pytest.mark.parametrize("rule", RULES, ids=lambda rule: rule.name)
def test_every_rule_has_its_page(rule: Rule) -> None:
    page = inspect.getmodule(rule.check).__doc__ or ""  # type: ignore[union-attr]
    assert re.match(r"[A-Z“].{20,}\.$", page.splitlines()[0])
    for head in ("What it checks:", "Why:", "Example:", "Message:", "Repair:"):
        assert f"\n{head}" in page, head


def recorded() -> Iterator[str]:
    """Every kind of trouble written out in the sources of reading and working."""
    for path in [*(SRC / "reading").rglob("*.py"), *(SRC / "working").rglob("*.py")]:
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if not isinstance(node, ast.Call):
                continue
            name = node.func.attr if isinstance(node.func, ast.Attribute) else getattr(node.func, "id", "")
            if name in ("RowTrouble", "_trouble", "trouble", "Trouble"):
                told = [*node.args[:1], *(word.value for word in node.keywords if word.arg == "kind")]
                yield from (one.value for one in told if isinstance(one, ast.Constant) and isinstance(one.value, str))


def test_every_trouble_is_judged() -> None:
    kinds = set(recorded())
    assert len(kinds) > 8, "the walk found nothing"
    assert kinds <= set(TROUBLES), f"no rule judges {sorted(kinds - set(TROUBLES))}"
    assert set(TROUBLES.values()) <= {rule.name for rule in RULES}


UK = """Ch 11.
Row 1: Dc in 2nd ch from hook, dc in each ch across. (10 dc)
Row 2: Ch 1, turn, 2 dc in first st, miss next st, dc in each st across. (12 dc)
Row 3: Ch 1, turn, htr in next 20 sts.
"""


def test_messages_are_in_the_terms_of_the_pattern() -> None:
    pattern = read("---\nterms: UK\n---\n\n" + UK)
    found = proof(pattern, [work(pattern)])
    assert found
    for finding in found:
        text = " ".join((finding.message, *finding.working))
        assert not re.search(r"\b(?:sc|hdc)\b", text), text


def sample() -> tuple[Pattern, list[Finding]]:
    pattern = read("\ufeffCh 11.\r\n" + UK.replace("\n", "\r\n").replace("miss", "wibble"))
    return pattern, list(proof(pattern, [work(pattern)]))


def test_the_report_keeps_to_its_schema() -> None:
    pattern, found = sample()
    told = report(pattern, [work(pattern)], found)
    jsonschema.Draft202012Validator.check_schema(schema("proof/1"))
    jsonschema.validate(told, schema("proof/1"))
    assert told["findings"] and told["parts"][0]["rows"]
    assert sum(told["summary"][state] for state in STATES) == told["summary"]["worked_rows"]


def test_the_schema_can_fail() -> None:
    pattern, found = sample()
    told = report(pattern, [work(pattern)], found)
    told["findings"][0]["severity"] = "fatal"
    with pytest.raises(jsonschema.ValidationError):
        jsonschema.validate(told, schema("proof/1"))


@pytest.mark.parametrize("name", ["proof/1", "yarn/1", "shape/1"])
def test_schemas_are_schemas(name: str) -> None:
    told = schema(name)
    jsonschema.Draft202012Validator.check_schema(told)
    assert told["$id"] == f"hookwright/{name}" and told["properties"]["schema"] == {"const": f"hookwright/{name}"}


def test_places_are_counted_in_code_points_whatever_the_line_ends() -> None:
    pattern, found = sample()
    told = report(pattern, [work(pattern)], found)
    lines = pattern.source.replace("\r\n", "\n").split("\n")
    for shown, finding in zip(told["findings"], found, strict=True):
        if shown["line"] == shown["end_line"]:
            words = lines[shown["line"] - 1][shown["column"] - 1 : shown["end_column"] - 1]
            assert words == finding.span.of(pattern.source).rstrip("\r")


def test_lone_carriage_returns_end_lines() -> None:
    assert Lines("a\rb\r\nc\nd").of(7) == (4, 1) and Lines("").of(0) == (1, 1)


def test_several_sizes_give_an_entry_for_each_row_and_size() -> None:
    text = (
        "---\nsizes:\n  names: [S, M]\n---\n\nCh 11 (13).\nRow 1: Sc in 2nd ch from hook and in each ch across. (10 (12) sc)\n"
        "Row 2: Ch 1, turn, sc in each st across. (10 (13) sc)\n"
    )
    pattern = read(text)
    fabrics = [work(pattern, size=size) for size in range(pattern.sizes)]
    found = proof(pattern, fabrics)
    told = report(pattern, fabrics, found)
    rows = told["parts"][0]["rows"]
    assert [(row["label"], row["size"], row["counted"]["total"]) for row in rows] == [
        ("Row 1", 0, 10), ("Row 2", 0, 10), ("Row 1", 1, 12), ("Row 2", 1, 12),
    ]  # fmt: skip
    assert [(one.rule, one.size) for one in found] == [("count-differs", 1)] and "size M" in " ".join(found[0].working)


LONG = "Row 1: " + "sc in next st, " * 40 + "wibble the flange, " + "sc in next st, " * 40 + "turn.\n"


@pytest.mark.parametrize(
    "text", [UK, "Ch 200.\n" + LONG, "Rnd 1: 6 sc in 長い編み目 magic ring. (7)\n", "Ch 5.\nRow 1:\tSc\tin 2nd ch. (40 sc)\n"]
)
def test_the_terminal_keeps_to_80_columns(text: str) -> None:
    from hookwright.cli.common import width

    pattern = read(text)
    fabric = work(pattern)
    found = proof(pattern, [fabric])
    pages = [show_counts(pattern, fabric), show_findings(pattern, found)]
    pages += [show_row(pattern, fabric, part, row) for part in fabric.parts for row in part.rows]
    for line in "\n".join(pages).splitlines():
        assert width(line) <= WIDE, line


def test_words_are_underlined_where_they_stand() -> None:
    source = "Row 1: one two three\n"
    at = source.index("two")
    finding = Finding(rule="unread", severity="note", span=Span(at, at + 3), message="x")
    lines = show_findings(Pattern(source=source), [finding]).splitlines()
    shown = next(line for line in lines if "one two" in line)
    under = lines[lines.index(shown) + 1]
    assert shown[under.index("^") : under.rindex("^") + 1] == "two"


def test_findings_are_data_that_can_be_edited_in() -> None:
    pattern = read(
        "Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. (12 sc)\nRow 2: Ch 1, turn, sc in each st across. (10 sc)\n"
    )
    (found,) = proof(pattern, [work(pattern)])
    at = pattern.source.index("12")
    assert found.repair == Repair(grade="safe", title="State 10 instead of 12.", edits=(Edit(Span(at, at + 2), "10"),))


def test_proofing_never_raises_on_patterns_without_text() -> None:
    assert proof(Pattern(), []) == ()
    assert importlib.import_module("hookwright.proofing").proof is proof


COASTER = """# Coaster

US terms. Worked in joined rounds.

Rnd 1: 6 sc in magic ring, sl st to join. (6 sc)
Rnd 2: Ch 1, 2 sc in each st around, sl st to join. (12 sc)
Rnd 3: Ch 1, [sc in next st, 2 sc in next st] 6 times, sl st to join. (18 sc)
Fasten off.
"""


@pytest.mark.parametrize(
    ("right", "wrong", "row", "severity"),
    (
        ("2 sc in each st around", "sc in each st around", "Rnd 2", "error"),
        ("next st] 6 times", "next st] 3 times", "Rnd 3", "error"),
        ("(18 sc)", "(81 sc)", "Rnd 3", "error"),
        ("6 sc in magic ring", "12 sc in magic ring", "Rnd 1", "warning"),
        ("Ch 1, [sc in next st, 2 sc in next st] 6 times, sl st to join. (18", "Rep Rnd 2. (48", "Rnd 3", "warning"),
    ),
)
def test_a_row_far_off_is_a_certain_error_only_where_it_is_sure_to_be_understood(right: str, wrong: str, row: str, severity: str) -> None:
    pattern = read(COASTER.replace(right, wrong))
    (finding,) = [one for one in proof(pattern, [work(pattern)]) if one.severity != "note"]
    assert (finding.row, finding.severity) == (row, severity)
    assert any("misunderstanding" in words for words in finding.working) is (severity == "warning")
