"""The sheet to print and fill in by hand."""

import pytest

from fitting.wearers.showing import lines_of
from tests.makers.rows import make_wearer


@pytest.mark.parametrize("dress", ["women's", "men's", "children's"])
def test_the_sheet_asks_for_the_lines_of_the_wearers_dress_and_tells_how(client, people, dress):
    client.force_login(people.maker)
    wearer = make_wearer(people.workroom, dress=dress)
    page = client.get(f"/wearers/{wearer.pk}/sheet/").content.decode().replace("&#x27;", "'")
    assert page.count("<svg") == 3
    for line in lines_of(dress):
        assert line.instruction in page
    assert ("Seated on a hard chair" in page) is (dress != "women's")
