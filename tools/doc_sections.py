"""The parts of the pages that are made from commands, rules and kept results."""

import json
from collections.abc import Callable, Iterable, Sequence
from datetime import date
from pathlib import Path
from typing import Any

import click
from doc_numbers import ROOMS, figures
from doc_workshop import addresses, append_only

from throwbench.cli import COMMANDS, main
from throwbench.documents.result_columns import columns_on, scored
from throwbench.records.attribute import KINDS
from throwbench.rules.limit import Limit
from throwbench.rules.rule import Rule, rules
from throwbench.verdict.judge import verdict
from throwbench.verdict.settings import Settings

RESULTS = Path(__file__).resolve().parents[1] / "benchmarks" / "results"


def table(head: Sequence[str], rows: Iterable[Sequence[str]]) -> str:
    lines = [head, ["---"] * len(head), *rows]
    return "".join(f"| {' | '.join(cells)} |\n" for cells in lines)


def commands() -> str:
    """Every option of every command, from the commands themselves."""
    group = click.Context(main, info_name="throwbench")
    return "\n".join(_command(group, name) for name in COMMANDS)


def _command(group: click.Context, name: str) -> str:
    command = main.get_command(group, name)
    if command is None:
        raise LookupError(name)
    context = click.Context(command, info_name=name, parent=group)
    usage = " ".join(["throwbench", name, *command.collect_usage_pieces(context)])
    rows = [
        _option(option, context)
        for option in command.get_params(context)
        if isinstance(option, click.Option)
    ]
    words = "\n\n".join(" ".join(part.split()) for part in (command.help or "").split("\n\n"))
    return f"## `{usage}`\n\n{words}\n\n{table(('Option', 'What', 'Without it'), rows)}"


def _option(option: click.Option, context: click.Context) -> tuple[str, str, str]:
    value = "" if option.is_flag else f" {option.make_metavar(context)}".replace("|", "\\|")
    often = " May be given several times." if option.multiple else ""
    given = option.default
    default = str(given) if isinstance(given, str | int) and not option.is_flag else ""
    return f"`{option.opts[0]}{value}`", f"{option.help or ''}{often}".replace("|", "\\|"), default


def kinds() -> str:
    """What a panel may be asked, from the list of the records."""
    rows = [
        (
            kind.offered or kind.words,
            " ".join(attribute.said for attribute, _ in kind.asks),
            "yes" if kind.has_slip else "no",
        )
        for kind in KINDS.values()
    ]
    return table(("What is asked", "Questions", "Printed slip"), rows)


def result_columns() -> str:
    """The columns of the table, those of an attribute once for all of them."""
    asked_nothing = verdict((), settings=Settings(scale=(1, 5)), day=date.min)
    columns = [*columns_on("table", asked_nothing), *scored("…")]
    rows = ((f"`{column.name}`", column.meaning) for column in columns)
    return table(("Column", "What"), rows)


def limits() -> str:
    """The limits as data, each with what was read of its source."""
    head = ("Rule", "What", "Figure", "Kind", "Bars", "Source", "Read", "House limit")
    return table(head, (_limit(rule) for rule in rules()))


def _limit(rule: Rule) -> tuple[str, ...]:
    return (
        f"`{rule.id}`",
        rule.words,
        _figures(rule),
        rule.kind,
        rule.bars,
        rule.source,
        rule.read,
        "yes" if rule.house_limit else "no",
    )


def _figures(rule: Rule) -> str:
    """What is allowed, in the words of the program; of a figure with a day, since when."""
    if not rule.figures:
        never = Limit(rule=rule, figure=None).allowed()
        return never if rule.compare == "never" else "none: set your own"
    return "; ".join(
        Limit(rule=rule, figure=figure.limit).allowed()
        + (f" (from {figure.since:%Y-%m-%d})" if figure.since.year > 1 else "")
        for figure in rule.figures
    )


