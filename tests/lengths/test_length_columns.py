"""A length is declared once in a model: it has two columns there, and stands in a row as one value."""

from fractions import Fraction

import pytest
from django.db import models
from django.db.migrations.autodetector import MigrationAutodetector
from django.db.migrations.state import ModelState, ProjectState
from django.test.utils import isolate_apps

from catalogue.lengths.models import NO_LENGTH, LengthColumns, TypedLength
from catalogue.plates.models.plate import Fastening, Plate
from catalogue.workroom.kinds import archive_name
from fitting.wearers.models import Maker, Stand, StandMeasure
from tests.makers.rows import make_plate, make_reference

THIRD = TypedLength.read("1/3 in")  # 25.4 mm / 3 = 8466 2/3 µm
COLUMNS = ["id", "rule_um", "rule_text", "page", "page_um", "page_text"]

with isolate_apps("catalogue"):

    class Ruled(models.Model):
        rule = LengthColumns("smallest division", default=TypedLength.read("1/16 in"))
        page = models.CharField(max_length=20)
        page_length = LengthColumns("on the page", null=True, blank=True)

        class Meta:
            app_label = "catalogue"
            abstract = True

    class Drawing(Ruled):
        def __str__(self) -> str:
            return "a drawing"

    class Print(Ruled):
        def __str__(self) -> str:
            return "a print"


def columns_of(row) -> tuple[object, ...]:
    return row.rule_um, row.rule_text, row.page, row.page_um, row.page_text


@pytest.mark.parametrize("model", [Drawing, Print])
def test_each_model_of_an_abstract_base_has_the_columns_once_in_the_order_declared(model):
    assert [one.name for one in model._meta.fields] == COLUMNS
    assert columns_of(model()) == (1588, "1/16 in", "", None, "")  # 25.4 mm / 16 = 1587.5 µm


def test_a_row_is_made_with_a_length():
    row = Drawing(rule=THIRD, page="12", page_length=NO_LENGTH)
    assert columns_of(row) == (8467, "1/3 in", "12", 0, "")
    assert (row.rule, row.page_length) == (THIRD, NO_LENGTH)


def test_a_length_that_is_set_fills_both_columns_and_none_empties_both():
    row = Drawing(page="12")
    row.page_length = THIRD
    assert columns_of(row)[2:] == ("12", 8467, "1/3 in")
    row.page_length = None
    assert columns_of(row)[2:] == ("12", None, "")
    assert row.page_length is None


def test_what_was_typed_is_exact_and_what_was_not_is_as_its_micrometres_say():
    assert Drawing(rule=THIRD).rule.exact_mm == Fraction("25.4") / 3
    assert Drawing().rule.mm == 1.5875  # not the 1.588 of the column
    assert Drawing(rule_um=8467, rule_text="").rule.exact_mm == Fraction("8.467")
    assert TypedLength.read("-1/3 in", signed=True).exact_mm == -Fraction("25.4") / 3


def test_a_length_is_called_the_same_in_its_row_and_in_an_archive():
    for model in (Drawing, Plate):
        name = archive_name(model._meta.get_field("page_um"))
        assert name == "page_length"
        assert getattr(model(page_length=THIRD), name) == THIRD


def test_an_update_names_the_columns(people):
    plate = make_plate(make_reference(people.workroom))
    Fastening.objects.create(plate=plate, overlap=THIRD)
    Fastening.objects.update(overlap_um=25_400, overlap_text="1 in", gap_um=5000)
    fastening = Fastening.objects.get(overlap_um__gte=25_400)
    assert (fastening.overlap, fastening.gap) == (TypedLength.read("1 in"), TypedLength(text="", um=5000))


def test_rows_made_together_and_rows_made_or_changed_take_a_length(people):
    stand = Stand.objects.create(workroom=people.workroom, name="form")
    StandMeasure.objects.bulk_create(
        StandMeasure(stand=stand, line=line, value=THIRD) for line in ("bust", "hip")
    )
    StandMeasure.objects.update_or_create(
        stand=stand, line="hip", defaults={"value": TypedLength.read("36 in")}
    )
    kept = stand.measures.order_by("line").values_list("line", "value_um", "value_text")
    assert list(kept) == [("bust", 8467, "1/3 in"), ("hip", 914_400, "36 in")]


def test_a_migration_has_each_column_once_and_its_model_takes_the_columns():
    state = ProjectState()
    state.add_model(ModelState.from_model(Drawing))
    changes = MigrationAutodetector(ProjectState(), state)._detect_changes()
    [created] = changes["catalogue"][0].operations
    assert [name for name, _ in created.fields] == COLUMNS
    old = state.apps.get_model("catalogue", "Drawing")
    assert [one.name for one in old._meta.fields] == COLUMNS
    assert columns_of(old(page_um=5000)) == (1588, "1/16 in", "", 5000, "")


@pytest.mark.parametrize("model", [Plate, Maker])
def test_both_figures_of_a_default_are_one_length(model):
    row = model()
    declared = [one.length_name for one in model._meta.concrete_fields if getattr(one, "length_name", "")]
    defaults = [length for name in declared if (length := getattr(row, name)) is not None]
    assert len(defaults) > 1
    assert defaults == [TypedLength.read(length.text) for length in defaults]
