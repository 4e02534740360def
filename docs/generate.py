"""Writes the reference pages of these docs from the code: `python docs/generate.py`. A test fails when a page is stale."""

from __future__ import annotations

import importlib
import importlib.util
import inspect
import io
import os
import pkgutil
import sys
from collections.abc import Iterator
from contextlib import redirect_stdout
from pathlib import Path
from typing import Any

DOCS = Path(__file__).parent
NOTE = "<!-- Written by docs/generate.py from the code: change it there. -->\n\n"


def pages() -> dict[str, str]:
    """Every generated page: its path under docs/ → its text."""
    out = {
        "reference/commands.md": commands(),
        "reference/rules/index.md": rules_index(),
        "reference/json.md": json_page(),
        "reference/what-can-be-read.md": readable(),
        "reference/stitches.md": stitches(),
        "reference/settings.md": settings(),
    }
    return {path: NOTE + text for path, text in {**out, **dict(rule_pages())}.items()}


def main() -> None:
    """Write every page that differs; take away generated pages that are no more."""
    wanted = pages()
    for path, text in wanted.items():
        target = DOCS / path
        target.parent.mkdir(parents=True, exist_ok=True)
        if not target.exists() or target.read_text(encoding="utf-8") != text:
            target.write_text(text, encoding="utf-8")
            sys.stdout.write(f"wrote {path}\n")
    for old in (DOCS / "reference").rglob("*.md"):
        if old.relative_to(DOCS).as_posix() not in wanted:
            old.unlink()
            sys.stdout.write(f"took away {old.name}\n")


def commands() -> str:
    """The help page of every command, as `hookwright COMMAND --help` prints it."""
    from hookwright.cli import VERBS, help_text

    out = ["# Commands\n", "```text", help_text(), "```\n"]
    for verb in VERBS:
        out += [f"## `hookwright {verb.name}`\n", verb.help + "\n"]
        if importlib.util.find_spec(verb.at.partition(":")[0]) is None:
            out.append("Not part of this version.\n")
            continue
        out += ["```text", command_help(verb.name), "```\n"]
    return "\n".join(out)


def command_help(*words: str) -> str:
    """What a command prints for --help, 80 columns wide."""
    from hookwright.cli.run import run

    os.environ["COLUMNS"] = "80"
    caught = io.StringIO()
    with redirect_stdout(caught):
        run([*words, "--help"])
    return "\n".join(line.rstrip() for line in caught.getvalue().strip().splitlines())


def rules_index() -> str:
    """The list of rules with their first lines."""
    from hookwright.proofing import RULES

    out = [
        "# Rules\n",
        "What `hookwright proof` looks for. A rule's name is its identity; each has a page with what it checks, why, an example,",
        "the message and the repair. *Severity* is that of its gravest finding: an error makes `proof` leave with status 1.\n",
        "| rule | severity | what is wrong |",
        "| --- | --- | --- |",
    ]
    for rule in RULES:
        first = (inspect.getmodule(rule.check).__doc__ or "").strip().splitlines()[0]  # type: ignore[union-attr]
        out.append(f"| [{rule.name}]({rule.name}.md) | {rule.severity} | {first} |")
    return "\n".join(out) + "\n"


def rule_pages() -> Iterator[tuple[str, str]]:
    """One page for each rule: its module's docstring."""
    from hookwright.proofing import RULES

    for rule in RULES:
        text = inspect.cleandoc(inspect.getmodule(rule.check).__doc__ or "")  # type: ignore[union-attr]
        yield f"reference/rules/{rule.name}.md", f"# {rule.name}\n\n*Severity: {rule.severity}.* {_with_headings(text)}\n"


def _with_headings(text: str) -> str:
    heads = {"What it checks": "What it checks", "Why": "Why", "Tolerance": "Tolerance", "Example": "Example", "Message": "Message"}
    heads["Repair"] = "Repair"
    out = []
    for block in text.split("\n\n"):
        head, colon, rest = block.partition(":")
        if colon and head in heads:
            out.append(f"## {heads[head]}")
            if rest.strip():
                out.append(rest.strip()[0].upper() + rest.strip()[1:])
        else:
            out.append(block)
    return "\n\n".join(out)


