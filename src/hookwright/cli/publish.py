"""`hookwright publish`: booklet, page, pictures and checked text of a pattern in one folder."""

from __future__ import annotations

import sys
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Literal

from cyclopts import Parameter

from .common import CannotDo, load, read_bytes, write_folder

if TYPE_CHECKING:
    from ..pattern import Finding, Pattern, Picture
    from ..publishing import Publication
    from ..working.fabric import Fabric
    from .common import Source


LEFT_BY_SYSTEMS = frozenset({".DS_Store", "Thumbs.db", "desktop.ini"})
"""Files that file managers leave in any folder they show."""


def publish(
    file: str,
    /,
    *,
    output: Annotated[Path, Parameter(name=["--output", "-o"])],
    terms: Literal["US", "UK"] | None = None,
    paper: Literal["a5", "a4", "letter"] = "a5",
    choices: Annotated[bool, Parameter(negative=())] = False,
    anyway: Annotated[bool, Parameter(negative=())] = False,
    quiet: Annotated[bool, Parameter(name=["--quiet", "-q"], negative=())] = False,
) -> int:
    """Write booklet, page, pictures and checked text of a pattern into a folder, all under one stamp.

    A pattern with errors is not published: the findings are counted and `hookwright proof` shows them. A folder that holds files which
    were not published by this command is left alone.

    Parameters
    ----------
    file
        A pattern, or - for standard input.
    output
        The folder; made if need be, written anew if it holds an earlier publication.
    terms
        The terms shown first; the pattern's own when not told. Both are always in the folder.
    paper
        Booklet on A5, A4 or US letter; the large print on A4 or letter.
    choices
        With a table of wider, longer and other gauges: chain, stitches, rows, size, yarn.
    anyway
        Publish in spite of errors.
    quiet
        Show no progress.
    """
    told = Progress(quiet)
    source, pattern = load(file)
    told("proofing")
    fabrics = worked(pattern)
    errors = [finding for finding in findings_of(pattern, fabrics) if finding.severity == "error"]
    if errors and not anyway:
        told.end()
        print(_refusal(source.name, errors), file=sys.stderr)
        return 1
    refuse_foreign(output)
    made = made_from(pattern, fabrics, terms=terms, paper=paper, told=told, pictures=pictures_of(source, pattern), choices=choices)
    told("writing the folder")
    place_folder(output, made.files)
    told.end()
    print(f"{made.sheet.title} · {made.sheet.stamp}")
    for name in sorted(made.files):
        print(f"  {output / name}")
    return 0


class Progress:
    """One line on standard error that says what is being done; silent when it is not a terminal."""

    def __init__(self, quiet: bool = False) -> None:
        self.shown = not quiet and sys.stderr.isatty()
        self.width = 0

    def __call__(self, step: str) -> None:
        if self.shown:
            print(f"\r{step} …".ljust(self.width + 1), end="", file=sys.stderr, flush=True)
            self.width = len(step) + 2

    def end(self) -> None:
        """Take the line away."""
        if self.shown:
            print("\r" + " " * self.width + "\r", end="", file=sys.stderr, flush=True)


def worked(pattern: Pattern) -> list[Fabric]:
    """The pattern worked in every size."""
    from ..working import work

    return [work(pattern, size=size) for size in range(pattern.sizes)]


def findings_of(pattern: Pattern, fabrics: list[Fabric]) -> list[Finding]:
    from ..proofing import proof

    return list(proof(pattern, fabrics))


def made_from(
    pattern: Pattern,
    fabrics: list[Fabric],
    *,
    terms: Literal["US", "UK"] | None,
    paper: Literal["a5", "a4", "letter"],
    told: Callable[[str], None],
    pictures: Sequence[tuple[Picture, bytes]] = (),
    choices: bool = False,
) -> Publication:
    """The publication; a typesetter's refusal and an unreadable picture become a sentence."""
    from ..publishing import BadPicture, CannotSet
    from ..publishing import publish as published

    try:
        return published(pattern, fabrics, terms=terms, paper=paper, pictures=pictures, choices=choices, progress=told)
    except BadPicture as failure:
        raise CannotDo(str(failure)) from None
    except CannotSet as failure:
        raise CannotDo(f"The booklet could not be set: {' '.join(str(failure).split())}.") from None


MOST_PICTURES, MOST_PICTURE_BYTES = 60, 30_000_000


def pictures_of(source: Source, pattern: Pattern) -> list[tuple[Picture, bytes]]:
    """The photographs that the pattern names, with their bytes; only from the pattern's own folder and below."""
    named = pattern.facts.pictures
    if not named:
        return []
    if source.path is None:
        raise CannotDo("The pattern names pictures, and from standard input nobody knows their folder: publish the file.")
    if len(named) > MOST_PICTURES:
        raise CannotDo(f"{source.name} names {len(named)} pictures: up to {MOST_PICTURES} are published.")
    home = source.path.resolve().parent
    found = []
    for picture in named:
        path = (home / picture.file).resolve()
        if not path.is_relative_to(home):
            raise CannotDo(f"{source.name}: the picture {picture.file} is outside the pattern's folder: put it beside the pattern.")
        found.append((picture, read_bytes(str(path), MOST_PICTURE_BYTES)))
    return found


def refuse_foreign(folder: Path) -> None:
    """Raise CannotDo when the folder holds files that an earlier publication did not write, or that were changed since."""
    from ..publishing import MANIFEST, files_of

    if not folder.exists():
        return
    if not folder.is_dir():
        raise CannotDo(f"{folder} is a file, not a folder: give another name after -o.")
    manifest = folder / MANIFEST
    ours = {MANIFEST: "", **(files_of(manifest.read_bytes()) if manifest.is_file() else {})}
    foreign = sorted(
        str(path.relative_to(folder))
        for path in folder.rglob("*")
        if not path.is_dir() and path.name not in LEFT_BY_SYSTEMS and not _is_ours(path, folder, ours)
    )
    if foreign:
        more = f" and {len(foreign) - 1} more" if len(foreign) > 1 else ""
        raise CannotDo(f"{folder} holds files that are not of an earlier publication ({foreign[0]}{more}): give a new folder after -o.")


def _is_ours(path: Path, folder: Path, ours: Mapping[str, str]) -> bool:
    from hashlib import sha256

    name = path.relative_to(folder).as_posix()
    if name not in ours:
        return False
    return not ours[name] or sha256(path.read_bytes()).hexdigest() == ours[name]


def place_folder(folder: Path, files: Mapping[str, bytes]) -> None:
    """Write the files, then take away those an earlier publication left that are no longer part of it."""
    from ..publishing import MANIFEST, files_of

    manifest = folder / MANIFEST
    before = files_of(manifest.read_bytes()) if manifest.is_file() else {}
    write_folder(folder, files)
    for name in before.keys() - files.keys():
        path = folder / name
        path.unlink(missing_ok=True)
        if path.parent != folder and not any(path.parent.iterdir()):
            path.parent.rmdir()


def _refusal(name: str, errors: list[Finding]) -> str:
    first = errors[0]
    where = f"{first.row}: " if first.row else ""
    more = f" and {len(errors) - 1} more" if len(errors) > 1 else ""
    return (
        f"hookwright: {name} is not published, for it has {len(errors)} error{'s' if len(errors) > 1 else ''} "
        f"({where}{first.message}{more}). `hookwright proof {name}` shows the working; `--anyway` publishes all the same."
    )
