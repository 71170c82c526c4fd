"""What stands on every sheet beside the verdict itself."""

from dataclasses import dataclass
from datetime import date

from throwbench.documents.widths import printable
from throwbench.documents.words import day_words

INVENTED = "All people, suppliers, oils and figures are invented."


@dataclass(frozen=True, slots=True, kw_only=True)
class Heading:
    """Whose trial it is, and of which day. `invented` marks demo data as such."""

    workshop: str
    trial: str
    day: date
    invented: bool = False

    @property
    def trial_line(self) -> str:
        return printable(f"Trial {self.trial} · verdict of {day_words(self.day)}")

    @property
    def title(self) -> str:
        return printable(f"Result · {self.trial} · {day_words(self.day)}")

    @property
    def invented_words(self) -> str:
        return INVENTED if self.invented else ""
