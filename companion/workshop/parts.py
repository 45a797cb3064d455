"""What not every command needs. Each part is loaded here, when it is first named, and nowhere else: `parts.designs`
loads `companion.workshop.designs`, and with it all that reads design files."""

from __future__ import annotations

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from types import ModuleType

    from companion.core.forecast import counting as counting
    from companion.core.forecast import reading_list as reading_list
    from companion.core.journal import name_fault as name_fault
    from companion.core.plan import replan as replan
    from companion.core.remedies import search as search
    from companion.core.values import setting_list as setting_list
    from companion.core.words import as_cut as as_cut
    from companion.storage import backups as backups
    from companion.storage import piece_lock as piece_lock
    from companion.storage import rescue as rescue
    from companion.storage import settings as settings
    from companion.workshop import cord_cards as cord_cards
    from companion.workshop import designs as designs
    from companion.workshop import drafts as drafts
    from companion.workshop import exports as exports
    from companion.workshop import forecasts as forecasts
    from companion.workshop import teaching as teaching
    from companion.workshop.bench import sketches as sketches

PARTS = {
    "counting": "core.forecast",
    "reading_list": "core.forecast",
    "name_fault": "core.journal",
    "as_cut": "core.words",
    "replan": "core.plan",
    "search": "core.remedies",
    "setting_list": "core.values",
    "backups": "storage",
    "piece_lock": "storage",
    "rescue": "storage",
    "settings": "storage",
    "cord_cards": "workshop",
    "designs": "workshop",
    "drafts": "workshop",
    "exports": "workshop",
    "forecasts": "workshop",
    "sketches": "workshop.bench",
    "teaching": "workshop",
}


def __getattr__(name: str) -> ModuleType:
    """The part of that name, loaded now."""
    if name not in PARTS:
        raise AttributeError(name)
    return import_module(f"companion.{PARTS[name]}.{name}")
