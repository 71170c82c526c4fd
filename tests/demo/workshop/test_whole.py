"""The demo's workshop holds what the example says, although it was entered press by press."""

import json

import pytest
from click.testing import CliRunner

from throwbench.cli import main
from throwbench.demo import generate
from throwbench.demo.workshop.long_light import NAME
from throwbench.demo.workshop.whole import headline
from throwbench.workshop.line.models import Judgement
from throwbench.workshop.panel.selectors import scores_of
from throwbench.workshop.trials.models import Trial
from throwbench.workshop.trials.selectors import burns_of, combinations_of, theme_of

pytestmark = [pytest.mark.django_db, pytest.mark.usefixtures("demo")]


@pytest.fixture(scope="module")
def example():
    return generate()


@pytest.fixture
def trial() -> Trial:
    return Trial.objects.get(name=NAME)


def by_code(rows):
    return sorted(rows, key=lambda row: row.candle)


def test_the_test_candles_are_those_of_the_example(trial, example):
    assert by_code(combinations_of(trial)) == by_code(example.combinations)


def test_the_burns_are_those_of_the_example(trial, example):
    def key(burn):
        return burn.candle, burn.burn

    assert sorted(burns_of(trial), key=key) == sorted(example.burns, key=key)


def test_the_scores_are_those_of_the_example(trial, example):
    assert list(scores_of(trial)) == list(example.scores)


def test_the_themes_are_those_of_the_example(trial, example):
    assert set(theme_of(trial)) == set(example.theme)


def test_the_exported_trial_gives_the_kept_judgement_to_the_last_figure(trial, tmp_path):
    judgement = Judgement.objects.get(trial=trial)
    file = tmp_path / "long-light.zip"
    file.write_bytes(bytes(judgement.archive))
    done = CliRunner().invoke(main, ["verdict", str(file), "--json"])
    assert done.exit_code == 0, done.output
    said = json.loads(done.stdout)
    assert said.pop("sentence") == headline()
    assert said == json.loads(judgement.verdict)