def json_page() -> str:
    """The keys of every published report, from the schemas."""
    from hookwright.proofing.report import schema

    out = [
        "# JSON reports\n",
        "Programs can rely on these. The schemas (JSON Schema 2020-12) are in `src/hookwright/proofing/schemas/`. Lines and columns",
        "are counted from 1 in code points, the end excluded. New keys may appear under the same number; a key that changes its",
        "meaning gets a new number.\n",
    ]
    for name in ("proof/1", "shape/1", "yarn/1"):
        told = schema(name)
        out += [f"## hookwright/{name}\n", f"{told['title']}. {told.get('description', '')}\n", "| key | value | |", "| --- | --- | --- |"]
        out += [f"| `{key}` | {kind} | {about} |" for key, kind, about in _keys(told, "")]
        out.append("")
    return "\n".join(out)


def _keys(schema: dict[str, Any], path: str) -> Iterator[tuple[str, str, str]]:
    for name, inner in schema.get("properties", {}).items():
        one = next((kind for kind in inner.get("oneOf", ()) if kind.get("type") != "null"), inner)
        full = f"{path}.{name}" if path else name
        yield full, _kind(inner), inner.get("description", "")
        if one.get("type") == "array":
            yield from _keys(one.get("items", {}), f"{full}[]")
        else:
            yield from _keys(one, full)


def _kind(schema: dict[str, Any]) -> str:
    if "const" in schema:
        return f"`{schema['const']}`"
    if "enum" in schema:
        return ", ".join("null" if value is None else f"`{value}`" for value in schema["enum"])
    if "oneOf" in schema:
        return " or ".join(_kind(kind) for kind in schema["oneOf"])
    kind = schema.get("type", "any")
    return " or ".join(kind) if isinstance(kind, list) else str(kind)


def readable() -> str:
    """What can be read: the examples of every phrase module."""
    import hookwright.reading.phrases as phrases

    out = [
        "# What can be read\n",
        "Every kind of phrase with its examples. The examples are tests: each is read, and must give the steps beside it (in a",
        "shorthand of the tests' own: `×n` places, `[…]` a repeat, `{…}` several in one place, `|` the stated count).\n",
    ]
    for found in sorted(pkgutil.iter_modules(phrases.__path__), key=lambda module: module.name):
        module = importlib.import_module(f"hookwright.reading.phrases.{found.name}")
        examples = getattr(module, "EXAMPLES", ())
        if not examples:
            continue
        told = " ".join(inspect.cleandoc(module.__doc__ or "").split("\n\n")[0].split())
        out += [f"## {found.name.replace('_', ' ').capitalize()}\n", f"{told}\n"]
        out += ["| words | steps |", "| --- | --- |"]
        out += [f"| {_cell(example[0])} | {_cell(example[1])} |" for example in examples]
        out.append("")
    return "\n".join(out)


def _cell(text: object) -> str:
    return "`" + str(text).replace("|", "\\|").replace("`", "'") + "`"


def stitches() -> str:
    """Every stitch with its names in both terms and its customary turning chain."""
    from hookwright.trade.stitches import stitches as known

    out = [
        "# Stitches and terms\n",
        "Hookwright calls every stitch by its US abbreviation inside, whatever the pattern's terms. Sources stand in",
        "`src/hookwright/trade/data/stitches.toml`.\n",
        "| US | | UK | | turning chain | counts | height / width |",
        "| --- | --- | --- | --- | --- | --- | --- |",
    ]
    for stitch in known().values():
        chain = "" if stitch.turning_chain is None else str(stitch.turning_chain)
        tall = "" if stitch.height_in_widths is None else f"{stitch.height_in_widths:g}"
        cells = (", ".join(stitch.us_abbr), stitch.us_name, ", ".join(stitch.uk_abbr), stitch.uk_name, chain, stitch.counts or "", tall)
        out.append("| " + " | ".join(cells) + " |")
    return "\n".join(out) + "\n"


def settings() -> str:
    """Every setting with its default."""
    from hookwright.cli.settings import _DEFAULTS

    out = [
        "# Settings\n",
        "Each is looked for in the pattern's front matter, then in `hookwright.toml` in its folder or any folder above, then here.",
        "`hookwright --settings FILE` shows every value and where it came from.\n",
        "| setting | default | a value |",
        "| --- | --- | --- |",
    ]
    out += [f"| `{name}` | {default!r} | {what} |" for name, (default, _, what) in _DEFAULTS.items()]
    return "\n".join(out) + "\n"


if __name__ == "__main__":
    sys.exit(main())
