"""The picture: what a maker sends round, as a PNG."""

from dataclasses import asdict

from throwbench.documents.chart import chart, legend
from throwbench.documents.draw import svg
from throwbench.documents.heading import Heading
from throwbench.documents.tokens import LIGHT, Theme
from throwbench.documents.typeset import typeset
from throwbench.documents.widths import printable
from throwbench.documents.words import keep_names_whole
from throwbench.verdict.result import Verdict


def picture(verdict: Verdict, *, heading: Heading, theme: Theme = LIGHT) -> bytes:
    """Return sentence, chart and caution as a PNG, 1600 picture elements wide.

    Raises
    ------
    TypesettingError
        The picture cannot be set as it should be.

    Notes
    -----
    The same arguments give the same bytes. It grows downwards with the number of oils.
    """
    oils = [one.candidate for one in verdict.candidates]
    data = {
        "title": heading.title,
        "headline": printable(keep_names_whole(verdict.headline, oils)),
        "risk": printable(keep_names_whole(verdict.risk, oils)),
        "svg": svg(chart(verdict, theme=theme)),
        "legend": printable(legend(verdict)),
        "stands_above": printable(verdict.caution),
        "invented": heading.invented_words,
        "theme": asdict(theme),
    }
    return typeset("picture.typ", data, form="png", day=heading.day)
