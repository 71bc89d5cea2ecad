"""A shade fitted to its own swatch, typed or off a photograph; a meter's reading of hair in place of the eye's."""

from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from consult.answers.access import BadAnswer, from_data
from consult.answers.typed_colour import typed_lab
from consult.cli import main
from consult.colour.cie import lab
from consult.colour.difference import ciede2000
from consult.colour.dyes import fitted_to_swatch, load
from consult.colour.fibre import reflectance
from consult.colour.photo import BadPhoto, Box, read_patches
from consult.colour.prediction import predict
from consult.colour.values import HairState, OldColour, Shade, Treatment
from tests.demo import judged

CARD = (10, 10, 60, 60)


class TestTyped:
    @pytest.mark.parametrize(
        ("text", "wanted"),
        [
            ("#808080", (53.585, 0, 0)), ("#ff0000", (53.24, 80.09, 67.20)), ("#0000FF", (32.30, 79.19, -107.86)),
            ("41.2 12 -3.5", (41.2, 12, -3.5)), ("Lab (41.2, 12, -3.5)", (41.2, 12, -3.5)),
        ],
    )  # fmt: skip
    def test_both_ways_of_writing(self, text: str, wanted: tuple[float, float, float]) -> None:
        """CIELAB of the sRGB primaries under D65, as published to two decimals (iec-61966-2-1)."""
        assert typed_lab(text) == pytest.approx(wanted, abs=0.02)

    @pytest.mark.parametrize(
        "text", ["red-ish", "#12345", "#12345g", "200 0 0", "0 0 0", "50 300 0", "1 2", "50 1 2 3"]
    )
    def test_anything_else_is_refused_in_one_line(self, text: str) -> None:
        with pytest.raises(ValueError, match="CIELAB"):
            typed_lab(text)
        with pytest.raises(BadAnswer) as caught:
            from_data({"product": {"swatch": text}})
        assert len(str(caught.value)) <= 300
        assert "#rrggbb" in str(caught.value)


class TestFit:
    @pytest.mark.parametrize("tone", ["neutral", "copper", "ash", "red", "violet"])
    def test_a_swatch_of_the_built_in_colour_changes_nothing(self, tone: str) -> None:
        shade = Shade(6, tone)  # type: ignore[arg-type]
        own = lab(reflectance(load(shade).dye))
        found = fitted_to_swatch(Shade(6, tone, tuple(own.tolist())))  # type: ignore[arg-type]
        assert found
        assert found.strength == pytest.approx(1, abs=0.001)
        assert found.difference < 0.01

    def test_the_fitted_shade_looks_like_its_swatch(self) -> None:
        """Another maker's 6 copper: darker and redder."""
        mine = Shade(6, "copper", (30.0, 30.0, 22.0))
        white = predict(HairState(6, 1.0), Treatment(mine, 2), mine).white.lab
        plain = predict(HairState(6, 1.0), Treatment(Shade(6, "copper"), 2), mine).white.lab
        assert float(ciede2000(white, mine.swatch)) < 1.5 < float(ciede2000(plain, mine.swatch))
        found = fitted_to_swatch(mine)
        assert found
        assert found.strength > 1.05

    def test_a_colour_that_hair_cannot_have_stays_near_the_recipe(self) -> None:
        """Grass green as a swatch of copper: bent towards it, not turned upside down."""
        found = fitted_to_swatch(Shade(6, "copper", (50.0, -60.0, 50.0)))
        assert found
        assert found.left > 5
        assert np.isfinite(found.weights).all()
        assert (found.weights > 0).all()

    def test_the_plan_is_computed_with_it_and_says_so(self) -> None:
        found = judged("tomas", product__swatch="28.0 14 12")
        assert found.forecast
        assert any("computed from its own swatch" in line.say.trade for line in found.forecast.lines)
        plain = judged("tomas").forecast
        assert plain
        assert not any("its own swatch" in line.say.trade for line in plain.lines)
        assert found.forecast.bands[0].last.seen.lab != plain.bands[0].last.seen.lab


