"""Carries out one command line: flags that hold for every command, the command itself, and every failure in one clean sentence."""

from __future__ import annotations

import importlib.util
import logging
import os
import re
import sys
from collections.abc import Sequence
from difflib import get_close_matches
from typing import TYPE_CHECKING

from . import VERBS, Verb
from .common import STDIN, CannotDo

if TYPE_CHECKING:
    from cyclopts import App

DONE, FOUND, NOT_DONE = 0, 1, 2
INTERRUPTED = 130


def run(words: Sequence[str]) -> int:
    """The exit status of one command line."""
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")  # one thread is faster for fabrics, and the same digits come out everywhere
    rest, traceback, verbose, settings = _flags(words)
    if verbose:
        logging.basicConfig(stream=sys.stderr, level=logging.INFO, format="%(name)s: %(message)s")
    try:
        if settings:
            return _settings(rest)
        return _command(rest)
    except CannotDo as failure:
        _say(str(failure))
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return DONE
    except KeyboardInterrupt:
        return INTERRUPTED
    except Exception as failure:
        if traceback:
            raise
        _say(_sentence(failure))
    return NOT_DONE


def _flags(words: Sequence[str]) -> tuple[list[str], bool, bool, bool]:
    ours = {"--traceback": False, "--verbose": False, "--settings": False}
    rest: list[str] = []
    for position, word in enumerate(words):
        if word == "--":
            rest.extend(words[position:])
            break
        name = "--verbose" if word == "-v" else word
        if name in ours:
            ours[name] = True
        else:
            rest.append(word)
    return rest, ours["--traceback"], ours["--verbose"], ours["--settings"]


def _command(words: Sequence[str]) -> int:
    if not words:
        raise CannotDo("No command was given: `hookwright --help` lists them.")
    verb = next((verb for verb in VERBS if verb.name == words[0]), None)
    if verb is None:
        raise CannotDo(_unknown(words[0]))
    if importlib.util.find_spec(verb.at.partition(":")[0]) is None:
        raise CannotDo(f"`hookwright {verb.name}` is not part of this installation.")
    return _invoke(verb, words)


def _invoke(verb: Verb, words: Sequence[str]) -> int:
    from cyclopts import CycloptsError, UnusedCliTokensError

    app = _app(verb)
    try:
        result = app(
            [STDIN if word == "-" else word for word in _with_minus(words)],
            exit_on_error=False,
            print_error=False,
            result_action="return_value",
        )
    except UnusedCliTokensError as failure:
        left = " ".join(failure.unused_tokens or ())
        raise CannotDo(f"“{left}” belongs to nothing before it. `hookwright {verb.name} --help` shows what it takes.") from failure
    except CycloptsError as failure:
        raise CannotDo(f"{_one_line(str(failure))} `hookwright {verb.name} --help` shows what it takes.") from failure
    except SystemExit as leaving:
        return leaving.code if isinstance(leaving.code, int) else DONE
    return result if isinstance(result, int) and not isinstance(result, bool) else DONE


def _with_minus(words: Sequence[str]) -> list[str]:
    """The words with a number below nothing joined to its name, so that it is not taken for a name itself.

    >>> _with_minus(["draft", "--width", "-24cm", "--mirror"])
    ['draft', '--width=-24cm', '--mirror']
    """
    joined: list[str] = []
    for word in words:
        if joined and re.match(r"-[\d.½¼¾]", word) and re.fullmatch(r"--[a-z-]+", joined[-1]):
            joined[-1] += f"={word}"
        else:
            joined.append(word)
    return joined


def _app(verb: Verb) -> App:
    from cyclopts import App

    app = App(name="hookwright", help_formatter="plain", help_format="plaintext", version_flags=[])
    app.command(verb.at, name=verb.name)
    return app


def _settings(words: Sequence[str]) -> int:
    from .common import Colours, read_source, table
    from .settings import settings_for

    names = [word for word in words if not word.startswith("-") and word not in {verb.name for verb in VERBS}]
    source = read_source(names[0]) if names else None
    told = settings_for(source)
    rows = [(name, str(setting.value), setting.origin) for name, setting in told.items()]
    print(table(("setting", "value", "from"), rows, colours=Colours.of(sys.stdout)))
    return DONE


def _unknown(word: str) -> str:
    near = get_close_matches(word, [verb.name for verb in VERBS], n=1)
    hint = f" Did you mean `{near[0]}`?" if near else " `hookwright --help` lists the commands."
    return f"There is no command `{word}`.{hint}"


def _one_line(text: str) -> str:
    line = " ".join(text.split())
    return line if line.endswith((".", "!", "?")) else f"{line}."


def _sentence(failure: Exception) -> str:
    if isinstance(failure, MemoryError):
        return "There was not enough memory to carry this out."
    if isinstance(failure, OSError) and failure.strerror:
        where = f"{failure.filename}: " if failure.filename else ""
        return f"{where}{failure.strerror[:1].lower()}{failure.strerror[1:]}."
    return f"Something went wrong inside Hookwright ({type(failure).__name__}); `--traceback` shows where. Please report it."


def _say(sentence: str) -> None:
    print(f"hookwright: {sentence}", file=sys.stderr)
