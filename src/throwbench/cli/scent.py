"""`throwbench scent`: what the scores say, with their doubt; or a published fit, for comparison."""

from typing import Any

import click

from throwbench.cli.options import read_band, read_days, read_scale, refuse_unused
from throwbench.cli.say import Refusal, refusing, say_columns, say_json, say_table
from throwbench.formats import Reading, Table, UnreadableFile, read_scores, read_table, read_theme
from throwbench.formats.foreign import column_of, of_attribute, scores_of, steps_of
from throwbench.formats.rows import header_key
from throwbench.records import Score
from throwbench.records.attribute import LIT
from throwbench.science.sensory.factor import Factor, crossing
from throwbench.science.sensory.published import PublishedFit, fit
from throwbench.verdict.scale import scale_of
from throwbench.verdict.scent_answer import scent_answer
from throwbench.verdict.scent_result import ScentAnswer, ScentOfCandidate
from throwbench.verdict.settings import Settings
from throwbench.verdict.words import in_100, number

FILE = click.Path()
FIT = ("estimator", "fixed", "random")
COLUMNS = ("score", "candidate", "assessor")
OF_SNIFFS = ("cure_days", "leave_out")
OF_ANSWER = ("choose", "bands", "one_of", "scale", "candidate", "assessor", *OF_SNIFFS)


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
@click.pass_context
def command(ctx: click.Context, /, file: str, as_json: bool, **options: Any) -> None:
    """What the scores of FILE say of each candidate, with their doubt.

    With --estimator, --fixed or --random it is a fit by maximum likelihood, for comparison with
    published tables; the two are never mixed.
    """
    published = any(options[name] is not None for name in FIT)
    _nothing_ignored(ctx, published=published, options=options)
    with refusing():
        try:
            if published:
                _say_fit(_fit(read_table(file), options), as_json)
            else:
                _say_answer(*_answer(file, options), as_json=as_json)
        except UnreadableFile as error:
            raise Refusal(error.sentence) from error


def _nothing_ignored(ctx: click.Context, *, published: bool, options: dict[str, Any]) -> None:
    if not published:
        refuse_unused(
            ctx,
            ("thresholds", "nodes"),
            belongs_to="a published fit (--estimator, --fixed or --random)",
        )
        if any(options[name] for name in COLUMNS):
            refuse_unused(
                ctx,
                OF_SNIFFS,
                belongs_to=(
                    "a file with the columns of a sitting, and not to one whose columns are named "
                    "(--score, --candidate, --assessor)"
                ),
            )
        return
    refuse_unused(
        ctx,
        OF_ANSWER,
        belongs_to="the answer, and not to a published fit (--estimator, --fixed, --random)",
    )
    if options["estimator"] != "quadrature":
        refuse_unused(ctx, ("nodes",), belongs_to="a fit by quadrature (--estimator quadrature)")


def _fit(table: Table, options: dict[str, Any]) -> PublishedFit:
    _, table = of_attribute(table, options["attribute"])
    score = options["score"] or "score"
    plain = options["fixed"] is None and options["random"] is None
    fixed = ("candidate",) if plain else _split(options["fixed"])
    random = ("assessor",) if plain else _split(options["random"])
    _refuse_twice((score, *fixed, *random))
    return fit(
        steps_of(table, score),
        fixed=[_factor(table, name) for name in fixed],
        random=[_factor(table, name) for name in random],
        link=options["link"],
        equidistant=options["thresholds"] == "equidistant",
        estimator=options["estimator"] or "laplace",
        nodes=options["nodes"],
    )


def _split(text: str | None) -> tuple[str, ...]:
    """The names in 'a,b:c'; no text, or an empty one, names none."""
    return tuple(name.strip() for name in (text or "").split(",") if name.strip())


def _refuse_twice(names: tuple[str, ...]) -> None:
    """A column is the score, fixed or a random term, and that once."""
    twice = next((name for place, name in enumerate(names) if name in names[:place]), None)
    if twice is not None:
        raise Refusal(
            f"The column {twice} is named twice. It is the score, a fixed effect or a random "
            "term, and that once. Leave it out in all but one place."
        )


def _factor(table: Table, name: str) -> Factor:
    return crossing(name, *(column_of(table, part.strip()) for part in name.split(":")))


def _answer(file: str, options: dict[str, Any]) -> tuple[ScentAnswer, tuple[str, ...]]:
    named = read_scale(options["scale"])
    if any(options[name] for name in COLUMNS):
        attribute, reading = _foreign(file, options)
    else:
        reading = read_scores(file, scale=named, bare=True)
        attribute = _attribute(options["attribute"], [row.attribute for row in reading.rows])
    theme = (
        {}
        if options["one_of"] is None
        else {row.candidate: row.group for row in read_theme(options["one_of"]).rows}
    )
    answer = scent_answer(
        reading.rows,
        attribute=attribute,
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


def _foreign(file: str, options: dict[str, Any]) -> tuple[str, Reading[Score]]:
    """The attribute and the scores of a file whose columns are named."""
    attribute, table = of_attribute(read_table(file), options["attribute"])
    score = options["score"] or "score"
    reading = scores_of(
        table,
        score=score,
        candidate=options["candidate"] or "candidate",
        assessor=options["assessor"],
        attribute=attribute,
    )
    return attribute or score, reading


def _attribute(wanted: str | None, found: list[str]) -> str:
    """The attribute asked for; else liking, hot throw or whatever the file holds."""
    order = (*LIT, *found)
    if wanted is not None:
        return header_key(wanted)
    return next((name for name in order if name in found), order[0])


def _say_fit(found: PublishedFit, as_json: bool) -> None:
    if as_json:
        say_json(found, random={name: {"sd": sd} for name, sd in found.random.items()})
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


def _row(item: ScentOfCandidate, answer: ScentAnswer) -> tuple[str, ...]:
    low, high = item.interval_90.low, item.interval_90.high
    attribute = answer.attribute.replace("_", " ")
    right = () if item.chance_in_band is None else (f"right {in_100(item.chance_in_band)}",)
    return (
        item.candidate,
        f"{attribute} {item.expected:.1f} ({low:.1f} to {high:.1f})",
        *right,
        *_chance(item, answer),
    )


def _chance(item: ScentOfCandidate, answer: ScentAnswer) -> tuple[str, ...]:
    """The chance to belong; to be the best where all belong; none for one alone."""
    if len(answer.candidates) == 1:
        return ()
    if answer.choose == 1 or all(one.chance_to_belong == 1.0 for one in answer.candidates):
        return (f"the best {in_100(item.chance_best)}",)
    return (f"in the {number(answer.choose)} {in_100(item.chance_to_belong)}",)


def _say_answer(answer: ScentAnswer, problems: tuple[str, ...], *, as_json: bool) -> None:
    if as_json:
        say_json(answer, next_steps=answer.next_steps(), problems=problems)
        return
    click.echo(answer.sentence())
    say_columns([_row(item, answer) for item in answer.candidates])
    click.echo()
    for step in answer.next_steps():
        click.echo(f"Next: {step}")
    for problem in problems:
        click.echo(problem)
