"""Small changes to a source file, by the operators of cosmic-ray.

Left out is what no test should hold: wording, docstrings and annotations, decorators, and that two lists which
are walked together are known to be equally long (`strict=`).
"""

import ast
import random
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from itertools import groupby
from pathlib import Path

from cosmic_ray.ast import ast_nodes, get_ast
from cosmic_ray.mutating import mutate_code
from cosmic_ray.operators.operator import Operator
from cosmic_ray.operators.provider import OperatorProvider
from parso.tree import NodeOrLeaf

OPERATORS = (
    "NumberReplacer",
    *(
        f"ReplaceComparisonOperator_{pair}"
        for pair in ("Lt_LtE", "Lt_GtE", "LtE_Lt", "LtE_Gt", "Gt_GtE", "Gt_LtE", "GtE_Gt", "GtE_Lt")
    ),
    *(f"ReplaceComparisonOperator_{pair}" for pair in ("Eq_NotEq", "NotEq_Eq", "Is_IsNot", "IsNot_Is")),
    *(f"ReplaceBinaryOperator_{pair}" for pair in ("Add_Sub", "Sub_Add", "Mul_Div", "Div_Mul", "Pow_Mul")),
    *(f"ReplaceBinaryOperator_{pair}" for pair in ("FloorDiv_Div", "Mod_Mul", "BitAnd_BitOr")),
    *(f"ReplaceUnaryOperator_Delete_{sign}" for sign in ("Not", "USub")),
    "AddNot",
    "ReplaceTrueWithFalse",
    "ReplaceFalseWithTrue",
    "ReplaceAndWithOr",
    "ReplaceOrWithAnd",
    "ReplaceBreakWithContinue",
    "ReplaceContinueWithBreak",
    "ZeroIterationForLoop",
)


@dataclass(frozen=True)
class Mutant:
    """One change: the file, its first line that differs (1 is the first), that line before and after."""

    path: Path
    line: int
    before: str
    after: str
    source: str


@dataclass(frozen=True)
class _Change:
    """One operator at one of its places; places are counted in the order of the file."""

    path: Path
    operator: str
    occurrence: int
    place: tuple[int, int]


def sample(files: list[Path], count: int, seed: int) -> list[Mutant]:
    """So many mutants of these files, at different places, each with one of the changes possible there.

    The same seed gives the same mutants as long as the files are the same.
    """
    rng = random.Random(seed)
    changes = sorted((c for path in files for c in _changes(path)), key=lambda c: (c.path, c.place))
    places = [list(group) for _, group in groupby(changes, key=lambda c: (c.path, c.place))]
    rng.shuffle(places)
    found: list[Mutant] = []
    for place in places:
        if len(found) == count:
            break
        mutant = _mutant(rng.choice(place))
        if mutant:
            found.append(mutant)
    return found


@cache
def _operator(name: str) -> Operator:
    return OperatorProvider()[name]()


def _changes(path: Path) -> Iterator[_Change]:
    nodes = list(ast_nodes(get_ast(path.read_text("utf-8"))))
    for name in OPERATORS:
        occurrence = 0
        for node in nodes:
            for start, _ in _operator(name).mutation_positions(node):
                if not _left_out(node):
                    yield _Change(path, name, occurrence, start)
                occurrence += 1


def _left_out(node: NodeOrLeaf) -> bool:
    above: NodeOrLeaf | None = node
    while above is not None:
        if above.type in ("fstring", "decorator", "annassign") and not _is_value(above, node):
            return True
        if above.type == "argument" and above.get_code().strip().startswith("strict="):
            return True
        above = above.parent
    # The star and the slash between parameters are no arithmetic.
    return node.parent is not None and node.parent.type in ("parameters", "lambdef")


def _is_value(assignment: NodeOrLeaf, node: NodeOrLeaf) -> bool:
    """Whether a node stands on the right of an annotated assignment."""
    equals = next((c for c in getattr(assignment, "children", ()) if c.get_code().strip() == "="), None)
    return assignment.type == "annassign" and equals is not None and node.start_pos > equals.start_pos


def _mutant(change: _Change) -> Mutant | None:
    """The changed file, or None where the change is none or no Python."""
    source = change.path.read_text("utf-8")
    changed = mutate_code(source, _operator(change.operator), change.occurrence)
    if changed is None:
        return None
    try:
        if ast.dump(ast.parse(changed)) == ast.dump(ast.parse(source)):
            return None
    except SyntaxError:
        return None
    rows = zip(source.splitlines(), changed.splitlines(), strict=False)
    number, (before, after) = next((n, pair) for n, pair in enumerate(rows, 1) if pair[0] != pair[1])
    return Mutant(change.path, number, _tidy(before), _tidy(after), changed)


def _tidy(line: str) -> str:
    """The operators of cosmic-ray leave blanks in odd places."""
    return " ".join(line.split())
