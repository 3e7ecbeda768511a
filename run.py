"""Open, test and measure dryfit with nothing but Python: `python run.py help` tells the rest.

Reading order: the messages, the packages each command needs, how an environment is made under
`.dryfit/`, the commands, and the way in. Only the standard library is used, and no shell.

Everything up to the first check is plain enough for Python 3.6, and all of it has that grammar,
so that an old Python can say that it is too old instead of showing a syntax error.
"""

import sys

OLDEST = (3, 11)

TOO_OLD = """\
run.py: dryfit needs Python {}.{} or newer; this one is {}.{}.
Start run.py with a newer one: on Windows `py -3 run.py`, elsewhere for instance
`python3.12 run.py`. Where there is none, install it the way this machine gets programs."""

if sys.version_info < OLDEST:
    sys.exit(TOO_OLD.format(*OLDEST, *sys.version_info[:2]))

import hashlib
import importlib.util
import os
import platform
import shutil
import subprocess
import sysconfig
import tempfile
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).resolve().parent
MARK = "made-for.txt"
Word = str | Path

NO_VENV = """\
this Python cannot make an environment: its part `{missing}` is not installed.
Debian, Ubuntu and the like: apt install python3-venv
Elsewhere: use a Python that came with its whole standard library."""

NO_PACKAGES = """\
the packages could not be fetched or installed; pip gives its reason above.
Without internet: on a machine of the same kind that has it, and the same Python {version}, type
    python run.py wheels FOLDER
bring FOLDER here and add to your command
    --wheels FOLDER"""

CANNOT_WRITE = """\
cannot write in {folder}: {reason}.
Free some space there, or copy the whole checkout to a folder of your own and start it there."""


BUILD_WHEEL = ["wheel", "--no-deps", "--no-build-isolation", "--wheel-dir"]
COMPILE_LOCK = [
    *["pip", "compile", "pyproject.toml", "--quiet", "--generate-hashes", "--no-emit-index-url"],
    *["--universal", "--python-version", f"{OLDEST[0]}.{OLDEST[1]}"],
    *["--custom-compile-command", "python run.py locks"],
]


class Trouble(Exception):
    """Something the user can put right; the text says what it is and the way out."""

    def __init__(self, message: str, code: int = 1) -> None:
        super().__init__(message)
        self.code = code


@dataclass(frozen=True)
class Lock:
    """What a file in `locks/` brings, in MB as measured on 64-bit Linux with Python 3.11."""

    serves: str
    holds: str
    download: int
    disk: int


LOCKS = {
    "core": Lock("open, demo, dryfit", "numpy, Pillow, typst, ezdxf, Starlette", 71, 275),
    "test": Lock("test, prove, package", "core, pytest, scipy, numba, mypy, Playwright", 254, 936),
    "bench": Lock("bench", "core, scipy, numba, uncertainties, ortools", 207, 798),
}


def call(*command: Word, folder: Path | None = None) -> int:
    """Run a program and wait for its end, also after Ctrl-C: it tidies up for itself."""
    with subprocess.Popen([str(word) for word in command], cwd=folder) as process:
        try:
            code = process.wait()
        except KeyboardInterrupt:
            process.wait()
            raise
    return 128 - code if code < 0 else code


def inside(env: Path, what: str, scheme: str = "venv") -> Path:
    """Find the folder of `scripts` or of packages (`purelib`) in an environment."""
    base = str(env)
    return Path(sysconfig.get_path(what, scheme, {"base": base, "platbase": base}))


def program(env: Path, name: str) -> Path:
    """Name a program of an environment, with the ending that this system wants."""
    return inside(env, "scripts") / (name + (sysconfig.get_config_var("EXE") or ""))


def fingerprint(lock: Path) -> bytes:
    """Tell which lock and which Python an environment was made for."""
    digest = hashlib.sha256(lock.read_bytes()).hexdigest()
    python = f"{platform.python_version()} {platform.machine()} {sys.base_prefix}"
    return f"{digest}\n{python}\n".encode()


