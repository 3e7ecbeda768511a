"""The server of the pages, which ends at once: who still waits for an answer is told so."""

import logging
import socket
from collections.abc import Callable

import uvicorn


class Server(uvicorn.Server):
    """A server that lets go of what is being worked out before it ends.

    Parameters
    ----------
    config
        As of any such server.
    let_go
        What breaks that off.
    """

    def __init__(self, config: uvicorn.Config, let_go: Callable[[], None]) -> None:
        super().__init__(config)
        self._let_go = let_go

    async def shutdown(self, sockets: list[socket.socket] | None = None) -> None:
        """End: whoever is cut off after that is no error to be told in the window."""
        self._let_go()
        logging.getLogger("uvicorn.error").setLevel(logging.CRITICAL)
        await super().shutdown(sockets)
