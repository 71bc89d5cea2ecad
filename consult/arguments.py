"""What may be typed behind `consult`: commands, their arguments, help and completion."""

import argparse
from collections.abc import Collection, Sequence
from typing import Final

from consult import __version__
from consult.remedies.words import SKINS, WHATS, WHENS
from consult.trade import Voice

SHELLS: Final = ("bash", "zsh", "fish")
FILES: Final = ("file", "files", "salon", "shelf", "out", "photo")
"""Arguments that are files."""
_TAKE_A_VALUE: Final = ("--voice", "--salon", "--shelf")
STDIN: Final = "-"
COPIES: Final = ("file", "client")

_EXAMPLES = """\
examples:
  consult                             the wizard
  consult record.toml                 a record, a draft or an answers file, in the wizard
  consult ask                         the same questions line by line, without the wizard
  consult plan record.toml            verdict and plan
  consult plan --why --voice trainer record.toml
  consult plan --json - < answers.toml | jq .result.verdict
  consult plan answers.toml --out clients/new.toml
  consult sheet record.toml --start 14:30 --out sheet.html
  consult sheet --for client record.toml
  consult day record.toml             the day: the plan by the clock, what is due now
  consult buy answers.toml
  consult buy answers.toml --shelf shelf.toml
  consult buy --year answers.toml
  consult wrong record.toml --what bands --when today --skin calm
  consult wrong --what swallowed
  consult check *.toml
  consult --salon salon.toml --shelf shelf.toml ask
  consult serve                       the wizard in a browser on this machine
  consult completion bash >> ~/.bash_completion

exit codes:
  0 plan made, 1 the program failed or was left without saving, 2 bad input, 3 held, 4 stopped,
  5 questions asked line by line were left unfinished, 128 + N ended by signal N
"""