class TestMeter:
    @pytest.mark.parametrize(
        "colour", [(40.0, 12.0, 20.0), (30.0, 5.0, 10.0), (55.0, 4.0, 15.0), (33.0, 20.0, 12.0)]
    )
    def test_what_was_measured_is_what_is_forecast_of_untreated_hair(
        self, colour: tuple[float, float, float]
    ) -> None:
        hair = HairState(4, 0.1, (OldColour(5, "gold", 0, 0),), reading=colour)
        assert float(ciede2000(predict(hair, None, Shade(6, "gold")).seen.lab, colour)) < 0.5

    def test_it_stands_in_for_the_eye_on_the_lengths(self) -> None:
        found = judged("tomas", hair__lengths_measured="35 11 20").forecast
        assert found
        lengths = next(b for b in found.bands if b.stretch.value == "lengths")
        assert lengths.stages[0].colour.seen.lab == pytest.approx((35, 11, 20), abs=0.5)


def chart(path: Path, light: tuple[float, float, float], hair: tuple[float, float, float]) -> None:
    """A picture of a card that sends back 90 per cent and a swatch of linear reflectances, in a coloured light."""

    def coded(linear: np.ndarray) -> np.ndarray:
        channel = np.where(linear <= 0.0031308, 12.92 * linear, 1.055 * linear ** (1 / 2.4) - 0.055)
        return np.rint(channel * 255).astype(np.uint8)

    picture = np.zeros((100, 200, 3), np.uint8) + 40
    picture[5:80, 5:80] = coded(0.9 * np.array(light))
    picture[5:80, 110:190] = coded(np.array(hair) * light)
    Image.fromarray(picture).save(path)


class TestPhoto:
    HAIR = (0.20, 0.10, 0.05)

    @pytest.mark.parametrize("light", [(1, 1, 1), (1.0, 0.8, 0.5), (0.7, 0.8, 1.0), (0.4, 0.4, 0.4)])
    def test_the_card_takes_the_light_out(self, tmp_path: Path, light: tuple[float, float, float]) -> None:
        """Whatever the light: the swatch is the sRGB reflectance that was painted, to the rounding of 8 bits."""
        chart(tmp_path / "chart.png", light, self.HAIR)
        (found,) = read_patches(tmp_path / "chart.png", Box(*CARD), [Box(120, 10, 60, 60)])
        coded = [round(255 * (1.055 * v ** (1 / 2.4) - 0.055)) for v in self.HAIR]
        wanted = typed_lab("#" + "".join(f"{v:02x}" for v in coded))
        assert float(ciede2000(found, wanted)) < 1.0

    def test_the_command_prints_what_can_be_typed(
        self, tmp_path: Path, capsys: pytest.CaptureFixture[str]
    ) -> None:
        chart(tmp_path / "chart.png", (1, 0.9, 0.8), self.HAIR)
        place = [
            "swatch",
            str(tmp_path / "chart.png"),
            "--card",
            *map(str, CARD),
            "--at",
            "120",
            "10",
            "60",
            "60",
        ]
        assert main(place) == 0
        said = capsys.readouterr().out
        assert said.startswith("swatch 1: ")
        assert typed_lab(said.removeprefix("swatch 1: "))

    @pytest.mark.parametrize(
        ("card", "patch", "says"),
        [
            (CARD, (190, 10, 60, 60), "outside"), (CARD, (120, 10, 2, 2), "too small"),
            ((85, 85, 10, 10), (120, 10, 60, 60), "dark"),
        ],
    )  # fmt: skip
    def test_a_place_that_cannot_be_used(
        self, tmp_path: Path, card: tuple[int, int, int, int], patch: tuple[int, int, int, int], says: str
    ) -> None:
        chart(tmp_path / "chart.png", (1, 1, 1), self.HAIR)
        with pytest.raises(BadPhoto, match=says):
            read_patches(tmp_path / "chart.png", Box(*card), [Box(*patch)])

    def test_an_overexposed_card_is_refused(self, tmp_path: Path) -> None:
        chart(tmp_path / "chart.png", (1.2, 1.2, 1.2), (0.1, 0.1, 0.1))
        Image.new("RGB", (200, 100), "white").save(tmp_path / "white.png")
        with pytest.raises(BadPhoto, match="overexposed"):
            read_patches(tmp_path / "white.png", Box(*CARD), [Box(120, 10, 60, 60)])

    def test_no_file_and_no_picture_are_one_line(
        self, tmp_path: Path, capsys: pytest.CaptureFixture[str]
    ) -> None:
        (tmp_path / "text.png").write_text("no picture")
        for name, says in (("none.png", "no such file"), ("text.png", "no photograph")):
            place = [
                "swatch",
                str(tmp_path / name),
                "--card",
                *map(str, CARD),
                "--at",
                "120",
                "10",
                "60",
                "60",
            ]
            assert main(place) == 2
            said = capsys.readouterr().err
            assert says in said
            assert said.count("\n") == 1
