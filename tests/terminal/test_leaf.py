"""A long plan comes a screenful at a time where somebody can ask for the next, and whole where not."""

import io

import pytest
from prompt_toolkit.application import create_app_session
from prompt_toolkit.input import create_pipe_input
from prompt_toolkit.output import DummyOutput

from advisor.terminal.leaf import ASKED, leaf_through
from advisor.terminal.page import Page, _Console

HEIGHT = 24


@pytest.fixture(autouse=True)
def _somebody_is_there(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("advisor.terminal.leaf.can_ask", lambda: True)


def leafed(
    keys: str, lines: list[str], terminal: bool = True, height: int = HEIGHT, below: int = 0
) -> list[str]:
    """What stands on the screen after these keys."""
    page, out = Page(), io.StringIO()
    page.console = _Console(file=out, force_terminal=terminal, width=80, height=height, color_system=None)
    with create_pipe_input() as typed, create_app_session(input=typed, output=DummyOutput()):
        typed.send_text(keys)
        leaf_through(page, lambda: [page.line(line, indent=0) for line in lines] and None, below)
    return [line.rstrip() for line in out.getvalue().splitlines()]


def shown(screen: list[str], lines: list[str]) -> list[str]:
    return [line for line in screen if line in lines]


LONG = [f"line {number} of the plan" for number in range(60)]


def test_next_leads_through_the_whole_text_in_its_order() -> None:
    assert shown(leafed("111", LONG), LONG) == LONG


def test_a_screenful_leaves_room_for_the_question() -> None:
    first = shown(leafed("0", LONG), LONG)
    assert first == LONG[: HEIGHT - ASKED]


def test_the_question_fits_into_the_room_left_for_it() -> None:
    screen = leafed("0", LONG)
    asked = next(number for number, line in enumerate(screen) if "more lines" in line)
    assert asked < HEIGHT - 2  # the choices and the cursor's line come below it


def test_the_rest_comes_at_once() -> None:
    screen = leafed("2", LONG)
    assert shown(screen, LONG) == LONG
    assert sum("more lines" in line for line in screen) == 1
    assert "42 more lines" in "\n".join(screen)  # 60 less the 18 that a window of 24 has room for


def test_a_screenful_ends_where_a_paragraph_ends() -> None:
    lines = [*LONG[:12], "", *LONG[12:40]]
    screen = leafed("0", lines)
    assert shown(screen, LONG) == LONG[:12]


def test_a_heading_stays_with_what_it_heads() -> None:
    lines = [*LONG[:12], "", "HEADING", "", *LONG[12:40]]
    screen = leafed("0", lines)
    assert shown(screen, LONG) == LONG[:12]
    assert "HEADING" not in screen


def test_space_and_enter_go_on_too() -> None:
    assert shown(leafed(" \r1", LONG), LONG) == LONG


@pytest.mark.parametrize(("terminal", "height"), [(False, HEIGHT), (True, 12)])
def test_a_file_and_a_very_low_window_get_the_whole_text(terminal: bool, height: int) -> None:
    assert shown(leafed("", LONG, terminal, height), LONG) == LONG


def test_a_text_that_fits_comes_whole() -> None:
    assert shown(leafed("", LONG[:18]), LONG) == LONG[:18]


def test_no_screenful_ends_within_a_box() -> None:
    """What is below the cut of a box of warnings might not be read."""
    page, out = Page(), io.StringIO()
    page.console = _Console(file=out, force_terminal=True, width=80, height=HEIGHT, color_system=None)

    def show() -> None:
        for number in range(10):
            page.line(f"line {number}")
        page.boxed("warning", [f"mind {number}" for number in range(14)])
        for number in range(30):
            page.line(f"below {number}")

    with create_pipe_input() as typed, create_app_session(input=typed, output=DummyOutput()):
        typed.send_text("0")
        leaf_through(page, show)
    screen = out.getvalue()
    assert "mind 13" in screen
    assert "┗" in screen
    assert "below 29" not in screen


def test_where_nobody_can_press_a_key_the_text_comes_whole(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("advisor.terminal.leaf.can_ask", lambda: False)
    assert shown(leafed("", LONG), LONG) == LONG


def test_where_the_terminal_goes_away_the_rest_comes() -> None:
    assert shown(leafed("1\x04", LONG), LONG) == LONG


def test_what_a_question_would_push_off_the_screen_is_read_before_it_comes() -> None:
    """20 lines and a question of 10 are more than a window of 24; with one of 4 they are not."""
    lines = LONG[:18]
    assert "That is all of it." in "\n".join(leafed("1", lines, below=10))
    assert "That is all of it." not in "\n".join(leafed("", lines, below=4))
    assert "That is all of it." not in "\n".join(leafed("", lines, terminal=False, below=10))
    assert shown(leafed("1111", LONG, below=10), LONG) == LONG


@pytest.mark.parametrize("key", ["0", "2", " "])
def test_the_last_page_is_left_by_every_key_of_the_pages_before(key: str) -> None:
    assert "That is all of it." in "\n".join(leafed(key, LONG[:18], below=10))


@pytest.mark.parametrize("key", ["2", "\x04"])
def test_whoever_has_the_rest_at_once_presses_no_other_key(key: str) -> None:
    screen = leafed(key + "\x04", LONG, below=10)  # asked for more, it would end there
    assert shown(screen, LONG) == LONG
    assert "That is all of it." not in "\n".join(screen)