def parser() -> argparse.ArgumentParser:
    """The whole command line."""
    whole = argparse.ArgumentParser(
        prog="consult",
        description="Judge one head of hair before it is coloured: safety gates, a plan with its reasons, "
        "a TOML record. The product's leaflet, local law and licensed practice come first.",
        epilog=_EXAMPLES,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    whole.add_argument("--version", action="version", version=f"consult {__version__}")
    _add_common(whole)
    whole.set_defaults(voice=None, salon=None, shelf=None)
    # Given behind the command they count as well; what is not given there must not undo what stands before it.
    common = argparse.ArgumentParser(add_help=False)
    _add_common(common)
    commands = whole.add_subparsers(dest="command", metavar="COMMAND")
    opened = commands.add_parser(
        "open", parents=[common], help="open a file in the wizard; 'open' may be left out"
    )
    opened.add_argument("file", metavar="FILE")
    asked = commands.add_parser(
        "ask", parents=[common], help="ask line by line: for screen readers, simple terminals, pipes"
    )
    asked.add_argument(
        "file", nargs="?", metavar="FILE", help="a draft, a record or an answers file to go on with"
    )
    asked.add_argument("--out", metavar="RECORD.toml", help="write the record here")
    plan = commands.add_parser(
        "plan", parents=[common], help="print verdict and plan of an answers file or record"
    )
    plan.add_argument("file", metavar="FILE", help="- reads standard input")
    plan.add_argument("--out", metavar="RECORD.toml", help="write the record here")
    plan.add_argument("--now", action="store_true", help="judge as of now, not as of the file's own date")
    plan.add_argument("--why", action="store_true", help="print the reason and source under each line")
    plan.add_argument("--json", action="store_true", help="print the record as JSON instead")
    _add_sheet(
        commands.add_parser(
            "sheet", parents=[common], help="the page that is carried to the basin, as text or to print"
        )
    )
    day = commands.add_parser(
        "day", parents=[common], help="carry the plan out by the clock; it goes on where it was left"
    )
    day.add_argument("file", metavar="FILE", help="a record or an answers file; it is judged as of now")
    buying = commands.add_parser(
        "buy", parents=[common], help="what to look for; with --shelf, candidates side by side"
    )
    buying.add_argument("file", metavar="FILE", help="answers without a product; - reads standard input")
    buying.add_argument("--year", action="store_true", help="upkeep as a year, every 4, 6 and 8 weeks")
    buying.add_argument("--now", action="store_true", help="judge as of now, not as of the file's own date")
    buying.add_argument("--why", action="store_true", help="print the reason and source under each line")
    buying.add_argument("--json", action="store_true", help="print it as JSON instead")
    _add_wrong(
        commands.add_parser(
            "wrong", parents=[common], help="something went wrong: what to do now, what not to do"
        )
    )
    emergency = commands.add_parser(
        "emergency",
        parents=[common],
        help="somebody is hurt: whom to ring, what to do now; to print and hang up",
    )
    emergency.add_argument("--why", action="store_true", help="print the reason and source under each line")
    check = commands.add_parser("check", help="check answers files and records")
    check.add_argument("files", nargs="+", metavar="FILE", help="- reads standard input")
    commands.add_parser("schema", help="print the JSON schema of an answers file")
    _add_swatch(
        commands.add_parser("swatch", help="read the colours of swatches off a photograph with a white card")
    )
    served = commands.add_parser("serve", parents=[common], help="the wizard in a browser on this machine")
    served.add_argument("--port", type=int, default=8000, metavar="PORT", help="(default: 8000)")
    demo = commands.add_parser("demo", parents=[common], help="open the demo clients")
    demo.add_argument("name", nargs="?", help="open this one at once")
    completion = commands.add_parser("completion", help="print a script that completes commands and files")
    completion.add_argument("shell", choices=SHELLS)
    return whole


def _add_common(to: argparse.ArgumentParser) -> None:
    to.add_argument(
        "--salon",
        metavar="SALON.toml",
        default=argparse.SUPPRESS,
        help="own rules (they can only add or raise) and settings",
    )
    to.add_argument(
        "--shelf",
        metavar="SHELF.toml",
        default=argparse.SUPPRESS,
        help="products at hand: which comes nearest",
    )
    to.add_argument(
        "--voice",
        choices=[voice.value for voice in Voice],
        default=argparse.SUPPRESS,
        help="whose words are used (default: of whoever used the wizard last; of a plan: home)",
    )


def _add_sheet(sheet: argparse.ArgumentParser) -> None:
    sheet.add_argument("file", metavar="FILE", help="- reads standard input")
    sheet.add_argument("--out", metavar="FILE.html", help="write it here: .html to print, or .txt")
    sheet.add_argument(
        "--for",
        dest="copy",
        choices=COPIES,
        default=COPIES[0],
        help="whose copy: the client's has no health answers (default: file)",
    )
    sheet.add_argument(
        "--start", metavar="HH:MM", help="when the first hair is touched: minutes become clock times"
    )
    sheet.add_argument("--now", action="store_true", help="judge as of now, not as of the file's own date")


def _add_wrong(wrong: argparse.ArgumentParser) -> None:
    wrong.add_argument(
        "file",
        nargs="?",
        metavar="FILE",
        help="the record of the colouring; - reads standard input; none will do",
    )
    wrong.add_argument("--what", action="append", metavar="WORDS", help=f"repeat it; of: {', '.join(WHATS)}")
    wrong.add_argument("--when", choices=WHENS, help="when it showed: today, tonight, or days later")
    wrong.add_argument("--skin", choices=SKINS, help="how the skin is now")
    wrong.add_argument(
        "--sign",
        action="append",
        metavar="WORDS",
        help="a sign on skin or breath; repeat it; none is an answer too",
    )
    wrong.add_argument("--out", metavar="RECORD.toml", help="write the record with the day here")
    wrong.add_argument("--why", action="store_true", help="print the reason and source under each line")
    wrong.add_argument("--json", action="store_true", help="print it as JSON instead")


def _add_swatch(swatch: argparse.ArgumentParser) -> None:
    swatch.add_argument("photo")
    box = ("LEFT", "TOP", "WIDTH", "HEIGHT")
    swatch.add_argument(
        "--card", nargs=4, type=int, required=True, metavar=box, help="where the white card is"
    )
    swatch.add_argument(
        "--at",
        nargs=4,
        type=int,
        action="append",
        required=True,
        metavar=box,
        help="where a swatch is; repeat it",
    )


def parse(arguments: Sequence[str]) -> argparse.Namespace:
    """The options of a command line; a file alone is opened. Ends the program where it is wrong."""
    whole = parser()
    return whole.parse_args(_with_open(list(arguments), commands_of(whole)))


def _with_open(arguments: list[str], commands: Collection[str]) -> list[str]:
    """A first word that looks like a file, where a command would stand, is a file to open."""
    place = 0
    while place < len(arguments) and arguments[place].startswith("--"):
        place += 2 if arguments[place] in _TAKE_A_VALUE else 1
    first = arguments[place] if place < len(arguments) else ""
    is_file = first not in commands and ("." in first or "/" in first)
    return [*arguments[:place], "open", *arguments[place:]] if is_file else arguments


def commands_of(whole: argparse.ArgumentParser) -> dict[str, argparse.ArgumentParser]:
    """Each command with its own parser."""
    found = next(a for a in whole._actions if isinstance(a, argparse._SubParsersAction))
    return dict(found.choices)


def completion(shell: str) -> str:
    """A script for that shell; it needs nothing of this program when it runs."""
    import shtab

    from consult.records.demos import demo_files

    whole = parser()
    for command in (whole, *commands_of(whole).values()):
        for action in command._actions:
            if action.dest in FILES:
                action.complete = shtab.FILE  # type: ignore[attr-defined]
            elif action.dest == "name":
                action.choices = list(demo_files())
    return str(shtab.complete(whole, shell=shell))