def is_ready(env: Path, lock: Path) -> bool:
    """Tell whether an environment was finished, and for this very lock and Python."""
    mark = env / MARK
    made = program(env, "python").exists() and mark.exists()
    return made and mark.read_bytes() == fingerprint(lock)


def install(env: Path, lock: Path, wheels: Path | None) -> None:
    """Make an environment from nothing and fill it with what a lock lists, hashes checked."""
    for part in ("venv", "ensurepip"):
        if importlib.util.find_spec(part) is None:
            raise Trouble(NO_VENV.format(missing=part))
    if env.exists():
        shutil.rmtree(env)
    env.mkdir(parents=True)
    make_bare(env)
    pip(env, "install", "--require-hashes", "-r", lock, wheels=wheels)


def make_bare(env: Path) -> None:
    """Make an environment with pip in it and nothing else."""
    import venv  # not there on every system, see NO_VENV

    try:
        venv.EnvBuilder(with_pip=True, symlinks=os.name != "nt").create(env)
    except subprocess.CalledProcessError as error:
        said = error.output.decode(errors="replace") if error.output else error
        raise Trouble(f"Python could not put pip into {env}:\n{said}") from error


def pip(env: Path, command: str, *words: Word, wheels: Path | None) -> None:
    """Run an environment's pip, with the packages in the folder `wheels` alone if there is one."""
    source: list[Word] = ["--no-index", "--find-links", wheels] if wheels else []
    code = module(env, "pip", "--disable-pip-version-check", command, *source, *words)
    if code:
        raise Trouble(NO_PACKAGES.format(version=platform.python_version()), code)


def point_at_source(env: Path) -> None:
    """Let an environment import dryfit from `src`.

    A line in a .pth file does what an editable install does, with nothing to build and so nothing
    more to fetch. The path is relative: no letter of it can be spoilt by a code page, and the
    checkout may be moved.
    """
    packages = inside(env, "purelib")
    line = os.path.relpath(ROOT / "src", packages)
    (packages / "dryfit-source.pth").write_text(line + "\n", encoding="ascii")


def prepare(name: str, wheels: Path | None) -> Path:
    """Give the environment for a lock, made now if it is missing, unfinished or out of date."""
    env, lock = ROOT / ".dryfit" / name, ROOT / "locks" / (name + ".txt")
    try:
        if not is_ready(env, lock):
            announce(name, env, wheels)
            install(env, lock, wheels)
            point_at_source(env)
            (env / MARK).write_bytes(fingerprint(lock))
    except OSError as error:
        reason = error.strerror or str(error)
        raise Trouble(CANNOT_WRITE.format(folder=env, reason=reason)) from error
    return env


def announce(name: str, env: Path, wheels: Path | None) -> None:
    """Say before the first download what will come, how much of it, and where it goes."""
    lock = LOCKS[name]
    source = f"from {wheels}, no download" if wheels else f"about {lock.download} MB to download"
    say(
        f"Making {env}: it is missing, unfinished, or its lock or Python has changed.\n"
        f"  {lock.holds}: {source}, about {lock.disk} MB on disk.\n"
        "  Nothing else on this machine is changed."
    )


def say(text: str) -> None:
    """Print at once, so that the words stand before those of a program started next."""
    print(text, flush=True)


def module(env: Path, *words: Word, folder: Path | None = None) -> int:
    """Run a Python module of an environment; -P keeps the user's folder out of its imports."""
    return call(program(env, "python"), "-P", "-m", *words, folder=folder)


def open_pages(words: list[str], wheels: Path | None) -> int:
    """Open the pages in the browser of this machine."""
    return run_dryfit(["open", *words], wheels)


def run_demo(words: list[str], wheels: Path | None) -> int:
    """Run a worked example."""
    return run_dryfit(["demo", *words], wheels)


def run_dryfit(words: list[str], wheels: Path | None) -> int:
    """Run the program itself, in the folder the user stands in."""
    return module(prepare("core", wheels), "dryfit", *words)


