"""This machine's own programs: tried in turn, never waited for too long, none left behind."""

import threading
import time

import pytest

from throwbench.web.alarm import players
from throwbench.web.alarm.players import NO_NOTICES, NO_PLAYER, Player


@pytest.fixture
def player(tmp_path) -> Player:
    return Player(tmp_path / "alarm.wav")


def test_a_program_that_plays_is_enough(player, programs, tmp_path):
    noted = programs(paplay="exit 0", aplay="exit 0")
    assert player.sound() == ""
    assert noted.read_text() == f"paplay {tmp_path}/alarm.wav\n"


@pytest.mark.parametrize(
    ("name", "words"),
    [
        ("pw_play", "pw-play {}"),
        ("paplay", "paplay {}"),
        ("aplay", "aplay -q {}"),
        ("canberra_gtk_play", "canberra-gtk-play -f {}"),
        ("afplay", "afplay {}"),
    ],
)
def test_every_known_player_is_handed_the_file(player, programs, tmp_path, name, words):
    noted = programs(**{name: "exit 0"})
    assert player.has_sound()
    assert player.sound() == ""
    assert noted.read_text() == words.format(f"{tmp_path}/alarm.wav") + "\n"


def test_where_one_cannot_the_next_is_tried(player, programs):
    noted = programs(pw_play="exit 1", paplay="exit 1", aplay="exit 0")
    assert player.sound() == ""
    assert [line.split()[0] for line in noted.read_text().splitlines()] == [
        "pw-play",
        "paplay",
        "aplay",
    ]


def test_where_none_can_each_says_why(player, programs):
    programs(paplay="echo 'Connection refused' >&2; exit 1", aplay="exit 3")
    assert player.sound() == "paplay: Connection refused; aplay: ended with 3"


def test_without_a_program_it_says_so(player, programs):
    programs()
    assert not player.has_sound()
    assert not player.has_notices()
    assert player.sound() == NO_PLAYER
    assert player.notice("Put out W8R now", "Boat-shed loft") == NO_NOTICES


def test_a_file_that_is_no_program_is_said(player, programs, tmp_path):
    programs(aplay="exit 0")
    (tmp_path / "programs" / "aplay").write_bytes(b"\x7fELF")
    assert player.sound() == "aplay: Exec format error"


def test_a_program_that_hangs_is_ended(player, programs, monkeypatch):
    monkeypatch.setattr(players, "LIMIT_S", 0.3)
    programs(aplay="exec /bin/sleep 60")
    began = time.monotonic()
    assert player.sound() == "aplay: took longer than 0.3 s"
    assert time.monotonic() - began < 10


def test_words_of_a_maker_are_no_commands(player, programs):
    noted = programs(notify_send="exit 0")
    assert player.notice("stir $(reboot); `reboot`", '"; reboot') == ""
    assert "stir $(reboot); `reboot`" in noted.read_text()


def test_words_of_a_maker_are_no_options(player, programs):
    noted = programs(notify_send="exit 0")
    assert player.notice("--version now", "--icon=x: out by 13:05.") == ""
    assert noted.read_text().rstrip().endswith(" -- --version now --icon=x: out by 13:05.")


def test_a_mac_is_handed_the_words_apart_from_the_script(player, programs):
    noted = programs(osascript="exit 0")
    assert player.notice("Put out W8R now", "Boat-shed loft") == ""
    assert noted.read_text().rstrip().endswith("-e end run -- Put out W8R now Boat-shed loft")


def test_the_end_stops_what_plays_and_starts_nothing_more(player, programs, tmp_path):
    noted = programs(aplay="exec /bin/sleep 60", paplay="exit 0")
    (tmp_path / "programs" / "paplay").unlink()
    said = []
    thread = threading.Thread(target=lambda: said.append(player.sound()))
    thread.start()
    while not noted.exists():
        time.sleep(0.01)
    player.end()
    thread.join(10)
    assert said == ["aplay: ended with -9"]
    assert player.sound() == "aplay: the server was stopped"
