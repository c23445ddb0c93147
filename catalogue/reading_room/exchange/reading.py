"""A file that says it is a catalogue, a few rows at a time: what it says, or all faults with their places."""

from collections import Counter
from collections.abc import Callable, Hashable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import Any
from uuid import UUID, uuid5

from catalogue.reading_room.exchange.rules import RULES, Told
from catalogue.reading_room.exchange.writing import AT_A_TIME, FORMAT, READS, VERSION
from catalogue.references.kinds import REFERENCE, RELATION
from catalogue.references.models.tag import Tag
from catalogue.workroom.kinds import LISTS, Kind
from catalogue.workroom.reader.entries import Notes
from catalogue.workroom.reader.faulty import Faulty, read_text
from catalogue.workroom.reader.long_json import WINDOW, LongTable, Member
from catalogue.workroom.reader.strict_json import oddities
from catalogue.workroom.reader.values import missing_value, read_key, read_value

Said = dict[str, Any]
# Lists in which a word or a number stands once.
ONCE = {"readings": "line", "fastenings": "line", "traced_readings": "line", "calibrations": "number"}
# Keys and relations, which are held as long as the catalogue is read; twenty thousand garments with ten
# photographs and a plate each have 280,000.
MOST_KEYS = 400_000


@dataclass(frozen=True, slots=True)
class Batch:
    """Rows of one list, each with its number in it."""

    name: str
    rows: list[tuple[int, Said]]


def read_catalogue(table: LongTable, notes: Notes) -> Iterator[Batch]:
    """The rows in which nothing is wrong, with every default filled in; what is wrong goes into `notes`."""
    reading, about = _Reading(notes), {}
    for name, member in table.members():
        if name in ABOUT:
            about[name] = member.value()
            if fault := ABOUT[name](about[name]):
                notes.fault(name, fault)
                return
        elif name in LISTS and len(about) == len(ABOUT):
            reading.is_without_keys = about["version"] < VERSION
            yield from reading.rows(name, member, table)
        elif name not in LISTS:
            notes.fault(name, "There is no such name here.")
    for name, check in ABOUT.items():
        if name not in about:
            notes.fault(name, f"{check(None)} It stands before the lists.")


VERSIONS = f"This program reads versions {', '.join(map(str, READS[:-1]))} and {READS[-1]}."
# What the file says of itself, each before the lists: what is wrong with it, if anything.
ABOUT: dict[str, Callable[[Any], str]] = {
    "format": lambda given: "" if given == FORMAT else f"This is not a file of “{FORMAT}”.",
    # True and 1.0 are equal to 1, and neither is a version.
    "version": lambda given: "" if type(given) is int and given in READS else VERSIONS,
}


