"""The watch: rings once a minute when something is due, and writes down what became of it."""

import wave
from datetime import timedelta

import numpy as np
import pytest

from throwbench.web.alarm.players import NO_NOTICES, NO_PLAYER, Player
from throwbench.web.alarm.sound import sound_file, two_tones
from throwbench.web.alarm.watch import Watcher
from throwbench.workshop.house.alarms import note_there
from throwbench.workshop.house.models import Ring, Timer, Watch
from throwbench.workshop.house.timers import set_timer, timer_done

MINUTE = timedelta(minutes=1)
HOUR = 60 * MINUTE


class Clock:
    """A watch whose clock is passed in: `look` is one look, and waits for what it began."""

    def __init__(self, watcher: Watcher, now) -> None:
        self.watcher, self.now, self.began = watcher, now, now

    def look(self, at=None) -> None:
        self.now = at or self.now + timedelta(seconds=5)
        self.watcher.tick(self.now, elapsed_s=(self.now - self.began).total_seconds())
        self.watcher.note_what_rang(wait=True)

    def until(self, moment) -> None:
        while self.now < moment:
            self.look(min(moment, self.now + timedelta(seconds=5)))


@pytest.fixture
def watched(tmp_path, now):
    made = []

    def begin(at=now) -> Clock:
        made.append(Watcher(Player(tmp_path / "alarm.wav")))
        return Clock(made[-1], at)

    yield begin
    for watcher in made:
        watcher.end()


def played(noted) -> list[str]:
    return noted.read_text().splitlines() if noted.exists() else []


def sounds(noted) -> int:
    return sum(line.startswith("aplay") for line in played(noted))


@pytest.fixture
def noted(programs):
    return programs(aplay="exit 0", notify_send="exit 0")


def test_nothing_rings_before_it_is_due(watched, noted, lit, loft, now):
    lit("W8R", room=loft, ago=2 * HOUR)
    watch = watched()
    watch.until(now + 20 * MINUTE)
    assert played(noted) == []


def test_at_the_time_this_machine_sounds_and_shows_it(
    *, watched, noted, lit, loft, odd, now, tmp_path
):
    burn = lit("W8R", room=loft, ago=4 * HOUR, handed_to=odd)
    watched().look(now)
    assert sorted(played(noted)) == [
        f"aplay -q {tmp_path}/alarm.wav",
        "notify-send --urgency=critical --app-name=Throwbench -- Put out W8R now "
        "Boat-shed loft: out by 11:05, with Odd. Wax on fire: lid on, no water.",
    ]
    rings = Ring.objects.order_by("rung").values_list("deadline", "due_at", "rung", "at", "trouble")
    assert list(rings) == [
        (f"burn {burn.pk}", now, "machine", now, ""),
        (f"burn {burn.pk}", now, "notice", now, ""),
    ]


def test_a_first_word_is_shown_ten_minutes_before_without_a_sound(watched, noted, lit, loft, now):
    lit("W8R", room=loft, ago=4 * HOUR - 15 * MINUTE)
    watch = watched()
    watch.until(now + 5 * MINUTE)
    watch.until(now + 14 * MINUTE)
    (said,) = played(noted)
    assert "Soon out: W8R Boat-shed loft: out by 11:20." in said
    assert not Ring.objects.exists()


def test_a_short_timer_has_no_first_word(watched, noted, owner, now):
    set_timer(what="stir", minutes=3, who=owner, now=now)
    watch = watched()
    watch.until(now + 2 * MINUTE)
    assert played(noted) == []
    watch.look(now + 3 * MINUTE)
    assert any("stir now Timer for 11:08." in line for line in played(noted))


def test_the_sound_comes_back_every_minute_and_is_written_down_once(watched, noted, lit, loft, now):
    lit("W8R", room=loft, ago=4 * HOUR)
    watch = watched()
    watch.look(now)
    watch.until(now + 5 * MINUTE)
    assert sounds(noted) == 6
    assert len(played(noted)) == 7
    assert Ring.objects.count() == 2


def test_after_a_quarter_of_an_hour_it_stops(watched, noted, lit, loft, now):
    lit("W8R", room=loft, ago=4 * HOUR)
    watch = watched()
    watch.look(now)
    watch.until(now + 20 * MINUTE)
    assert sounds(noted) == 15


def test_out_is_quiet(watched, noted, lit, loft, now):
    burn = lit("W8R", room=loft, ago=4 * HOUR)
    watch = watched()
    watch.look(now)
    burn.out_at = now + timedelta(seconds=30)
    burn.save()
    watch.until(now + 5 * MINUTE)
    assert sounds(noted) == 1


