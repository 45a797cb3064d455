"""The design file's schema: pydantic models, the same that read a file and that `tallycord schema` prints."""

from __future__ import annotations

import os
from typing import Annotated, Any, get_args

from pydantic import BaseModel, ConfigDict, Discriminator, Field, Tag, WithJsonSchema

from companion.core.closures.table import CLOSURES
from companion.core.values.design import KNOT_WORDS, LAYOUT_WORDS, MOST_STRANDS, Material, Stringing, Tool, Work
from companion.storage.design.scalars import (
    Count,
    CountOrFit,
    Format,
    Layers,
    Length,
    LengthAboveZero,
    Name,
    Note,
    StrandName,
    Words,
    one_of,
)

# A design is read alike whatever else is installed: pydantic would search all of it for plugins.
os.environ.setdefault("PYDANTIC_DISABLE_PLUGINS", "__all__")

# Words that are no material here for a reason.
NO_MATERIAL = {
    "elastic": "Knots slip in elastic cord and it stretches, so no length can be planned.",
    "wire": "Wire is not knotted.",
}


class Model(BaseModel):
    """What all models have in common. Each is built when it is first used; building all of them takes a while."""

    model_config = ConfigDict(extra="forbid", populate_by_name=False, defer_build=True)


class SizeModel(Model):
    """What the piece is made to: exactly one of length, wrist and neck."""

    model_config = ConfigDict(
        extra="forbid",
        json_schema_extra={
            "oneOf": [
                {"required": ["length"], "properties": {"ease": False, "turns": False}},
                {"required": ["wrist"]},
                {"required": ["neck"]},
            ]
        },
    )

    length: LengthAboveZero | None = None
    wrist: LengthAboveZero | None = None
    neck: LengthAboveZero | None = None
    ease: Length | None = None
    turns: Count = 1
    tolerance: Length = 3.0


class KnotModel(Model):
    take_up: Length
    length: Length


class KnotsModel(Model):
    single: KnotModel | None = None
    double: KnotModel | None = None
    triple: KnotModel | None = None


class CordModel(Model):
    name: Name
    diameter: LengthAboveZero
    layers: Layers = 1
    material: one_of("a material", get_args(Material), NO_MATERIAL) = "other"  # type: ignore[valid-type]
    worked_with: one_of("a tool", get_args(Tool)) = Field("awl", alias="worked with")  # type: ignore[valid-type]
    knots: KnotsModel | None = None
    card: Name | None = None


class BeadModel(Model):
    """A kind of bead. `color` means the same as `colour`; one of them is enough."""

    model_config = ConfigDict(extra="forbid", json_schema_extra={"not": {"required": ["colour", "color"]}})

    length: LengthAboveZero
    name: Name | None = None
    diameter: LengthAboveZero | None = None
    hole: LengthAboveZero | None = None
    colour: Words = ""
    color: Words = ""
    shape: Words = ""


class EndModel(Model):
    closure: one_of("a closure", tuple(CLOSURES)) = "plain tail"  # type: ignore[valid-type]
    length: Length | None = None
    cord: Length | None = None
    tail: Length | None = None
    finding: Name | None = None
    size: LengthAboveZero | None = None


class SpaceModel(Model):
    space: Length


class RepeatModel(Model):
    repeat: CountOrFit
    of: Layout


class SidesModel(Model):
    side: Layout
    middle: Annotated[list[ItemModel], Field()] | None = None


class MirrorModel(Model):
    mirror: SidesModel


class BeadsModel(Model):
    beads: Name
    count: CountOrFit
    knot_every: Count | None = Field(None, alias="knot every")


def _sort_of_item(value: Any) -> str | None:
    if isinstance(value, str):
        return "«word»"
    if isinstance(value, dict):
        for words, sort in (
            (("space",), "«space»"),
            (("mirror", "side", "middle"), "«mirror»"),
            (("repeat", "of"), "«repeat»"),
            (("beads", "count", "knot every"), "«beads»"),
        ):
            if any(word in value for word in words):
                return sort
    return None


Word = Annotated[
    str,
    WithJsonSchema(
        {"type": ["string", "number", "boolean"], "description": f"A bead's key, or one of: {', '.join(KNOT_WORDS)}."}
    ),
]
ItemModel = Annotated[
    Annotated[Word, Tag("«word»")]
    | Annotated[SpaceModel, Tag("«space»")]
    | Annotated[RepeatModel, Tag("«repeat»")]
    | Annotated[MirrorModel, Tag("«mirror»")]
    | Annotated[BeadsModel, Tag("«beads»")],
    Discriminator(_sort_of_item),
]
Layout = Annotated[list[ItemModel], Field(min_length=1)]


class StrandModel(Model):
    name: StrandName | None = None
    work: one_of("a way to work", get_args(Work)) = "along"  # type: ignore[valid-type]
    stringing: one_of("when beads are strung", get_args(Stringing)) | None = None  # type: ignore[valid-type]
    start: EndModel = Field(default_factory=EndModel)
    layout: Layout
    end: EndModel = Field(default_factory=EndModel)


class DesignModel(Model):
    """A design of knotted cord jewellery, format 1."""

    model_config = ConfigDict(extra="forbid", title="Design of knotted cord jewellery, format 1")

    format: Format
    name: Name
    note: Note = ""
    unit: one_of("a unit", ("mm", "cm", "in")) | None = None  # type: ignore[valid-type]
    size: SizeModel | None = None
    cord: CordModel
    beads: dict[str, BeadModel] = Field(
        default_factory=dict,
        json_schema_extra={"propertyNames": {"minLength": 1, "not": {"enum": [*KNOT_WORDS, *LAYOUT_WORDS]}}},
    )
    strand: StrandModel | None = None
    strands: Annotated[list[StrandModel], Field(min_length=1)] | None = Field(
        None, json_schema_extra={"maxItems": MOST_STRANDS}
    )


def field_names(model: type[BaseModel]) -> tuple[str, ...]:
    """The keys of one model, as a file writes them."""
    return tuple(field.alias or name for name, field in model.model_fields.items())
