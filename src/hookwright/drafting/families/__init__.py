"""The families a draft can be made in, one module a kin; each family is a record in `FAMILIES`."""

from __future__ import annotations

from functools import lru_cache

from ..result import Family


@lru_cache(maxsize=1)
def families() -> dict[str, Family]:
    """Every family by name, in the order they are listed."""
    from . import curves, freeform, garments, motifs, profiles, sized, straight, triangles, yokes

    modules = (straight, triangles, curves, freeform, motifs, profiles, garments, yokes, sized)
    return {family.name: family for module in modules for family in module.FAMILIES}


__all__ = ["families"]
