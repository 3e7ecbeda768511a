"""run.py makes its environments once, says what to do when it cannot, and the locks are whole.

No package is fetched here: `fake` stands in for making an environment and for every program that
would be started, and notes their words.
"""

import ast
import importlib.util
import platform
import re
import runpy
import subprocess
import sys
import tomllib
import zipfile
from pathlib import Path

import pytest
import run
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

ROOT = Path(__file__).resolve().parent.parent
LOCKS = ["core", "test", "bench"]


class Fake:
    """A checkout in an empty folder whose programs only note that they were started."""

    def __init__(self, root: Path) -> None:
        self.root = root
        self.calls: list[list[str]] = []
        self.codes: dict[str, int] = {}
        for name in LOCKS:
            (root / "locks").mkdir(exist_ok=True)
            (root / "locks" / f"{name}.txt").write_text(f"{name}==1\n", encoding="utf-8")
        (root / "src").mkdir()

    def call(self, *command: run.Word, folder: Path | None = None) -> int:
        """Note the words; give the exit code chosen for a program named among them."""
        words = [str(word) for word in command]
        self.calls.append([*words, f"in {folder}"] if folder else words)
        return next((code for name, code in self.codes.items() if name in words), 0)

    def make_bare(self, env: Path) -> None:
        """Make what of an environment run.py looks at."""
        for place in (run.inside(env, "purelib"), run.inside(env, "scripts")):
            place.mkdir(parents=True, exist_ok=True)
        run.program(env, "python").touch()

    def count(self, word: str) -> int:
        """Count the programs started with a word."""
        return sum(word in words for words in self.calls)


@pytest.fixture
def fake(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Fake:
    """Put run.py into a folder with a space in its name, with nothing real to start."""
    root = tmp_path / "a checkout"
    root.mkdir()
    stand_in = Fake(root)
    monkeypatch.setattr(run, "ROOT", root)
    monkeypatch.setattr(run, "call", stand_in.call)
    monkeypatch.setattr(run, "make_bare", stand_in.make_bare)
    return stand_in


# What it can do


def test_no_word_opens_the_pages(fake: Fake) -> None:
    """Whoever clicks run.py twice gets the pages."""
    assert run.main([]) == 0
    assert fake.calls[-1][-2:] == ["dryfit", "open"]


def test_help_shows_commands_and_sizes(capsys: pytest.CaptureFixture[str]) -> None:
    """Asked for help, it names each command and what will be downloaded for it."""
    assert run.main(["help"]) == 0
    told = capsys.readouterr().out
    for name in run.COMMANDS:
        assert re.search(rf"^  {name}\b", told, re.MULTILINE), name
    for lock in run.LOCKS.values():
        assert f" {lock.download} MB " in told
    assert "--wheels DIR" in told


def test_guide_names_every_command() -> None:
    """Whoever comes new finds each command in the guide, and none that is gone."""
    guide = (ROOT / "CONTRIBUTING.md").read_text(encoding="utf-8")
    assert set(re.findall(r"`python run\.py (\w+)", guide)) == set(run.COMMANDS)


def test_each_lock_has_its_size() -> None:
    """No lock can be added without saying how much it downloads."""
    assert sorted(run.LOCKS) == sorted(path.stem for path in (ROOT / "locks").glob("*.txt"))
    assert all(0 < lock.download < lock.disk for lock in run.LOCKS.values())


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["tset"], "no command 'tset'; there are: open, demo, dryfit"),
        (["package", "it"], "`package` stands alone; read after it: it"),
        (["wheels"], "needs one word, the folder to fill"),
        (["demo", "--wheels"], "--wheels needs a folder that is there; read: nothing"),
        (["--wheels", "no/such", "demo"], "read: "),
        (["bench", "speed"], "no such benchmark"),
    ],
)
def test_wrong_words_are_named(fake: Fake, words: list[str], told: str) -> None:
    """A slip on the command line is told with the way out, and nothing is installed."""
    with pytest.raises(run.Trouble, match=re.escape(told)) as caught:
        run.main(words)
    assert caught.value.code == 2
    assert fake.calls == []


# Environments


