"""`hookwright teach`: the film plan, the script and captions; what was said against what is written."""

from __future__ import annotations

import json
from dataclasses import asdict
from pathlib import Path
from typing import Annotated

from cyclopts import Parameter

from .common import CannotDo, load, write_file


def teach(
    file: str,
    /,
    *,
    heard: Path | None = None,
    output: Annotated[Path | None, Parameter(name=["--output", "-o"])] = None,
    json_: Annotated[bool, Parameter(name="--json", negative=())] = False,
) -> int:
    """Plan the film of a pattern: shots, script, captions, chapters; or hold spoken captions against it.

    Parameters
    ----------
    file
        A pattern, or - for standard input.
    heard
        Captions of a film (.vtt, .srt, or lines that begin with a time): lists what was said otherwise than it is written.
    output
        Write plan, script, captions (.vtt, .srt) and chapters into this folder.
    json_
        Print the plan, or what was heard, for a program.
    """
    from ..teaching import captions, chapters, clock, film_plan, script, to_srt, to_vtt
    from ..working import work

    _, pattern = load(file)
    fabric = work(pattern)
    if not any(not row.foundation for part in fabric.parts for row in part.rows):
        raise CannotDo("There is no row to film in this pattern.")
    if heard is not None:
        return _heard(fabric, heard, json_)
    plan = film_plan(pattern, fabric)
    scenes = script(pattern, fabric, plan)
    if json_:
        print(json.dumps({"schema": "hookwright/film/1", "minutes": round(plan.minutes, 1), "shots": [asdict(s) for s in plan.shots]}))
        return 0
    marks = {"close": "close", "speed": "at speed", "skip": "skip"}
    lines = [f"[ ] {s.number:2} {marks[s.kind]:8} {s.rows[0]}{'' if s.rows[0] == s.rows[1] else ' to ' + s.rows[1]}: "
             f"{', '.join(s.shows) or 'nothing new'} ({s.seconds:.0f} s); you have {s.count}" for s in plan.shots]  # fmt: skip
    lines += [f"Ready before the shoot: {sample}." for sample in plan.samples]
    cut = sum(s.seconds for s in plan.shorter) / 60
    lines.append(
        f"{plan.minutes:.1f} minutes of hands, {scenes[-1].end / 60:.1f} with the words; a shorter cut drops {cut:.1f} minutes at speed."
    )
    print("\n".join(lines))
    if output is not None:
        output.mkdir(parents=True, exist_ok=True)
        cues = captions(scenes)
        spoken = "\n\n".join(f"{s.shot.number}. {s.card}\n" + "\n".join(s.sentences) for s in scenes)
        titles = "\n".join(f"{clock(at)[3:8] if at < 3600 else clock(at)[:8]} {title}" for at, title in chapters(scenes))
        for name, text in (("plan.txt", "\n".join(lines)), ("script.txt", spoken), ("captions.vtt", to_vtt(cues)),
                           ("captions.srt", to_srt(cues)), ("chapters.txt", titles)):  # fmt: skip
            write_file(output / name, text + "\n")
    return 0


def _heard(fabric: object, heard: Path, as_json: bool) -> int:
    from ..teaching import CannotHear, clock, compare, read_captions
    from ..working import Fabric

    assert isinstance(fabric, Fabric)
    try:
        text = heard.read_text(encoding="utf-8-sig", errors="replace")
        found = compare(fabric, read_captions(text))
    except CannotHear as why:
        raise CannotDo(f"{heard.name}: {why}") from why
    except OSError as error:
        raise CannotDo(f"{heard} could not be read: {error.strerror}.") from error
    if as_json:
        print(json.dumps({"schema": "hookwright/heard/1", "heard": [asdict(h) for h in found]}))
    else:
        for h in found:
            when = clock(h.at)[:8] if h.at is not None else "never   "
            print(f"{when}  {h.kind:16} {h.row:8} {h.message} (sure {h.sure:.0%})")
        print(f"{len(found)} differences." if found else "What is said agrees with what is written.")
    return 0
