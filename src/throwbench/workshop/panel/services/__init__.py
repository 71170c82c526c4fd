"""What a maker and a nose do at a panel: one function each, the only writers."""

from throwbench.workshop.panel.services.answering import answer
from throwbench.workshop.panel.services.links import personal_link, personal_way_in
from throwbench.workshop.panel.services.noses import called, join, note_nose, sit_down, sit_out
from throwbench.workshop.panel.services.opening import close_panel, open_panel
from throwbench.workshop.panel.services.slips import TypedSlip, put_slip_right, type_slips

__all__ = [
    "TypedSlip",
    "answer",
    "called",
    "close_panel",
    "join",
    "note_nose",
    "open_panel",
    "personal_link",
    "personal_way_in",
    "put_slip_right",
    "sit_down",
    "sit_out",
    "type_slips",
]
