"""`hookwright shape`: sizes, outline, how each part lies; the relaxed fabric as a file."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

from cyclopts import Parameter

from .common import CannotDo

if TYPE_CHECKING:
    from ..shaping import Shape

Flag = Annotated[bool, Parameter(negative=())]


def shape(
    file: str,
    /,
    *,
    size: str | None = None,
    solve: Flag = False,
    blocked: Flag = False,
    unblocked: Flag = False,
    left_handed: Flag = False,
    json: Flag = False,
    out: Annotated[Path | None, Parameter(name=("--out", "-o"))] = None,
) -> int:
    """Size, outline, and how each part lies.

    Parameters
    ----------
    file
        A pattern, or - for standard input.
    size
        One size only, by its name or its number from 1.
    solve
        Relax the fabric even where its start already fits.
    blocked
        Take the gauge measured after blocking, where both are given.
    unblocked
        Take the gauge measured before blocking.
    left_handed
        Draw the outline as a left-hander works it.
    json
        Print the answer as JSON (hookwright/shape/1).
    out
        Write the outline in true size (.svg), or the relaxed fabric with yarn-thick stitches (.glb, .obj).
    """
    from ..measuring import measure
    from ..shaping import shape as relax
    from ..shaping import shape_json, shape_lines
    from ..working import work
    from .common import load, sizes_of, write_file
    from .yarn_words import show_json

    if blocked and unblocked:
        raise CannotDo("Give --blocked or --unblocked, not both.")
    _, pattern = load(file)
    sizes = sizes_of(pattern, size)
    which = True if blocked else False if unblocked else None
    shapes = [relax(measure(work(pattern, size=each), blocked=which), solve="always" if solve else "needed") for each in sizes]
    if out is not None:
        write_file(out, _file(out, shapes, left_handed))
    if json:
        print(show_json(shape_json(shapes)))
    else:
        for each in shapes:
            print("\n".join(shape_lines(each)))
    return 0


def _file(out: Path, shapes: list[Shape], left_handed: bool) -> bytes | str:
    """The content of the file asked for, by its ending; of several sizes the first."""
    from ..shaping import to_glb, to_obj

    kind = out.suffix.lower()
    if kind == ".glb":
        return to_glb(shapes[0])
    if kind == ".obj":
        return to_obj(shapes[0])
    if kind == ".svg":
        from ..drawing.outlines import outlines

        return outlines(shapes[0].measures, left_handed=left_handed)
    raise CannotDo(f"{out}: the outline is written as .svg, the relaxed fabric as .glb or .obj.")
