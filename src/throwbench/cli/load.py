"""`throwbench load`: how much oil for how much wax, and what the scale makes of it."""

from typing import Any

import click
from click.core import ParameterSource

from throwbench.cli.say import Refusal, refusing, say_json, say_table
from throwbench.formats.quantities import (
    Quantity,
    any_quantity,
    quantity,
    read_load,
    read_part,
)
from throwbench.records import Pour
from throwbench.science.errors import SaidError
from throwbench.science.load import Basis
from throwbench.science.pour import work_out
from throwbench.science.units import in_other_units, weight_words


class _Entry(click.ParamType[Quantity]):
    """A quantity with its unit. A bare number is refused where ounces and grams are both usual."""

    def __init__(self, unit: str, *, bare: bool = False) -> None:
        self.name = unit
        self.unit = unit
        self.bare = bare

    def convert(self, value: Any, param: Any, ctx: Any) -> Quantity:
        try:
            return quantity(value, unit=self.unit, bare=self.bare)
        except SaidError as error:
            raise Refusal(f"{param.opts[0]}: {error}") from error


def _value(entry: Quantity | None) -> float | None:
    return None if entry is None else entry.value


WEIGHT, TEMPERATURE, LENGTH = _Entry("g"), _Entry("°C"), _Entry("mm")
DENSITY, PERCENT = _Entry("g/ml", bare=True), _Entry("%", bare=True)


@click.command()
@click.option("--load", help="Load: '10 %', '8 % of total', '1 oz per lb'.")
@click.option("--of", "basis", type=click.Choice(["wax", "total"]), help="Basis of the load.")
@click.option("--card-maximum", type=PERCENT, help="Most oil the wax card allows, % of wax.")
@click.option("--flash-point", type=TEMPERATURE, help="Flash point of the oil.")
@click.option("--wax", type=WEIGHT, help="Wax planned for one pitcher.")
@click.option("--total", type=WEIGHT, help="Wax and oil together, planned for one pitcher.")
@click.option("--vessels", type=int, help="Vessels poured from one pitcher.")
@click.option("--fill", type=WEIGHT, help="Wax and oil in one vessel.")
@click.option("--oils", type=int, default=1, help="Pitchers, one per oil.")
@click.option("--residue", type=WEIGHT, help="Mix left in each pitcher.")
@click.option("--pot-residue", type=WEIGHT, help="Wax left in the pot.")
@click.option("--weighed", type=WEIGHT, multiple=True, help="Wax in the pitcher; last counts.")
@click.option("--oil-in", type=WEIGHT, help="Oil poured in: gives the load to write down.")
@click.option("--step", type=WEIGHT, help="Step of the scale.")
@click.option("--blend", multiple=True, help="An oil of a blend and its parts: 'Ferry Rope:80'.")
@click.option("--water", type=WEIGHT, help="Water in one vessel, up to the fill line.")
@click.option("--water-temperature", type=TEMPERATURE, help="Of that water; else 20 °C is taken.")
@click.option("--wax-density", type=DENSITY, help="Density of the mix at pouring, g/ml.")
@click.option("--solid-density", type=DENSITY, help="Density of the set wax, g/ml.")
@click.option("--inside", type=LENGTH, help="Inside diameter of the vessel.")
@click.option("--convert", help="A quantity in other units, and nothing else: '185F'.")
@click.option("--difference", is_flag=True, help="Convert as a difference: a drop has no offset.")
@click.option("--json", "as_json", is_flag=True, help="One JSON object instead of sentences.")
@click.pass_context
def command(ctx: click.Context, /, *, as_json: bool, **entries: Any) -> None:
    """How much oil for how much wax, and what the scale makes of it.

    Quantities carry their unit: 5.5oz, '5,5 oz', 220g, 185F. All weights are of one pitcher.
    """
    if entries["convert"] is not None:
        _convert(ctx, as_json)
        return
    with refusing():
        answer = work_out(_pour(entries))
    ounces = _in_ounces(entries)
    sentences = answer.sentences(ounces=ounces)
    if not sentences:
        raise Refusal(
            "Nothing was asked. A load, an amount, or the water of a vessel is needed. "
            "Write for example: throwbench load --wax 500g --load 8%"
        )
    if as_json:
        say_json(answer)
        return
    for sentence in sentences:
        click.echo(sentence)
    say_table([(name, weight_words(value, ounces=ounces)) for name, value in answer.sums_g()])


def _convert(ctx: click.Context, as_json: bool) -> None:
    beside = [
        name
        for name in ctx.params
        if ctx.get_parameter_source(name) is ParameterSource.COMMANDLINE
        and name not in ("convert", "difference", "as_json")
    ]
    if beside:
        raise Refusal(
            f"--convert stands beside {', '.join(beside)}. It answers alone. Ask in two commands."
        )
    with refusing():
        entered, unit = any_quantity(ctx.params["convert"])
        said = in_other_units(entered, unit=unit, difference=ctx.params["difference"])
    if as_json:
        say_json(said)
    else:
        click.echo(said.sentence())


def _pour(entries: dict[str, Any]) -> Pour:
    if entries["difference"]:
        raise Refusal(
            "--difference is given, but no quantity to convert. It belongs to --convert. "
            "Write for example: throwbench load --convert 10F --difference"
        )
    percent, basis = _load_and_basis(entries["load"], entries["basis"])
    return Pour(
        load_percent=percent,
        basis=basis,
        card_maximum_percent=_value(entries["card_maximum"]),
        flash_c=_value(entries["flash_point"]),
        wax_g=_value(entries["wax"]),
        total_g=_value(entries["total"]),
        vessels=entries["vessels"],
        fill_g=_value(entries["fill"]),
        oils=entries["oils"],
        residue_g=_value(entries["residue"]) or 0.0,
        pot_residue_g=_value(entries["pot_residue"]) or 0.0,
        weighings_g=tuple(entry.value for entry in entries["weighed"]),
        oil_in_g=_value(entries["oil_in"]),
        scale_step_g=_value(entries["step"]),
        blend=tuple(read_part(text) for text in entries["blend"]),
        water_g=_value(entries["water"]),
        water_c=_value(entries["water_temperature"]),
        density_g_ml=_value(entries["wax_density"]),
        solid_g_ml=_value(entries["solid_density"]),
        inside_mm=_value(entries["inside"]),
    )


def _load_and_basis(text: str | None, chosen: Basis | None) -> tuple[float | None, Basis | None]:
    if text is None:
        return None, chosen
    percent, written = read_load(text)
    if chosen and written and chosen != written:
        raise Refusal(
            f"The load “{text}” is of {written}, but --of says {chosen}. "
            "One basis counts. Leave one of the two out."
        )
    return percent, written or chosen


def _in_ounces(entries: dict[str, Any]) -> bool:
    """Whether a weight was given in ounces or pounds: then the answer shows both."""
    weighed = (*entries["weighed"], *entries.values())
    return any(isinstance(entry, Quantity) and entry.unit in ("oz", "lb") for entry in weighed)