def test_second_start_installs_nothing(fake: Fake) -> None:
    """The packages are installed once, hashes checked; from then on the program just starts."""
    assert run.main(["demo"]) == 0
    assert run.main(["demo", "spindle"]) == 0
    install, first, second = fake.calls
    assert install[-3:] == ["--require-hashes", "-r", str(fake.root / "locks" / "core.txt")]
    assert first[-3:] == ["-m", "dryfit", "demo"]
    assert second[-2:] == ["demo", "spindle"]


def test_changed_lock_makes_it_again(fake: Fake) -> None:
    """A new version of dryfit that needs other packages gets them without being asked."""
    run.main(["demo"])
    (fake.root / "locks" / "core.txt").write_text("core==2\n", encoding="utf-8")
    run.main(["demo"])
    assert fake.count("install") == 2


def test_changed_python_makes_it_again(fake: Fake, monkeypatch: pytest.MonkeyPatch) -> None:
    """After an upgrade of Python the packages built for the old one are not used."""
    run.main(["demo"])
    monkeypatch.setattr(platform, "python_version", lambda: "3.99.0")
    run.main(["demo"])
    assert fake.count("install") == 2


def test_failed_install_is_made_again_from_nothing(fake: Fake) -> None:
    """A download that broke off leaves no half environment that is later taken for whole."""
    fake.codes["install"] = 7
    with pytest.raises(run.Trouble) as caught:
        run.main(["demo"])
    assert caught.value.code == 7
    assert fake.count("dryfit") == 0
    leftover = fake.root / ".dryfit" / "core" / "leftover"
    leftover.touch()
    fake.codes.clear()
    assert run.main(["demo"]) == 0
    assert fake.count("install") == 2
    assert not leftover.exists()


def test_vanished_python_makes_it_again(fake: Fake) -> None:
    """An environment whose Python is gone is not trusted, whatever its marker says."""
    run.main(["demo"])
    run.program(fake.root / ".dryfit" / "core", "python").unlink()
    run.main(["demo"])
    assert fake.count("install") == 2


def test_source_is_found_by_a_relative_path(fake: Fake) -> None:
    """The environment finds the source also after the checkout was moved."""
    run.main(["demo"])
    packages = run.inside(fake.root / ".dryfit" / "core", "purelib")
    line = (packages / "dryfit-source.pth").read_text(encoding="ascii").strip()
    assert not Path(line).is_absolute()
    assert (packages / line).resolve() == (fake.root / "src").resolve()


def test_windows_folders() -> None:
    """On Windows the programs of an environment are looked for where Windows has them."""
    parts = re.split(r"[\\/]", str(run.inside(Path("env"), "scripts", "nt_venv")))
    assert parts == ["env", "Scripts"]


def test_size_is_told_before_the_download(fake: Fake, capsys: pytest.CaptureFixture[str]) -> None:
    """Who pays for his internet by the megabyte knows beforehand what a first start takes."""
    fake.codes["install"] = 1
    with pytest.raises(run.Trouble):
        run.main(["demo"])
    lock, told = run.LOCKS["core"], capsys.readouterr().out
    assert f"about {lock.download} MB to download, about {lock.disk} MB on disk" in told


def test_wheels_need_no_internet(fake: Fake, capsys: pytest.CaptureFixture[str]) -> None:
    """With --wheels, before or after the command, packages come from the folder alone."""
    wheels = fake.root / "the wheels"
    wheels.mkdir()
    run.main(["test", "--wheels", str(wheels)])
    run.main(["--wheels", str(wheels), "demo"])
    for install in (words for words in fake.calls if "install" in words):
        at = install.index("--no-index")
        assert install[at : at + 3] == ["--no-index", "--find-links", str(wheels)]
    assert fake.count("--no-index") == 2
    assert "no download" in capsys.readouterr().out


def test_words_after_dryfit_belong_to_it(fake: Fake) -> None:
    """An option of the program is never taken for one of run.py."""
    run.main(["dryfit", "--help", "--wheels", "x"])
    assert fake.calls[-1][-4:] == ["dryfit", "--help", "--wheels", "x"]


def test_program_runs_in_the_folder_of_its_user(fake: Fake) -> None:
    """A file named there is found, and a stray yaml.py beside it is not taken for the library."""
    run.main(["dryfit", "show", "box.yaml"])
    assert not any(word.startswith("in ") for word in fake.calls[-1])
    assert "-P" in fake.calls[-1]


