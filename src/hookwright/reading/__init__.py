"""Text → `Pattern`: `read(text)`. Never raises, bounded, near-linear."""

from .read import read

__all__ = ["read"]
