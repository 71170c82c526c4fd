"""The table of burns: from the log, one line per test candle, nothing that nobody measured."""

from dataclasses import replace
from datetime import datetime

from throwbench.documents.readings import burns_table
from throwbench.records import Burn, Check, Combination
from throwbench.rules.result import CandleLimits, Evidence
from throwbench.verdict.burn_reading import read_candle
from throwbench.verdict.result import Verdict


def burn(number: int, *, masses_g: tuple[float, float] | None, checks: tuple[Check, ...]) -> Burn:
    before, after = masses_g or (None, None)
    return Burn(
        candle="K7F",
        burn=number,
        lit_at=datetime(2027, 5, number, 9, 0),
        out_at=datetime(2027, 5, number, 13, 0),
        mass_before_g=before,
        mass_after_g=after,
        scale_step_g=0.1,
        checks=checks,
    )


def tried(verdict: Verdict) -> Verdict:
    """The same verdict, whose first oil was burned as the candle K7F."""
    made_of = Combination(candle="K7F", oil="Slate After Rain", wick="flat cotton 4")
    candle = CandleLimits(
        candle="K7F",
        combination=made_of,
        state="none broken",
        broken=(),
        marks=(),
        evidence=Evidence(),
        burns=2,
        to_the_end=True,
        missing=None,
    )
    first, *others = verdict.candidates
    limits = replace(first.limits[0], candles=(candle,))
    return replace(verdict, candidates=(replace(first, limits=(limits,)), *others))


def test_a_line_holds_what_the_log_says(verdict: Verdict) -> None:
    full = (Check(check_h=2, pool_full=False), Check(check_h=3, pool_full=True))
    burns = [
        burn(1, masses_g=(400, 376), checks=()),
        burn(2, masses_g=(376, 351.6), checks=full),
    ]
    table = burns_table([read_candle("K7F", burns, end_mm=10)], verdict=tried(verdict))
    assert table is not None
    # definition: 24.4 g in 4 h is 6.1 g/h; the first burn is not judged
    assert table["rows"] == [
        [
            "K7F",
            "Slate After Rain",
            "flat cotton 4",
            "2",
            "8.0",
            "6.10 ± 0.01",
            "between 2 and 3 h",
            "none broken",
        ]
    ]


def test_without_a_file_of_candles_the_oil_is_the_one_of_the_scores(verdict: Verdict) -> None:
    known = tried(verdict)
    candle = replace(known.candidates[0].limits[0].candles[0], combination=None)
    limits = replace(known.candidates[0].limits[0], candles=(candle,))
    first = replace(known.candidates[0], limits=(limits,))
    reading = read_candle("K7F", [burn(1, masses_g=None, checks=())], end_mm=10)
    table = burns_table([reading], verdict=replace(known, candidates=(first,)))
    assert table is not None
    assert table["rows"][0][:3] == ["K7F", "Slate After Rain", "unknown"]


def test_what_nobody_measured_is_said_to_be_so(verdict: Verdict) -> None:
    reading = read_candle("Q1", [burn(1, masses_g=None, checks=())], end_mm=10)
    table = burns_table([reading], verdict=verdict)
    assert table is not None
    assert table["rows"][0][1:] == [
        "unknown",
        "unknown",
        "1",
        "4.0",
        "not measured",
        "not seen",
        "not yet known",
    ]


def test_without_a_log_there_is_no_table(verdict: Verdict) -> None:
    assert burns_table([], verdict=verdict) is None
