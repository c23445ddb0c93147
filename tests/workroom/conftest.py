import pytest

from catalogue.workroom.models import Workroom
from tests.makers.full_workroom import fill_workroom


@pytest.fixture
def workroom(db) -> Workroom:
    return fill_workroom(Workroom.objects.create(name="Attic table"))


@pytest.fixture
def empty(db) -> Workroom:
    return Workroom.objects.create(name="New house")
