"""Write a crochet pattern once; have every stitch of it worked."""

__version__ = "0.1.0"