def sources_of_limits() -> str:
    """Each source of a limit, what was taken from it, and how it was read."""
    taken: dict[tuple[str, str], list[str]] = {}
    for rule in (one for one in rules() if one.figures or one.compare == "never"):
        taken.setdefault((rule.source, rule.read), []).append(f"{rule.words}: {_figures(rule)}")
    rows = (
        (source, "; ".join(told), read, "`rules/limits.yaml`")
        for (source, read), told in taken.items()
    )
    return table(("Source", "Taken", "Read", "Used in"), rows)


def constants() -> str:
    """Every figure of the code, room by room."""
    found = list(figures())
    head = ("Figure", "Value", "What", "In")
    return "\n".join(
        f"### `{room}/`\n\n"
        + table(
            head,
            (
                (f"`{one.name}`", one.shown, one.words, f"`{one.file}`")
                for one in found
                if one.file.startswith(f"{room}/")
            ),
        )
        for room in ROOMS
        if any(one.file.startswith(f"{room}/") for one in found)
    )


def percent(share: float) -> str:
    return f"{100 * share:.1f} %"


def kept(name: str) -> dict[str, Any] | None:
    path = RESULTS / f"{name}.json"
    return json.loads(path.read_text(encoding="utf-8")) if path.exists() else None


def from_where(result: dict[str, Any], name: str) -> str:
    return (
        f"From `benchmarks/results/{name}.json`, made on {result['day']} at commit "
        f"{result['commit'][:9]}; `./run bench {name} --keep` makes it anew.\n"
    )


def none_kept(name: str) -> str:
    return f"No result is kept yet; `./run bench {name} --keep` makes one.\n"


PROMISED = {
    (3, 6, 2, 0.0, 0.0): "at most 102 of 2,000 named",
    (3, 6, 2, 1.0, 0.0): "at least 1,533 of 2,000 rightly",
}
"""Candidates, noses, sniffs, gap and own taste of the trials that carry a promise."""


def honesty() -> str:
    """How often a clear winner is named, without and with a difference."""
    result = kept("honesty")
    if result is None:
        return none_kept("honesty")
    head = (
        "Candidates",
        "Noses × sniffs",
        "One stands above by",
        "Own taste, sd",
        "Promise",
        "Winner named",
        "Rightly",
    )
    rows = [_honesty(rate) for rate in result["rates"]]
    return f"{table(head, rows)}\n{from_where(result, 'honesty')}"


def _honesty(rate: dict[str, Any]) -> tuple[str, ...]:
    world = rate["world"]
    kind = tuple(world[name] for name in ("candidates", "noses", "sniffs", "gap", "taste"))
    named = f"{rate['named']:,} of {rate['trials']:,}"
    right = f"{rate['right']:,} (true rate at least {percent(rate['right_at_least'])})"
    return (
        str(world["candidates"]),
        f"{world['noses']} × {world['sniffs']}",
        _step(world["gap"]),
        _step(world["taste"]),
        PROMISED.get(kind, "none"),
        f"{named} (true rate at most {percent(rate['named_at_most'])})",
        right if world["gap"] else "there is none",
    )


def _step(size: float) -> str:
    return f"{size:g} step" if size else "nothing"


def truths() -> str:
    """How often the planted truths of the demo are found, beside chance."""
    result = kept("truths")
    if result is None:
        return none_kept("truths")
    rows = [
        (
            rate["truth"],
            percent(rate["found"]),
            percent(rate["shuffled"])
            + ("" if rate["no_more_than_chance"] else ", more than chance"),
            percent(rate["chance"]),
        )
        for rate in result["rates"]
    ]
    rows += [
        (truth, percent(found), "", "")
        for truth, found in result["without_a_shuffled_copy"].items()
    ]
    loss = result["loss_steps"]
    return (
        f"{table(('Planted truth', 'Found', 'In shuffled copies', 'By chance'), rows)}\n"
        f"{result['seeds']} seeds. Loss of the pick: stated {loss['stated']:.2f} step on average, "
        f"true {loss['true']:.2f} step.\n\n{from_where(result, 'truths')}"
    )


