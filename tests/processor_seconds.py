"""Processor seconds by folder, this process and those it started: python -m pytest -p tests.processor_seconds"""

from __future__ import annotations

import resource
from collections import Counter
from collections.abc import Generator

import pytest

NAME = "processor_seconds"


def used() -> float:
    """Processor seconds of this process so far, and of those it has waited for."""
    whose = (resource.getrusage(who) for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN))
    return sum(one.ru_utime + one.ru_stime for one in whose)


@pytest.hookimpl(wrapper=True, tryfirst=True)
def pytest_runtest_protocol(item: pytest.Item) -> Generator[None, object, object]:
    """Note what the test before has used up when the next one begins: the teardown counts too."""
    begun = used()
    result = yield
    item.config.stash[SPENT][item.nodeid] = used() - begun
    return result


SPENT = pytest.StashKey[dict[str, float]]()


def pytest_configure(config: pytest.Config) -> None:
    config.stash[SPENT] = {}


@pytest.hookimpl(optionalhook=True)
def pytest_testnodedown(node: object, error: object) -> None:
    """A worker has ended: take over what its tests have used."""
    output = getattr(node, "workeroutput", {})
    node.config.stash[SPENT].update(output.get(NAME, {}))  # type: ignore[attr-defined]


def pytest_sessionfinish(session: pytest.Session) -> None:
    output = getattr(session.config, "workeroutput", None)
    if output is not None:
        output[NAME] = session.config.stash[SPENT]


def place(nodeid: str) -> str:
    """The folder of a test below tests/, or its file where it lies at the top."""
    parts = nodeid.split("::")[0].split("/")
    return "/".join(parts[:3]) if len(parts) > 3 else "/".join(parts[:2])


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    spent = terminalreporter.config.stash[SPENT]
    folders, counts = Counter[str](), Counter[str]()
    for nodeid, seconds in spent.items():
        folders[place(nodeid)] += seconds  # type: ignore[assignment]
        counts[place(nodeid)] += 1
    terminalreporter.section("processor seconds")
    for folder, seconds in folders.most_common():
        terminalreporter.write_line(f"{seconds:7.1f} s {counts[folder]:5} tests  {folder}")
    terminalreporter.write_line(f"{sum(spent.values()):7.1f} s {len(spent):5} tests, without starting and collecting")
    for nodeid, seconds in sorted(spent.items(), key=lambda one: -one[1])[:SLOWEST]:
        terminalreporter.write_line(f"{seconds:7.2f} s  {nodeid}")


SLOWEST = 40
