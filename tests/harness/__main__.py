"""The long runs, each by one command:

python -m tests.harness kill --rounds 1000 --seed 1           killed at a random moment while keys arrive
python -m tests.harness kill --rounds 1000 --seed 1 --faults  the same, with writes that are slow, fail or are the last
python -m tests.harness faults                                every write of every deed fails, or is the last
python -m tests.harness powercut --deeds 200                  the current fails after any write
python -m tests.harness fuzz designs --rounds 10000           generated and changed designs, by check and plan
python -m tests.harness fuzz app --rounds 500                 the same in the app, with keys
python -m tests.harness fuzz commands --rounds 500            rubbish in variables and file names, the real command
python -m tests.harness fuzz terminals --rounds 100           the same, the app in a pseudo-terminal
python -m tests.harness keys --rounds 200 --seed 1            keys in bursts, faster than screens are built
"""

from __future__ import annotations

import argparse
import multiprocessing
import os
import resource
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Callable, Iterable
from functools import partial
from pathlib import Path

from tests.harness import faults, fuzz, keys, kill, powercut, surroundings

FUZZES: dict[str, Callable[[Path, int], fuzz.Went]] = {
    "designs": fuzz.command_on_design,
    "app": fuzz.app_on_design,
    "commands": surroundings.command,
    "terminals": surroundings.app,
}


def main() -> int:
    """Run one of them; 0 where nothing was wrong."""
    given = _arguments()
    begun = time.monotonic()
    with tempfile.TemporaryDirectory(prefix="harness-") as name:
        wrong = given.run(given, Path(name).resolve())
    for line in wrong:
        print(f"  wrong: {line}")
    most = max(resource.getrusage(who).ru_maxrss for who in (resource.RUSAGE_SELF, resource.RUSAGE_CHILDREN)) / 1024
    print(f"{len(wrong)} wrong; {time.monotonic() - begun:.0f} s; at most {most:.0f} MB in one process")
    return 1 if wrong else 0


def _arguments() -> argparse.Namespace:
    top = argparse.ArgumentParser(prog="python -m tests.harness", description=__doc__)
    top.formatter_class = argparse.RawDescriptionHelpFormatter
    commands = top.add_subparsers(required=True)
    one = commands.add_parser("kill", help="killed at a random moment")
    one.add_argument("--rounds", type=int, default=1000)
    one.add_argument("--seed", type=int, default=1)
    one.add_argument("--first", type=int, default=0, help="the number of the first round")
    one.add_argument("--jobs", type=int, default=2)
    one.add_argument("--faults", action="store_true", help="with a layer of faults under the database")
    one.set_defaults(run=_kill)
    one = commands.add_parser("faults", help="every write of every deed fails, or is the last")
    one.add_argument("--every", type=int, default=1, help="only every so many-th write")
    one.set_defaults(run=_faults)
    one = commands.add_parser("powercut", help="the current fails after any write")
    one.add_argument("--deeds", type=int, default=200)
    one.add_argument("--each", type=int, default=4, help="disks that are made again after each write")
    one.add_argument("--seed", type=int, default=1)
    one.set_defaults(run=_powercut)
    one = commands.add_parser("fuzz", help="what nobody would write")
    one.add_argument("what", choices=FUZZES)
    one.add_argument("--rounds", type=int, default=1000)
    one.add_argument("--first", type=int, default=0, help="the number of the first round")
    one.add_argument("--jobs", type=int, default=2)
    one.set_defaults(run=_fuzz)
    one = commands.add_parser("keys", help="keys in bursts, faster than screens are built")
    one.add_argument("--rounds", type=int, default=200, help="at each size")
    one.add_argument("--seed", type=int, default=1)
    one.add_argument("--first", type=int, default=0, help="the number of the first round")
    one.add_argument("--jobs", type=int, default=2)
    one.set_defaults(run=_keys)
    return top.parse_args()


