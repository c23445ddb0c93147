"""A file that says it is a catalogue: either every fault in it, with its place, or what it says."""

from collections import Counter
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import Any
from uuid import UUID, uuid5

from catalogue.lengths.calculation.errors import Fault, Faults
from catalogue.reading_room.exchange.rules import RULES, Told
from catalogue.reading_room.exchange.writing import FORMAT, READS, VERSION
from catalogue.references.kinds import REFERENCE, RELATION
from catalogue.references.models.tag import Tag
from catalogue.workroom.kinds import LISTS, Kind
from catalogue.workroom.reader.faulty import Faulty, read_text
from catalogue.workroom.reader.values import missing_value, read_key, read_value

Said = dict[str, Any]
# Lists in which a word or a number stands once.
ONCE = {"readings": "line", "fastenings": "line", "traced_readings": "line", "calibrations": "number"}


def read_catalogue(document: Any) -> Said:
    """Return the document with every default filled in. Raises Faults with all faults."""
    reading = _Reading()
    said = reading.whole(document)
    if reading.faults:
        raise Faults(reading.faults)
    return said


@dataclass(slots=True)
class _Reading:
    faults: list[Fault] = field(default_factory=list)
    # Keys met so far, by the name of the list they stand in.
    keys: dict[str, set[str]] = field(default_factory=dict)

    def whole(self, document: Any) -> Said:
        if not isinstance(document, dict) or document.get("format") != FORMAT:
            self.faults.append(Fault("format", f"This is not a file of “{FORMAT}”."))
            return {}
        # True and 1.0 are equal to 1, and neither is a version.
        if type(document.get("version")) is not int or document["version"] not in READS:
            said = ", ".join(map(str, READS[:-1]))
            self.faults.append(Fault("version", f"This program reads versions {said} and {READS[-1]}."))
            return {}
        if document["version"] < VERSION:
            document = _with_keys(document)
        self._refuse_unknown(document, {"format", "version", *LISTS}, "")
        lists = {name: self._rows(kind, document.get(name, []), name, name) for name, kind in LISTS.items()}
        self._no_twins("relations", [_relation_key(said) for said in lists["relations"]])
        self._no_twins("saved_filters", [said.get("name") for said in lists["saved_filters"]])
        return {"format": FORMAT, "version": VERSION, **lists}

    def _rows(self, kind: Kind, given: Any, name: str, place: str) -> list[Said]:
        if not isinstance(given, list):
            self.faults.append(Fault(place, "Must be a list."))
            return []
        rows = (self._row(kind, one, name, f"{place}[{at}]") for at, one in enumerate(given))
        return [row for row in rows if row is not None]

    def _row(self, kind: Kind, given: Any, name: str, place: str) -> Said | None:
        if not isinstance(given, dict):
            self.faults.append(Fault(place, "Must be an object in braces."))
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
        for column_name, sentence in RULES.get(kind.model, _no_rule)(Told(said)):
            self.faults.append(Fault(f"{place}.{column_name}", sentence))
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
        everywhere = self.keys.setdefault(f"every {name}", set())
        if key in everywhere:
            raise Faulty("Another row has the same key.")
        everywhere.add(key)
        self.keys.setdefault(name, set()).add(key)
        return key

    def _tags(self, given: Any, place: str) -> list[str]:
        if not isinstance(given, list):
            self.faults.append(Fault(place, "Must be a list."))
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
                self.faults.append(Fault(place, f"The same stands there twice: {key}."))

    def _refuse_unknown(self, given: Mapping[str, Any], known: set[str], place: str) -> None:
        for name in given:
            if name not in known:
                where = f"{place}.{name}" if place else name
                self.faults.append(Fault(where, "There is no such name here."))

    @contextmanager
    def _at(self, place: str) -> Iterator[None]:
        try:
            yield
        except Faulty as fault:
            self.faults.append(Fault(place, fault.sentence))


def _no_rule(told: Told) -> tuple[()]:
    return ()


def _relation_key(said: Said) -> tuple[Any, ...] | None:
    ends = (said.get("reference"), said.get("other"))
    if None in ends:
        return None
    is_one_way = said.get("kind") in RELATION.model.FROM_OTHER
    return (said.get("kind"), *(ends if is_one_way else sorted(ends)))


def _with_keys(document: Said) -> Said:
    """What versions 1 and 2 leave unsaid, said: of both seams, scans and calibrations have no keys.

    They get those that a migration gave the rows they were written from, so that an archive taken in twice
    finds them. What is faulty otherwise is left for the reader.
    """
    for reference in _dicts(document.get("references")):
        for plate in _dicts(reference.get("plates")):
            try:
                _give_keys(plate, UUID(plate.get("key")))
            except (ValueError, TypeError, AttributeError):
                continue
    return document


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
