"""`python -m tests.mutation [PACKAGE ...] [--sample 60] [--seed 1]`: which small changes does no test notice?

For each mutant the package's own tests are run in a copy of the program; the work tree is never touched. Needs
`pip install '.[test,mutation]'`. A survivor is either a test that is missing, or a change that changes nothing:
then it belongs into `equivalent.toml`, with the reason.
"""

import argparse
import os
import random
import shutil
import subprocess
import sys
import tempfile
import time
import tomllib
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Literal

from tests.mutation.mutants import Mutant, sample

ROOT = Path(__file__).parents[2]
TESTS = {
    "gates": ("tests/gates",),
    "plan": (
        "tests/products",
        "tests/published/test_published_developer.py",
        "tests/published/test_published_quantity.py",
        "tests/plan",
    ),
    "colour": ("tests/published", "tests/colour"),
}
# A changed source always lacks its file of ready tables, and a clock is no judge on a busy machine: neither of
# these tests says that a change was noticed.
DESELECTED = (
    "tests/colour/test_prepared.py::test_every_table_is_there_for_the_sources_as_they_are",
    "tests/gates/test_engine.py::test_judging_is_quick",
)
# Published tables are compared with their source and not with a test.
TABLES = {"cie_tables.py"}
COPIED = ("consult", "tests", "demo_clients", "pyproject.toml")
WORKERS = 2

Outcome = Literal["killed", "survived", "timeout"]


def main() -> None:
    """Mutate, run, tell. Exits with 1 where the tests fail without any change."""
    parser = argparse.ArgumentParser(prog="python -m tests.mutation")
    parser.add_argument("packages", nargs="*", metavar="PACKAGE", help=f"of {', '.join(TESTS)}; else all")
    parser.add_argument("--sample", type=int, default=60, help="mutants of each package")
    parser.add_argument("--seed", type=int, default=None, help="which mutants; else any")
    given = parser.parse_args()
    unknown = set(given.packages) - set(TESTS)
    if unknown:
        parser.error(f"no tests are named for {', '.join(sorted(unknown))}; known are {', '.join(TESTS)}")
    seed = random.randrange(10_000) if given.seed is None else given.seed
    for package in given.packages or TESTS:
        _examine(package, given.sample, seed)


def _examine(package: str, count: int, seed: int) -> None:
    begun = time.monotonic()
    unchanged = _run(package, None, 600)
    if unchanged != "survived":
        sys.exit(f"{package}: the tests fail without any change")
    limit = 10 + 4 * (time.monotonic() - begun)
    files = [p for p in sorted((ROOT / "consult" / package).rglob("*.py")) if p.name not in TABLES]
    mutants = sample(files, count, seed)
    with ThreadPoolExecutor(WORKERS) as pool:
        outcomes = list(pool.map(lambda mutant: _run(package, mutant, limit), mutants))
    lived = [m for m, outcome in zip(mutants, outcomes, strict=True) if outcome == "survived"]
    equivalent = _equivalent()
    same = [m for m in lived if _key(m) in equivalent]
    survivors = sorted((m for m in lived if m not in same), key=lambda m: (m.path, m.line))
    killed, timeouts = outcomes.count("killed"), outcomes.count("timeout")
    share = (killed + timeouts) / max(1, len(mutants) - len(same))
    print(
        f"{package}: {len(mutants)} mutants, seed {seed}, {time.monotonic() - begun:.0f} s: {killed} killed, "
        f"{timeouts} timeouts, {len(survivors)} survived, {len(same)} equivalent; {share:.0%} noticed"
    )
    for m in survivors:
        print(f"  {m.path.relative_to(ROOT)}:{m.line}\n    - {m.before}\n    + {m.after}", flush=True)


def _run(package: str, mutant: Mutant | None, limit: float) -> Outcome:
    """The package's tests in a copy of the program."""
    with tempfile.TemporaryDirectory(prefix="mutant-") as name:
        copy = Path(name)
        for part in COPIED:
            here = ROOT / part
            if here.is_dir():
                shutil.copytree(here, copy / part)
            else:
                shutil.copy2(here, copy / part)
        if mutant:
            changed = copy / mutant.path.relative_to(ROOT)
            changed.write_text(mutant.source, "utf-8")
            for stale in (changed.parent / "__pycache__").glob(f"{changed.stem}.*"):
                stale.unlink()
        # Mutants run side by side already.
        command = [sys.executable, "-m", "pytest", "-x", "-q", "-n", "0", "-p", "no:cacheprovider"]
        command += [*(f"--deselect={test}" for test in DESELECTED), *TESTS[package]]
        try:
            done = subprocess.run(
                command, cwd=copy, env=_environment(copy), timeout=limit, check=False, capture_output=True
            )
        except subprocess.TimeoutExpired:
            return "timeout"
        return "killed" if done.returncode else "survived"


def _environment(copy: Path) -> dict[str, str]:
    """The copy is imported wherever the program is installed, and nothing is written beside the tests."""
    return os.environ | {"PYTHONPATH": str(copy), "PYTHONDONTWRITEBYTECODE": "1", "OMP_NUM_THREADS": "1"}


def _equivalent() -> dict[tuple[str, str, str], str]:
    """(file, line, what it becomes) -> why that changes nothing. Tells of entries whose line is gone."""
    entries = tomllib.loads((Path(__file__).parent / "equivalent.toml").read_text("utf-8"))["equivalent"]
    for entry in entries:
        lines = {" ".join(line.split()) for line in (ROOT / entry["file"]).read_text("utf-8").splitlines()}
        if entry["line"] not in lines:
            print(f"equivalent.toml: {entry['file']} no longer has this line: {entry['line']}")
    return {(e["file"], e["line"], e["becomes"]): e["because"] for e in entries}


def _key(mutant: Mutant) -> tuple[str, str, str]:
    return str(mutant.path.relative_to(ROOT)), mutant.before, mutant.after


if __name__ == "__main__":
    main()
