"""The plan follows the work: what is logged, finished and set by hand moves garments, tasks and hours."""

import datetime

import pytest
from django.urls import reverse
from django.utils import timezone

from fitting.comparing.calculation.routes import GUESSED_HOURS
from fitting.fittings.models.session import Fitting
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.log import LogEntry
from fitting.planning.actions import finish_task, lay_out_usual_tasks
from fitting.planning.loading.work import work_on
from tests.makers.rows import make_garment, make_outfit

Stage = Garment.Stage


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


@pytest.fixture
def outfit(people):
    return make_outfit(people.workroom)


def laid_out(outfit) -> dict[str, float]:
    lay_out_usual_tasks(outfit, hours=GUESSED_HOURS)
    return {str(task): task.estimate_hours for task in outfit.tasks.all()}


def open_tasks(garment) -> list[str]:
    return [task.name for task in garment.tasks.filter(done_on=None)]


def today() -> datetime.date:
    return timezone.localdate()


def hours_left(outfit) -> float:
    return work_on(outfit, today=today()).planned.plan.hours_left


def test_each_kind_of_garment_has_its_own_tasks(outfit):
    for name in ("linen shift", "petticoat", "fichu", "jacket"):
        make_garment(outfit, name=name)
    tasks = laid_out(outfit)
    assert "linen shift: toile" not in tasks
    assert "petticoat: measure out the breadths" in tasks
    assert sum(hours for name, hours in tasks.items() if name.startswith("fichu")) == 3
    assert [name for name in tasks if name.startswith("jacket")] == [
        "jacket: pattern", "jacket: toile", "jacket: fit the toile", "jacket: cut out", "jacket: sew",
        "jacket: finish by hand",
    ]  # fmt: skip


def test_the_median_of_ones_own_shifts_stands_in_place_of_the_guess(outfit, people):
    for hours in (4, 5, 9):
        shift = make_garment(outfit, name="shift")
        task = shift.tasks.create(
            outfit=outfit, name="sew", leads_to=Stage.SEWN, estimate_hours=7, done_on=today()
        )
        LogEntry.objects.create(outfit=outfit, garment=shift, task=task, hours=hours)
        shift.stage = Stage.FINISHED
        shift.save()
    make_garment(outfit, name="Sunday shift")
    assert laid_out(outfit)["Sunday shift: sew"] == 5


def test_a_task_that_is_done_brings_its_garment_on_once_all_before_it_are(outfit):
    shift = make_garment(outfit, name="shift")
    laid_out(outfit)
    pattern, cut, *_ = shift.tasks.all()
    finish_task(cut, on=today())
    shift.refresh_from_db()
    assert shift.stage == Stage.STUDIED
    pattern.garment.refresh_from_db()
    finish_task(pattern, on=today())
    shift.refresh_from_db()
    assert shift.stage == Stage.CUT
    finish_task(shift.tasks.get(name="cut out"), on=None)
    shift.refresh_from_db()
    assert shift.stage == Stage.FITTED


def test_a_stage_set_by_hand_moves_its_tasks_forward_and_back(maker, outfit):
    jacket = make_garment(outfit, name="jacket")
    laid_out(outfit)
    sent = {
        "name": "jacket", "purpose": jacket.purpose, "layers": 1, "gather_ratio": 1,
        "references-TOTAL_FORMS": 0, "references-INITIAL_FORMS": 0,
        "eases-TOTAL_FORMS": 0, "eases-INITIAL_FORMS": 0,
    }  # fmt: skip
    address = reverse("garment-change", args=[jacket.pk])
    assert maker.post(address, sent | {"stage": "cut"}).status_code == 302
    assert open_tasks(jacket) == ["sew", "finish by hand"]
    assert maker.post(address, sent | {"stage": "toile"}).status_code == 302
    assert open_tasks(jacket) == ["fit the toile", "cut out", "sew", "finish by hand"]


