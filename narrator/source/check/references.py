"""The second check: every name that one file uses for a thing in another stands there."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from narrator.errors import Fault, did_you_mean
from narrator.measure.units import compatible
from narrator.source.check.stock import Stock
from narrator.source.layered import Layered
from narrator.source.model import MeasureSpec
from narrator.source.positions import Key, Located

LEAST_ELEMENT = 5  # letters and figures of an element code of level three or four


def reference_faults(stock: Stock) -> list[Fault]:
    """Faults of reference over all well-formed entries."""
    lists = stock.files.lists
    trades = [item["id"] for item in lists["trades"].value["trades"]]
    known: dict[str, Sequence[str]] = {
        "trade": trades,
        "ask": [item["id"] for item in lists["trades"].value["ask"]],
        "limits": list(lists["limits"].value["limits"]),
        "element": [code for code in lists["elements"].value["elements"] if len(code) >= LEAST_ELEMENT],
        "system": [item["id"] for item in lists["systems"].value["systems"]],
        "room": list(lists["places"].value.get("kinds", {})),
    }
    out: list[Fault] = []
    for code in stock.entries:
        located = stock.located(code)
        out += _lists(located, code, known, stock)
        for name, spec in located.value.get("measures", {}).items():
            measure = stock.entries[code].measure(name)
            assert measure is not None
            out += _measure(located, measure, bool(spec.get("open")), stock)
    return out


def _lists(located: Located, code: str, known: Mapping[str, Sequence[str]], stock: Stock) -> list[Fault]:
    value = located.value
    trade = value["trade"]
    out = _known(located, ("trade", "lead"), [trade["lead"]], known["trade"], "a trade of trades.yaml", one=True)
    out += _known(located, ("trade", "with"), trade.get("with", []), known["trade"], "a trade of trades.yaml")
    if trade["lead"] in trade.get("with", []):
        out.append(located.fault(("trade", "with"), f"'{trade['lead']}' leads already; 'with' is for others."))
    out += _known(located, ("ask",), value.get("ask", []), known["ask"], "one of those to ask in trades.yaml")
    out += _known(located, ("limits",), value.get("limits", []), known["limits"], "a limit of limits.yaml")
    if len(value.get("limits", [])) > 1 and not isinstance(located, Layered):
        out.append(located.fault(("limits",), "An entry has one limit at most; a firm may add its own."))
    what = "an element of elements.yaml (level 3 or 4)"
    out += _known(located, ("element",), [value["element"]], known["element"], what, one=True)
    if "room" in value:
        out += _known(located, ("room",), [value["room"]], known["room"], "a kind of room of places.yaml", one=True)
    others = sorted(stock.codes - {code})
    out += _known(located, ("leads_to",), value.get("leads_to", []), others, "another entry's code")
    if "replaced_by" in value:
        out += _known(located, ("replaced_by",), [value["replaced_by"]], others, "another entry's code", one=True)
    system = code.split(".", 1)[0]
    if system not in known["system"]:
        message = f"The folder '{system}' is not a system of systems.yaml.{did_you_mean(system, known['system'])}"
        out.append(located.fault((), message))
    return out


def _known(
    located: Located, key: Key, wanted: Iterable[str], known: Sequence[str], what: str, one: bool = False
) -> list[Fault]:
    """A fault for each name that is not known, and for each that stands twice."""
    out: list[Fault] = []
    before: set[str] = set()
    for number, name in enumerate(wanted):
        at = key if one else (*key, number)
        if name not in known:
            out.append(located.fault(at, f"'{name}' is not {what}.{did_you_mean(name, known)}"))
        elif name in before:
            out.append(located.fault(at, f"'{name}' stands twice in this list. Keep one."))
        before.add(name)
    return out


def _measure(located: Located, spec: MeasureSpec, reasoned: bool, stock: Stock) -> list[Fault]:
    """A measure has a pass mark that fits, or says why it has none."""
    key: Key = ("measures", spec.name)
    out: list[Fault] = []
    if spec.against:
        if spec.criterion is not None or reasoned:
            message = f"'{spec.name}' is held against a figure that 'against' chooses. Take the other away."
            out.append(located.fault(key, message))
    elif spec.criterion is None:
        if not (reasoned or spec.context or spec.typical):
            message = f"'{spec.name}' has no criterion. Name one, or say why not: open: no figure is published"
            out.append(located.fault(key, message))
    else:
        out += _criterion(located, (*key, "criterion"), spec, spec.criterion, "limit", stock)
        if reasoned:
            message = f"'{spec.name}' has a criterion, so nothing is open. Take one away."
            out.append(located.fault((*key, "open"), message))
    if spec.typical is not None:
        out += _criterion(located, (*key, "typical"), spec, spec.typical, "typical", stock)
    return out


def _criterion(located: Located, key: Key, spec: MeasureSpec, name: str, role: str, stock: Stock) -> list[Fault]:
    if name not in stock.criteria_at:
        same = sorted(other for other, row in stock.criteria.items() if row.role == role)
        return [located.fault(key, f"'{name}' is not the id of a criterion.{did_you_mean(name, same)}")]
    row = stock.criteria.get(name)
    if row is None:
        return []  # its own row is at fault
    out: list[Fault] = []
    if row.role != role:
        out.append(located.fault(key, f"'{name}' has the role '{row.role}'; here only a '{role}' can stand."))
    elif role == "limit" and not row.judges:
        message = f"'{name}' is a figure for older houses, which never judges. Name today's figure."
        out.append(located.fault(key, message))
    if not compatible(row.unit, spec.kind):
        message = f"'{name}' is in {row.unit}, which is no {spec.kind} (the kind of '{spec.name}')."
        out.append(located.fault(key, message))
    return out
