"""`set` and `expect`: which pack to fit, by which route, and what every check should read then."""

from dataclasses import dataclass

from dryfit.app.usecases.answers import (
    ActAnswer,
    CheckAnswer,
    LackingAnswer,
    NeedAnswer,
    PackAnswer,
    SparedAnswer,
    UsualAnswer,
    WantedAnswer,
    WorthAnswer,
    act_answer,
    check_answer,
    lacking_answer,
    mm,
    mm_or_none,
    need_answer,
    pack_answer,
    spared_answer,
    usual_answer,
    wanted_answer,
    what_is_read,
    worth_answer,
)
from dryfit.app.usecases.far_out import all_far_out
from dryfit.app.usecases.opening import FindingAnswer, Opened, located, open_text
from dryfit.app.usecases.ordering.schedule import planned
from dryfit.app.usecases.written import WrittenWalkAnswer, written_answer
from dryfit.ask.asking import Asking, usual_draws
from dryfit.ask.closing import Closing, close_up
from dryfit.ask.in_hand import Set
from dryfit.ask.instruments import USUAL_INSTRUMENT
from dryfit.ask.nut_routes import Turned
from dryfit.ask.route import TAKE_OUT, WALK, Route
from dryfit.ask.taken_as import taken_as
from dryfit.ask.targets import named
from dryfit.ask.written_walks import TakenWalk
from dryfit.model.rebuild import FloatNeed, LashNeed, Need, NipNeed, PreloadNeed


@dataclass(frozen=True)
class ChooseRequest:
    """A text, and how many draws to answer with if not as many as usual."""

    data: bytes
    draws: int | None = None


@dataclass(frozen=True)
class TermAnswer:
    """One term of the sum that gives a pack, with its sign."""

    label: str
    value_mm: float


@dataclass(frozen=True)
class RouteAnswer:
    """One way to find a pack; the pack is what was fitted + offset + sign x reading."""

    name: str
    chance: float | None
    pack: PackAnswer | None
    check: str
    at: str
    by: str
    left_out: tuple[str, ...]
    trial_mm: float
    offset_mm: float
    sign: float
    reading_mm: tuple[float, float, float] | None
    taken_mm: float | None
    quarrel_mm: float
    harm: float
    why_not: str
    trials_mm: tuple[float, ...] = ()
    kind: str = ""


@dataclass(frozen=True)
class NutAnswer:
    """How a nut that adjusts is set.

    Attributes
    ----------
    shown_mm
        What the dial shows then; None where nothing is left to read.
    tighten_deg
        How far to tighten it from what it is set to now.
    past_deg
        How far that is past where the float ends; less than nothing short of it.
    to_mm
        Float at which it then stands, locked; less than nothing is a nip.
    locking_mm
        What a lock nut takes out of it.
    """

    shown_mm: float | None
    tighten_deg: float | None
    past_deg: float | None
    to_mm: float
    locking_mm: float


@dataclass(frozen=True)
class SettingAnswer:
    """One setting.

    Attributes
    ----------
    part
        The setting.
    between
        Its neighbours in the stack.
    fitted_mm
        What is in now, if it is written.
    pack
        What to fit by the recommended route; None until its reading is taken.
    in_hand_mm
        Thickness for which the checks are told.
    wished_mm
        Thickness that the sum of sizes asks for.
    why
        Why the pack is not that: `drawer` or `harm`, or nothing.
    route
        Name of the recommended route.
    routes
        All routes with their chance.
    terms
        The sum that gives the pack.
    thicker
        What a thicker pack does.
    tried
        Other packs and their chance by the sizes.
    nut
        How it is set, if it is a nut; its pack is the float it is set to.
    """

    part: str
    between: tuple[str, str]
    fitted_mm: float | None
    pack: PackAnswer | None
    in_hand_mm: float | None
    wished_mm: float | None
    why: str
    route: str
    routes: tuple[RouteAnswer, ...]
    terms: tuple[TermAnswer, ...]
    thicker: str
    tried: tuple[tuple[float, float], ...]
    nut: NutAnswer | None = None


@dataclass(frozen=True)
class ChooseAnswer:
    """The sheet: what to fit, what to check, how sure it is, what would make it surer."""

    title: str
    notes: str
    system: str
    answered: bool
    findings: tuple[FindingAnswer, ...]
    wanted: tuple[WantedAnswer, ...] = ()
    settings: tuple[SettingAnswer, ...] = ()
    checks: tuple[CheckAnswer, ...] = ()
    chance: float | None = None
    harm: float | None = None
    chance_as_it_is: float | None = None
    harm_as_it_is: float | None = None
    taken_as: tuple[str, ...] = ()
    hot: bool = False
    worth: tuple[WorthAnswer, ...] = ()
    lacking: tuple[LackingAnswer, ...] = ()
    needs: tuple[NeedAnswer, ...] = ()
    chance_by_sum: float | None = None
    acts: tuple[ActAnswer, ...] = ()
    usual: UsualAnswer | None = None
    walks: tuple[WrittenWalkAnswer, ...] = ()
    first_look: int = 0
    spared: tuple[SparedAnswer, ...] = ()


def choose(request: ChooseRequest) -> ChooseAnswer:
    """Answer all that is asked of a rebuild before it is closed."""
    return answered(open_text(request.data), request.draws)


