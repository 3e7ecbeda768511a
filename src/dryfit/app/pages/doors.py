"""What answers now: the pages on an open store, or why it cannot be opened."""

from collections.abc import Callable

from starlette.types import ASGIApp, Receive, Scope, Send

from dryfit.app.pages.desk import Desk
from dryfit.app.pages.rescue import rescue
from dryfit.app.pages.site import site
from dryfit.store.folder import Folder
from dryfit.store.opening import Store, open_store
from dryfit.store.trouble import Trouble


class Doors:
    """The application that is shown, changed when a shut store has been opened."""

    app: ASGIApp

    def __init__(self, folder: Folder, say: Callable[[str], None]) -> None:
        self._say = say
        self._desk = Desk()
        self._store: Store | None = None
        self._warm = self._closing = False
        try:
            self._opened(open_store(folder.path))
        except Trouble as trouble:
            say(f"{trouble.finding.message}; {trouble.finding.way_out}.")
            self.app = rescue(folder, trouble, self._opened)

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Hand a request on; once the first page is out, make ready for what comes after it."""
        await self.app(scope, receive, send)
        if self._store is not None and not self._warm and not self._closing:
            self._warm = True
            self._desk.warm()

    def _opened(self, store: Store) -> None:
        self._store = store
        self.app = site(store, self._desk)
        for note in store.notes:
            self._say(f"Note: {note.message}; {note.way_out}.")

    def let_go(self) -> None:
        """Break off what is being worked out."""
        self._closing = True
        self._desk.let_go()

    def close(self) -> None:
        """Close the store, and end what works for it."""
        self._desk.close()
        if self._store is not None:
            self._store.close()
