"""Who may open what: a row for every address of the program, and six people at each door.

A new address fails the first test until it is said here whom it answers.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from types import SimpleNamespace

import pytest
from django.http import HttpResponse
from django.test import Client
from django.urls import URLPattern, get_resolver, reverse
from django.utils import timezone

from catalogue.access import OPEN_VIEWS
from catalogue.models import User
from catalogue.sign_in import one_time_path
from fitting.actions.calendar import give_address
from fitting.actions.comparison import compare_garment
from fitting.models import Dossier
from tests.fittings import (
    make_alteration,
    make_fitting,
    make_observation,
    make_observation_photo,
    make_shared,
    make_trial,
)
from tests.makers import (
    People,
    make_bodice_plate,
    make_dossier,
    make_entry,
    make_garment,
    make_log_photo,
    make_material,
    make_measures,
    make_outfit,
    make_pattern,
    make_photo,
    make_route_choice,
    make_source,
    make_stand,
    make_task,
    make_wearer,
)

OURS = "Ourselves Alone"  # part of every name in the workroom: no page of a stranger's may hold it
WAIST = "27 7/16 in"  # no page of a reader's may hold it

# Whom a page answers. Nobody is not signed in; a newcomer is, and in no workroom yet.
ANYBODY = frozenset({"nobody", "newcomer", "stranger", "reader", "maker", "keeper"})
SIGNED_IN = ANYBODY - {"nobody"}
MEMBERS = SIGNED_IN - {"stranger", "newcomer"}
WRITERS = MEMBERS - {"reader"}
SEES_MEASURES = WRITERS
KEEPERS = frozenset({"keeper"})


@dataclass(frozen=True, slots=True)
class Door:
    """`row`: what the number in the address counts; none: the page is of the person's own workroom."""

    answers: frozenset[str]
    row: str = ""
    only_post: bool = False
    more: tuple[object, ...] = ()


