"""The documented result as lines of text, one for each thing that a reader of it can rely on."""

from collections.abc import Iterator, Mapping
from pathlib import Path
from typing import Any

REFERENCE = Path(__file__).with_name("reference")
RELEASED = REFERENCE / "result_as_released.txt"
ADDED = REFERENCE / "result_added_since.txt"


def lines_of(schema: Mapping[str, Any]) -> tuple[str, ...]:
    """Every place in the result with its type and what is said of it, in order of the places.

    A place is a path such as ``answers[].error.value_mm``; what stands behind a reference is
    written out where it is referred to, so that moving a definition changes nothing.
    """
    return tuple(sorted(set(_lines(schema, schema.get("$defs", {}), "result"))))


def _lines(node: Mapping[str, Any], defs: Mapping[str, Any], place: str) -> Iterator[str]:
    if "$ref" in node:
        # What is said beside a reference is said of this place; the rest is the definition's.
        target = defs[node["$ref"].rpartition("/")[2]]
        node = {**target, **{key: value for key, value in node.items() if key != "$ref"}}
    kind = node.get("type") or ("one of" if "anyOf" in node or "oneOf" in node else "anything")
    chosen = node.get("const") or node.get("enum") or ""
    # Prose about whole objects may be reworded; the meaning of a figure may not.
    said = node.get("description", "") if kind != "object" else ""
    yield " | ".join(str(part) for part in (place, kind, chosen, said) if part)
    for choice in (*node.get("anyOf", ()), *node.get("oneOf", ())):
        yield from _lines(choice, defs, place)
    for name, inner in node.get("properties", {}).items():
        yield from _lines(inner, defs, f"{place}.{name}")
    for name in node.get("required", ()):
        yield f"{place}.{name} | always there"
    for inner in (node.get("items"), *node.get("prefixItems", ())):
        if isinstance(inner, Mapping):
            yield from _lines(inner, defs, f"{place}[]")
    if isinstance(node.get("additionalProperties"), Mapping):
        yield from _lines(node["additionalProperties"], defs, f"{place}[any name]")
