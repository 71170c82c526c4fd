"""A workshop with six candles lit, for who sends entries to it: begun as a maker begins it."""

from datetime import datetime, timedelta
from pathlib import Path
from typing import Any

from throwbench.web.folder import Folder
from throwbench.web.opening import opened

CODES = ("K7F", "M9C", "T4H", "W8R", "K2G", "N3D")


def make(folder: Path) -> dict[str, Any]:
    """Begin a workshop in a new folder; what is lit, the trial, and a way in."""
    with opened(Folder(folder)):
        from django.utils import timezone  # noqa: PLC0415 (needs the settings)

        now = timezone.now()
        return _lit(now)


def _lit(now: datetime) -> dict[str, Any]:
    """Through the services alone. Nobody goes round for hours, so no alarm is due meanwhile."""
    from throwbench.workshop.house import services as house  # noqa: PLC0415
    from throwbench.workshop.house.sign_in import make_link  # noqa: PLC0415
    from throwbench.workshop.shelf.models import Fixing, Oil, Vessel, Wax, Wick  # noqa: PLC0415
    from throwbench.workshop.trials.services import plan  # noqa: PLC0415
    from throwbench.workshop.trials.services.burn import light  # noqa: PLC0415

    owner = house.begin(
        name="Saltmyr Lysstøperi",
        owner_name="Ragnhild",
        zone="Europe/Oslo",
        units="metric",
        now=now,
    )
    by: dict[str, Any] = {"who": owner, "now": now}
    wax, cup = Wax.objects.create(name="R-36"), Vessel.objects.create(name="stoneware cup")
    wick = Wick.objects.create(series="flat cotton", size="4")
    glue = Fixing.objects.create(name="high-melt glue", kind="glue")
    trial = plan.plan_trial(
        name="Long Light", wax=wax, vessel=cup, load_percent=8, sealed=False, **by
    )
    member = plan.add_candidate(trial, oil=Oil.objects.create(name="Slate After Rain"), **by)
    made = plan.add_combination(
        member, wax=wax, load_percent=8, wick=wick, vessel=cup, fixing=glue, **by
    )
    burns = []
    for code in CODES:
        candle = plan.make_candle(made, code=code, **by)
        candle.poured_on = now.date() - timedelta(days=30)
        candle.save()
        lit_at = now - timedelta(minutes=10)
        burns.append(light(candle, kind="wick", lit_at=lit_at, limit_h=4, **by).pk)
    return {"burns": burns, "trial": trial.pk, "owner": owner.pk, "link": make_link(owner, now=now)}