# fmt: off
TABLE = {
    "home": Door(SIGNED_IN),
    "sign-in": Door(ANYBODY),
    "sign-in-once": Door(ANYBODY),
    "sign-out": Door(SIGNED_IN, only_post=True),
    "password-set": Door(SIGNED_IN),
    "preferences": Door(SIGNED_IN),
    "workroom-detail": Door(MEMBERS),
    "workroom-switch": Door(SIGNED_IN, only_post=True),
    "member-add": Door(KEEPERS),
    "member-change": Door(KEEPERS, "member"),
    "member-remove": Door(KEEPERS, "member"),
    "member-sign-in-address": Door(KEEPERS, "member", only_post=True),
    "source-list": Door(MEMBERS),
    "source-add": Door(WRITERS),
    "source-detail": Door(MEMBERS, "source"),
    "source-change": Door(WRITERS, "source"),
    "source-delete": Door(WRITERS, "source"),
    "reference-list": Door(MEMBERS),
    "filter-save": Door(WRITERS, only_post=True),
    "filter-delete": Door(WRITERS, "saved_filter"),
    "side-by-side": Door(MEMBERS),
    "reference-add": Door(WRITERS),
    "reference-detail": Door(MEMBERS, "reference"),
    "reference-change": Door(WRITERS, "reference"),
    "reference-citations": Door(WRITERS, "reference"),
    "reference-measures": Door(WRITERS, "reference"),
    "reference-delete": Door(WRITERS, "reference"),
    "plate-add": Door(WRITERS, "reference"),
    "plate-detail": Door(MEMBERS, "plate"),
    "plate-readings": Door(WRITERS, "plate", only_post=True),
    "plate-change": Door(WRITERS, "plate"),
    "plate-delete": Door(WRITERS, "plate"),
    "plate-enlarge": Door(MEMBERS, "plate"),
    "piece-start": Door(WRITERS, "plate", only_post=True),
    "piece-add": Door(WRITERS, "plate"),
    "piece-change": Door(WRITERS, "piece"),
    "piece-delete": Door(WRITERS, "piece"),
    "seam-list": Door(MEMBERS, "plate"),
    "seam-propose": Door(WRITERS, "plate"),
    "photo-add": Door(WRITERS, "reference"),
    "photo-change": Door(WRITERS, "photo"),
    "photo-delete": Door(WRITERS, "photo"),
    "photo-file": Door(MEMBERS, "photo", more=(320,)),
    "quick-comparison": Door(MEMBERS),
    "quick-keep": Door(WRITERS, only_post=True),
    "wearer-list": Door(SEES_MEASURES),
    "wearer-add": Door(WRITERS),
    "wearer-detail": Door(SEES_MEASURES, "wearer"),
    "wearer-change": Door(WRITERS, "wearer"),
    "wearer-export": Door(KEEPERS, "wearer"),
    "wearer-erase": Door(KEEPERS, "wearer"),
    "wearer-sheet": Door(SEES_MEASURES, "wearer"),
    "measures-add": Door(WRITERS, "wearer"),
    "measures-detail": Door(SEES_MEASURES, "measures"),
    "measures-change": Door(WRITERS, "measures"),
    "measures-delete": Door(WRITERS, "measures"),
    "measures-confirm": Door(WRITERS, "measures", only_post=True),
    "outfit-list": Door(MEMBERS),
    "outfit-add": Door(WRITERS),
    "outfit-detail": Door(MEMBERS, "outfit"),
    "outfit-change": Door(WRITERS, "outfit"),
    "outfit-delete": Door(WRITERS, "outfit"),
    "garment-add": Door(WRITERS, "outfit"),
    "garment-detail": Door(MEMBERS, "garment"),
    "garment-change": Door(WRITERS, "garment"),
    "garment-move": Door(WRITERS, "garment", only_post=True),
    "garment-delete": Door(WRITERS, "garment"),
    "fitting-list": Door(SEES_MEASURES),
    "fitting-plan": Door(WRITERS, "outfit"),
    "fitting-detail": Door(SEES_MEASURES, "fitting"),
    "fitting-change": Door(WRITERS, "fitting"),
    "fitting-delete": Door(WRITERS, "fitting"),
    "fitting-hold": Door(WRITERS, "fitting"),
    "fitting-type-up": Door(WRITERS, "fitting"),
    "fitting-close": Door(WRITERS, "fitting"),
    "fitting-reopen": Door(WRITERS, "fitting", only_post=True),
    "observation-change": Door(WRITERS, "observation"),
    "observation-delete": Door(WRITERS, "observation"),
    "observation-drop": Door(WRITERS, "observation", only_post=True),
    "observation-photo-add": Door(WRITERS, "observation"),
    "observation-photo-delete": Door(WRITERS, "observation_photo"),
    "observation-photo-file": Door(SEES_MEASURES, "observation_photo", more=(320,)),
    "alteration-add": Door(WRITERS, "garment"),
    "alteration-change": Door(WRITERS, "alteration"),
    "alteration-delete": Door(WRITERS, "alteration"),
    "alteration-tick": Door(WRITERS, "alteration", only_post=True),
    "inlay-list": Door(WRITERS, "garment"),
    "trial-add": Door(WRITERS, "garment"),
    "trial-detail": Door(SEES_MEASURES, "trial"),
    "trial-change": Door(WRITERS, "trial"),
    "trial-delete": Door(WRITERS, "trial"),
    "share-list": Door(WRITERS, "outfit"),
    "share-add": Door(WRITERS, "outfit"),
    "share-end": Door(WRITERS, "share", only_post=True),
    "shared-log": Door(ANYBODY),
    "shared-photo": Door(ANYBODY),
    "comparison-make": Door(WRITERS, "garment", only_post=True),
    "comparison-detail": Door(SEES_MEASURES, "comparison"),
    "route-choose": Door(WRITERS, "garment"),
    "route-outcome": Door(WRITERS, "choice"),
    "outfit-dressing": Door(MEMBERS, "outfit"),
    "log-list": Door(MEMBERS, "outfit"),
    "log-add": Door(WRITERS, "outfit"),
    "log-change": Door(WRITERS, "entry"),
    "log-delete": Door(WRITERS, "entry"),
    "log-photo-change": Door(WRITERS, "log_photo"),
    "log-photo-delete": Door(WRITERS, "log_photo"),
    "log-photo-file": Door(MEMBERS, "log_photo", more=(320,)),
    "task-list": Door(MEMBERS, "outfit"),
    "task-start": Door(WRITERS, "outfit", only_post=True),
    "task-add": Door(WRITERS, "outfit"),
    "task-change": Door(WRITERS, "task"),
    "task-done": Door(WRITERS, "task", only_post=True),
    "task-delete": Door(WRITERS, "task"),
    "material-list": Door(MEMBERS, "outfit"),
    "material-add": Door(WRITERS, "outfit"),
    "shopping-list": Door(MEMBERS, "outfit"),
    "material-change": Door(WRITERS, "material"),
    "material-delete": Door(WRITERS, "material"),
    "calendar-detail": Door(MEMBERS),
    "calendar-feed": Door(ANYBODY),
    "maker-change": Door(WRITERS),
    "stand-list": Door(MEMBERS),
    "stand-add": Door(WRITERS),
    "stand-change": Door(WRITERS, "stand"),
    "stand-delete": Door(WRITERS, "stand"),
    "pattern-list": Door(MEMBERS),
    "pattern-add": Door(WRITERS),
    "pattern-detail": Door(MEMBERS, "pattern"),
    "pattern-alter": Door(WRITERS, "pattern"),
    "pattern-change": Door(WRITERS, "pattern"),
    "pattern-delete": Door(WRITERS, "pattern"),
    "dossier-add": Door(WRITERS, "outfit"),
    "dossier-detail": Door(SEES_MEASURES, "dossier"),
    "dossier-file": Door(SEES_MEASURES, "dossier"),
    "dossier-again": Door(WRITERS, "dossier", only_post=True),
    "dossier-delete": Door(WRITERS, "dossier"),
}
# fmt: on


def names(patterns: list) -> Iterator[str]:
    for pattern in patterns:
        if isinstance(pattern, URLPattern):
            yield pattern.name or f"{pattern.pattern} has no name"
        else:
            yield from names(pattern.url_patterns)


