"""Wording: characters → words → terms of the craft."""
