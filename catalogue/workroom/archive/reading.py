"""A file that says it is a catalogue, a few rows at a time: what it says, or all faults with their places."""

from collections import Counter
from collections.abc import Callable, Hashable, Iterable, Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from typing import Any

from django.db.models import Model

from catalogue.workroom.archive.writing import AT_A_TIME, FORMAT, READS, VERSION, with_keys
from catalogue.workroom.kinds import LISTS, Kind
from catalogue.workroom.reader.entries import Notes, did_you_mean
from catalogue.workroom.reader.faulty_value import FaultyValue, read_text, unfit
from catalogue.workroom.reader.long_json import WINDOW, JsonMember, LongTable
from catalogue.workroom.reader.row_values import RowValues
from catalogue.workroom.reader.strict_json import oddities
from catalogue.workroom.reader.values import missing_value, read_key, read_value

Said = dict[str, Any]
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
    reading, about = _RowReader(notes), {}
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
            notes.fault(name, f"This key is not known here{did_you_mean(name, [*ABOUT, *LISTS])}.")
    for name, check in ABOUT.items():
        if name not in about:
            notes.fault(name, f"{check(None)} It stands before the lists.")
    reading.check_later()


VERSIONS = f"This program reads versions {', '.join(map(str, READS[:-1]))} and {READS[-1]}."
# What the file says of itself, each before the lists: what is wrong with it, if anything.
ABOUT: dict[str, Callable[[Any], str]] = {
    "format": lambda given: "" if given == FORMAT else f"This is not a file of “{FORMAT}”.",
    # True and 1.0 are equal to 1, and neither is a version.
    "version": lambda given: "" if type(given) is int and given in READS else VERSIONS,
}


