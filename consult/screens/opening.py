"""What a choice on the start page becomes: a session. Loaded when something is opened, not before."""

from pathlib import Path
from typing import TYPE_CHECKING

from consult.answers.access import get
from consult.answers.base import SCHEMA
from consult.answers.intake import REVIEW
from consult.answers.intake import start as start_intake
from consult.answers.shelf import Shelf
from consult.records.codec import read_file
from consult.screens.messages import Wanted
from consult.screens.session import Session, clock

if TYPE_CHECKING:
    from consult.salon import SalonConfig


def open_session(wanted: Wanted, salon: "SalonConfig | None", shelf: Shelf | None) -> Session:
    """The session of a choice. Raises BadFile when its file cannot be read.

    A file is opened for a judgement of today: its answers are taken, its old result is not. A demo client
    is judged at its own moment.
    """
    if wanted.path is None:
        return Session(wanted.voice, salon=salon, shelf=shelf)
    loaded = read_file(Path(wanted.path), clock())
    if wanted.what == "draft":
        return Session.resume(loaded, wanted.path, salon, shelf)
    if wanted.what == "demo":
        return Session.demo(loaded, wanted.voice, salon, shelf)
    answers = loaded.answers.at_version(SCHEMA)
    intake = start_intake(answers, REVIEW if get(answers, "client.age") else None)
    return Session(wanted.voice, intake=intake, salon=salon, shelf=shelf)
