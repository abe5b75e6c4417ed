"""Which word of a printed text belongs to which text of the report, and what each becomes when a person changed the print."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from difflib import SequenceMatcher
from typing import TYPE_CHECKING, NamedTuple

from narrator.edits.words import Piece, changes, pieces

if TYPE_CHECKING:
    from narrator.report import Finding

PROSE = ("observation", "implication", "recommendation")
POINTER = ("(", "not", "seen", "here", ":")


class Text(NamedTuple):
    """A text of the report that takes part in a print, under the name of its field."""

    field: str
    text: str


class Word(NamedTuple):
    """A printed piece. `starts`: it begins a paragraph. `owner`: its field and its place in that text, None for narrator's own."""

    piece: Piece
    starts: bool
    owner: tuple[str, int] | None = None


def texts_of(found: Finding) -> list[Text]:
    """The texts of a finding in the order in which they print."""
    out = [Text("observation", found["observation"]), Text("implication", found["implication"])]
    out += [Text(f"limits.{each['id']}", each["text"]) for each in found["limits"] if each["at"] is None]
    if found.get("why_at") is None and found["why"].strip() not in found["implication"]:
        out.append(Text("why", found["why"]))
    return [*out, Text("recommendation", found["recommendation"])]


def words(paragraphs: Sequence[str]) -> list[Word]:
    """Paragraphs as printed pieces."""
    return [Word(piece, at == 0) for each in paragraphs for at, piece in enumerate(pieces(each.strip()))]


def owned(paragraphs: Sequence[str], texts: Sequence[Text]) -> list[Word]:
    """Printed pieces with the text that each belongs to."""
    printed = words(paragraphs)
    own = [(each.field, at, piece) for each in texts for at, piece in enumerate(pieces(each.text))]
    matcher = SequenceMatcher(
        None, [each.piece.key for each in printed], [piece.key for *_, piece in own], autojunk=False
    )
    for block in matcher.get_matching_blocks():
        for step in range(block.size):
            field, at, _ = own[block.b + step]
            printed[block.a + step] = printed[block.a + step]._replace(owner=(field, at))
    return printed


def pointed(printed: Sequence[Word], found: Finding) -> list[Word]:
    """The same, with `(not seen here: as at number 5)` owned by the limit that it stands for."""
    limits = iter([each["id"] for each in found["limits"] if each["at"] is not None])
    out = list(printed)
    at = 0
    while at < len(out):
        if tuple(each.piece.key for each in out[at : at + len(POINTER)]) == POINTER and out[at].owner is None:
            end = next((i for i in range(at, len(out)) if out[i].piece.key == ")"), at)
            limit = next(limits, "")
            for i in range(at, end + 1):
                out[i] = out[i]._replace(owner=(f"limits.{limit}", i - at) if limit else None)
            at = end
        at += 1
    return out


def became(
    printed: Sequence[Word], edited: Sequence[str], texts: Sequence[Text], paragraphs: bool = True
) -> Mapping[str, str]:
    """The new text of each field that a person changed, from the printed pieces and the paragraphs of the edited print.

    With `paragraphs`, one that was added goes into the text before it, on a line of its own. A pointer that was taken out
    gives an empty text for its limit; any other change of narrator's own words belongs nowhere and is left out.
    """
    fresh = words(edited)
    before, after = [each.piece for each in printed], [each.piece for each in fresh]
    lost: dict[str, set[int]] = {}
    came: dict[tuple[str, int], str] = {}
    for change in changes(before, after):
        for word in printed[change.start : change.end]:
            if word.owner:
                lost.setdefault(word.owner[0], set()).add(word.owner[1])
        text = _inserted(printed, fresh, change.start, change.end, change.to, change.until, paragraphs)
        place = _place(printed, change.start, change.end, fresh, change.to, change.until) if text.strip() else None
        if place:
            text = _asked(printed, change.start) + text if change.start == change.end else text
            came[place] = came.get(place, "") + text
    out: dict[str, str] = {}
    known = {each.field: pieces(each.text) for each in texts}
    for field in dict.fromkeys([*lost, *(field for field, _ in came)]):
        if field not in known:  # the pointer to a limit: it is there whole, or it is not
            size = sum(1 for word in printed if word.owner and word.owner[0] == field)
            if len(lost.get(field, ())) == size:
                out[field] = ""
            continue
        out[field] = _joined(field, known[field], lost.get(field, set()), came)
    return out


