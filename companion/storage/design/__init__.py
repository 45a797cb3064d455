"""Design files: from bytes to a Design, or to everything that is wrong with them. pydantic and yaml come in on use."""

from companion.storage.design.files import MOST_BYTES, design_schema, read_design, read_design_text

__all__ = ["MOST_BYTES", "design_schema", "read_design", "read_design_text"]
