"""What a panel prints: slips in each nose's own order, and tags for the front."""

from datetime import datetime

from throwbench.documents.slips import Slip, SlipSet, slips
from throwbench.documents.tags import front_tags
from throwbench.records.attribute import KINDS
from throwbench.science.errors import UnclearError
from throwbench.workshop.panel.models import Panel
from throwbench.workshop.panel.selectors.sittings import sittings_of


def slips_of(panel: Panel, now: datetime) -> bytes:
    """Slips for all that is not answered yet, as a PDF.

    Raises
    ------
    UnclearError
        Nothing is left to answer, this kind has no slip, or the scale is too long for one.
    """
    if not KINDS[panel.asks].has_slip:
        raise UnclearError(
            "There is no slip for this question.",
            "It is asked on the phone.",
            "Hand the phone round.",
        )
    left = tuple(
        Slip(
            assessor=row.name,
            tag=seat.tag,
            room=seat.room.name,
            place=(row.place_of(seat), len(row.walk)),
        )
        for row in sittings_of(panel, now)
        if row.comes
        for seat in row.ahead
    )
    if not left:
        raise UnclearError(
            "No slip is left to print.",
            "A slip is for a nose that has still to answer.",
            "Type in what came back, or close the panel.",
        )
    return slips(
        SlipSet(
            day=panel.day,
            slips=left,
            asks=panel.asks,
            scale=(panel.trial.scale_low, panel.trial.scale_high),
            clean_air_min=panel.clean_air_min,
        )
    )


def front_tags_of(panel: Panel) -> bytes:
    """The panel's tags as a PDF: three digits and nothing else."""
    return front_tags([seat.tag for seat in panel.seats.all()], day=panel.day)
