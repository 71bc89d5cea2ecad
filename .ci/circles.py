"""No module imports itself through others, inside packages too, not even where a type checker alone would see it."""

import sys

from grimp import build_graph


def circles() -> list[list[str]]:
    """Every group of modules that import each other in a circle (strongly connected components)."""
    graph = build_graph("consult", exclude_type_checking_imports=False, cache_dir=None)
    found: list[list[str]] = []
    index: dict[str, int] = {}
    low: dict[str, int] = {}
    stack: list[str] = []

    def visit(module: str) -> None:
        index[module] = low[module] = len(index)
        stack.append(module)
        for other in sorted(graph.find_modules_directly_imported_by(module)):
            if other not in index:
                visit(other)
                low[module] = min(low[module], low[other])
            elif other in stack:
                low[module] = min(low[module], index[other])
        if low[module] == index[module]:
            group = stack[stack.index(module) :]
            del stack[stack.index(module) :]
            if len(group) > 1:
                found.append(sorted(group))

    for module in sorted(graph.modules):
        if module not in index:
            visit(module)
    return found


def main() -> int:
    found = circles()
    for group in found:
        print(f"circle: {', '.join(group)}")
    if not found:
        print("circles: none")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main())