# Commands that run several programs


@pytest.mark.parametrize(
    ("codes", "ends"),
    [({}, 0), ({"ruff": 1}, 1), ({"mypy": 2}, 2), ({"ruff": 1, "pytest": 3}, 3)],
)
def test_every_part_runs_and_any_failure_counts(
    fake: Fake, codes: dict[str, int], ends: int
) -> None:
    """One run of `test` shows all that is wrong, and passes only if all of it does."""
    fake.codes |= codes
    assert run.main(["test"]) == ends
    ran = [words[words.index("-m") + 1] for words in fake.calls]
    assert ran == ["pip", "ruff", "mypy", "pytest"]


def test_failed_lint_is_told_after_the_tests(
    fake: Fake, capsys: pytest.CaptureFixture[str]
) -> None:
    """A failure that scrolled away above the tests is named again below them."""
    fake.codes["ruff"] = 1
    run.main(["test"])
    assert capsys.readouterr().out.splitlines()[-1] == "run.py: lint failed, see above"


def test_words_go_to_pytest_alone(fake: Fake) -> None:
    """One test can be run by itself, in no time."""
    run.main(["test", "tests/test_run.py", "-x"])
    assert fake.calls[-1][-4:-1] == ["pytest", "tests/test_run.py", "-x"]
    assert fake.count("mypy") == 0


def test_every_benchmark_runs(fake: Fake) -> None:
    """A benchmark that fails does not hide the others, and its code is given back."""
    (fake.root / "benchmarks").mkdir()
    for name in ("first", "second", "_shared"):
        (fake.root / "benchmarks" / f"{name}.py").touch()
    fake.codes[str(fake.root / "benchmarks" / "first.py")] = 4
    assert run.main(["bench"]) == 4
    scripts = [words[-2] for words in fake.calls if words[-1].startswith("in ")]
    assert [Path(script).stem for script in scripts] == ["first", "second"]


def test_wheels_holds_every_lock(fake: Fake) -> None:
    """The folder filled for a machine without internet serves each command there."""
    run.main(["wheels", "some folder"])
    downloads = [words for words in fake.calls if "download" in words]
    assert [Path(words[-1]).stem for words in downloads] == list(run.LOCKS)
    assert all("--require-hashes" in words for words in downloads)


# What can go wrong on a machine


def test_old_python_is_told_so() -> None:
    """Every Python since 3.7 can read the file far enough to say that it is too old."""
    ast.parse((ROOT / "run.py").read_text(encoding="utf-8"), feature_version=(3, 7))


def test_old_python_gets_a_way_out(monkeypatch: pytest.MonkeyPatch) -> None:
    """On an old Python the message names both versions and how to start a newer one."""
    monkeypatch.setattr(sys, "version_info", (3, 9, 2, "final", 0))
    with pytest.raises(SystemExit) as caught:
        runpy.run_path(str(ROOT / "run.py"))
    assert "needs Python 3.11 or newer; this one is 3.9." in str(caught.value)
    assert "py -3" in str(caught.value)


@pytest.mark.parametrize("part", ["venv", "ensurepip"])
@pytest.mark.usefixtures("fake")
def test_missing_venv_names_the_package(monkeypatch: pytest.MonkeyPatch, part: str) -> None:
    """Where the system splits Python into packages, the missing one is named."""
    find = importlib.util.find_spec
    monkeypatch.setattr(importlib.util, "find_spec", lambda n: None if n == part else find(n))
    with pytest.raises(run.Trouble, match="apt install python3-venv") as caught:
        run.main(["demo"])
    assert f"`{part}`" in str(caught.value)


def test_failed_pip_names_the_way_without_internet(fake: Fake) -> None:
    """Without internet the message tells how to bring the packages by hand, for which Python."""
    fake.codes["install"] = 1
    with pytest.raises(run.Trouble, match="--wheels FOLDER") as caught:
        run.main(["demo"])
    assert "python run.py wheels FOLDER" in str(caught.value)
    assert platform.python_version() in str(caught.value)


