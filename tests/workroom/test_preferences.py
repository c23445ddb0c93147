"""Each person sees lengths their own way."""


def test_lengths_are_shown_as_the_person_likes_them(client, people):
    client.force_login(people.reader)
    client.post("/preferences/", {"system": "cm", "denominator": "32"})
    people.reader.refresh_from_db()
    assert (people.reader.system, people.reader.denominator) == ("cm", 32)
    people.maker.refresh_from_db()
    assert people.maker.system == "in"


def test_a_fraction_that_no_rule_has_is_refused(client, people):
    client.force_login(people.reader)
    answer = client.post("/preferences/", {"system": "in", "denominator": "7"})
    assert "denominator" in answer.context["form"].errors
