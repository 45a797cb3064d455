"""The wheel holds all it needs: built, installed in an empty environment, run outside the checkout.

What Tallycord depends on is lent to that environment from this one, so that no network is needed.
"""

from __future__ import annotations

import importlib.util
import os
import site
import subprocess
import sys
import venv
from pathlib import Path

import pytest

REPO = Path(__file__).parents[1]
# The pip of this environment, where it has one: to make another takes longer than all that is tested here.
PIP = [sys.executable, "-m", "pip"] if importlib.util.find_spec("pip") else None
pytestmark = pytest.mark.xdist_group("wheel")  # it is built and installed once


@pytest.fixture(scope="module")
def installed(tmp_path_factory) -> Path:
    """The `tallycord` of an environment that has the wheel and not the checkout."""
    folder = tmp_path_factory.mktemp("wheel")
    code = f"from hatchling.build import build_wheel; print(build_wheel({str(folder)!r}))"
    built = subprocess.run([sys.executable, "-c", code], cwd=REPO, check=True, capture_output=True, text=True)
    wheel = folder / built.stdout.split()[-1]
    home = folder / "environment"
    venv.create(home, with_pip=PIP is None)
    pip = [home / "bin" / "python", "-m", "pip"] if PIP is None else [*PIP, "--python", home / "bin" / "python"]
    install = [*pip, "install", "--quiet", "--no-deps", "--no-index", "--no-compile", wheel]
    subprocess.run(install, check=True, capture_output=True, cwd=folder)
    version = f"python{sys.version_info.major}.{sys.version_info.minor}"
    lent = [path for path in site.getsitepackages() if Path(path, "textual").is_dir()]
    (home / "lib" / version / "site-packages" / "lent.pth").write_text("\n".join(lent))
    return home / "bin" / "tallycord"


def run(tallycord: Path, *arguments: object, cwd: Path) -> subprocess.CompletedProcess[str]:
    environment = {**os.environ, "PYTHONPATH": ""}
    return subprocess.run(
        [tallycord, *map(str, arguments)], capture_output=True, text=True, cwd=cwd, env=environment
    )  # fmt: skip


def test_it_runs_outside_the_checkout(installed, tmp_path) -> None:
    assert run(installed, "--version", cwd=tmp_path).stdout == "tallycord 0.1.0\n"
    where = [installed.with_name("python"), "-c", "import companion; print(companion.__file__)"]
    found = subprocess.run(where, capture_output=True, text=True, cwd=tmp_path, env={**os.environ, "PYTHONPATH": ""})
    assert str(installed.parents[1]) in found.stdout


def test_it_ships_the_designs_and_the_stylesheet(installed, tmp_path) -> None:
    package = next((installed.parents[1] / "lib").glob("*/site-packages/companion"))
    shipped = sorted(path.name for path in (package / "patterns").glob("*.yaml"))
    assert shipped == sorted(path.name for path in (REPO / "patterns").glob("*.yaml"))
    assert (package / "tui" / "tallycord.tcss").is_file()
    skerry = package / "patterns" / "skerry-bracelet.yaml"
    name = run(installed, "start", skerry, cwd=tmp_path).stdout.strip()
    assert "Done: Stretch the silk first" in run(installed, "next", name, cwd=tmp_path).stdout
    assert run(installed, "plan", skerry, cwd=tmp_path).stdout.startswith("Skerry bracelet")


def test_the_app_opens_from_the_wheel(installed, tmp_path) -> None:
    code = (
        "import asyncio\n"
        "from companion.tui.app import TallycordApp\n"
        "from companion.workshop import open_at\n"
        "async def look():\n"
        "    app = TallycordApp(open_at())\n"
        "    async with app.run_test(size=(80, 24)) as pilot:\n"
        "        for _ in range(50):\n"
        "            await pilot.pause()\n"
        "        print([row.text for row in app.screen.query_one('Rows').rows])\n"
        "asyncio.run(look())\n"
    )
    python = installed.with_name("python")
    found = subprocess.run([python, "-c", code], capture_output=True, text=True, cwd=tmp_path)
    assert "skerry-bracelet" in found.stdout, found.stderr
