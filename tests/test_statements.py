"""Which tests are run on the second database, of some whose statements are told here by numbers."""

import pytest
from django.db import DatabaseError, connection
from hypothesis import given
from hypothesis import strategies as st

from catalogue.workroom.models import Workroom
from tests.statements import fewest, heard

TESTS = st.dictionaries(st.text("abcdefgh", min_size=1), st.lists(st.integers(0, 9), unique=True))


@given(TESTS)
def test_every_statement_is_said_and_no_test_is_chosen_in_vain(said):
    chosen = fewest(said, {test: len(test) for test in said})
    for test in chosen:
        others = {one for other in chosen - {test} for one in said[other]}
        assert set(said[test]) - others
    assert {one for test in chosen for one in said[test]} == {
        one for all_said in said.values() for one in all_said
    }


def test_of_two_that_say_the_same_the_quicker_is_run():
    assert fewest({"slow": [1, 2], "quick": [2, 1]}, {"slow": 2.0, "quick": 1.0}) == {"quick"}


def test_a_statement_is_the_same_whatever_its_values_and_another_when_it_is_refused(db):
    with heard() as first:
        list(Workroom.objects.filter(pk__in=[1, 2]))
    with heard() as second:
        list(Workroom.objects.filter(pk__in=[3, 4, 5, 6]))
    assert first == second
    with heard() as refused, pytest.raises(DatabaseError), connection.cursor() as cursor:
        cursor.execute("SELECT nothing FROM nowhere")
    assert len(refused) == 1