def run_tests(words: list[str], wheels: Path | None) -> int:
    """Run lint, types, then tests and doctests; each of them even if one before failed."""
    env = prepare("test", wheels)
    if words:
        return module(env, "pytest", *words, folder=ROOT)
    say("lint: ruff")
    lint = module(env, "ruff", "check", folder=ROOT)
    say("types: mypy")
    types = module(env, "mypy", folder=ROOT)
    say("tests and doctests: pytest")
    tests = module(env, "pytest", "-n", "auto", folder=ROOT)
    failed = [name for name, code in (("lint", lint), ("types", types)) if code]
    if failed:
        say(f"run.py: {' and '.join(failed)} failed, see above")
    return tests or lint or types


def run_proofs(words: list[str], wheels: Path | None) -> int:
    """Run the long tests."""
    return module(prepare("test", wheels), "pytest", "-m", "prove", *words, folder=ROOT)


def run_benchmarks(words: list[str], wheels: Path | None) -> int:
    """Run the benchmarks one after the other, all of them even if one fails."""
    scripts = sorted((ROOT / "benchmarks").glob("[!_]*.py"))
    chosen = [script for script in scripts if not words or script.stem in words]
    if not chosen:
        raise Trouble(f"no such benchmark; there are: {', '.join(s.stem for s in scripts)}", 2)
    env = prepare("bench", wheels)
    codes = []
    for script in chosen:
        say(f"--- {script.stem}")
        codes.append(call(program(env, "python"), script, folder=ROOT))
    return max(codes)


def build_package(_: list[str], wheels: Path | None) -> int:
    """Build the wheel and keep it in dist/ if its demo runs, installed in a folder elsewhere."""
    tools = prepare("test", wheels)
    with tempfile.TemporaryDirectory() as temporary:
        place = Path(temporary)
        if module(tools, "pip", *BUILD_WHEEL, place, ROOT):
            raise Trouble("the wheel could not be built, see above")
        (wheel,) = place.glob("*.whl")
        install(place / "env", ROOT / "locks" / "core.txt", wheels)
        pip(place / "env", "install", "--no-deps", "--no-index", wheel, wheels=None)
        try_demo(program(place / "env", "dryfit"), place)
        (ROOT / "dist").mkdir(exist_ok=True)
        say(f"kept as {shutil.copy(wheel, ROOT / 'dist')}")
    return 0


def try_demo(script: Path, folder: Path) -> None:
    """Run the installed program's demo where no source is in reach."""
    clean = {name: value for name, value in os.environ.items() if name != "PYTHONPATH"}
    done = subprocess.run(
        [str(script), "demo"], cwd=folder, env=clean, stdout=subprocess.PIPE, check=False
    )
    lines = len(done.stdout.splitlines())
    if done.returncode or not lines:
        raise Trouble(
            f"the installed `dryfit demo` printed {lines} lines and ended with {done.returncode}"
        )
    say(f"the installed `dryfit demo` printed {lines} lines")


def fill_wheels(words: list[str], _: Path | None) -> int:
    """Download every package of every lock into a folder, for this kind of machine and Python."""
    if len(words) != 1:
        raise Trouble("`wheels` needs one word, the folder to fill: python run.py wheels DIR", 2)
    folder = Path(words[0]).absolute()
    env = prepare("core", None)
    for name in LOCKS:
        lock = ROOT / "locks" / (name + ".txt")
        pip(env, "download", "--require-hashes", "-d", folder, "-r", lock, wheels=None)
    say(f"{folder} is filled, for {platform.system()} {platform.machine()} and this Python.")
    return 0


