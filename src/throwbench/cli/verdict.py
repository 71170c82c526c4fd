"""`throwbench verdict`: from scores and burns to a pick with its risk."""

from typing import Any

import click

from throwbench.cli.papers import keep_what_is_read, write_papers
from throwbench.cli.say import Refusal, refusing, say_json
from throwbench.cli.verdict_question import asked
from throwbench.cli.verdict_table import lines_of
from throwbench.formats import UnreadableFile
from throwbench.formats.judged import judge_trial

FILE = click.Path()


@click.command()
@click.argument("scores", type=FILE)
@click.argument("burns", type=FILE, required=False)
@click.option("--candles", type=FILE, help="What each test candle is made of.")
@click.option("--choose", type=click.IntRange(1), default=1, help="How many may join the line.")
@click.option(
    "--band", "bands", multiple=True, help="Right hot throw: 3.2-4.4, or kitchen=3.2-4.4."
)
@click.option("--one-of", type=FILE, help="Themes: at most one candidate of a group joins.")
@click.option("--scale", help="The steps of the scores, such as 1-5.")
@click.option("--cure-days", help="Cure a score needs where no wax card says so.")
@click.option(
    "--leave-out",
    multiple=True,
    type=click.Choice(["tired", "perfume", "recognised"]),
    help="Do not count such scores.",
)
@click.option("--house", multiple=True, metavar="RULE=VALUE", help="A limit of your own.")
@click.option("--day", type=click.DateTime(["%Y-%m-%d"]), help="Day of the verdict; else today.")
@click.option("--report", type=FILE, help="Write the report (PDF).")
@click.option("--picture", type=FILE, help="Write the picture (PNG).")
@click.option("--table", type=FILE, help="Write the table (CSV).")
@click.option("--workshop", default="My workshop", help="At the head of the report.")
@click.option("--trial", default="Test candles", help="At the head of report and picture.")
@click.option("--invented", is_flag=True, help="Say on every sheet that the data are invented.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object instead of words.")
@click.pass_context
def command(ctx: click.Context, /, as_json: bool, **options: Any) -> None:
    """Which oils join the line: the pick with its risk, three columns per oil, what to do next.

    SCORES and BURNS are CSV files, one row per score and one per check of a burn. Or SCORES alone
    is the archive of a trial, a .zip or a folder; an option stands above what the archive says.
    """
    with refusing():
        keep_what_is_read(options)
        try:
            question, trial = asked(ctx, options)
        except UnreadableFile as error:
            raise Refusal(error.sentence) from error
        found = judge_trial(trial, question)
        write_papers(found, trial, question, options)
    if as_json:
        say_json(found)
    else:
        click.echo("\n".join(lines_of(found)))