def test_unwritable_folder_is_named(fake: Fake) -> None:
    """Where nothing can be written, here because a file is in the way, the folder is named."""
    (fake.root / ".dryfit").touch()
    with pytest.raises(run.Trouble, match="copy the whole checkout") as caught:
        run.main(["demo"])
    assert str(fake.root / ".dryfit") in str(caught.value)


def test_trouble_ends_without_traceback() -> None:
    """A person sees the message alone, and a script sees the exit code."""
    done = subprocess.run(
        [sys.executable, str(ROOT / "run.py"), "nonsense"],
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 2
    assert done.stdout == ""
    assert done.stderr.startswith("run.py: no command 'nonsense'")
    assert "Traceback" not in done.stderr


def test_exit_code_of_a_program_comes_through() -> None:
    """What the program answers to a script is not lost on the way."""
    assert run.call(sys.executable, "-c", "raise SystemExit(9)") == 9


# Locks and wheel


def pins(name: str) -> dict[str, list[str]]:
    """Read a lock: each package with its pinned versions."""
    text = (ROOT / "locks" / f"{name}.txt").read_text(encoding="utf-8")
    found: dict[str, list[str]] = {}
    for package, version in re.findall(r"^([a-z0-9-]+)==([^ ;\\]+)", text, re.MULTILINE):
        found.setdefault(package, []).append(version)
    return found


def needs(name: str) -> list[Requirement]:
    """Read from pyproject.toml what a lock must bring."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    extra = project["optional-dependencies"].get(name, [])
    return [Requirement(text) for text in project["dependencies"] + extra]


@pytest.mark.parametrize("name", LOCKS)
def test_lock_names_no_place(name: str) -> None:
    """A lock says what, never from where: it holds for any mirror and any folder of wheels."""
    text = (ROOT / "locks" / f"{name}.txt").read_text(encoding="utf-8")
    assert not re.search(r"://|^-|^[./]|\.(org|com|io|net)\b|file:|/\w+/", text, re.MULTILINE)


@pytest.mark.parametrize("name", LOCKS)
def test_every_pin_has_its_hashes(name: str) -> None:
    """Nothing but the very files that were locked can be installed."""
    text = (ROOT / "locks" / f"{name}.txt").read_text(encoding="utf-8")
    blocks = re.split(r"\n(?=[^ #\n])", text.replace("\\\n", ""))
    pinned = [block for block in blocks if "==" in block.partition("\n")[0]]
    assert len(pinned) == sum(len(versions) for versions in pins(name).values())
    assert [block for block in pinned if not re.search(r"--hash=sha256:[0-9a-f]{64}", block)] == []


@pytest.mark.parametrize("name", LOCKS)
def test_lock_brings_what_the_project_needs(name: str) -> None:
    """A dependency written into pyproject.toml and forgotten in the locks is found."""
    locked = pins(name)
    for need in needs(name):
        versions = locked.get(canonicalize_name(need.name), [])
        assert versions, f"{need} is not in locks/{name}.txt: python run.py locks"
        assert all(need.specifier.contains(version) for version in versions), need


@pytest.mark.parametrize("name", ["test", "bench"])
def test_tests_see_the_versions_of_the_user(name: str) -> None:
    """What is tested and measured is what a user installs, version for version."""
    core = pins("core")
    assert {package: pins(name)[package] for package in core} == core


def test_build_backend_is_in_the_test_lock() -> None:
    """The wheel can be built with what the test lock brings, without internet."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    (backend,) = map(Requirement, project["build-system"]["requires"])
    assert all(backend.specifier.contains(version) for version in pins("test")[backend.name])


def test_wheel_carries_every_file(tmp_path: Path) -> None:
    """Who installs the wheel has the formulas and the *.yaml they come with."""
    build = [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(tmp_path)]
    subprocess.run(build, cwd=ROOT, check=True, capture_output=True)
    (wheel,) = tmp_path.glob("*.whl")
    with zipfile.ZipFile(wheel) as archive:
        carried = {name for name in archive.namelist() if name.startswith("dryfit/")}
    source = (path for path in (ROOT / "src").rglob("*") if path.is_file())
    wanted = {path.relative_to(ROOT / "src").as_posix() for path in source}
    assert carried == {name for name in wanted if "__pycache__" not in name}
