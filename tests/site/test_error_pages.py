"""What a person reads when something does not work: whose move it is, and where to go."""

import pytest
from django.conf import settings
from django.test import Client

from catalogue.workroom.faults import fault_page
from tests.makers.rows import make_people, make_source, make_wearer

pytestmark = pytest.mark.django_db


def test_an_address_with_nothing_behind_it_leads_back_home(client):
    client.force_login(make_people().maker)
    answer = client.get("/no/such/page/")
    assert answer.status_code == 404
    assert "There is nothing at this address" in answer.text
    assert 'href="/"' in answer.text


def test_another_workrooms_page_looks_like_one_that_is_not_there(client):
    people = make_people()
    client.force_login(people.stranger)
    answer = client.get(make_source(people.workroom).get_absolute_url())
    assert answer.status_code == 404
    assert "There is nothing at this address" in answer.text


def test_a_number_that_no_row_can_have_is_an_answer_not_a_fault(client):
    people = make_people()
    client.force_login(people.maker)
    path = f"/wearers/{make_wearer(people.workroom).pk}/measures/add/"
    assert client.post(path, {"worn": "9" * 25}).status_code in (200, 404)


def test_a_refusal_says_why(client):
    people = make_people()
    client.force_login(people.reader)
    answer = client.get(make_wearer(people.workroom).get_absolute_url())
    assert answer.status_code == 403
    assert "Body measures" in answer.text


def test_a_form_from_before_the_sign_in_says_that_nothing_was_saved():
    answer = Client(enforce_csrf_checks=True).post("/sign-in/", {"username": "keeper", "password": "x"})
    assert answer.status_code == 403
    assert "nothing was saved" in answer.text


def test_what_is_too_much_says_how_much_would_do(client):
    answer = client.post("/sign-in/", {"username": "x" * settings.DATA_UPLOAD_MAX_MEMORY_SIZE})
    assert answer.status_code == 413
    assert "nothing of it was saved" in answer.text
    assert f"Files may come to {settings.MOST_SENT_BYTES >> 30} GB" in answer.text
    assert f"typed to {settings.DATA_UPLOAD_MAX_MEMORY_SIZE >> 20} MB" in answer.text


def test_a_name_that_the_program_does_not_go_by_says_where_its_names_are_set(client):
    answer = client.get("/sign-in/", headers={"host": "elsewhere.example"})
    assert answer.status_code == 400
    assert "PLATE_HOSTS" in answer.text


def test_a_fault_of_the_program_needs_nothing_to_be_told(rf, django_assert_num_queries):
    with django_assert_num_queries(0):
        answer = fault_page(rf.get("/"))
    assert answer.status_code == 500
    assert "not your doing" in answer.content.decode()
