"""What `--json` prints keeps to the schemas in docs/json, and these to the answers themselves.

Made anew by: python run.py test tests/app/test_json.py --remake-schemas
"""

import json
from pathlib import Path
from typing import Any

import jsonschema
import pytest
from click.testing import CliRunner
from pydantic import TypeAdapter

from dryfit.app.cli.files import SCHEMA
from dryfit.app.cli.main import cli
from dryfit.app.usecases.choose import ChooseAnswer
from dryfit.app.usecases.demos import names, text
from dryfit.app.usecases.ordering.answers import OrderAnswer
from dryfit.app.usecases.review import ReviewAnswer
from dryfit.app.usecases.walk_answers import WalkAnswer

FOLDER = Path(__file__).resolve().parents[2] / "docs" / "json"
OF_A_DOCUMENT: dict[str, type] = {
    "review": ReviewAnswer,
    "set": ChooseAnswer,
    "expect": ChooseAnswer,
    "order": OrderAnswer,
}
ANSWERS: dict[str, type] = {**OF_A_DOCUMENT, "walk": WalkAnswer}


def _schema(question: str) -> dict[str, Any]:
    """Schema of an answer with the two keys that every answer begins with."""
    schema = TypeAdapter(ANSWERS[question]).json_schema()
    head = {"dryfit": {"const": SCHEMA}, "question": {"const": question}}
    schema["properties"] = {**head, **schema["properties"]}
    schema["required"] = list(schema["properties"])
    schema["$schema"] = "https://json-schema.org/draft/2020-12/schema"
    return schema


@pytest.mark.parametrize("question", ANSWERS)
def test_schema_on_file_is_that_of_the_answer(
    question: str, request: pytest.FixtureRequest
) -> None:
    """Whoever reads the JSON finds every key described; a change of an answer shows here."""
    path = FOLDER / f"{question}.schema.json"
    made = json.dumps(_schema(question), indent=1) + "\n"
    if request.config.getoption("--remake-schemas"):
        path.write_text(made, encoding="utf-8", newline="\n")
    assert json.loads(path.read_text(encoding="utf-8")) == json.loads(made)


@pytest.mark.parametrize("name", names())
@pytest.mark.parametrize("question", OF_A_DOCUMENT)
def test_every_answer_keeps_to_its_schema(question: str, name: str, tmp_path: Path) -> None:
    """What is printed for each demo can be read by the schema, and names its version."""
    file = tmp_path / "box.yaml"
    file.write_bytes(text(name))
    done = CliRunner().invoke(cli, [question, str(file), "--json"])
    assert done.exit_code == 0
    answer = json.loads(done.output)
    jsonschema.validate(answer, json.loads((FOLDER / f"{question}.schema.json").read_text()))
    assert (answer["dryfit"], answer["question"]) == (SCHEMA, question)


def test_wrong_document_answers_in_json_too(tmp_path: Path) -> None:
    """A document with a slip gives its findings as data, and the exit code says so."""
    file = tmp_path / "box.yaml"
    file.write_bytes(text("feed-box").replace(b"148.70", b"148,70"))
    done = CliRunner().invoke(cli, ["set", str(file), "--json"])
    assert done.exit_code == 1
    answer = json.loads(done.output)
    jsonschema.validate(answer, json.loads((FOLDER / "set.schema.json").read_text()))
    assert answer["findings"][0]["code"] == "size.comma"
