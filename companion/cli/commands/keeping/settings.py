"""settings, and risk as one of them: what the maker has set, from now on."""

from __future__ import annotations

import argparse

from msgspec.structs import asdict

from companion.cli.arguments import Wrong
from companion.cli.printing import say, say_json
from companion.cli.typed_lengths import typed_share
from companion.core.values.setting_list import SETTINGS, Setting, setting_named
from companion.core.values.text import join_words, nearest, plain
from companion.workshop import Workshop


def declare_settings(command: argparse.ArgumentParser) -> None:
    """What `settings` takes."""
    command.add_argument("name", metavar="NAME", nargs="?", help=join_words([setting.name for setting in SETTINGS]))
    command.add_argument("value", metavar="VALUE", nargs="*", help="its new value")
    command.add_argument("--json", action="store_true", help="as JSON, all lengths in mm")


def run_settings(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Show the settings, or set one."""
    if arguments.name is None:
        if arguments.json:
            say_json(asdict(workshop.settings))
        else:
            for setting in SETTINGS:
                say(setting_line(setting, workshop))
        return 0
    setting = _named(arguments.name)
    if arguments.value:
        typed = " ".join(arguments.value)
        try:
            workshop.set_setting(setting, setting.read(typed, workshop.settings.unit))
        except ValueError as error:
            raise Wrong(f"Setting {setting.name}: {error}") from error
    if arguments.json:
        say_json({setting.field: getattr(workshop.settings, setting.field)})
    else:
        say(setting_line(setting, workshop))
    return 0


def setting_line(setting: Setting, workshop: Workshop) -> str:
    """A setting as it is, and what it changes."""
    return f"{setting.name}: {setting.shown(getattr(workshop.settings, setting.field))}. {setting.says}"


def _named(name: str) -> Setting:
    setting = setting_named(name)
    if setting is None:
        names = [one.name for one in SETTINGS]
        near = nearest(name, names)
        hint = f" Did you mean {near}?" if near else ""
        raise Wrong(f"There is no setting named {plain(name, 40)}; there are {join_words(names)}.{hint}")
    return setting


def declare_risk(command: argparse.ArgumentParser) -> None:
    """What `risk` takes."""
    command.add_argument("risk", metavar="SHARE", nargs="?", help="a share in per cent, such as 1%% or 0.2%%")


def run_risk(arguments: argparse.Namespace, workshop: Workshop) -> int:
    """Say it or set it."""
    if arguments.risk is not None:
        workshop.set_run_out_risk(typed_share(arguments.risk))
    risk = workshop.run_out_risk
    say(f"New plans are cut so that {100 * risk:g} % of pieces run out: one in {round(1 / risk):,}.")
    return 0
