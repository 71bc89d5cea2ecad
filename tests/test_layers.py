"""How the program is layered: imports run one way, and the judgement needs no screen."""

import subprocess
import sys
from pathlib import Path

import consult

ROOT = Path(consult.__file__).parent.parent
ENGINE = "consult.consultation"
FACES = {"textual", "rich", "consult.screens", "consult.widgets", "consult.cli"}


def _modules_after(statement: str) -> set[str]:
    code = f"{statement}\nimport sys\nprint(*sys.modules, sep='\\n')"
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=ROOT)
    return set(run.stdout.split())


def test_the_whole_judgement_runs_without_any_screen() -> None:
    loaded = _modules_after(
        f"import {ENGINE}, datetime\n"
        "from consult.answers import Answers\n"
        "now = datetime.datetime(2026, 11, 25, 10, tzinfo=datetime.UTC)\n"
        "assert consult.consultation.consult(Answers(), now).judgement.ask"
    )
    assert ENGINE in loaded
    assert not FACES & loaded


def test_the_screens_do_need_it_so_the_test_above_can_fail() -> None:
    assert _modules_after("import consult.screens.app") > FACES - {"consult.cli"}


def test_the_command_line_imports_nothing_heavy_before_it_knows_what_is_wanted() -> None:
    loaded = _modules_after("import consult.cli")
    assert not {"textual", "pydantic", "numpy", "tomli_w"} & loaded


def test_nothing_looks_for_plug_ins_that_would_see_the_answers() -> None:
    code = "import consult.cli\nif {}: consult.cli._no_plug_ins()\nfrom consult.answers import Answers\nAnswers()"
    looks = "importlib.metadata"
    assert looks in _modules_after(code.format(False))
    assert looks not in _modules_after(code.format(True))


def test_imports_run_one_way_from_the_answers_to_the_screens() -> None:
    run = subprocess.run(
        [str(Path(sys.executable).parent / "lint-imports"), "--no-cache"],
        capture_output=True,
        text=True,
        cwd=ROOT,
        env={"PYTHONPATH": str(ROOT), "PATH": ""},
    )
    assert run.returncode == 0, run.stdout + run.stderr
    assert "Contracts: " in run.stdout
    assert "0 broken" in run.stdout