@pytest.fixture
def ours(people: People, data_folder) -> SimpleNamespace:
    """One row of each kind, in the members' workroom, with the files that two of them have."""
    workroom, named = people.workroom, {"name": OURS}
    plate = make_bodice_plate(workroom)
    plate.reference.name = OURS
    plate.reference.save()
    wearer = make_wearer(workroom, **named)
    measures = make_measures(wearer, {"waist": WAIST, "bust": "35 in"})
    outfit = make_outfit(workroom, wearer=wearer, **named)
    garment = make_garment(outfit, plate=plate, measures=measures, **named)
    photo = make_photo(plate.reference)
    dossier = make_dossier(outfit, state=Dossier.State.DONE, file_name="fitting.pdf")
    log_photo = make_log_photo(make_entry(outfit))
    for path in (photo.file(320), log_photo.file(320), dossier.path):
        path.parent.mkdir(parents=True)
        path.write_bytes(b"a file")
    fitting = make_fitting(outfit)
    observation = make_observation(fitting)
    share, secret = make_shared(outfit, entries=[log_photo.entry], photos=[log_photo])
    return SimpleNamespace(
        fitting=fitting,
        observation=observation,
        observation_photo=make_observation_photo(observation),
        alteration=make_alteration(garment, observation=observation),
        trial=make_trial(garment, {"waist": (WAIST, WAIST)}),
        share=share,
        secret=secret,
        member=workroom.members.get(user=people.reader),
        source=make_source(workroom, title=OURS),
        saved_filter=workroom.saved_filters.create(name=OURS, query="kind=bodice"),
        reference=plate.reference,
        plate=plate,
        piece=plate.pieces.first(),
        photo=photo,
        wearer=wearer,
        measures=measures,
        outfit=outfit,
        garment=garment,
        comparison=compare_garment(garment, by=people.maker, at=timezone.now()),
        choice=make_route_choice(garment),
        stand=make_stand(workroom, **named),
        pattern=make_pattern(workroom, **named),
        dossier=dossier,
        entry=log_photo.entry,
        log_photo=log_photo,
        task=make_task(outfit, garment=garment, **named),
        material=make_material(outfit, **named),
    )


@pytest.fixture
def visitors(people: People) -> dict[str, Client]:
    clients = {who: Client() for who in ANYBODY}
    for who in SIGNED_IN - {"newcomer"}:
        clients[who].force_login(getattr(people, who))
    clients["newcomer"].force_login(User.objects.create_user(username="newcomer"))
    return clients


def address(name: str, ours: SimpleNamespace, people: People) -> str:
    if name == "sign-in-once":
        return one_time_path(people.maker)
    if name == "calendar-feed":
        return reverse(name, args=[give_address(people.workroom, user=people.maker)])
    if name == "shared-log":
        return reverse(name, args=[ours.secret])
    if name == "shared-photo":
        return reverse(name, args=[ours.secret, ours.log_photo.pk, 320])
    door = TABLE[name]
    return reverse(name, args=[getattr(ours, door.row).pk, *door.more] if door.row else [])


def is_answered(who: str, door: Door) -> bool:
    """A stranger is answered too, where the page is of whatever workroom they have."""
    return who in door.answers or (who == "stranger" and not door.row)


def check_refusal(who: str, answer: HttpResponse) -> None:
    if who == "nobody":
        assert answer["Location"].startswith(reverse("sign-in"))
    else:
        # Which of the two a newcomer meets tells them nothing.
        owed = {"stranger": (404,), "newcomer": (403, 404)}.get(who, (403,))
        assert answer.status_code in owed, who


def check_answer(who: str, answer: HttpResponse, door: Door) -> None:
    """A page that only takes what is sent may lead to the one it is sent from."""
    assert answer.status_code in ((405,) if door.only_post else (200, 302)), who
    assert not answer.get("Location", "").startswith(reverse("sign-in")), who
    shown = (b"".join(answer) if answer.streaming else answer.content).decode()
    assert who not in {"stranger", "newcomer"} or OURS not in shown
    assert who != "reader" or WAIST not in shown


def test_every_address_has_its_row_and_every_row_an_address():
    assert sorted(names(get_resolver().url_patterns)) == sorted(TABLE)


def test_what_is_open_to_anybody_is_the_one_list():
    assert {name for name, door in TABLE.items() if "nobody" in door.answers} == set(OPEN_VIEWS)


@pytest.mark.parametrize("name", TABLE)
def test_a_page_answers_those_it_is_for_and_nobody_else(people, ours, visitors, name):
    door, at = TABLE[name], address(name, ours, people)
    for who, client in visitors.items():
        if is_answered(who, door):
            check_answer(who, client.get(at), door)
        else:
            check_refusal(who, client.post(at))
            if not door.only_post:
                check_refusal(who, client.get(at))


def test_a_measure_is_where_this_table_says_it_is_hidden(ours, visitors):
    """Without this the search for it on a reader's pages could not fail."""
    for row in (ours.wearer, ours.measures, ours.garment):
        assert WAIST in visitors["maker"].get(row.get_absolute_url()).content.decode()
