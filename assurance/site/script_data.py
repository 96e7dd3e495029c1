"""Data written as a script: a page that is opened from a folder can take a script in, and nothing else."""

import json
from collections.abc import Mapping
from typing import Any


def as_script(function: str, data: Mapping[str, Any]) -> str:
    """A script that hands plain values to a function of ours, and holds nothing else.

    No text in it can end a script element, open a comment or end a line, wherever it is pasted.
    """
    text = json.dumps(data, ensure_ascii=False, allow_nan=False, separators=(",", ":"))
    safe = text.replace("</", "<\\/").replace("<!", "<\\u0021")
    safe = safe.replace('"__proto__":', '["__proto__"]:')  # a key like any other, not the object's own
    safe = safe.replace("\u2028", "\\u2028").replace("\u2029", "\\u2029")
    return f"{function}({safe});\n"
