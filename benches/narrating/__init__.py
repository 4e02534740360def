"""Narrations made up from patterns in several styles of speaking, with slips planted and the noise of captions made by machines."""
