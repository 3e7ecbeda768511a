"""One process that works things out, one after the other, and can be taken off what it is at.

It is started at the first use or by `warm`, loads what it needs, and is started anew after `drop`
or if it dies. Python's own start of a process is used on every system, so nothing is inherited.
"""

import asyncio
import signal
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager, suppress
from multiprocessing import get_context, resource_tracker
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess
from typing import Any

from dryfit.app.pages import tasks


class Gone(Exception):
    """The process ended before its answer: it was taken off, or the system ended it."""


class Failed(Exception):
    """A task broke; the text is what broke it, for a report."""


def serve(pipe: Connection) -> None:
    """Work off tasks until the other end of the pipe is closed."""
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C reaches it too; who started it ends it
    with suppress(EOFError, OSError):
        tasks.warm()
        while True:
            name, arguments = pipe.recv()
            pipe.send(_done(name, arguments))


def _done(name: str, arguments: tuple[Any, ...]) -> tuple[bool, Any]:
    """Do one task; whatever breaks in it must reach who asked, not end the process."""
    try:
        return True, tasks.TASKS[name](*arguments)
    except Exception as error:
        return False, f"{type(error).__name__}: {error}"


@contextmanager
def _deaf() -> Iterator[None]:
    """Start a process that does not hear Ctrl-C, which reaches it while Python is still loading.

    What is blocked here is blocked there from its first moment on; Windows cannot do that.
    """
    if not hasattr(signal, "pthread_sigmask"):
        yield
        return
    resource_tracker.ensure_running()  # it would lift the block as it starts its own process
    before = signal.pthread_sigmask(signal.SIG_BLOCK, {signal.SIGINT})
    try:
        yield
    finally:
        signal.pthread_sigmask(signal.SIG_SETMASK, before)


class Hand:
    """A process with its pipe; `do` waits its turn.

    Attributes
    ----------
    at
        The unit and the revision of the task it is at; None while it has none.
    """

    at: tuple[int, int] | None = None

    def __init__(self) -> None:
        self._turn = asyncio.Lock()
        self._reader = ThreadPoolExecutor(1, "dryfit-hand")
        self._process: BaseProcess | None = None
        self._pipe: Connection | None = None

    def warm(self) -> Connection:
        """Start the process if there is none, so that it is ready when it is wanted."""
        if self._pipe is None or self._process is None or not self._process.is_alive():
            context = get_context("spawn")
            self._pipe, other = context.Pipe()
            self._process = context.Process(target=serve, args=(other,), daemon=True)
            with _deaf():
                self._process.start()
            other.close()
        return self._pipe

    async def do(self, name: str, arguments: tuple[Any, ...], of: tuple[int, int]) -> Any:
        """Have a task done, after those that came before."""
        loop = asyncio.get_running_loop()
        async with self._turn:
            well, answer = await loop.run_in_executor(
                self._reader, self._exchange, name, arguments, of
            )
        if not well:
            raise Failed(answer)
        return answer

    def _exchange(
        self, name: str, arguments: tuple[Any, ...], of: tuple[int, int]
    ) -> tuple[bool, Any]:
        self.at = of
        try:
            pipe = self.warm()
            pipe.send((name, arguments))
            answer: tuple[bool, Any] = pipe.recv()
        except (EOFError, OSError) as error:
            self.drop()
            raise Gone from error
        finally:
            self.at = None
        return answer

    def drop(self) -> None:
        """End the process, whatever it is at; the next task starts another."""
        process, self._process = self._process, None
        if process is not None:
            process.terminate()

    def close(self) -> None:
        """End it for good."""
        self.drop()
        self._reader.shutdown(wait=False, cancel_futures=True)
