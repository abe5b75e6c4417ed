"""Text of a file: UTF-8, or a plain fault that says what would be right."""

from __future__ import annotations

from pathlib import Path

from narrator.errors import stop


def read_text(path: Path, shown: str) -> str:
    """A file's text as UTF-8; a plain fault for a missing file, a folder or another encoding."""
    try:
        raw = path.read_bytes()
    except IsADirectoryError:
        raise stop(shown, "This is a folder; a file was expected.") from None
    except FileNotFoundError:
        raise stop(shown, "There is no such file.") from None
    except OSError as error:
        raise stop(shown, f"The file could not be read: {error.strerror or error}.") from None
    return decode(raw, shown)


def decode(raw: bytes, shown: str) -> str:
    """UTF-8 with or without a byte order mark; a fault with line and column for anything else."""
    if raw[:2] in (b"\xff\xfe", b"\xfe\xff"):
        raise stop(
            shown, "The file is saved as UTF-16. Save it again as UTF-8 (in the editor: Save as, encoding UTF-8).", 1, 1
        )
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        before = raw[: error.start]
        start = before.rfind(b"\n") + 1
        column = len(before[start:].decode("utf-8", "replace")) + 1
        raise stop(
            shown,
            f"The byte {raw[error.start]:#04x} is not UTF-8 text. Save the file again as UTF-8 (it looks like an older "
            "Windows or Mac encoding).",
            before.count(b"\n") + 1,
            column,
        ) from None