def make_locks(words: list[str], _: Path | None) -> int:
    """Resolve pyproject.toml anew into locks/*.txt, for all systems and Pythons at once."""
    uv = shutil.which("uv")
    if uv is None:
        raise Trouble("`locks` needs the program uv; install it with: pip install uv")
    codes = []
    for name in LOCKS:
        extra = [] if name == "core" else ["--extra", name]
        say(f"locks/{name}.txt")
        codes.append(
            call(uv, *COMPILE_LOCK, *extra, *words, "-o", f"locks/{name}.txt", folder=ROOT)
        )
    return max(codes)


@dataclass(frozen=True)
class Command:
    """A word after run.py: what it takes, what it does for the user, and its function."""

    takes: str
    does: str
    act: Callable[[list[str], Path | None], int]


COMMANDS = {
    "open": Command("", "the pages in your browser; so does run.py without a word", open_pages),
    "demo": Command("[NAME]", "a worked example: readings to expect, the shim to fit", run_demo),
    "dryfit": Command("ARGS", "the program itself; `dryfit --help` tells its commands", run_dryfit),
    "test": Command("[WORDS]", "lint, types and tests; WORDS: pytest alone, with them", run_tests),
    "prove": Command("[WORDS]", "the long tests, minutes", run_proofs),
    "bench": Command("[NAMES]", "the benchmarks, one after the other", run_benchmarks),
    "package": Command("", "the wheel, tried in a folder elsewhere, into dist/", build_package),
    "wheels": Command("DIR", "fill DIR with all packages, for use without internet", fill_wheels),
    "locks": Command("[--upgrade]", "make locks/*.txt from pyproject.toml, with uv", make_locks),
}


def overview() -> str:
    """Write what run.py can do and what each command brings with it."""
    commands = [f"  {n + ' ' + c.takes:<19} {c.does}" for n, c in COMMANDS.items()]
    locks = [
        f"  {lock.serves:<22} {lock.download:>4} MB {lock.disk:>6} MB   {lock.holds}"
        for lock in LOCKS.values()
    ]
    return "\n".join(
        [
            "python run.py COMMAND, from any folder; with no word it opens the pages:",
            "",
            *commands,
            "",
            "  --wheels DIR        before a command: take the packages from DIR, no internet",
            "",
            "Packages go into .dryfit beside this file, at the first use:",
            "",
            f"  {'for':<22} {'download':>7} {'on disk':>8}",
            *locks,
        ]
    )


def split_wheels(words: list[str]) -> tuple[Path | None, list[str]]:
    """Take `--wheels DIR` out of the words; those after `dryfit` belong to the program."""
    mine = words.index("dryfit") if "dryfit" in words else len(words)
    if "--wheels" not in words[:mine]:
        return None, words
    at = words.index("--wheels")
    folder = Path(words[at + 1]).absolute() if at + 1 < len(words) else None
    if folder is None or not folder.is_dir():
        raise Trouble(f"--wheels needs a folder that is there; read: {folder or 'nothing'}", 2)
    return folder, words[:at] + words[at + 2 :]


def wait_to_be_read() -> None:
    """Keep a window open that a double-click made, until its words have been read."""
    if os.name == "nt" and len(sys.argv) == 1 and sys.stdin and sys.stdin.isatty():
        input("Press Enter to close this window. ")


def main(arguments: list[str]) -> int:
    """Do what the words ask and give the exit code of what was run."""
    wheels, words = split_wheels(arguments)
    if words and words[0] in {"help", "-h", "--help"}:
        say(overview())
        return 0
    name, *rest = words or ["open"]
    if name not in COMMANDS:
        raise Trouble(f"no command {name!r}; there are: {', '.join(COMMANDS)}", 2)
    if rest and not COMMANDS[name].takes:
        raise Trouble(f"`{name}` stands alone; read after it: {' '.join(rest)}", 2)
    return COMMANDS[name].act(rest, wheels)


if __name__ == "__main__":
    try:
        sys.exit(main(sys.argv[1:]))
    except Trouble as trouble:
        print(f"run.py: {trouble}", file=sys.stderr)
        wait_to_be_read()
        sys.exit(trouble.code)
    except KeyboardInterrupt:
        sys.exit(130)
