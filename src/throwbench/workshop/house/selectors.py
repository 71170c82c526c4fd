"""What the house knows."""

from dataclasses import dataclass
from datetime import date

from django.db.models import QuerySet

from throwbench.rules.limit import Limit, figure_of, limits_on
from throwbench.rules.rule import Rule, rules
from throwbench.science.words import plain
from throwbench.verdict.words import number
from throwbench.workshop.house.models import HouseLimit, Person, Role, Room, Workshop


def workshop() -> Workshop | None:
    """The settings, or None before the workshop has begun."""
    return Workshop.objects.filter(id=1).first()


def house_limits() -> dict[str, float]:
    """The maker's own limits by the id of the rule."""
    return dict(HouseLimit.objects.values_list("rule", "value"))


def house_figure(rule: str, day: date) -> float:
    """The figure of a rule in force on a day, in the rule's unit: the maker's own, or the shipped.

    Every page, sheet and alarm asks here, so all say the same.
    """
    return figure_of(rule, limits_on(day, house=house_limits()))


def people() -> QuerySet[Person]:
    """Everybody who is not blanked: owners first, then helpers, then assessors."""
    return Person.objects.filter(blanked_at=None).order_by("-role", "id")


def may_let_in(who: Person) -> QuerySet[Person]:
    """Whom somebody may let a phone in as: an owner everybody, a helper no owner."""
    everybody = people()
    return everybody if who.role == Role.OWNER else everybody.exclude(role=Role.OWNER)


def rooms() -> QuerySet[Room]:
    return Room.objects.order_by("name")


def overview(day: date) -> str:
    """The house in one sentence: 'Six people, three rooms; burns end after 4 h.'"""
    who = counted(people().count(), "person", "people")
    where = counted(Room.objects.count(), "room", "rooms")
    hours = plain(house_figure("burn-length", day))
    sentence = f"{who}, {where}; burns end after {hours}\N{NO-BREAK SPACE}h."
    return sentence[0].upper() + sentence[1:]


def counted(count: int, one: str, many: str) -> str:
    """'one person', 'six people', '14 rooms', 'no rooms'."""
    return f"{number(count)} {one if count == 1 else many}"


@dataclass(frozen=True, slots=True, kw_only=True)
class LimitShown:
    """A limit that the maker can set: what the program ships, and the maker's own beside it."""

    rule: Rule
    shipped: float | None
    own: float | None

    @property
    def can_be_set(self) -> bool:
        return self.rule.compare != "never" and self.rule.kind != "laboratory"

    @property
    def source(self) -> str:
        """Who says so, with the article."""
        return Limit(rule=self.rule, figure=self.shipped).source()

    @property
    def shipped_words(self) -> str:
        if self.rule.kind == "laboratory" or self.shipped is not None or not self.can_be_set:
            return Limit(rule=self.rule, figure=self.shipped).sentence()
        return "no figure: not judged until you set one"

    @property
    def own_words(self) -> str:
        if self.own is None:
            return "none"
        return Limit(rule=self.rule, figure=self.own, set_by_maker=True).sentence()


def limits_shown(day: date) -> tuple[LimitShown, ...]:
    """Every rule in the order of its file, with both figures on that day."""
    own = house_limits()
    shipped = {limit.rule.id: limit.figure for limit in limits_on(day)}
    return tuple(
        LimitShown(rule=rule, shipped=shipped.get(rule.id), own=own.get(rule.id))
        for rule in rules()
    )


def limit_shown(rule: str, *, day: date) -> LimitShown | None:
    """One rule with both figures; None where there is no such rule."""
    return next((limit for limit in limits_shown(day) if limit.rule.id == rule), None)
