"""The words that every model of a pack is made of: numbers, ids, references, roles."""

from __future__ import annotations

from typing import Annotated, Literal

from pydantic import BaseModel, ConfigDict, Field

Probability = Annotated[float, Field(ge=0.0, le=1.0, strict=True, allow_inf_nan=False)]
Positive = Annotated[float, Field(gt=0.0, strict=True, allow_inf_nan=False)]
Amount = Annotated[float, Field(ge=0.0, strict=True, allow_inf_nan=False)]
Text = Annotated[str, Field(min_length=1)]
Id = Annotated[str, Field(pattern=r"^[a-z][a-z0-9_]*(\.[a-z0-9][a-z0-9_]*)*$")]
Refs = tuple[Text, ...]
Each = Literal["barrel", "channel"]
Role = Literal[
    "operator",
    "helpdesk",
    "technician",
    "refrigeration",
    "electrician",
    "plumber",
    "gas_supplier",
    "supervisor",
]


class Model(BaseModel):
    """Frozen all the way down: every container field is a tuple or a mapping nobody writes to."""

    model_config = ConfigDict(frozen=True, extra="forbid")