def _kill(given: argparse.Namespace, folder: Path) -> list[str]:
    kill.prepare(folder, given.faults)
    numbers = range(given.first, given.first + given.rounds)
    play = partial(kill.play, folder, seed=given.seed, with_shim=given.faults)
    with multiprocessing.get_context("spawn").Pool(given.jobs) as pool:
        return _told(pool.imap_unordered(play, numbers))


def _told(rounds: Iterable[kill.Round]) -> list[str]:
    kinds: Counter[str] = Counter()
    sums: Counter[str] = Counter()
    wrong = []
    for one in rounds:
        kinds[one.kind] += 1
        sums.update(keys=one.sent, stored=one.stored, shown=one.shown)
        sums.update(middle=one.in_the_middle, refused=one.refused)
        wrong += [f"round {one.number} ({one.kind}): {sentence}" for sentence in one.wrong]
    print(f"{kinds.total()} rounds ({', '.join(f'{count} {kind}' for kind, count in sorted(kinds.items()))})")
    print(f"{sums['keys']} keys typed, {sums['stored']} events stored, {sums['shown']} states seen on the screen")
    print(f"{sums['middle']} rounds ended with a write half done, {sums['refused']} saw a write refused in words")
    return wrong


def _faults(given: argparse.Namespace, folder: Path) -> list[str]:
    tally = faults.sweep(folder, every=given.every)
    print(f"{tally.trials} trials: {tally.done} done, {tally.refused} refused in words, {tally.died} died")
    print(f"{tally.full} of them on a disk that was really full" if tally.full else "this machine makes no small disk")
    print(f"{tally.stored_though_refused} of those refused were stored: whole, once, and said to be doubtful")
    print("writes: " + ", ".join(f"{count} in {name}" for name, count in tally.positions.items()))
    for sentence, count in tally.sentences.items():
        print(f"{count:>6} × {sentence}")
    return tally.wrong


def _powercut(given: argparse.Namespace, folder: Path) -> list[str]:
    wrong = []
    for home in ("under way", "empty", "old"):
        told = powercut.cuts(folder / home.replace(" ", "-"), given.seed, deeds=given.deeds, each=given.each, home=home)
        print(f"{home}: {told.writes} writes, {told.disks} disks made again, {told.rolled_back} of them with a journal")
        wrong += [f"{home}: {sentence}" for sentence in told.wrong]
    return wrong


def _fuzz(given: argparse.Namespace, folder: Path) -> list[str]:
    numbers = range(given.first, given.first + given.rounds)
    with multiprocessing.get_context("spawn").Pool(given.jobs) as pool:
        went = list(pool.imap_unordered(partial(FUZZES[given.what], folder), numbers, chunksize=10))
    outcomes = Counter(one.outcome for one in went)
    print(f"{len(went)} rounds: " + ", ".join(f"{count} × {outcome}" for outcome, count in outcomes.most_common()))
    print(f"the slowest took {max(one.seconds for one in went):.2f} s of the processor, ", end="")
    waited, most = max(one.waited for one in went), max(one.megabytes for one in went)
    print(f"{waited:.2f} s in all; the largest process {most:.0f} MB")
    return [f"{given.what} {one.number}: {one.wrong}" for one in went if one.wrong]


def _keys(given: argparse.Namespace, folder: Path) -> list[str]:
    keys.prepare(folder)
    jobs = [(number, size) for number in range(given.first, given.first + given.rounds) for size in keys.SIZES]
    with multiprocessing.get_context("spawn").Pool(given.jobs) as pool:
        rounds = list(pool.imap_unordered(partial(keys.play, folder, seed=given.seed), jobs))
    screens = sum((one.screens for one in rounds), Counter())
    print(f"{len(rounds)} rounds, {sum(one.sent for one in rounds)} keys; seen after a burst: ", end="")
    print(", ".join(f"{count} × {name}" for name, count in screens.most_common()))
    return [f"round {one.number} at {one.size[0]}×{one.size[1]}: {one.wrong}" for one in rounds if one.wrong]


if __name__ == "__main__":
    os.environ.setdefault("COMPANION_KEY_BOUNCE", "0")  # a script types faster than a hand
    sys.exit(main())
