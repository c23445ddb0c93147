"""An alteration that reaches the paper leads to the step of the working pattern that makes it."""

import pytest

from tests.makers.fittings import make_alteration
from tests.makers.rows import make_garment, make_outfit
from tests.makers.working_pattern import make_version


@pytest.mark.django_db
@pytest.mark.parametrize(
    ("what", "address"),
    [
        ("let out", "pattern/steps/add/"),
        ("take in", "pattern/steps/add/"),
        ("lengthen", "pattern/steps/lengthen/"),
        ("shorten", "pattern/steps/lengthen/"),
        ("reshape", "pattern/"),
    ],
)
def test_it_leads_to_the_step_that_makes_it(client, people, what, address):
    garment = make_garment(make_outfit(people.workroom))
    make_version(garment)
    make_alteration(garment, what=what)
    client.force_login(people.maker)
    link = f"/garments/{garment.pk}/{address}"
    assert f'<a href="{link}">Make it a step' in client.get(garment.get_absolute_url()).content.decode()
    assert client.get(link).status_code == 200


@pytest.mark.django_db
def test_one_that_only_the_cloth_takes_does_not(client, people):
    garment = make_garment(make_outfit(people.workroom))
    make_alteration(garment, parts=("outer",))
    client.force_login(people.maker)
    assert "Make it a step" not in client.get(garment.get_absolute_url()).content.decode()
