"""`hookwright teach FILE --mend CAPTIONS`: stitch terms in captions made by a machine."""

from __future__ import annotations

import json
import sys
from dataclasses import asdict
from pathlib import Path, PurePath

from .common import CannotDo, read_source, write_folder


def tell_mended(name: str, output: Path | None, *, as_json: bool) -> int:
    """Write the captions with their terms mended; what was changed goes to standard error, or is the JSON."""
    from ..teaching import CannotHear, mend, read_captions

    source = read_source(name)
    try:
        read_captions(source.text)
    except CannotHear as why:
        raise CannotDo(f"{source.name}: {why}") from why
    text, changes = mend(source.text)
    if output is not None:
        write_folder(output, {PurePath(name).name: text.encode()})
    if as_json:
        print(json.dumps({"schema": "hookwright/mended/1", "changes": [asdict(c) for c in changes]}, ensure_ascii=False, indent=1))
    elif output is None:
        print(text, end="")
    shown = sys.stdout if output is not None and not as_json else sys.stderr
    if not as_json:
        for c in changes:
            print(f"line {c.line}: “{c.was}” → “{c.now}”{' (a guess: listen again)' if c.sure < 1 else ''}", file=shown)
        print(f"{len(changes)} term{'' if len(changes) == 1 else 's'} mended.", file=shown)
    return 0
