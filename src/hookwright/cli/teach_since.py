"""`hookwright teach FILE --since OLD`: what of the film and the publication still shows the old state."""

from __future__ import annotations

import json
from collections.abc import Iterator, Sequence
from dataclasses import asdict
from typing import TYPE_CHECKING, Any, Literal

from .common import CannotDo, load, read_bytes

if TYPE_CHECKING:
    from ..pattern import Pattern
    from ..teaching import Touched
    from ..working import Fabric


def tell_drift(
    since: str,
    pattern: Pattern,
    fabrics: Sequence[Fabric],
    *,
    manifest: str | None,
    size: int,
    terms: Literal["US", "UK"] | None,
    as_json: bool,
) -> int:
    """Print every change with what it touches and its correction note."""
    from ..teaching import drift, film_of
    from .publish import worked

    _, old = load(since)
    old_fabrics = worked(old)
    film = film_of(old, old_fabrics, size=min(size, len(old_fabrics) - 1), terms=terms)
    found = drift(old, old_fabrics, pattern, fabrics, film, _manifest(manifest))
    if as_json:
        print(json.dumps({"schema": "hookwright/drift/1", "changes": [asdict(t) for t in found]}, ensure_ascii=False, indent=1))
    else:
        print("\n".join(_lines(found)))
    return 0


def _manifest(name: str | None) -> dict[str, Any] | None:
    if name is None:
        return None
    try:
        told = json.loads(read_bytes(name))
    except ValueError:
        told = None
    if not isinstance(told, dict) or not str(told.get("schema", "")).startswith("hookwright/publication/"):
        raise CannotDo(
            f"{name} is not the manifest of a publication: give the manifest.json of the folder that `hookwright publish` wrote."
        )
    return told


def _lines(found: Sequence[Touched]) -> Iterator[str]:
    for touched in found:
        yield touched.note
        for what, many in (
            ("shots", [str(n) for n in touched.shots]),
            ("captions", touched.captions),
            ("chapters", touched.chapters),
            ("pictures", touched.pictures),
            ("pages", touched.pages),
        ):
            if many:
                yield f"    {what + ':':10} {', '.join(_shortened(many))}"
        yield ""
    yield f"{len(found)} change{'' if len(found) == 1 else 's'}." if found else "Nothing has changed."


def _shortened(many: Sequence[str]) -> Sequence[str]:
    """A long list by its first and last entries; the JSON has all."""
    return many if len(many) <= 12 else [*many[:5], f"… {len(many) - 6} more …", many[-1]]
