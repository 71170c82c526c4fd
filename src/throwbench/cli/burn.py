"""`throwbench burn FILE`: what the burn log says of limits, of burning well, and in figures."""

import json
from dataclasses import asdict
from datetime import date, datetime
from typing import Any

import click

from throwbench.cli.options import read_house
from throwbench.cli.say import Refusal, refusing
from throwbench.formats import (
    Problem,
    UnreadableFile,
    questions_across,
    read_burns,
    read_combinations,
)
from throwbench.formats.quantities import read_quantity
from throwbench.rules.result import CombinationLimits
from throwbench.science.errors import SaidError
from throwbench.verdict.burn_report import BurnReport, CandleReport, report_burns


@click.command()
@click.argument("file", metavar="FILE")
@click.option("--candles", metavar="FILE", help="What each candle is made of.")
@click.option("--candle", metavar="CODE", help="Show one candle and its combination only.")
@click.option("--inside", metavar="MM", help="Inside diameter of vessels that have none.")
@click.option("--day", type=click.DateTime(["%Y-%m-%d"]), help="Limits in force on; else today.")
@click.option("--house", multiple=True, metavar="RULE=VALUE", help="A limit of your own.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object instead of sentences.")
def command(
    *,
    file: str,
    candles: str | None,
    candle: str | None,
    inside: str | None,
    day: datetime | None,
    house: tuple[str, ...],
    as_json: bool,
) -> None:
    """What the burn log says: limits with their evidence, how candles burn, rates.

    FILE has one row per check of a burn; columns candle, burn, lit_at and out_at are needed.
    """
    with refusing():
        report, problems = _read(
            file,
            candles=candles,
            inside=inside,
            day=day.date() if day else date.today(),
            house=dict(read_house(entry) for entry in house),
        )
        report = report.of(candle) if candle else report
    if as_json:
        click.echo(_as_json(report, problems))
    else:
        click.echo("\n".join(_lines(report, problems)))


def _read(
    file: str, *, candles: str | None, inside: str | None, day: date, house: dict[str, float]
) -> tuple[BurnReport, tuple[Problem, ...]]:
    inside_mm = _inside(inside)
    try:
        made = read_combinations(candles) if candles else None
        known = made.rows if made else ()
        wide = {} if inside_mm is None else {row.candle: inside_mm for row in read_burns(file).rows}
        wide |= {row.candle: row.inside_mm for row in known if row.inside_mm is not None}
        burns = read_burns(file, inside_mm=wide, house=house)
    except UnreadableFile as error:
        raise Refusal(error.sentence) from error
    report = report_burns(
        burns.rows,
        combinations=known,
        inside_mm=inside_mm,
        day=day,
        house=house,
        unread=burns.unread,
    )
    across = questions_across(burns=burns, combinations=made)
    return report, (*burns.problems, *(made.problems if made else ()), *across)


def _inside(text: str | None) -> float | None:
    """The width given for all vessels [mm]."""
    try:
        return None if text is None else read_quantity(text, "mm")
    except SaidError as error:
        raise Refusal(f"--inside: {error}") from error


def _lines(report: BurnReport, problems: tuple[Problem, ...]) -> list[str]:
    lines = [f"Limits in force on {report.day}"]
    for combination in report.limits:
        lines += _limit_lines(combination)
    lines += ["", "Burns well (no limit)"]
    lines += [f"  {item.candle}: {item.burns_well.sentence()}" for item in report.candles]
    lines += ["", "Rates (± one standard deviation; the first burn is not judged)"]
    for item in report.candles:
        lines += _figure_lines(item)
    lines += ["", f"Not tried, needs a laboratory: {'; '.join(report.not_tried)}."]
    if problems:
        lines += ["", "Asked about, held back or refused"]
        lines += [f"  {problem}" for problem in problems]
    return [*lines, "", *report.cautions]


def _limit_lines(combination: CombinationLimits) -> list[str]:
    evidence = combination.evidence()
    lines = [
        f"  {combination.sentence()}",
        f"    looks: {evidence.measured} measured, {evidence.seen} seen, "
        f"{evidence.not_seen} not seen",
    ]
    for candle in combination.candles:
        lines += [f"    {candle.sentence()}"] if len(combination.candles) > 1 else []
        lines += [f"    {item.sentence()}" for item in (*candle.broken, *candle.marks)]
        lines += [f"    {candle.candle}: {candle.wax_left}"] if candle.wax_left else []
    return lines


def _figure_lines(item: CandleReport) -> list[str]:
    return [
        f"  {item.reading.sentence()}",
        *(f"    {words}" for words in item.reading.pool_sentences()),
    ]


def _as_json(report: BurnReport, problems: tuple[Problem, ...]) -> str:
    whole: dict[str, Any] = {
        "sentence": report.sentence(),
        **asdict(report),
        "problems": [asdict(problem) for problem in problems],
    }
    for entry, combination in zip(whole["limits"], report.limits, strict=True):
        entry["sentence"] = combination.sentence()
    for entry, candle in zip(whole["candles"], report.candles, strict=True):
        entry["sentence"] = candle.reading.sentence()
    return json.dumps(whole, ensure_ascii=False, allow_nan=False, indent=2)
