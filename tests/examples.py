"""How many examples a property is tried with: as many as the profile in tests/conftest.py says, or fewer."""

from __future__ import annotations

from hypothesis import settings

few_examples = settings(max_examples=settings.default.max_examples // 3)  # each of them is long
