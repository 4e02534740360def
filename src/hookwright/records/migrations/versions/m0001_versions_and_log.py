"""Versions of patterns and the log at the hook."""

import sqlalchemy as sa
from alembic import op

revision = "0001"
down_revision = None
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "version",
        sa.Column("id", sa.Integer(), primary_key=True),
        sa.Column("pattern", sa.String(200), nullable=False),
        sa.Column("at", sa.Float(), nullable=False),
        sa.Column("why", sa.String(200), nullable=False),
        sa.Column("text", sa.Text(), nullable=False),
        sa.Column("counts", sa.JSON(), nullable=False),
    )
    op.create_index("version_of", "version", ["pattern", "at"])
    op.create_table(
        "log",
        sa.Column("id", sa.Integer(), primary_key=True),
        sa.Column("pattern", sa.String(200), nullable=False),
        sa.Column("at", sa.Float(), nullable=False),
        sa.Column("kind", sa.String(20), nullable=False),
        sa.Column("row", sa.Integer()),
        sa.Column("value", sa.Float()),
        sa.Column("words", sa.Text(), nullable=False),
    )
    op.create_index("log_of", "log", ["pattern", "at"])


def downgrade() -> None:
    op.drop_table("log")
    op.drop_table("version")
