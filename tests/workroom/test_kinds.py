"""What a workroom holds is told once, for every model."""

import subprocess
import sys

import pytest
from django.apps import apps
from django.contrib.auth import get_user_model
from django.db.models import JSONField

from catalogue.workroom.kinds import EXCUSED, KINDS, LISTS, Kind
from catalogue.workroom.models import DeletedRow
from catalogue.workroom.persons import OF_PERSON
from fitting.fittings.models.trial import Trial
from fitting.wearers.models import Wearer

OURS = [model for app in ("catalogue", "fitting") for model in apps.get_app_config(app).get_models()]


@pytest.mark.parametrize("model", OURS, ids=lambda model: model.__name__)
def test_every_model_is_a_kind_or_is_excused_with_a_reason(model):
    assert (model in KINDS) != bool(EXCUSED.get(model))


@pytest.mark.parametrize("kind", KINDS.values(), ids=lambda kind: kind.model.__name__)
def test_every_column_is_said_or_left_out_by_name(kind: Kind):
    """A new column goes with an archive by itself: whoever wants it left out says so in its kind."""
    said = {column.name for column in kind.fields().values()}
    said |= {*kind.points_to, *kind.loose, *kind.named, *kind.people, *kind.left_out, kind.part_of}
    ours = {"id", "key", "created_at", "changed_at", "changed_by", "workroom"}
    ours |= {one.name for one in kind.model._meta.private_fields}  # what other rows say of it
    fields = {one.name for one in kind.model._meta.get_fields() if not one.auto_created}
    assert {name for name in fields - said - ours if not name.endswith("_text")} == set()
    assert {*kind.left_out} <= fields


@pytest.mark.parametrize("kind", KINDS.values(), ids=lambda kind: kind.model.__name__)
def test_json_out_of_an_archive_is_checked(kind: Kind):
    held = {name for name, column in kind.fields().items() if isinstance(column, JSONField)}
    assert held == {*kind.checks}


@pytest.mark.parametrize("kind", KINDS.values(), ids=lambda kind: kind.model.__name__)
def test_what_is_pointed_to_has_a_key_and_stands_before_what_points_to_it(kind: Kind):
    order = list(_in_turn())
    for target in kind.points_to.values():
        assert target.has_key
        assert order.index(target) < order.index(kind)
    assert all(target.has_key for target in kind.loose.values())
    assert kind.has_key or kind.part_of or kind.once


def _in_turn(kinds=None):
    for kind in (LISTS if kinds is None else kinds).values():
        yield from _in_turn(kind.only)
        yield kind
        yield from _in_turn(kind.parts)


def test_whatever_names_a_wearer_says_what_becomes_of_it_without_them():
    naming = {model for model in OURS for one in model._meta.concrete_fields if one.related_model is Wearer}
    assert naming <= {*OF_PERSON}


# What was made stays when a person is erased: a toile, without what was measured of it.
STAY = {Trial}


@pytest.mark.parametrize(
    "model",
    [one for one in OURS if getattr(one, "is_personal", False) is True and one is not DeletedRow],
    ids=lambda one: one.__name__,
)
def test_what_holds_a_measure_is_one_persons_or_stands_in_what_is(model):
    while model not in {*OF_PERSON, *STAY, Wearer}:
        model = KINDS[model].wholes[0].model
    assert model in STAY or model is Wearer or not OF_PERSON[model].stays


def test_no_person_stands_in_an_archive():
    assert get_user_model() in EXCUSED


@pytest.mark.parametrize("library", ["pint", "shapely", "scipy"])
def test_no_start_of_the_program_loads_what_only_an_archive_or_a_typed_length_needs(library):
    asked = f"import django, sys; django.setup(); print({library!r} in sys.modules)"
    answer = subprocess.run([sys.executable, "-c", asked], capture_output=True, text=True, check=True)
    assert answer.stdout == "False\n"