def test_done_is_quiet(watched, noted, owner, now):
    set_timer(what="stir", minutes=3, who=owner, now=now - 3 * MINUTE)
    watch = watched()
    watch.look(now)
    timer_done(Timer.objects.get(), who=owner, now=now)
    watch.until(now + 5 * MINUTE)
    assert sounds(noted) == 1


def test_who_is_there_has_two_minutes_of_quiet_then_it_rings_again(
    *, watched, noted, lit, loft, owner, now
):
    lit("W8R", room=loft, ago=4 * HOUR)
    watch = watched()
    watch.look(now)
    note_there(who=owner, now=now + timedelta(seconds=10))
    watch.until(now + 2 * MINUTE)
    assert sounds(noted) == 1
    watch.until(now + 3 * MINUTE)
    assert sounds(noted) == 2


def test_several_due_together_are_one_sound_and_one_notification(
    *, watched, noted, lit, loft, kitchen, now
):
    lit("W8R", room=loft, ago=4 * HOUR)
    lit("K2F", room=kitchen, ago=4 * HOUR)
    watched().look(now)
    assert len(played(noted)) == 2
    assert any("Put out K2F and W8R now" in line for line in played(noted))
    assert Ring.objects.count() == 4


def test_a_restart_in_between_goes_on_and_does_not_begin_the_quarter_anew(
    watched, noted, lit, loft, now
):
    lit("W8R", room=loft, ago=4 * HOUR)
    first = watched()
    first.look(now)
    first.until(now + 5 * MINUTE)
    second = watched(now + 6 * MINUTE)
    second.look(now + 6 * MINUTE)
    second.until(now + 30 * MINUTE)
    assert sounds(noted) == 6 + 9
    assert Ring.objects.count() == 2


def test_what_came_due_while_the_machine_slept_rings_when_it_wakes(watched, noted, lit, loft, now):
    lit("W8R", room=loft, ago=4 * HOUR - MINUTE)
    watch = watched()
    watch.look(now)
    watch.look(now + 40 * MINUTE)
    assert sounds(noted) == 1
    assert Ring.objects.first().at == now + 40 * MINUTE


def test_without_a_program_the_rung_says_so(watched, programs, lit, loft, now):
    programs()
    lit("W8R", room=loft, ago=4 * HOUR)
    watched().look(now)
    troubles = dict(Ring.objects.values_list("rung", "trouble"))
    assert troubles == {"machine": NO_PLAYER, "notice": NO_NOTICES}


def test_a_program_that_cannot_is_quoted(watched, programs, lit, loft, now):
    programs(aplay="echo 'audio open error: No such file or directory' >&2; exit 1")
    lit("W8R", room=loft, ago=4 * HOUR)
    watched().look(now)
    trouble = Ring.objects.get(rung="machine").trouble
    assert trouble == "aplay: audio open error: No such file or directory"


def test_that_somebody_watches_is_written_at_most_every_twenty_seconds(
    watched, noted, lit, loft, now
):
    lit("W8R", room=loft, ago=HOUR)
    watch = watched()
    watch.look(now)
    kept = set()
    while watch.now < now + 2 * MINUTE:
        watch.look()
        kept.add(Watch.objects.get().last_at)
    assert sorted(kept)[1] - sorted(kept)[0] == timedelta(seconds=20)
    assert len(kept) == 7


def test_with_nothing_lit_or_timed_nothing_is_written(watched, noted, now, db):
    watch = watched()
    watch.until(now + 2 * MINUTE)
    assert not Watch.objects.exists()
    assert played(noted) == []


def test_the_sound_is_a_wav_file_of_two_tones(tmp_path):
    with wave.open(str(sound_file(tmp_path))) as file:
        assert (file.getnchannels(), file.getsampwidth(), file.getframerate()) == (1, 2, 22_050)
        heard = np.frombuffer(file.readframes(file.getnframes()), "<i2").reshape(6, -1)
    peaks = [np.argmax(np.abs(np.fft.rfft(tone))) / (heard.shape[1] / 22_050) for tone in heard]
    assert peaks == pytest.approx([880, 660] * 3, abs=2.5)
    assert 2.3 < heard.size / 22_050 < 2.5
    assert np.abs(heard).max() < 32_767


def test_a_sound_file_that_is_not_whole_is_made_anew(tmp_path):
    (tmp_path / "alarm.wav").write_bytes(b"RIFF")
    assert sound_file(tmp_path).read_bytes() == two_tones()
