"""Spells plain data as TOML, and puts an arrangement into a plan's file.

Must not know what the data mean beyond the letters of a strip.
"""

from __future__ import annotations

import json
import tomllib
from pathlib import Path

from folder import wording
from model import Arrangement, Model


def toml(data: dict, within: str = "") -> str:
    """Keys first, then tables and lists of tables."""
    plain = {key: value for key, value in data.items() if not _is_table(value)}
    lines = [f"{_key(key)} = {_value(value)}" for key, value in plain.items()]
    for key, value in data.items():
        if not _is_table(value):
            continue
        name = within + _key(key)
        for one in value if isinstance(value, list) else [value]:
            head = f"[[{name}]]" if isinstance(value, list) else f"[{name}]"
            lines += ["", head, toml(one, name + ".")]
    return "\n".join(lines) + ("" if within else "\n")


def stand(file: Path, model: Model, arrangement: Arrangement) -> None:
    """Writes `arrangement` into the free slots of the plan in `file`."""
    data = tomllib.loads(file.read_text(encoding="utf-8"))
    for place, puts in enumerate(arrangement):
        strip, free = data["strip"][place], model.free[place]
        letters = [one for one in strip.get("letter", []) if not free[one["slot"] - 1]]
        for slot, put in enumerate(puts):
            if free[slot] and put:
                standing = {"as": put[1]} if put[1] else {}
                asked = wording(strip["wording"])[slot][0]
                letters.append({"slot": slot + 1, "for": asked, "chip": put[0], **standing})
        strip["letter"] = sorted(letters, key=lambda one: one["slot"])
    file.write_text(toml(data), encoding="utf-8")


def _is_table(value: object) -> bool:
    if isinstance(value, list):
        return bool(value) and all(isinstance(one, dict) and "left" not in one for one in value)
    return isinstance(value, dict) and "left" not in value


def _key(key: str) -> str:
    bare = all(sign.isascii() and (sign.isalnum() or sign in "-_") for sign in key)
    return key if bare and key else json.dumps(key, ensure_ascii=False)


def _value(value: object) -> str:
    if isinstance(value, dict):
        return "{ " + ", ".join(f"{_key(key)} = {_value(one)}" for key, one in value.items()) + " }"
    if isinstance(value, list):
        return "[" + ", ".join(_value(one) for one in value) + "]"
    return json.dumps(value, ensure_ascii=False)
