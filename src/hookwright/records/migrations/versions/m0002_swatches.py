"""Swatches, measured and weighed."""

import sqlalchemy as sa
from alembic import op

revision = "0002"
down_revision = "0001"
branch_labels = None
depends_on = None


def upgrade() -> None:
    op.create_table(
        "swatch",
        sa.Column("id", sa.Integer(), primary_key=True),
        sa.Column("pattern", sa.String(200), nullable=False),
        sa.Column("at", sa.Float(), nullable=False),
        sa.Column("yarn", sa.String(80), nullable=False),
        sa.Column("stitch", sa.String(40), nullable=False),
        sa.Column("stitches", sa.Float(), nullable=False),
        sa.Column("rows", sa.Float(), nullable=False),
        sa.Column("width_cm", sa.Float()),
        sa.Column("height_cm", sa.Float()),
        sa.Column("grams", sa.Float()),
        sa.Column("hook_mm", sa.Float()),
        sa.Column("words", sa.Text(), nullable=False),
    )
    op.create_index("swatch_of", "swatch", ["pattern", "at"])


def downgrade() -> None:
    op.drop_table("swatch")
