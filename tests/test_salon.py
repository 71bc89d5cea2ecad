"""The salon file: strict, both ends of each range, and one short line for whatever is wrong with it."""

from pathlib import Path
from typing import ClassVar

import pytest

from consult.files import LARGEST_FILE
from consult.gates.rules import builtin_rules
from consult.plan.settings import Settings
from consult.salon import BadConfig, SalonConfig, config_from_data, default_config, read_config
from tests.fuzz.salon import sound_files


def salon(tmp_path: Path, text: str | bytes) -> SalonConfig:
    path = tmp_path / "salon.toml"
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return read_config(path)


def test_a_full_file_is_read_and_kept_for_a_record(tmp_path: Path) -> None:
    config = salon(tmp_path, sound_files()[0])
    assert len(config.rules) == len(builtin_rules()) + 1
    assert config.settings == Settings(0.02, 5, 25, 1)
    assert config_from_data(config.own, "the record") == config


def test_without_a_file_there_is_nothing_to_keep() -> None:
    assert default_config().own == {}
    assert config_from_data({}, "nothing").rules is builtin_rules()


@pytest.mark.parametrize(
    ("name", "low", "high", "below", "above"),
    [
        ("run_out_chance", 0.001, 0.5, 0.0009, 0.501),
        ("sections", 4, 5, 3, 6),
        ("seconds_a_parting", 5, 600, 4.9, 600.1),
        ("scale_g", 0.1, 10, 0.09, 10.1),
    ],
)
def test_both_ends_of_each_setting(
    name: str, low: float, high: float, below: float, above: float, tmp_path: Path
) -> None:
    for value in (low, high):
        assert getattr(salon(tmp_path, f"[settings]\n{name} = {value}\n").settings, name) == value
    for value in (below, above, "nan", "inf", "true", '"4"', "9" * 400, "4.5e308", "[4]", "-1", "1e-300"):
        with pytest.raises(BadConfig, match=f"salon.toml: settings: {name}: "):
            salon(tmp_path, f"[settings]\n{name} = {value}\n")


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("[settings]\ncolour = 3\n", "settings: colour: there is no such setting"),
        ("[settings]\nsections = 4.5\n", "settings: sections: "),
        ("settings = 3\n", r"\[settings\] must be a table"),
        ("[[settings]]\n", r"\[settings\] must be a table"),
        ("[rules]\n", "only"),
        ("rule = 3\n", "written as"),
        ("[[rule]]\nid = 3\n", "missing plain, remedy"),
        ("[[raise]]\nid = 3\nverdict = 'stop'\n", "no rule '3' to raise"),
        ("[[raise]]\nid='asthma'\nverdict='stop'\n[[raise]]\nid='asthma'\nverdict='stop'\n", "raised twice"),
        ("x = " + "9" * 5000, "too many digits"),
        ("x = " + "[" * 5000, "nested too deeply"),
        ("a" + ".a" * 300 + " = 1", "line 1: too many dots"),
        ("[[rule]", "salon.toml: "),
        (b"\xff", "line 1: not UTF-8"),
        (b"#" * (LARGEST_FILE + 1), "larger than 1 MB"),
    ],
)
def test_a_bad_salon_file_is_one_short_line(text: str | bytes, says: str, tmp_path: Path) -> None:
    with pytest.raises(BadConfig, match=says) as refusal:
        salon(tmp_path, text)
    assert len(str(refusal.value)) <= 300
    assert str(refusal.value).isprintable()


def test_no_file_and_a_folder_are_one_line(tmp_path: Path) -> None:
    for path in (tmp_path / "none.toml", tmp_path, tmp_path / ("n" * 400)):
        with pytest.raises(BadConfig) as refusal:
            read_config(path)
        assert len(str(refusal.value)) <= 300


class TestRecordedResults:
    """[[seen]]: what was predicted, what was seen, what had been stated."""

    GOOD: ClassVar[dict[str, object]] = {"predicted": "30 10 16", "seen": "#704020", "band": 7}

    def test_they_are_read(self) -> None:
        (one,) = config_from_data({"seen": [self.GOOD]}, "salon.toml").results
        assert one.predicted == (30, 10, 16)
        assert one.band == 7

    @pytest.mark.parametrize(
        ("change", "says"),
        [
            ({"band": 0}, "band"), ({"band": "7"}, "band"), ({"seen": "brown"}, "seen 1: seen"),
            ({"predicted": 3}, "seen 1: predicted"), ({"more": 1}, "nothing else"),
        ],
    )  # fmt: skip
    def test_a_wrong_one_is_named_in_one_line(self, change: dict[str, object], says: str) -> None:
        with pytest.raises(BadConfig, match=says) as caught:
            config_from_data({"seen": [self.GOOD | change]}, "salon.toml")
        assert len(str(caught.value)) <= 300
        with pytest.raises(BadConfig, match="list"):
            config_from_data({"seen": 3}, "salon.toml")
