"""`hookwright teach FILE --heard CAPTIONS`: what was said against what is written, for eyes and for programs."""

from __future__ import annotations

import json
import sys
from collections.abc import Sequence
from dataclasses import asdict
from typing import TYPE_CHECKING

from .common import CannotDo, read_source

if TYPE_CHECKING:
    from ..teaching import Heard
    from ..working import Fabric


def tell_heard(fabrics: Sequence[Fabric], name: str, *, doubtful: bool, as_json: bool) -> int:
    """Print every difference, the surest first; what had to be mended in the captions goes to standard error, a sentence each.

    Comes back with 1 where a difference is found that is no doubtful one, else 0.
    """
    from ..teaching import CannotHear, compare, read_captions

    source = read_source(name)
    try:
        captions = read_captions(source.text)
        found = compare(fabrics[0], captions, sizes=fabrics, doubtful=True)
    except CannotHear as why:
        raise CannotDo(f"{source.name}: {why}") from why
    for remark in captions.remarks:
        print(f"hookwright: {source.name}: {remark}", file=sys.stderr)
    shown = [h for h in found if doubtful or not h.doubtful]
    hidden = len(found) - len(shown)
    if as_json:
        told = {"schema": "hookwright/heard/1", "heard": [asdict(h) for h in shown], "doubtful": hidden, "remarks": list(captions.remarks)}
        print(json.dumps(told, ensure_ascii=False, indent=1))
    else:
        print("\n".join(_lines(shown, hidden)))
    return 1 if any(not h.doubtful for h in shown) else 0


def _lines(shown: Sequence[Heard], hidden: int) -> list[str]:
    from ..teaching import clock

    out = []
    for h in shown:
        when = clock(h.at)[:8] if h.at is not None else "        "
        out.append(f"{when}  {h.kind:16}  {h.row:12}  {h.message} (sure {h.sure:.0%})")
        if h.words:
            out.append(f"{'':10}“{h.words}”")
    verdict = f"{len(shown)} difference{'' if len(shown) == 1 else 's'}" if shown else "What is said agrees with what is written"
    more = f"; {hidden} doubtful {'one is' if hidden == 1 else 'ones are'} not shown (--doubtful)" if hidden else ""
    return [*out, f"{verdict}{more}."]
