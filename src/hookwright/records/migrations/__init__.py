"""Migrations of the records, one script a step."""