def test_an_entry_is_one_tap_on_a_task_of_its_garment(maker, outfit):
    shift, jacket = make_garment(outfit, name="shift"), make_garment(outfit, name="jacket")
    laid_out(outfit)
    page = maker.get(reverse("log-add", args=[outfit.pk]), {"garment": shift.pk}).content.decode()
    assert page.count('type="radio" name="task"') == 1 + shift.tasks.count()
    pattern = shift.tasks.get(name="pattern")
    sent = {"task": pattern.pk, "finishes_task": "on", "hours": "2", "day": today().isoformat()}
    assert maker.post(reverse("log-add", args=[outfit.pk]), sent).status_code == 302
    entry = outfit.log.get()
    shift.refresh_from_db()
    assert (entry.garment, entry.stage, shift.stage) == (shift, "patterned", "patterned")
    assert jacket.tasks.filter(done_on=None).count() == 6


def test_hours_logged_for_a_garment_come_off_what_is_left_of_it(outfit):
    """A jacket: pattern 6, toile 3, fit 2, cut 2, sew 12, finish 4: 29 h. 7 h logged without a task are the
    pattern and an hour of the toile: 22 h left. Sewn with 10 h more, all before that: 4 h left."""
    jacket = make_garment(outfit, name="jacket")
    laid_out(outfit)
    assert hours_left(outfit) == pytest.approx(29)
    LogEntry.objects.create(outfit=outfit, garment=jacket, hours=7, day=today())
    assert hours_left(outfit) == pytest.approx(22)
    for task in jacket.tasks.exclude(leads_to=Stage.FINISHED):
        finish_task(task, on=today())
    LogEntry.objects.create(outfit=outfit, garment=jacket, hours=10, day=today())
    assert hours_left(outfit) == pytest.approx(4)
    LogEntry.objects.create(
        outfit=outfit, garment=jacket, hours=1.5, day=today() + datetime.timedelta(days=1)
    )
    assert hours_left(outfit) == pytest.approx(2.5)


def test_two_garments_finished_and_four_sewn_leave_four_times_the_finishing(outfit):
    """Six jackets at 29 h are 174 h; finished two and sewn four, 4 × 4 = 16 h are left, and not 174."""
    for _ in range(6):
        make_garment(outfit, name="jacket")
    laid_out(outfit)
    assert hours_left(outfit) == pytest.approx(174)
    for at, garment in enumerate(outfit.garments.all()):
        last = garment.tasks.get(leads_to=Stage.FINISHED if at < 2 else Stage.SEWN)
        for task in garment.tasks.filter(pk__lte=last.pk):
            finish_task(task, on=today())
    assert [one.stage for one in outfit.garments.all()] == ["finished"] * 2 + ["sewn"] * 4
    assert hours_left(outfit) == pytest.approx(16)


def test_dated_fittings_stand_in_the_plan_and_one_gone_by_says_so(maker, outfit):
    jacket = make_garment(outfit, name="jacket")
    laid_out(outfit)
    for days in (-3, 10):
        at = timezone.now() + datetime.timedelta(days=days)
        Fitting.objects.create(outfit=outfit, planned_for=at).garments.set([jacket])
    work = work_on(outfit, today=today())
    must = {row.task.name: row.planned.must_be_done_by for row in work.planned.rows}
    in_ten_days = today() + datetime.timedelta(days=10)
    assert must["fit the toile"] == in_ten_days
    assert must["pattern"] <= must["toile"] <= in_ten_days
    assert must["sew"] is None
    page = maker.get(reverse("task-list", args=[outfit.pk])).content.decode()
    assert page.count("its day has passed") == 1
    assert f"A fitting: {in_ten_days:%-d %B %Y}." in page


def test_days_to_spare_are_counted_as_the_dates_beside_them(maker, people):
    """Two hours a day and 3 h of work: ready tomorrow evening. The day is in four days, so that the last
    evening is in three: two days to spare."""
    outfit = make_outfit(people.workroom, occasion_on=today() + datetime.timedelta(days=4))
    outfit.tasks.create(outfit=outfit, name="press it", estimate_hours=3)
    plan = work_on(outfit, today=today()).planned.plan
    assert (plan.ready_on() - today()).days == 1
    assert plan.slack_days == 2
    page = maker.get(reverse("task-list", args=[outfit.pk])).content.decode()
    assert f"2, to be ready by the evening of {plan.last_evening:%-d %B %Y}" in page
    outfit.occasion_on = today() - datetime.timedelta(days=2)
    outfit.save()
    assert "has passed" in maker.get(reverse("task-list", args=[outfit.pk])).content.decode()