def _asked(printed: Sequence[Word], start: int) -> str:
    """`Also ask the seller.`, which narrator prints last, where new words stand behind it: it goes into the text with them."""
    at = start
    while at and printed[at - 1].owner is None:
        at -= 1
    said = printed[at:start]
    return "".join(word.piece.text for word in said) if said and said[0].piece.key == "Also" else ""


def _joined(field: str, parts: Sequence[Piece], lost: set[int], came: Mapping[tuple[str, int], str]) -> str:
    text = ""
    for at in range(len(parts) + 1):
        text += came.get((field, at), "")
        if not at and text.startswith("\n"):
            text = text.lstrip("\n") + "\n"  # a paragraph before the first word of this text
        if text and not at and 0 not in lost and text[-1] not in " “(['\"\n":
            text += " "  # what came stands before the first word, which has no space of its own
        if at < len(parts) and at not in lost:
            text += parts[at].text
    lines = (" ".join(line.split()) for line in text.split("\n"))
    return "\n".join(line for line in lines if line)


def _inserted(
    printed: Sequence[Word], fresh: Sequence[Word], start: int, end: int, to: int, until: int, paragraphs: bool
) -> str:
    """The words that came, with a line break where the person began a paragraph that was not there."""
    breaks = sum(word.starts for word in printed[start:end])
    if until > to and until < len(fresh) and end < len(printed) and printed[end].starts and not fresh[until].starts:
        breaks += 1  # what came stands before the first word of a paragraph, and begins it now
    out = ""
    for at in range(to, until):
        text = fresh[at].piece.text
        if fresh[at].starts and at > 0:
            if breaks:
                breaks -= 1
                text = " " + text
            else:
                text = ("\n" if paragraphs else " ") + text
        out += text
    return out


def _place(
    printed: Sequence[Word], start: int, end: int, fresh: Sequence[Word], to: int, until: int
) -> tuple[str, int] | None:
    """The field, and the place in its text, where new words go: where words left, else behind the ones before them."""
    for word in printed[start:end]:
        if (word.owner and word.owner[0] in (*PROSE, "text", "why")) or (
            word.owner and word.owner[0].startswith("part")
        ):
            return word.owner
    for word in printed[start:end]:
        if word.owner:
            return word.owner
    if start < end:
        return None  # narrator's own words were changed
    ends_here = end < len(printed) and printed[end].starts and fresh[to].starts and not _starts_anew(fresh, until)
    behind, ahead = _behind(printed, start), _ahead(printed, end)
    if ends_here and ahead:
        return ahead
    if behind and (behind[0] in PROSE or (behind[0] not in ("why",) and not behind[0].startswith("limits."))):
        return behind
    return ahead or _last_prose(printed) or behind


def _starts_anew(fresh: Sequence[Word], until: int) -> bool:
    return until >= len(fresh) or fresh[until].starts


def _behind(printed: Sequence[Word], start: int) -> tuple[str, int] | None:
    """Right behind the owned word before this one."""
    for word in reversed(printed[:start]):
        if word.owner:
            return word.owner[0], word.owner[1] + 1
    return None


def _ahead(printed: Sequence[Word], end: int) -> tuple[str, int] | None:
    return next((word.owner for word in printed[end:] if word.owner), None)


def _last_prose(printed: Sequence[Word]) -> tuple[str, int] | None:
    owners: Iterator[tuple[str, int]] = (word.owner for word in reversed(printed) if word.owner)
    return next(((field, at + 1) for field, at in owners if field in PROSE), None)
