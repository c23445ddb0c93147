"""What changed between two snapshots of an outfit, in sentences a maker can read at the table."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from catalogue.lengths.calculation.levels import LINES
from catalogue.lengths.showing import Writing
from fitting.dossier.loading.snapshot import GarmentSnapshot, MeasuresSnapshot, Snapshot
from fitting.outfits.models.garment import Garment
from fitting.wearers.models import Measures


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """`about` sorts it: measures, garment, comparison, route, stage, alteration, fitting, trial, work."""

    about: str
    sentence: str


def changes_between(then: Snapshot, now: Snapshot, writing: Writing) -> tuple[Change, ...]:
    """What is new, other or gone in `now`; nothing where the two say the same."""
    return (
        *_measures(then["measures"], now["measures"], writing),
        *_garments(then["garments"], now["garments"]),
        *_alterations(then, now),
        *_fittings(then, now),
        *_added("trial", "Tried", then["trials"], now["trials"]),
        *_added("work", "Done", then["done"], now["done"]),
        *_log(then, now),
    )


def _measures(
    then: Mapping[str, MeasuresSnapshot], now: Mapping[str, MeasuresSnapshot], writing: Writing
) -> Iterator[Change]:
    for state, taken in now.items():
        before = then.get(state)
        if before and before["key"] == taken["key"] and before["mm"] == taken["mm"]:
            continue
        old = before["mm"] if before else {}
        moved = [
            f"{LINES[line].label} {writing.length(mm)} (was {writing.length(old[line])})"
            for line, mm in taken["mm"].items()
            if line in old and writing.length(mm) != writing.length(old[line])
        ]
        same = sum(line in old for line in taken["mm"]) - len(moved)
        fresh = [LINES[line].label for line in taken["mm"] if line not in old]
        parts = [
            ", ".join(moved),
            f"first taken: {', '.join(fresh)}" if fresh else "",
            f"{same} as before" if same else "",
        ]
        told = "; ".join(part for part in parts if part)
        label = Measures.State(state).label
        yield Change(about="measures", sentence=f"Measured {label} on {_day(taken['taken_on'])}: {told}.")


def _garments(then: Mapping[str, GarmentSnapshot], now: Mapping[str, GarmentSnapshot]) -> Iterator[Change]:
    for key, garment in now.items():
        before = then.get(key)
        if before is None:
            yield Change(about="garment", sentence=f"{garment['name']}: new in the outfit.")
        else:
            yield from _garment(before, garment)
    for key, before in then.items():
        if key not in now:
            yield Change(about="garment", sentence=f"{before['name']}: no longer in the outfit.")


def _garment(then: GarmentSnapshot, now: GarmentSnapshot) -> Iterator[Change]:
    name = now["name"]
    if then["stage"] != now["stage"]:
        stages = f"{Garment.Stage(then['stage']).label} → {Garment.Stage(now['stage']).label}"
        yield Change(about="stage", sentence=f"{name}: {stages}.")
    if then["comparison"] != now["comparison"] and now["comparison"]:
        yield Change(about="comparison", sentence=f"{name}: {_verdicts(then, now)}.")
    if then["route"] != now["route"]:
        if then["route"] and now["route"]:
            sentence = f"{name}: route {then['route']} → {now['route']}."
        else:
            sentence = f"{name}: {'route chosen, ' + now['route'] if now['route'] else 'no route any more'}."
        yield Change(about="route", sentence=sentence)


def _verdicts(then: GarmentSnapshot, now: GarmentSnapshot) -> str:
    if then["comparison"] is None:
        counted = ", ".join(f"{LINES[line].label} {verdict}" for line, verdict in now["verdicts"].items())
        return f"compared for the first time: {counted}"
    changed = [
        f"{LINES[line].label} {then['verdicts'].get(line, 'not compared')} → {verdict}"
        for line, verdict in now["verdicts"].items()
        if then["verdicts"].get(line) != verdict
    ]
    gone = [LINES[line].label for line in then["verdicts"] if line not in now["verdicts"]]
    told = [*changed, *([f"no longer compared at {', '.join(gone)}"] if gone else [])]
    return f"compared again, {', '.join(told) or 'every verdict as before'}"


def _alterations(then: Snapshot, now: Snapshot) -> Iterator[Change]:
    for key, row in now["alterations"].items():
        before = then["alterations"].get(key)
        ticked = [part for part in row["ticked"] if not before or part not in before["ticked"]]
        told = [
            *(["added"] if before is None else []),
            *([f"done on {', '.join(ticked)}"] if ticked else []),
            *(["confirmed"] if row["is_confirmed"] and not (before and before["is_confirmed"]) else []),
            *(["open again"] if before and before["is_confirmed"] and not row["is_confirmed"] else []),
        ]
        if told:
            sentence = f"{row['garment']}: alteration of the {row['what']}: {', '.join(told)}."
            yield Change(about="alteration", sentence=sentence)
    for key, before in then["alterations"].items():
        if key not in now["alterations"]:
            sentence = f"{before['garment']}: alteration of the {before['what']}: dropped."
            yield Change(about="alteration", sentence=sentence)


def _fittings(then: Snapshot, now: Snapshot) -> Iterator[Change]:
    for key, row in now["fittings"].items():
        before = then["fittings"].get(key)
        if row["is_closed"] and not (before and before["is_closed"]):
            yield Change(about="fitting", sentence=f"Fitting of {_day(row['on'])}: held and closed.")
        elif before is None:
            yield Change(about="fitting", sentence=f"Fitting of {_day(row['on'])}: planned.")


def _added(about: str, word: str, then: Iterable[str], now: Mapping[str, str]) -> Iterator[Change]:
    new = [name for key, name in now.items() if key not in then]
    if new:
        yield Change(about=about, sentence=f"{word}: {'; '.join(new)}.")


def _log(then: Snapshot, now: Snapshot) -> Iterator[Change]:
    hours = now["hours"] - then["hours"]
    spent = Decimal(now["spent"]) - Decimal(then["spent"])
    told = [
        *([f"{hours:.2f}".rstrip("0").rstrip(".") + " h of work logged"] if hours > 0 else []),
        *([f"{spent:,.2f} spent"] if spent > 0 else []),
    ]
    if told:
        yield Change(about="work", sentence=f"{' and '.join(told).capitalize()}.")


def _day(iso: str) -> str:
    return f"{date.fromisoformat(iso):%-d %B %Y}"
