"""Every kind of step in words: importing this registers them all."""

from . import making, moving, repeating
from .saying import Voice, say_step, say_steps, sizes_only

__all__ = ["Voice", "making", "moving", "repeating", "say_step", "say_steps", "sizes_only"]
