"""The long runs, each by one command:

python -m tests.harness kill --trials 1000 --seed 1           killed at a random moment while keys arrive
python -m tests.harness kill --trials 1000 --seed 1 --faults  the same, with writes that are slow, fail or are the last
python -m tests.harness faults                                each write of each scenario fails, or is the last
python -m tests.harness powercut --acts 200                   the power is cut after any write
python -m tests.harness fuzz designs --trials 10000           random and mutated designs, by check and plan
python -m tests.harness fuzz app --trials 500                 the same in the app, with keys
python -m tests.harness fuzz commands --trials 500            rubbish in variables and file names, the real command
python -m tests.harness fuzz terminals --trials 100           the same, the app in a pseudo-terminal
python -m tests.harness fuzz imports --trials 20000           mutated exports; what is taken in is gone on with
python -m tests.harness keys --trials 200 --seed 1            keys in bursts, faster than screens are built

Each trial is drawn from its seed and number alone: `--first N --trials 1` runs that of number N again.
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

from tests.harness import environment_fuzz, fault_injection, fuzz, import_fuzz, key_bursts, kill, power_cut

FUZZES: dict[str, Callable[[Path, int], fuzz.Trial]] = {
    "designs": fuzz.command_on_design,
    "app": fuzz.app_on_design,
    "commands": environment_fuzz.command,
    "terminals": environment_fuzz.app,
    "imports": import_fuzz.import_export,
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
    one = _run_of_trials(commands.add_parser("kill", help="killed at a random moment"), _kill)
    one.add_argument("--seed", type=int, default=1)
    one.add_argument("--faults", action="store_true", help="with faults injected under the database")
    one = commands.add_parser("faults", help="each write of each scenario fails, or is the last")
    one.add_argument("--every", type=int, default=1, help="only every so many-th write")
    one.set_defaults(run=_faults)
    one = commands.add_parser("powercut", help="the power is cut after any write")
    one.add_argument("--acts", type=int, default=200)
    one.add_argument("--each", type=int, default=4, help="disks that are made again after each write")
    one.add_argument("--seed", type=int, default=1)
    one.set_defaults(run=_powercut)
    one = _run_of_trials(commands.add_parser("fuzz", help="what nobody would write"), _fuzz)
    one.add_argument("what", choices=FUZZES)
    one = _run_of_trials(commands.add_parser("keys", help="keys in bursts, faster than screens are built"), _keys)
    one.add_argument("--seed", type=int, default=1)
    return top.parse_args()


def _run_of_trials(
    parser: argparse.ArgumentParser, run: Callable[[argparse.Namespace, Path], list[str]]
) -> argparse.ArgumentParser:
    parser.add_argument("--trials", type=int, default=200)
    parser.add_argument("--first", type=int, default=0, help="the number of the first trial")
    parser.add_argument("--jobs", type=int, default=2)
    parser.set_defaults(run=run)
    return parser


def _kill(given: argparse.Namespace, folder: Path) -> list[str]:
    kill.prepare(folder, given.faults)
    numbers = range(given.first, given.first + given.trials)
    run = partial(kill.run_trial, folder, seed=given.seed, with_shim=given.faults)
    with multiprocessing.get_context("spawn").Pool(given.jobs) as pool:
        return _report_kills(pool.imap_unordered(run, numbers))


def _report_kills(trials: Iterable[kill.Trial]) -> list[str]:
    kinds: Counter[str] = Counter()
    sums: Counter[str] = Counter()
    wrong = []
    for one in trials:
        kinds[one.kind] += 1
        sums.update(keys=one.sent, stored=one.stored, shown=one.shown)
        sums.update(middle=one.in_the_middle, refused=one.refused)
        wrong += [f"trial {one.number} ({one.kind}): {sentence}" for sentence in one.wrong]
    print(f"{kinds.total()} trials ({', '.join(f'{count} {kind}' for kind, count in sorted(kinds.items()))})")
    print(f"{sums['keys']} keys typed, {sums['stored']} events stored, {sums['shown']} states seen on the screen")
    print(f"{sums['middle']} trials ended with a write half done, {sums['refused']} saw a write refused in words")
    return wrong


def _faults(given: argparse.Namespace, folder: Path) -> list[str]:
    sweep = fault_injection.sweep(folder, every=given.every)
    print(f"{sweep.trials} trials: {sweep.done} done, {sweep.refused} refused in words, {sweep.died} died")
    print(f"{sweep.full} of them on a disk that was really full" if sweep.full else "this machine makes no small disk")
    print(f"{sweep.stored_though_refused} of those refused were stored: whole, once, and said to be doubtful")
    print("writes: " + ", ".join(f"{count} in {name}" for name, count in sweep.writes.items()))
    for sentence, count in sweep.sentences.items():
        print(f"{count:>6} × {sentence}")
    return sweep.wrong


def _powercut(given: argparse.Namespace, folder: Path) -> list[str]:
    wrong = []
    for home in ("under way", "empty", "old"):
        place = folder / home.replace(" ", "-")
        cuts = power_cut.run_trials(place, given.seed, acts=given.acts, each=given.each, home=home)
        print(f"{home}: {cuts.writes} writes, {cuts.disks} disks made again, {cuts.rolled_back} of them with a journal")
        wrong += [f"{home}: {sentence}" for sentence in cuts.wrong]
    return wrong


def _fuzz(given: argparse.Namespace, folder: Path) -> list[str]:
    numbers = range(given.first, given.first + given.trials)
    with multiprocessing.get_context("spawn").Pool(given.jobs) as pool:
        trials = list(pool.imap_unordered(partial(FUZZES[given.what], folder), numbers, chunksize=10))
    outcomes = Counter(one.outcome for one in trials)
    print(f"{len(trials)} trials: " + ", ".join(f"{count} × {outcome}" for outcome, count in outcomes.most_common()))
    print(f"the slowest took {max(one.seconds for one in trials):.2f} s of the processor, ", end="")
    waited, most = max(one.waited for one in trials), max(one.megabytes for one in trials)
    print(f"{waited:.2f} s in all; the largest process {most:.0f} MB")
    return [f"{given.what} {one.number}: {one.wrong}" for one in trials if one.wrong]


def _keys(given: argparse.Namespace, folder: Path) -> list[str]:
    """So many trials at each size."""
    key_bursts.prepare(folder)
    jobs = [(number, size) for number in range(given.first, given.first + given.trials) for size in key_bursts.SIZES]
    with multiprocessing.get_context("spawn").Pool(given.jobs) as pool:
        trials = list(pool.imap_unordered(partial(key_bursts.run_trial, folder, seed=given.seed), jobs))
    screens = sum((one.screens for one in trials), Counter())
    print(f"{len(trials)} trials, {sum(one.sent for one in trials)} keys; seen after a burst: ", end="")
    print(", ".join(f"{count} × {name}" for name, count in screens.most_common()))
    return [f"trial {one.number} at {one.size[0]}×{one.size[1]}: {one.wrong}" for one in trials if one.wrong]


if __name__ == "__main__":
    os.environ.setdefault("TALLYCORD_KEY_BOUNCE", "0")  # a script types faster than a hand
    sys.exit(main())
