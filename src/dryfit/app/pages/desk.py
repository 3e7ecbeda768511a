"""Who works things out for the pages: two hands, one for first looks and one for what takes long.

What was worked out for a text is kept. The newest text of a unit wins: what is still to be done for
an older one is let go, and a long task already begun for it is broken off.
"""

import asyncio
from collections import OrderedDict
from dataclasses import dataclass
from hashlib import sha256
from typing import Any, Literal

from dryfit.app.pages.hand import Gone, Hand

KEPT = 400
"""How many answers are kept; a picture is some 30 KB, an answer less."""

Pace = Literal["quick", "long"]
Key = tuple[str, bytes, tuple[Any, ...]]


class Overtaken(Exception):
    """The text was changed before the answer came; ask for the newest."""


class Closing(Exception):
    """dryfit is being closed; nothing more is worked out."""


@dataclass(frozen=True, slots=True)
class Job:
    """Something being worked out: of which unit, for which of its texts."""

    unit: int
    revision: int
    answer: "asyncio.Task[Any]"


class Desk:
    """Answers of tasks, each worked out once for a text."""

    def __init__(self) -> None:
        self._hands: dict[Pace, Hand] = {"quick": Hand(), "long": Hand()}
        self._kept: OrderedDict[Key, Any] = OrderedDict()
        self._jobs: dict[Key, Job] = {}
        self._newest: dict[int, int] = {}
        self._closing = False

    def warm(self) -> None:
        """Start both hands."""
        for hand in self._hands.values():
            hand.warm()

    def known(self, name: str, data: bytes, *arguments: Any) -> Any | None:
        """Give what has been worked out already, at once; None if it has not."""
        return self._kept.get(_key(name, data, arguments))

    async def ask(
        self, name: str, data: bytes, *arguments: Any, of: tuple[int, int], pace: Pace = "quick"
    ) -> Any:
        """Have a task done for a text.

        Parameters
        ----------
        name
            Of a task, see `tasks.TASKS`.
        data, arguments
            What it takes.
        of
            Number of the unit and of its revision.
        pace
            By which hand: `long` for what takes more than half a second.

        Raises
        ------
        Overtaken
            Where a newer text of the unit was asked about meanwhile.
        Failed
            Where the task broke.
        Closing
            Where dryfit is being closed.
        """
        if self._closing:
            raise Closing
        key = _key(name, data, arguments)
        if key in self._kept:
            self._kept.move_to_end(key)
            return self._kept[key]
        self._overtake(*of)
        if key not in self._jobs:
            work = self._work(key, (data, *arguments), of, pace)
            self._jobs[key] = Job(*of, asyncio.create_task(work))
        answer = self._jobs[key].answer
        try:
            return await asyncio.shield(answer)
        except asyncio.CancelledError:
            if answer.cancelled():
                raise self._broken_off() from None
            raise  # it is who asked that went away
        except Gone:
            raise self._broken_off() from None

    def _broken_off(self) -> Overtaken | Closing:
        return Closing() if self._closing else Overtaken()

    async def _work(
        self, key: Key, arguments: tuple[Any, ...], of: tuple[int, int], pace: Pace
    ) -> Any:
        try:
            answer = await self._hands[pace].do(key[0], arguments, of)
        finally:
            self._jobs.pop(key, None)
        self._kept[key] = answer
        while len(self._kept) > KEPT:
            self._kept.popitem(last=False)
        return answer

    def _overtake(self, unit: int, revision: int) -> None:
        """Let go of all that is to be done for other texts of a unit."""
        if self._newest.get(unit) == revision:
            return
        self._newest[unit] = revision
        for job in list(self._jobs.values()):
            if job.unit == unit and job.revision != revision:
                job.answer.cancel()
        at = self._hands["long"].at
        if at and at[0] == unit and at[1] != revision:
            self._hands["long"].drop()

    def let_go(self) -> None:
        """Tell all who wait that dryfit is being closed, and end both hands."""
        self._closing = True
        for job in list(self._jobs.values()):
            job.answer.cancel()
        self.close()

    def close(self) -> None:
        """End both hands."""
        for hand in self._hands.values():
            hand.close()


def _key(name: str, data: bytes, arguments: tuple[Any, ...]) -> Key:
    return name, sha256(data).digest(), arguments
