"""Read back with ezdxf's own reader and audit."""

from io import StringIO
from typing import Any

import pytest
from ezdxf._options import options
from ezdxf.document import Drawing as Sheet
from ezdxf.filemanagement import read
from hypothesis import given
from tests.draw.hostile import PART, TEXTS, any_text, lettered, one_of_everything

from dryfit.draw.dxf import dxf, literal
from dryfit.draw.lettering import written
from dryfit.draw.paper import Area, Drawing, Item, Lettering, Ring, Stroke

NEAR = 0.001
"""A thousandth of a millimetre."""

SCALES = (None, 0.5, 2.0)


def _read(drawing: Drawing) -> Sheet:
    return read(StringIO(dxf(drawing)))


def _spaces(sheet: Sheet) -> list[Any]:
    """Give what is in each group: a block, or a run of entities between blocks."""
    found: list[Any] = [[]]
    for entity in sheet.modelspace():
        if entity.dxftype() == "INSERT":
            found += [list(sheet.blocks[entity.dxf.name]), []]
        else:
            found[-1].append(entity)
    return [entities for entities in found if entities]


@pytest.mark.parametrize("scale", SCALES)
def test_audit_finds_nothing(scale: float | None) -> None:
    """The file is sound, so that other programs open it."""
    audit = _read(one_of_everything(scale)).audit()
    assert (audit.errors, audit.fixes) == ([], [])


@pytest.mark.parametrize("scale", SCALES)
def test_every_item_lies_where_it_was_drawn(scale: float | None) -> None:
    """Each group is there once, each point within a thousandth, in mm of iron if scaled."""
    drawing = one_of_everything(scale)
    sheet = _read(drawing)
    assert sheet.header["$INSUNITS"] == 4  # millimetres [DXF reference, header variables]
    groups = _spaces(sheet)
    assert len(groups) == len(drawing.groups)
    for entities, group in zip(groups, drawing.groups, strict=True):
        assert len(entities) == len(group.items)
        for entity, item in zip(entities, group.items, strict=True):
            want = [tuple(c / (scale or 1.0) for c in p) for p in _places(item)]
            assert _corners(entity) == pytest.approx([c for p in want for c in p], abs=NEAR)


def _places(item: Item) -> list[tuple[float, ...]]:
    if isinstance(item, Stroke | Area):
        return list(item.points)
    return [(*item.centre, item.radius)] if isinstance(item, Ring) else [item.at]


def _corners(entity: Any) -> list[float]:
    kind = entity.dxftype()
    if kind == "LINE":
        return [*entity.dxf.start.vec2, *entity.dxf.end.vec2]
    if kind == "CIRCLE":
        return [*entity.dxf.center.vec2, entity.dxf.radius]
    if kind == "TEXT":
        return [*entity.get_placement()[1].vec2]
    if kind == "HATCH":
        return [c for x, y, _ in entity.paths.paths[0].vertices for c in (x, y)]
    points = entity.boundary_path_wcs() if kind == "WIPEOUT" else entity.vertices()
    flat = [c for point in points for c in (point[0], point[1])]
    return flat[:-2] if kind == "WIPEOUT" and flat[:2] == pytest.approx(flat[-2:]) else flat


def test_parts_are_blocks_with_their_names() -> None:
    """A part is one thing to pick, and its name as typed goes along."""
    inserts = _read(one_of_everything()).modelspace().query("INSERT")
    names = [insert.dxf.name for insert in inserts]
    assert len({name.lower() for name in names}) == 2
    assert not any(set(name) & set('<>/\\":;?*|=`,') for name in names)
    assert [insert.get_xdata("DRYFIT")[0].value for insert in inserts] == [PART, PART]


def test_layers_are_named_by_what_and_pen() -> None:
    """Each layer has the line width and the dashes of its pen, in hundredths of a millimetre."""
    sheet = _read(one_of_everything())
    outline, centre = sheet.layers.get("PARTS-OUTLINE"), sheet.layers.get("AXES-CENTRE")
    assert (outline.dxf.lineweight, outline.dxf.linetype.lower()) == (70, "continuous")
    assert (centre.dxf.lineweight, centre.dxf.linetype) == (25, "CENTRE")
    used = {entity.dxf.layer for space in _spaces(sheet) for entity in space}
    assert used <= {layer.dxf.name for layer in sheet.layers}


@pytest.mark.parametrize("text", [t for t in TEXTS if "%%" not in t])
def test_text_stands_as_it_was_typed(text: str) -> None:
    """No reader takes part of a text for a code or markup."""
    ((entity,),) = _spaces(_read(lettered(text)))
    assert entity.plain_text() == text


def test_codes_of_dxf_are_letters() -> None:
    """%%c would be a diameter sign; the second sign is told by its number instead."""
    ((entity,),) = _spaces(_read(lettered("5 %%c \\U+2300 ^J")))
    assert entity.plain_text() == "5 %‹0025›c ‹005C›U+2300 ^J"


@given(any_text, any_text)
def test_no_text_breaks_the_file(one: str, other: str) -> None:
    """Whatever is typed, the file is sound and says it."""
    sheet = _read(lettered(one, other))
    assert sheet.audit().errors == []
    said = [space[0].plain_text() for space in _spaces(sheet)]
    assert said == [literal(text).replace("^ ", "^") for text in (one, other)]


def test_heights_of_text_grow_with_the_scale() -> None:
    """Capitals of 3.5 mm on paper at 1 : 2 are 7 mm beside the iron."""
    texts = [e for e in _read(one_of_everything(0.5)).modelspace() if e.dxftype() == "TEXT"]
    assert [text.dxf.height for text in texts] == [7.0, 7.0, 7.0]
    assert [text.dxf.rotation for text in texts] == [0.0, 0.0, 90.0]


def test_same_drawing_is_the_same_file() -> None:
    """Two files of one drawing do not differ, and ezdxf is left as it was."""
    before = options.write_fixed_meta_data_for_testing
    assert dxf(one_of_everything()) == dxf(one_of_everything())
    assert options.write_fixed_meta_data_for_testing == before


def test_all_items_are_written() -> None:
    """No sort of item is left out; an outline of nothing but letters is one too."""
    kinds = {e.dxftype() for space in _spaces(_read(one_of_everything())) for e in space}
    assert kinds == {"LINE", "LWPOLYLINE", "CIRCLE", "TEXT", "HATCH", "WIPEOUT"}
    assert isinstance(one_of_everything().groups[-1].items[0], Lettering)
    assert written("a") == "a"