def answered(opened: Opened, draws: int | None = None) -> ChooseAnswer:
    """Answer a text that is open, with as many draws as usual if not told."""
    return answered_by(opened, asking_of(opened, draws))


def asking_of(opened: Opened, draws: int | None = None) -> Asking:
    """Make a text ready to be asked, with as many draws as usual if not told."""
    return Asking(opened.rebuild, draws or usual_draws(opened.rebuild))


def answered_by(opened: Opened, asking: Asking) -> ChooseAnswer:
    """Answer a text that is open, by an asking that others share."""
    return unread(opened) if opened.stopped else told(opened, close_up(asking, planned))


def unread(opened: Opened) -> ChooseAnswer:
    """Say what stops a text from being answered."""
    rebuild = opened.rebuild
    return ChooseAnswer(rebuild.title, rebuild.notes, opened.system, False, opened.findings)


def told(opened: Opened, closing: Closing, first_look: int = 0) -> ChooseAnswer:
    """Turn an answer into plain data; `first_look` of how many draws it is, if it is one."""
    rebuild = opened.rebuild
    checks = tuple(check_answer(e) for e in closing.expected)
    return ChooseAnswer(
        rebuild.title,
        rebuild.notes,
        opened.system,
        True,
        (*opened.findings, *located(opened, all_far_out(rebuild, checks))),
        tuple(wanted_answer(t) for t in closing.targets),
        tuple(_setting(s) for s in closing.settings),
        checks,
        closing.chance,
        closing.harm,
        closing.as_it_is,
        closing.harm_as_it_is,
        taken_as(rebuild),
        closing.hot,
        tuple(worth_answer(w) for w in closing.worth),
        tuple(lacking_answer(s) for s in closing.lacking),
        tuple(need_answer(n) for n in closing.needed),
        closing.by_sum,
        tuple(act_answer(act) for act in closing.acts),
        usual_answer(closing.usual) if closing.usual else None,
        tuple(written_answer(rebuild, w, _gone(closing, w)) for w in closing.walks),
        first_look,
        tuple(spared_answer(one) for one in closing.spared),
    )


def _gone(closing: Closing, taken: TakenWalk) -> Route | None:
    """Find the route that goes by a walk."""
    found = (r for one in closing.settings if one.part == taken.part for r in one.routes)
    mine = (
        r for r in found if r.check and r.check.name == taken.check.name and r.taken is not None
    )
    name = TAKE_OUT if taken.walk is None else WALK
    return next((r for r in mine if r.name == name), None)


def _setting(one: Set) -> SettingAnswer:
    """Tell one setting."""
    return SettingAnswer(
        one.part,
        one.between,
        mm_or_none(one.fitted),
        pack_answer(one.pack) if one.pack else None,
        mm_or_none(one.in_hand),
        mm_or_none(one.wished),
        one.why,
        one.route.name if one.route else "",
        tuple(_route(route) for route in one.routes),
        tuple(TermAnswer(t.label, mm(t.value)) for t in one.terms),
        _thicker(one),
        tuple((float(pack.exact), likely) for pack, likely in one.tried),
        _nut(one.nut) if one.nut else None,
    )


def _nut(nut: Turned) -> NutAnswer:
    return NutAnswer(mm_or_none(nut.shown), nut.degrees, nut.past, mm(nut.to), mm(nut.locking))


def _thicker(one: Set) -> str:
    """Say which way the float goes with a thicker pack, and why."""
    if one.target is None or not one.slope:
        return ""
    of, more = named(one.target.need), one.slope > 0
    takes, gives = THICKER[type(one.target.need)]
    way = "slacker" if one.nut else "thicker"
    told = f"{way} {one.part} {(gives if more else takes).format(of=of)}"
    return told.replace("thinner", "tighter") if one.nut else told


ROOM = (
    "takes room from {of}: float down; thinner: float up",
    "gives {of} more room: float up; thinner: float down",
)
NIP = (
    "presses the rows of {of} together: more nip; thinner: less",
    "takes nip out of {of}: less; thinner: more nip",
)
MESH = (
    "brings {of} further into mesh: less lash; thinner: more",
    "draws {of} out of mesh: more lash; thinner: less",
)

THICKER: dict[type[Need], tuple[str, str]] = {
    FloatNeed: ROOM,
    NipNeed: NIP,
    PreloadNeed: NIP,
    LashNeed: MESH,
}
"""What a thicker pack does that takes float or lash, and one that gives it."""


def _route(route: Route) -> RouteAnswer:
    """Tell one route."""
    check = route.check
    return RouteAnswer(
        route.name,
        route.chance,
        pack_answer(route.pack) if route.pack else None,
        check.name if check else "",
        what_is_read(check) if check else "",
        (check.by or USUAL_INSTRUMENT[check.kind]) if check else "",
        route.left_out,
        mm(route.trial),
        mm(route.offset),
        route.sign,
        tuple(mm(x) for x in route.reading) if route.reading else None,  # type: ignore[arg-type]
        mm_or_none(route.taken),
        mm(route.quarrel),
        route.harm,
        route.why_not,
        tuple(mm(t) for t in route.trials) if len(route.trials) > 1 else (),
        check.kind if check else "",
    )
