"""A trial and what is asked of it, as the verdict: one way for every door."""

from throwbench.formats.archive import Archive, trial_of
from throwbench.formats.trial import Trial
from throwbench.rules.limit import figure_of, limits_on
from throwbench.rules.turn import by_candle
from throwbench.verdict.burn_reading import BurnReading, read_candle
from throwbench.verdict.judge import verdict
from throwbench.verdict.question import Question
from throwbench.verdict.result import Verdict


def judge_trial(trial: Trial, question: Question) -> Verdict:
    """The verdict on files that have been read.

    Raises
    ------
    UnclearError
        If the question does not fit the scores, or sets a limit that is not known.
    """
    return verdict(
        trial.scores,
        trial.burns,
        combinations=trial.combinations,
        settings=question.settings(trial.groups),
        day=question.day,
        problems=[str(problem) for problem in trial.problems],
        unused=[str(problem) for problem in trial.unused],
        unread=trial.unread,
    )


def judge_archive(archive: Archive) -> tuple[Verdict, Trial]:
    """The verdict that an archive asks for, and the trial that it was read as.

    The same archive gives the same verdict, whoever asks and whenever.

    Raises
    ------
    UnreadableFile
        If one of its files gives no row.
    UnclearError
        If the question does not fit the scores, or sets a limit that is not known.
    """
    trial = trial_of(archive)
    return judge_trial(trial, archive.question), trial


def readings_of(trial: Trial, question: Question) -> list[BurnReading]:
    """The figures of each burn log, by the candle's code; the limits are judged elsewhere.

    Raises
    ------
    UnclearError
        If the question sets a limit that is not known.
    """
    made_of = {made.candle: made for made in trial.combinations}
    end_mm = figure_of("end-line", limits_on(question.day, house=question.house))
    return [
        read_candle(code, log, end_mm=end_mm, combination=made_of.get(code))
        for code, log in sorted(by_candle(trial.burns).items())
    ]
