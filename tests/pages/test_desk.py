"""The desk: each answer once, the newest text wins, a process that dies is replaced."""

import asyncio
import os
import signal
from collections.abc import Awaitable, Callable, Coroutine
from concurrent.futures import ThreadPoolExecutor
from functools import partial
from multiprocessing import active_children
from typing import Any, TypeVar

import pytest

from dryfit.app.pages.desk import Desk, Overtaken
from dryfit.app.pages.hand import Failed, Hand
from dryfit.app.usecases import demos

Done = TypeVar("Done")

SMALL = demos.text("lay-shaft")
LARGE = demos.text("bevel-box")


def at_a_desk(work: Callable[[Desk], Awaitable[None]]) -> None:
    """Do something at a desk of its own."""

    async def working() -> None:
        desk = Desk()
        try:
            await asyncio.wait_for(work(desk), 120)
        finally:
            desk.close()

    in_a_loop(working)


def in_a_loop(work: Callable[[], Coroutine[Any, Any, Done]]) -> Done:
    """Do something in a loop and a thread of its own: this thread may drive a browser."""
    with ThreadPoolExecutor(1) as apart:
        return apart.submit(lambda: asyncio.run(work())).result()


def test_an_answer_is_worked_out_once() -> None:
    """Three who ask the same at once get one answer; asked again it is there at once."""

    async def work(desk: Desk) -> None:
        asked = [desk.ask("review", SMALL, of=(1, 1)) for _ in range(3)]
        first, second, third = await asyncio.gather(*asked)
        assert first is second is third
        assert first.ready
        assert desk.known("review", SMALL) is first
        assert desk.known("review", LARGE) is None

    at_a_desk(work)


def test_the_newest_text_breaks_off_an_older_one() -> None:
    """After an edit nobody waits for what was asked of the text before."""

    async def work(desk: Desk) -> None:
        old = asyncio.create_task(
            desk.ask("printed", LARGE, "book", "x.yaml", "2026-01-01", "a4", of=(1, 1), pace="long")
        )
        waiting = asyncio.create_task(desk.ask("choose", LARGE, of=(1, 1), pace="long"))
        await asyncio.sleep(1.5)
        assert not old.done()
        newer = await desk.ask("review", SMALL, of=(1, 2))
        assert newer.ready
        for task in (old, waiting):
            with pytest.raises(Overtaken):
                await asyncio.wait_for(task, 30)
        assert await desk.ask("order", SMALL, of=(1, 2), pace="long")

    at_a_desk(work)


def test_another_unit_is_left_alone() -> None:
    """An edit of one unit does not break off what is worked out for another."""

    async def work(desk: Desk) -> None:
        other = asyncio.create_task(desk.ask("choose", SMALL, of=(2, 1), pace="long"))
        await asyncio.sleep(0)
        await desk.ask("review", LARGE, of=(1, 1))
        await desk.ask("review", SMALL, of=(1, 2))
        assert (await other).answered

    at_a_desk(work)


def test_a_dead_process_is_replaced() -> None:
    """When the system ends the process, who asked is told to ask again, and then gets an answer."""

    async def work(desk: Desk) -> None:
        await desk.ask("review", SMALL, of=(1, 1), pace="long")
        process = desk._hands["long"]._process
        assert process is not None
        assert process.pid is not None
        waiting = asyncio.create_task(desk.ask("choose", LARGE, of=(1, 1), pace="long"))
        await asyncio.sleep(0.1)
        os.kill(process.pid, 9 if os.name != "nt" else 15)
        with pytest.raises(Overtaken):
            await waiting
        assert (await desk.ask("review", LARGE, of=(1, 1), pace="long")).ready

    at_a_desk(work)


def test_a_task_that_breaks_is_told_and_the_desk_goes_on() -> None:
    """What breaks in one answer does not take the pages with it."""

    async def work(desk: Desk) -> None:
        with pytest.raises(Failed, match="day"):
            await desk.ask("printed", SMALL, "book", "x", "no day", "a4", of=(1, 1))
        with pytest.raises(Failed, match="KeyError"):
            await desk.ask("nonsense", SMALL, of=(1, 1))
        assert (await desk.ask("review", SMALL, of=(1, 1))).ready

    at_a_desk(work)


def test_what_was_asked_first_and_left_is_still_kept() -> None:
    """Somebody who goes to another page finds the answer when they come back."""

    async def work(desk: Desk) -> None:
        gone = asyncio.create_task(desk.ask("review", SMALL, of=(1, 1)))
        await asyncio.sleep(0)
        gone.cancel()
        with pytest.raises(asyncio.CancelledError):
            await gone
        await desk.ask("review", LARGE, of=(2, 1))
        assert desk.known("review", SMALL) is not None

    at_a_desk(work)


@pytest.mark.skipif(os.name == "nt", reason="Windows sends no Ctrl-C to one process alone")
def test_a_process_just_started_does_not_hear_ctrl_c(capfd: pytest.CaptureFixture[str]) -> None:
    """Ctrl-C right after the first page reaches what is still loading: no traceback is printed."""
    for _ in range(3):
        hand, before = Hand(), active_children()
        hand.warm()
        (process,) = (one for one in active_children() if one not in before)
        assert process.pid is not None
        os.kill(process.pid, signal.SIGINT)
        rows = in_a_loop(partial(hand.do, "walk_rows", (b"", (), "nut"), (0, 0)))
        assert rows == ()
        assert process.is_alive()
        hand.close()
        process.join(10)
    assert "Traceback" not in capfd.readouterr().err