@dataclass(slots=True)
class _Reading:
    notes: Notes
    # Keys met so far, by the name of the list they stand in.
    keys: dict[str, set[Hashable]] = field(default_factory=dict)
    count: int = 0
    is_without_keys: bool = False

    def rows(self, name: str, member: Member, table: LongTable) -> Iterator[Batch]:
        """The rows of one list of the catalogue, a few at a time: so many, or what much of the file says."""
        before = list(LISTS)[: list(LISTS).index(name)]
        if member.opening != "[":
            self.notes.fault(name, "Must be a list.")
            return
        if late := [one for one in LISTS if one in self.keys and one not in before]:
            self.notes.fault(name, f"Must stand before “{late[0]}”.")
        self.keys[name] = set()
        held: list[tuple[int, Said]] = []
        start = table.characters
        for at, given in member.values:
            faults = len(self.notes.faults)
            self.notes.extend(oddities(given, f"{name}[{at}]"))
            keyed = _with_keys(given) if self.is_without_keys and name == "references" else given
            said = self._row(LISTS[name], keyed, name, f"{name}[{at}]")
            if said is not None and len(self.notes.faults) == faults:
                self._no_twin(name, said)
                held.append((int(at), said))
            if len(held) == AT_A_TIME or table.characters - start > WINDOW:
                yield Batch(name, held)
                held, start = [], table.characters
        yield Batch(name, held)

    def _no_twin(self, name: str, said: Said) -> None:
        """Relations and saved filters have no key, and stand there once all the same."""
        twin = TWINS[name](said) if name in TWINS else None
        if twin is not None and not self._hold(f"every {name}", twin):
            self.notes.fault(name, f"The same stands there twice: {twin}.")

    def _hold(self, where: str, key: Hashable) -> bool:
        """Whether it was not held before. Raises Faults with what was noted where it would be too many."""
        keys = self.keys.setdefault(where, set())
        if key in keys:
            return False
        keys.add(key)
        self.count += 1
        if self.count > MOST_KEYS:
            self.notes.fault("catalogue", f"Holds more than {MOST_KEYS:,} rows with a key.")
            self.notes.refuse()
        return True

    def _rows(self, kind: Kind, given: Any, name: str, place: str) -> list[Said]:
        if not isinstance(given, list):
            self.notes.fault(place, "Must be a list.")
            return []
        rows = (self._row(kind, one, name, f"{place}[{at}]") for at, one in enumerate(given))
        return [row for row in rows if row is not None]

    def _row(self, kind: Kind, given: Any, name: str, place: str) -> Said | None:
        if not isinstance(given, dict):
            self.notes.fault(place, "Must be an object in braces.")
            return None
        # What may be pointed to inside one garment or plate is asked of that one only.
        for own in kind.parts:
            self.keys[own] = set()
        known = {"key"} if kind.has_key else set()
        known |= {*kind.fields(), *kind.points_to, *kind.parts, *kind.only}
        known |= {"tags"} if kind is REFERENCE else {"file"} if kind.files else set()
        self._refuse_unknown(given, known, place)
        said: Said = {}
        if kind.has_key:
            with self._at(f"{place}.key"):
                said["key"] = self._new_key(name, given.get("key"))
        for column_name, column in kind.fields().items():
            with self._at(f"{place}.{column_name}"):
                held = column_name in given
                said[column_name] = read_value(column, given[column_name]) if held else missing_value(column)
        if kind.files:
            with self._at(f"{place}.file"):
                said["file"] = read_text(given.get("file"))
        if kind is REFERENCE:
            said["tags"] = self._tags(given.get("tags", []), f"{place}.tags")
        self._pointers_and_parts(kind, given, said, place)
        for column_name, sentence in RULES.get(kind.model, lambda told: ())(Told(said)):
            self.notes.fault(f"{place}.{column_name}", sentence)
        return said

    def _pointers_and_parts(self, kind: Kind, given: Said, said: Said, place: str) -> None:
        # A plate's pieces are read before its seams, a garment's photographs before its plates.
        for name, target in kind.points_to.items():
            with self._at(f"{place}.{name}"):
                said[name] = self._pointer(kind, name, target, given.get(name))
        for name, part in kind.parts.items():
            said[name] = self._rows(part, given.get(name, []), name, f"{place}.{name}")
            if name in ONCE:
                self._no_twins(f"{place}.{name}", [one.get(ONCE[name]) for one in said[name]])
        for name, part in kind.only.items():
            held = given.get(name)
            said[name] = None if held is None else self._row(part, held, name, f"{place}.{name}")

    def _pointer(self, kind: Kind, name: str, target: str, given: Any) -> str | None:
        if given is None:
            if not kind.model._meta.get_field(name).null:
                raise Faulty("Is missing.")
            return None
        key = read_key(given)
        if key not in self.keys.get(target, ()):
            raise Faulty(f"No such row among the {target} before it.")
        return key

    def _new_key(self, name: str, given: Any) -> str:
        key = read_key(given)
        # Photographs, plates and pieces are known by their key through the whole catalogue.
        if not self._hold(f"every {name}", key):
            raise Faulty("Another row has the same key.")
        self.keys.setdefault(name, set()).add(key)
        return key

    def _tags(self, given: Any, place: str) -> list[str]:
        if not isinstance(given, list):
            self.notes.fault(place, "Must be a list.")
            return []
        longest, tags = Tag._meta.get_field("name").max_length, {}
        for at, one in enumerate(given):
            with self._at(f"{place}[{at}]"):
                name = " ".join(read_text(one).split())
                if not 0 < len(name) <= longest:
                    raise Faulty(f"A tag has from 1 to {longest} characters.")
                tags[name.casefold()] = name
        return sorted(tags.values())

    def _no_twins(self, place: str, keys: list[Any]) -> None:
        for key, count in Counter(keys).items():
            if count > 1 and key is not None:
                self.notes.fault(place, f"The same stands there twice: {key}.")

    def _refuse_unknown(self, given: Mapping[str, Any], known: set[str], place: str) -> None:
        for name in given:
            if name not in known:
                self.notes.fault(f"{place}.{name}", "There is no such name here.")

    @contextmanager
    def _at(self, place: str) -> Iterator[None]:
        try:
            yield
        except Faulty as fault:
            self.notes.fault(place, fault.sentence)


def _with_keys(given: Any) -> Any:
    """What versions 1 and 2 leave unsaid, said: of both seams, scans and calibrations have no keys.

    They get those that a migration gave the rows they were written from, so that an archive taken in twice
    finds them. What is faulty otherwise is left for the reader.
    """
    for plate in _dicts(given.get("plates")) if isinstance(given, dict) else ():
        try:
            _give_keys(plate, UUID(plate.get("key")))
        except (ValueError, TypeError, AttributeError):
            continue
    return given


def _give_keys(plate: Said, key: UUID) -> None:
    if isinstance(scan := plate.get("scan"), dict):
        scan["key"] = str(uuid5(key, "scan"))
        for one in _dicts(scan.get("calibrations")):
            one["key"] = str(uuid5(key, f"calibration {one.get('number')}"))
    met: Counter[str] = Counter()
    for seam in _dicts(plate.get("seams")):
        names = ("piece_a", "edge_a", "piece_b", "edge_b")
        said = " ".join(str(seam.get(name, "")) for name in names)
        met[said] += 1
        seam["key"] = str(uuid5(key, f"seam {said} {met[said]}"))


def _dicts(given: Any) -> list[Said]:
    return [one for one in given if isinstance(one, dict)] if isinstance(given, list) else []


def _ends(said: Said) -> str:
    ends = [said["reference"], said["other"]]
    is_one_way = said["kind"] in RELATION.model.FROM_OTHER
    return " ".join([said["kind"], *(ends if is_one_way else sorted(ends))])


TWINS = {"relations": _ends, "saved_filters": lambda said: said["name"]}