def belongs() -> str:
    """Stated chances to belong, against how often it was so."""
    result = kept("truths")
    if result is None:
        return none_kept("truths")
    rows = [
        (percent(row["stated"]), percent(row["belonged"]), str(row["count"]))
        for row in result["belongs"]
    ]
    return table(("Stated", "It was so", "How many"), rows)


def calibration() -> str:
    """In worlds drawn from the priors: stated losses, intervals and chances against the truth."""
    result = kept("calibration")
    if result is None:
        return none_kept("calibration")
    inside = [(percent(float(share)), percent(was)) for share, was in result["coverage"].items()]
    chances = [
        (percent(row["stated"]), percent(row["observed"]), f"{row['number']:,}")
        for row in result["belongs"]
    ]
    return (
        f"{result['trials']:,} trials. Loss of the pick: stated {result['stated_loss']:.3f} step "
        f"on average, true {result['true_loss']:.3f} step; ratio {result['ratio']:.2f} "
        f"(standard error {result['ratio_se']:.2f}).\n\n"
        f"{table(('Interval', 'Truths inside'), inside)}\n"
        f"{table(('Stated chance to belong', 'It was so', 'How many'), chances)}\n"
        f"{from_where(result, 'calibration')}"
    )


def speed() -> str:
    """How long the doors and the fits take, beside their targets and peers."""
    result = kept("speed")
    if result is None:
        return none_kept("speed")
    rows = [
        (
            item["task"],
            seconds(item["seconds"]),
            item["beside"],
            seconds(item["their_seconds"]),
            f"{item['ratio']:.2f}",
        )
        for item in result["timings"]
    ]
    head = ("Task", "Ours", "Beside", "Its time", "Ours to it")
    return f"{table(head, rows)}\n{from_where(result, 'speed')}"


def pages() -> str:
    """How long each page takes at ten years' size, the slowest first."""
    result = kept("pages")
    if result is None:
        return none_kept("pages")
    rows = [
        (page["name"], f"{page['p95_ms']:.1f} ms", f"{page['middle_ms']:.1f} ms")
        for page in result["pages"]
    ]
    said = (
        f"{len(rows)} pages, {result['requests']} requests each. Start-up to the first page: "
        f"{result['start_s']} s. Memory at most: {result['peak_mb']} MB.\n\n"
    )
    shown = table(("Page", "95 in 100 within", "Middle"), rows)
    return f"{said}{shown}\n{from_where(result, 'pages')}"


def kills() -> str:
    """What came of killing the server in its work."""
    result = kept("kills")
    if result is None:
        return none_kept("kills")
    ways = result["by_way"]
    rows = [
        ("Kills", str(result["kills"])),
        *((f"of the {way}", str(many)) for way, many in sorted(ways.items())),
        ("while it started", str(result["at_the_start"])),
        ("while a verdict was worked out beside it", str(result["with_a_child"])),
        ("Entries acknowledged", f"{result['acknowledged']:,}"),
        ("of these lost", str(result["lost"])),
        ("of these noted twice", str(result["doubled"])),
        ("of these kept, and the answer lost", str(result["answers_lost"])),
        ("Processes left behind", str(result["left_behind"])),
        ("Databases that were not whole", str(result["not_whole"])),
    ]
    return f"{table(('What', 'Count'), rows)}\n{from_where(result, 'kills')}"


def seconds(time_s: float) -> str:
    """Three digits, in milliseconds below a second."""
    return f"{time_s:.2f} s" if time_s >= 1 else f"{1000 * time_s:.3g} ms"


SECTIONS: dict[str, Callable[[], str]] = {
    "kills": kills,
    "commands": commands,
    "kinds": kinds,
    "result_columns": result_columns,
    "limits": limits,
    "sources_of_limits": sources_of_limits,
    "constants": constants,
    "honesty": honesty,
    "truths": truths,
    "belongs": belongs,
    "calibration": calibration,
    "speed": speed,
    "pages": pages,
    "addresses": addresses,
    "append_only": append_only,
}
