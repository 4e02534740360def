"""Booklet, page, pictures and checked text of a worked pattern, as {name: bytes} with a manifest, under one stamp."""

from .booklet import CannotSet
from .film import film_files
from .manifest import NAME as MANIFEST
from .manifest import files_of
from .photos import BadPicture
from .publish import Publication, publish
from .sheet import Sheet

__all__ = ["MANIFEST", "BadPicture", "CannotSet", "Publication", "Sheet", "film_files", "files_of", "publish"]