@dataclass(slots=True)
class _RowReader:
    notes: Notes
    # Keys met so far, by the name of the list they stand in, or by the kind of row where that is a part.
    keys: dict[Hashable, set[Hashable]] = field(default_factory=dict)
    # What points to a row that may come later: where, of which kind, by which key.
    later: list[tuple[str, Kind, str]] = field(default_factory=list)
    count: int = 0
    is_without_keys: bool = False

    def rows(self, name: str, member: JsonMember, table: LongTable) -> Iterator[Batch]:
        """The rows of one list of the catalogue, a few at a time: so many, or what much of the file says."""
        before = list(LISTS)[: list(LISTS).index(name)]
        if member.opening != "[":
            self.notes.fault(name, "This must be a list in brackets.")
            return
        if late := [one for one in LISTS if one in self.keys and one not in before]:
            self.notes.fault(name, f"This must stand before “{late[0]}”.")
        self.keys[name] = set()
        held: list[tuple[int, Said]] = []
        start = table.characters
        for at, given in member.values:
            faults = len(self.notes.faults)
            self.notes.extend(oddities(given, f"{name}[{at}]"))
            keyed = with_keys(given) if self.is_without_keys and name == "references" else given
            said = self._row(LISTS[name], keyed, f"{name}[{at}]")
            if said is not None and len(self.notes.faults) == faults:
                self._no_twin(LISTS[name], said)
                held.append((int(at), said))
            if len(held) == AT_A_TIME or table.characters - start > WINDOW:
                yield Batch(name, held)
                held, start = [], table.characters
        yield Batch(name, held)

    def _no_twin(self, kind: Kind, said: Said) -> None:
        """Relations and saved filters are known by what they say."""
        twin = kind.twin(said) if kind.twin else said[kind.once] if kind.once else None
        if twin is not None and not self._hold(f"every {kind.name}", twin):
            self.notes.fault(kind.name, f"The same stands there twice: {twin}.")

    def check_later(self) -> None:
        for place, kind, key in self.later:
            if key not in self.keys.get(f"every {kind.model.__name__}", ()):
                self.notes.fault(place, f"No such row among the {kind.list_name}.")

    def _hold(self, where: Hashable, key: Hashable) -> bool:
        """Whether it was not held before. Raises Faults with what was noted where it would be too many."""
        keys = self.keys.setdefault(where, set())
        if key in keys:
            return False
        keys.add(key)
        self.count += 1
        if self.count > MOST_KEYS:
            self.notes.fault("catalogue", f"This holds more than {MOST_KEYS:,} rows with a key.")
            self.notes.refuse()
        return True

    def _rows(self, kind: Kind, given: Any, place: str) -> list[Said]:
        if not isinstance(given, list):
            self.notes.fault(place, unfit(given, "a list in brackets"))
            return []
        rows = (self._row(kind, one, f"{place}[{at}]") for at, one in enumerate(given))
        return [row for row in rows if row is not None]

    def _row(self, kind: Kind, given: Any, place: str) -> Said | None:
        if not isinstance(given, dict):
            self.notes.fault(place, unfit(given, "a table in braces"))
            return None
        # What may be pointed to inside one garment or plate is asked of that one only.
        for own in kind.parts.values():
            self.keys[own] = set()
        self._refuse_unknown(given, kind.names(), place)
        said: Said = {}
        if kind.has_key:
            with self._at(f"{place}.key"):
                said["key"] = self._new_key(kind, given.get("key"))
        for column_name, column in kind.fields().items():
            with self._at(f"{place}.{column_name}"):
                held = column_name in given
                said[column_name] = read_value(column, given[column_name]) if held else missing_value(column)
        if kind.files:
            with self._at(f"{place}.file"):
                said["file"] = read_text(given.get("file"))
        for name, model in kind.named.items():
            said[name] = self._named(model, given.get(name, []), f"{place}.{name}")
        for name in kind.people if not self.is_without_keys else ():
            with self._at(f"{place}.{name}"):
                said[name] = None if given.get(name) is None else read_text(given[name])
        self._pointers_and_parts(kind, given, said, place)
        parts = (*kind.parts.values(), *kind.only.values())
        for rule in (kind.rule, *(part.rule_of_whole for part in parts)):
            for column_name, sentence in rule(RowValues(said)):
                self.notes.fault(f"{place}.{column_name}", sentence)
        return said

    def _pointers_and_parts(self, kind: Kind, given: Said, said: Said, place: str) -> None:
        # A plate's pieces are read before its seams, a garment's photographs before its plates.
        for name, target in kind.points_to.items():
            with self._at(f"{place}.{name}"):
                said[name] = self._pointer(kind, name, target, given.get(name))
        for name, target in kind.loose.items():
            said[name] = self._loose(kind, name, target, given.get(name), f"{place}.{name}")
        for name, part in kind.parts.items():
            said[name] = self._rows(part, given.get(name, []), f"{place}.{name}")
            if part.once:
                self._no_twins(f"{place}.{name}", [one.get(part.once) for one in said[name]])
        for name, part in kind.only.items():
            held = given.get(name)
            said[name] = None if held is None else self._row(part, held, f"{place}.{name}")

    def _loose(self, kind: Kind, name: str, target: Kind, given: Any, place: str) -> Any:
        if not kind.model._meta.get_field(name).many_to_many:
            return self._for_later(target, given, place) if given is not None else None
        if not isinstance(given, list | None):
            self.notes.fault(place, unfit(given, "a list in brackets"))
            return []
        keys = [self._for_later(target, one, f"{place}[{at}]") for at, one in enumerate(given or [])]
        return sorted({key for key in keys if key})

    def _for_later(self, target: Kind, given: Any, place: str) -> str | None:
        with self._at(place):
            key = read_key(given)
            self.later.append((place, target, key))
            return key
        return None

    def _pointer(self, kind: Kind, name: str, target: Kind, given: Any) -> str | None:
        if given is None:
            if not kind.model._meta.get_field(name).null:
                raise FaultyValue("This is missing.")
            return None
        key = read_key(given)
        where = target if kind.stands_beside(target) else f"every {target.model.__name__}"
        if key not in self.keys.get(where, ()):
            raise FaultyValue(f"No such row among the {target.list_name} before it.")
        return key

    def _new_key(self, kind: Kind, given: Any) -> str:
        key = read_key(given)
        # Photographs, plates and pieces are known by their key through the whole catalogue.
        if not self._hold(f"every {kind.model.__name__}", key):
            raise FaultyValue("Another row has the same key.")
        self.keys.setdefault(kind, set()).add(key)
        return key

    def _named(self, model: type[Model], given: Any, place: str) -> list[str]:
        if not isinstance(given, list):
            self.notes.fault(place, unfit(given, "a list in brackets"))
            return []
        longest, names = model._meta.get_field("name").max_length, {}
        for at, one in enumerate(given):
            with self._at(f"{place}[{at}]"):
                name = " ".join(read_text(one).split())
                if not 0 < len(name) <= longest:
                    raise FaultyValue(f"A {model._meta.verbose_name} has from 1 to {longest} characters.")
                names[name.casefold()] = name
        return sorted(names.values())

    def _no_twins(self, place: str, keys: list[Any]) -> None:
        for key, count in Counter(keys).items():
            if count > 1 and key is not None:
                self.notes.fault(place, f"The same stands there twice: {key}.")

    def _refuse_unknown(self, given: Mapping[str, Any], known: Iterable[str], place: str) -> None:
        for name in given:
            if name not in known:
                self.notes.fault(f"{place}.{name}", f"This key is not known here{did_you_mean(name, known)}.")

    @contextmanager
    def _at(self, place: str) -> Iterator[None]:
        try:
            yield
        except FaultyValue as fault:
            self.notes.fault(place, fault.sentence)
