"""Garments related to each other: said once, shown both ways."""

import pytest
from django.urls import reverse

from catalogue.references.models.relation import Relation
from catalogue.workroom.index.filing import file_references
from tests.makers.rows import make_reference


@pytest.fixture
def pair(people):
    first, second = (make_reference(people.workroom, name=name) for name in ("brown bodice", "green skirt"))
    file_references([first.pk, second.pk])
    return first, second


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


def relate(maker, this, kind, other, **more):
    return maker.post(reverse("relation-add", args=[this.pk]), {"kind": kind, "other": other.pk, **more})


def shown(maker, reference) -> str:
    page = maker.get(reference.get_absolute_url()).content.decode()
    section = page[page.index('id="relations"') :]
    return " ".join(section[: section.index("</section>")].split())


@pytest.mark.parametrize(
    ("kind", "here", "there"),
    [
        ("same garment", "Is the same garment, in another source, as", "Is the same garment, in another"),
        ("worn with", "Was worn with", "Was worn with"),
        ("same cut", "Has the same cut as", "Has the same cut as"),
        ("variant of", "Is a variant of", "Has as a variant"),
        ("has variant", "Has as a variant", "Is a variant of"),
    ],
)  # fmt: skip
def test_it_reads_rightly_from_both_ends(maker, pair, kind, here, there):
    first, second = pair
    relate(maker, first, kind, second, note="one label")
    assert f'{here} <a href="{second.get_absolute_url()}">green skirt</a>' in shown(maker, first)
    page = shown(maker, second)
    assert there in page
    assert f'<a href="{first.get_absolute_url()}">brown bodice</a>' in page


@pytest.mark.parametrize(("kind", "again"), [("worn with", "worn with"), ("variant of", "has variant")])
def test_it_is_said_once_from_whichever_end(maker, pair, kind, again):
    first, second = pair
    relate(maker, first, kind, second)
    assert "said already" in relate(maker, second, again, first).content.decode()
    assert Relation.objects.count() == 1


def test_each_may_be_a_variant_of_the_other(maker, pair):
    first, second = pair
    relate(maker, first, "variant of", second)
    assert relate(maker, second, "variant of", first).status_code == 302


def test_a_garment_is_found_by_its_words(maker, people, pair):
    names = maker.get(reverse("relation-add", args=[pair[0].pk]), {"text": "gree"}).context["form"]
    assert [label for _, label in names.fields["other"].choices] == ["green skirt, undated"]
    assert "No other garment" in (
        maker.get(reverse("relation-add", args=[pair[0].pk]), {"text": "hat"}).content.decode()
    )


def test_neither_itself_nor_a_strangers_garment_is_taken(maker, people, pair):
    theirs = make_reference(people.stranger.memberships.get().workroom)
    for other in (pair[0], theirs):
        assert relate(maker, pair[0], "worn with", other).status_code == 200
    assert not Relation.objects.exists()
