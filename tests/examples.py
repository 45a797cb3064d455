"""How much is tried: as much as the profile in tests/conftest.py says. `--hypothesis-profile long` tries all."""

from __future__ import annotations

from hypothesis import settings

few_examples = settings(max_examples=settings.default.max_examples // 3)  # each of them is long
LONG = settings.default.max_examples >= 1000  # whether what is tried in part is tried whole
