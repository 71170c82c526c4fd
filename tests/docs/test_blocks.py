"""The rules by which a page is run."""

import pytest


@pytest.fixture
def refreshed(blocks):
    def said(page: str) -> str:
        with blocks.example_folder():
            return blocks.refreshed(page)

    return said


def test_an_output_that_is_not_true_is_put_right(refreshed):
    page = "```console\n$ throwbench load --convert 185F\n185 °F is warm.\n```\n"
    assert refreshed(page) == page.replace("is warm.", "is 85 °C.")


def test_a_bar_hands_the_answer_to_the_shell(refreshed):
    page = "```console\n$ throwbench load --wax 100g --load 10% --of wax | head -n 1\n```\n"
    assert refreshed(page).splitlines()[2] == "10 % of wax is a share of 9.09 % of total."


def test_a_refusal_is_an_answer_too(refreshed):
    page = "```console\n$ throwbench load --wax 500g --load 80%\n```\n"
    assert "Load of wax is 80 %" in refreshed(page)


def test_a_bar_hands_on_the_answer_but_not_the_refusal(refreshed):
    page = "```console\n$ throwbench load --wax 500g --load 80% | cat\n```\n"
    assert refreshed(page) == page


def test_another_program_is_not_run(refreshed):
    with pytest.raises(ValueError, match="a page runs throwbench, cat, head or ls"):
        refreshed("```console\n$ rm scores.csv\n```\n")


def test_a_command_that_the_shell_does_not_end_well_stops_the_refreshing(blocks):
    with blocks.example_folder(), pytest.raises(blocks.subprocess.CalledProcessError):
        blocks.run("head -n 1 nothing.csv")


def test_what_python_prints_stands_below_it_once(refreshed):
    page = "```python\nx = 2\n```\n\n```python\nprint(x + x)\n```\n\n```text\n5\n```\n\nEnd\n"
    assert refreshed(page) == page.replace("5", "4")


def test_an_output_block_is_made_where_there_is_none_and_dropped_where_nothing_is_said(refreshed):
    page = "```python\nprint(1)\n```\n"
    assert refreshed(page) == "```python\nprint(1)\n```\n\n```text\n1\n```\n"
    assert refreshed("```python\nx = 1\n```\n\n```text\n1\n```\n") == "```python\nx = 1\n```\n"


def test_a_file_block_is_there_for_the_commands_below_it(refreshed):
    page = "```csv two.csv\na,b\n1,2\n```\n\n```console\n$ cat two.csv\n```\n"
    assert refreshed(page).endswith("$ cat two.csv\na,b\n1,2\n```\n")


def test_a_file_block_may_be_json_and_another_one_is_another_question(refreshed):
    entry = '```json trial.json\n{"format": 1, "day": "2027-05-24", "choose": %s}\n```\n\n'
    ask = "```console\n$ throwbench verdict . --json | head -n 4 | tail -n 1\n```\n"
    assert refreshed(entry % "-1" + ask) == entry % "-1" + ask
    assert "No clear winner yet" in refreshed(entry % 1 + ask.replace("4 | tail", "2 | tail"))


def test_the_same_question_about_another_file_is_asked_again(refreshed):
    head = "candle,candidate,assessor,room,sitting,attribute,score\n"
    ask = "```\n\n```console\n$ throwbench scent x.csv | head -n 1\n```\n"
    first = refreshed(f"```csv x.csv\n{head}A1,Heather,me,loft,1,liking,4\n{ask}")
    second = refreshed(f"```csv x.csv\n{head}A1,Heather,me,loft,1,liking,1\n{ask}")
    assert first.splitlines()[-2] != second.splitlines()[-2]


def test_other_blocks_and_words_are_left_alone(refreshed):
    page = "# Head\n\n```sh\n./run demo\n```\n\n```text\nas it is\n```\n"
    assert refreshed(page) == page
