"""Files as nobody should write them: random bytes, random TOML, and sound files with something changed.

Each case is made from its own number, so that a failure can be looked at again.
"""

import sys
import time
import traceback
from collections.abc import Callable, Iterator
from pathlib import Path
from random import Random
from typing import Any

from consult.files import BadFile
from consult.salon import BadConfig

SLOWEST = 2.0
"""Seconds that one file may take."""
LONGEST = 300
HOSTILE = (
    *(
        "",
        "\x00",
        "\x1b[31m",
        "\u202e",
        "\ufeff",
        "\r",
        '"""',
        "'''",
        "[[",
        "]]",
        "{",
        "}",
        "=",
        ".",
        "#",
        "\\u0000",
    ),
    *(
        "nan",
        "inf",
        "-1",
        "0",
        "-0.0",
        "1e308",
        "1e-308",
        "9" * 400,
        "0x7f",
        "true",
        "1979-05-27",
        "0001-01-01",
    ),
    *(
        "9999-12-31 23:59:59",
        "12:00:00",
        '"not sure"',
        '"zz"',
        "[]",
        "[[]]",
        "{}",
        "[{}]",
        '["zz", 3]',
        "[" * 60,
    ),
)
KEYS = (
    "record",
    "salon",
    "result",
    "client",
    "hair",
    "product",
    "developers",
    "history.services",
    "a.b.c",
    '"a b"',
)


def case(number: int, sound: list[bytes]) -> bytes:
    """The file of a case."""
    random = Random(number)
    kind = random.randrange(10)
    if kind == 0:
        return random.randbytes(random.randrange(400))
    if kind == 1:
        return _random_toml(random).encode("utf-8", "surrogatepass")
    return _mutated(random, sound, random.randint(1, 8) if kind < 8 else random.randint(1, 2))


def _random_toml(random: Random) -> str:
    lines = []
    for _ in range(random.randrange(12)):
        key = random.choice(KEYS)
        value = random.choice(HOSTILE)
        lines.append(random.choice((f"{key} = {value}", f"[{key}]", f"[[{key}]]", value)))
    return "\n".join(lines)


def _mutated(random: Random, sound: list[bytes], changes: int) -> bytes:
    """A sound file with lines given another value, and sometimes lost, doubled, moved or broken."""
    lines = random.choice(sound).split(b"\n")
    other = random.choice(sound).split(b"\n")
    rough = random.random() < 0.2
    for _ in range(changes):
        at = random.randrange(len(lines))
        change = random.randrange(7) if rough else 7
        if change == 0:
            del lines[at]
        elif change == 1:
            lines.insert(at, random.choice(lines))
        elif change == 2:
            lines[at] = random.choice(lines)
        elif change == 3:
            line = bytearray(lines[at] or b"=")
            line[random.randrange(len(line))] = random.randrange(256)
            lines[at] = bytes(line)
        else:
            name, equals, _ = lines[at].partition(b"=")
            lines[at] = name + equals + _value(random, name, other, rough) if equals else lines[at]
        if not lines:
            return b""
    return b"\n".join(lines)


def _value(random: Random, name: bytes, other: list[bytes], rough: bool) -> bytes:
    """Another value: the one another file has, a number near or far, not sure, or a hostile one."""
    given = [line.partition(b"=")[2] for line in other if line.startswith(name)]
    ways = (
        lambda: random.choice(given) if given else b" []",
        lambda: f" {random.choice((0, 1, 5, 9.5, 30, 48))}".encode(),
        lambda: f" {random.uniform(0, 60):.{random.randrange(3)}f}".encode(),
        lambda: b' "not sure"',
        lambda: b" " + random.choice(HOSTILE).encode("utf-8", "surrogatepass"),
    )
    return random.choice(ways if rough else ways[:1] * 4 + ways[1:4])()


def numbers(data: Any, name: str = "") -> Iterator[tuple[str, float]]:
    """Every number in plain data with the name it stands under."""
    if isinstance(data, dict):
        for key, value in data.items():
            yield from numbers(value, key)
    elif isinstance(data, list | tuple):
        for value in data:
            yield from numbers(value, name)
    elif isinstance(data, int | float) and not isinstance(data, bool):
        yield name, data


def run(
    read: Callable[[Path, int], str], sound: list[bytes], first: int, count: int, folder: Path
) -> dict[str, int]:
    """Read so many cases. Returns how many ended how; raises AssertionError at the first that ends badly."""
    path = folder / "case.toml"
    ended: dict[str, int] = {}
    for number in range(first, first + count):
        path.write_bytes(case(number, sound))
        start = time.perf_counter()
        try:
            how, said = read(path, number), ""
        except (BadFile, BadConfig) as error:
            how, said = "refused", str(error)
        except Exception as error:
            raise AssertionError(f"case {number}: {traceback.format_exc()}") from error
        took = time.perf_counter() - start
        assert len(said) <= LONGEST, f"case {number}: a long error: {said}"
        assert said.isprintable(), f"case {number}: an error of more than one line: {said!r}"
        assert took <= SLOWEST, f"case {number}: {took:.1f} s"
        ended[how] = ended.get(how, 0) + 1
    return ended


def main(read: Callable[[Path, int], str], sound: list[bytes]) -> None:
    """`python -m tests.fuzz.NAME COUNT [FIRST]`."""
    from tempfile import TemporaryDirectory

    count = int(sys.argv[1]) if len(sys.argv) > 1 else 1000
    first = int(sys.argv[2]) if len(sys.argv) > 2 else 0
    start = time.perf_counter()
    with TemporaryDirectory() as folder:
        ended = run(read, sound, first, count, Path(folder))
    told = ", ".join(f"{how}: {many}" for how, many in sorted(ended.items()))
    print(f"{count} cases in {time.perf_counter() - start:.0f} s; {told}")
