"""The command line: bytes in, files out, no craft logic. Every verb is a command of its own, imported only when it is called."""

from __future__ import annotations

import sys
from collections.abc import Sequence
from typing import NamedTuple


class Verb(NamedTuple):
    """A command: its name, where its function (or group of functions) is, and one line of help."""

    name: str
    at: str
    help: str


VERBS: tuple[Verb, ...] = (
    Verb("proof", "hookwright.cli.proof:proof", "Work every stitch of a pattern and report what does not add up."),
    Verb("shape", "hookwright.cli.shape:shape", "Size, outline, and how each part lies."),
    Verb("yarn", "hookwright.cli.yarn:yarn", "Metres, grams and balls, row by row; or an estimate for planning."),
    Verb("write", "hookwright.cli.write:write", "Write the pattern in US or UK terms, or in another language."),
    Verb("draw", "hookwright.cli.draw:draw", "Draw the chart, the schematic or the colours."),
    Verb("draft", "hookwright.cli.draft:draft", "Turn measurements into a pattern."),
    Verb("teach", "hookwright.cli.teach:teach", "Plan the film: shots, script, captions, chapters."),
    Verb("publish", "hookwright.cli.publish:publish", "Booklet, page, pictures and checked text in one folder."),
    Verb("read", "hookwright.cli.read:read", "Turn a .docx, .html, .pdf or .txt into a Markdown pattern."),
    Verb("try", "hookwright.cli.tour:tour", "The tour: a draft with two slips proofed, mended, measured, published."),
    Verb("worktable", "hookwright.cli.worktable:worktable", "Open the page in the browser."),
    Verb("editor", "hookwright.cli.editor:editor", "Serve an editor (Language Server Protocol, over standard input)."),
)

HELP = """Usage: hookwright COMMAND …

Write a crochet pattern once; have every stitch of it worked, proofed, measured, drawn and published.

Commands
{verbs}

Anywhere on the line
  --help, -h     this page, or the page of one command
  --version      the version
  --settings     every setting, its value and where it came from
  -v, --verbose  log to standard error (never any pattern text)
  --traceback    when something fails, show where

FILE is a pattern (Markdown or plain text), or - for standard input.
Exit status: 0 nothing wrong, 1 a finding of severity error, 2 could not be carried out."""


def help_text() -> str:
    """The page that `hookwright --help` prints; nothing is imported for it.

    >>> all(verb.name in help_text() for verb in VERBS)
    True
    """
    return HELP.format(verbs="\n".join(f"  {verb.name:<11}{verb.help}" for verb in VERBS))


def main(argv: Sequence[str] | None = None) -> None:
    """Carry out one command line and leave with its exit status."""
    words = list(sys.argv[1:] if argv is None else argv)
    if not words or words[0] in ("--help", "-h"):
        print(help_text())
        sys.exit(0)
    if words[0] == "--version":
        from hookwright import __version__

        print(__version__)
        sys.exit(0)
    from .run import run

    sys.exit(run(words))
