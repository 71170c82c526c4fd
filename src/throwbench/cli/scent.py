"""`throwbench scent`: what the scores say, with their doubt; or a published fit, for comparison."""

import json
from dataclasses import asdict
from typing import Any

import click

from throwbench.cli.options import read_band, read_days, read_scale
from throwbench.cli.say import Refusal, refusing, say_columns, say_table
from throwbench.formats import Table, UnreadableFile, read_scores, read_table, read_theme
from throwbench.formats.foreign import column_of, scores_of, steps_of
from throwbench.science.sensory.factor import Factor, crossing
from throwbench.science.sensory.published import PublishedFit, fit
from throwbench.verdict.scale import scale_of
from throwbench.verdict.scent_answer import ScentAnswer, ScentOfCandidate, scent_answer
from throwbench.verdict.settings import Settings
from throwbench.verdict.words import in_100, number

FILE = click.Path()


@click.command()
@click.argument("file", type=FILE)
@click.option("--attribute", help="Which attribute, where the file holds several.")
@click.option("--choose", type=click.IntRange(1), default=1, help="How many are chosen.")
@click.option("--band", "bands", multiple=True, help="Right score: 3.2-4.4, or kitchen=3.2-4.4.")
@click.option("--one-of", type=FILE, help="Themes: at most one candidate of a group.")
@click.option("--scale", help="The steps of the scores, such as 1-5.")
@click.option("--cure-days", help="Cure that a score needs to count.")
@click.option(
    "--leave-out",
    multiple=True,
    type=click.Choice(["tired", "perfume", "recognised"]),
    help="Do not count such scores.",
)
@click.option("--score", metavar="COL", help="Column of the scores, in a file with other names.")
@click.option("--candidate", metavar="COL", help="Column of the candidates, in such a file.")
@click.option("--assessor", metavar="COL", help="Column of the assessors, in such a file.")
@click.option(
    "--estimator",
    type=click.Choice(["laplace", "quadrature"]),
    help="A published fit by maximum likelihood instead of the answer.",
)
@click.option("--fixed", metavar="COL,COL", help="Published fit: columns with fixed effects.")
@click.option("--random", metavar="COL,COL:COL", help="Published fit: random terms.")
@click.option("--thresholds", type=click.Choice(["flexible", "equidistant"]), default="flexible")
@click.option("--link", type=click.Choice(["logit", "probit"]), default="logit")
@click.option("--nodes", type=click.IntRange(1, 100), default=10, help="Quadrature nodes.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object instead of words.")
def command(file: str, as_json: bool, **options: Any) -> None:
    """What the scores of FILE say of each candidate, with their doubt.

    With --estimator, --fixed or --random it is a fit by maximum likelihood, for comparison with
    published tables; the two are never mixed.
    """
    published = any(options[name] is not None for name in ("estimator", "fixed", "random"))
    with refusing():
        try:
            if published:
                _say_fit(_fit(read_table(file), options), as_json)
            else:
                _say_answer(*_answer(file, options), as_json=as_json)
        except UnreadableFile as error:
            raise Refusal(error.sentence) from error


def _fit(table: Table, options: dict[str, Any]) -> PublishedFit:
    fixed = _split(options["fixed"], ("candidate",) if "candidate" in table.columns else ())
    random = _split(options["random"], ("assessor",) if "assessor" in table.columns else ())
    return fit(
        steps_of(table, options["score"] or "score"),
        fixed=[_factor(table, name) for name in fixed],
        random=[_factor(table, name) for name in random],
        link=options["link"],
        equidistant=options["thresholds"] == "equidistant",
        estimator=options["estimator"] or "laplace",
        nodes=options["nodes"],
    )


def _split(text: str | None, default: tuple[str, ...]) -> tuple[str, ...]:
    """The names in 'a,b:c'; an empty text names none."""
    if text is None:
        return default
    return tuple(name.strip() for name in text.split(",") if name.strip())


def _factor(table: Table, name: str) -> Factor:
    return crossing(name, *(column_of(table, part.strip()) for part in name.split(":")))


def _answer(file: str, options: dict[str, Any]) -> tuple[ScentAnswer, tuple[str, ...]]:
    named = read_scale(options["scale"])
    if options["score"] or options["candidate"] or options["assessor"]:
        reading = scores_of(
            read_table(file),
            score=options["score"] or "score",
            candidate=options["candidate"] or "candidate",
            assessor=options["assessor"] or "assessor",
        )
    else:
        reading = read_scores(file, scale=named)
    theme = (
        {}
        if options["one_of"] is None
        else {row.candidate: row.group for row in read_theme(options["one_of"]).rows}
    )
    answer = scent_answer(
        reading.rows,
        attribute=_attribute(options["attribute"], [row.attribute for row in reading.rows]),
        scale=named or scale_of(reading.rows),
        settings=Settings(
            choose=options["choose"],
            bands=tuple(read_band(text) for text in options["bands"]),
            groups=theme,
            cure_days=read_days(options["cure_days"]),
            leave_out=frozenset(options["leave_out"]),
        ),
        link=options["link"],
    )
    return answer, tuple(str(problem) for problem in reading.problems)


def _attribute(wanted: str | None, found: list[str]) -> str:
    """The attribute asked for; else liking, hot throw or whatever the file holds."""
    order = ("liking", "hot_throw", *found)
    return wanted or next((name for name in order if name in found), order[0])


def _say_fit(found: PublishedFit, as_json: bool) -> None:
    if as_json:
        whole = {"sentence": found.sentence(), **asdict(found)}
        whole["random"] = {name: {"sd": sd} for name, sd in found.random.items()}
        click.echo(json.dumps(whole, ensure_ascii=False))
        return
    click.echo(found.sentence())
    rows = [
        (f"{column} {level}", f"{effect.estimate:.5f}  (se {effect.se:.5f})")
        for column, levels in found.effects.items()
        for level, effect in levels.items()
    ]
    rows += [(f"sd of {name}", f"{sd:.6f}") for name, sd in found.random.items()]
    rows += [
        (f"threshold {low}|{high}", f"{cut:.5f}  (se {se:.5f})")
        for low, high, cut, se in zip(
            found.steps, found.steps[1:], found.thresholds, found.threshold_ses, strict=False
        )
    ]
    say_table(rows)


def _row(item: ScentOfCandidate, attribute: str, belong: str) -> tuple[str, ...]:
    low, high = item.interval_90.low, item.interval_90.high
    right = () if item.chance_in_band is None else (f"right {in_100(item.chance_in_band)}",)
    return (
        item.candidate,
        f"{attribute} {item.expected:.1f} ({low:.1f} to {high:.1f})",
        *right,
        f"{belong} {in_100(item.chance_to_belong)}",
    )


def _say_answer(answer: ScentAnswer, problems: tuple[str, ...], *, as_json: bool) -> None:
    if as_json:
        whole = {"sentence": answer.sentence(), **asdict(answer), "problems": problems}
        click.echo(json.dumps(whole, ensure_ascii=False))
        return
    click.echo(answer.sentence())
    belong = f"in the {number(answer.choose)}" if answer.choose > 1 else "the best"
    say_columns(
        [_row(item, answer.attribute.replace("_", " "), belong) for item in answer.candidates]
    )
    for problem in problems:
        click.echo(problem)
