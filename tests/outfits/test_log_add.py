import datetime
import io

import pytest
from django.utils import timezone
from PIL import Image

from catalogue.workroom.actions.deletion import forget_deleted
from catalogue.workroom.files import open_file
from catalogue.workroom.models import DeletedRow
from fitting.outfits.models.garment import Garment
from fitting.outfits.models.log import LogEntry, LogPhoto
from tests.makers.rows import make_entry, make_garment, make_log_photo, make_outfit, make_task, make_wearer

TODAY = timezone.localdate()


@pytest.fixture
def maker(client, people):
    client.force_login(people.maker)
    return client


@pytest.fixture
def outfit(people):
    return make_outfit(people.workroom, wearer=make_wearer(people.workroom))


def picture(name: str = "a.jpg") -> io.BytesIO:
    """A phone's photograph, with the place where it was taken."""
    image, file = Image.new("RGB", (60, 40), "tan"), io.BytesIO()
    exif = image.getexif()
    exif.get_ifd(0x8825)[1] = "N"
    image.save(file, "JPEG", exif=exif)
    file.seek(0)
    file.name = name
    return file


def add(maker, outfit, **typed):
    """What a phone sends: every box of the page, mostly empty."""
    return maker.post(f"/outfits/{outfit.pk}/log/add/", {"day": TODAY.isoformat(), **typed})


def test_a_line_and_a_tap_are_enough(maker, people, outfit):
    answer = add(maker, outfit, text="Eyelets.")
    entry = outfit.log.get()
    assert (entry.text, entry.by, entry.day) == ("Eyelets.", people.maker, TODAY)
    assert answer.url == f"/outfits/{outfit.pk}/log/#entry-{entry.pk}"


def test_it_is_offered_with_todays_day_and_the_garment_that_it_came_from(maker, outfit):
    stays = make_garment(outfit, name="stays")
    form = maker.get(f"/outfits/{outfit.pk}/log/add/?garment={stays.pk}").context["form"]
    assert form["garment"].value() == str(stays.pk)
    assert form["day"].value() == TODAY


@pytest.mark.parametrize(
    "typed",
    [{"hours": "1.5"}, {"cost": "3.20"}, {"text": "x"}, {"seam_um": "10 in", "seam_minutes": "20"}],
)
def test_any_one_thing_is_enough(maker, outfit, typed):
    add(maker, outfit, **typed)
    assert outfit.log.count() == 1


def test_nothing_at_all_is_no_entry(maker, outfit):
    form = add(maker, outfit).context["form"]
    assert form.errors == {"text": ["Say what was done, or how long, or show it."]}


def test_a_new_stage_moves_the_garment_and_says_where_it_came_from(maker, outfit):
    shift = make_garment(outfit, name="shift", stage="cut")
    add(maker, outfit, garment=shift.pk, stage="sewn", hours="2")
    shift.refresh_from_db()
    entry = outfit.log.get()
    assert (shift.stage, shift.made_on, entry.stage_before) == ("sewn", TODAY, "cut")
    assert "cut →" in maker.get(f"/outfits/{outfit.pk}/log/").text


def test_an_older_entry_typed_later_does_not_move_the_garment_back(maker, outfit):
    shift = make_garment(outfit, name="shift")
    add(maker, outfit, garment=shift.pk, stage="sewn")
    earlier = TODAY - datetime.timedelta(days=9)
    add(maker, outfit, garment=shift.pk, stage="cut", day=earlier.isoformat())
    assert Garment.objects.get().stage == "sewn"


def test_a_stage_without_a_garment_is_asked_about(maker, outfit):
    assert "garment" in add(maker, outfit, stage="sewn").context["form"].errors


def test_hours_count_for_the_task_which_can_be_finished_with_it(maker, outfit):
    shift = make_garment(outfit, name="shift")
    task = make_task(outfit, garment=shift)
    add(maker, outfit, task=task.pk, hours="2.5", finishes_task="on")
    task.refresh_from_db()
    assert task.done_on == TODAY
    assert outfit.tasks.with_hours().get().done_hours == 2.5
    assert outfit.log.get().garment == shift


def test_a_task_of_another_garment_is_refused(maker, outfit):
    task = make_task(outfit, garment=make_garment(outfit, name="shift"))
    other = make_garment(outfit, name="gown")
    form = add(maker, outfit, task=task.pk, garment=other.pk, hours="1").context["form"]
    assert "task" in form.errors


def test_photographs_are_drawn_again_without_place_and_the_sent_file_is_not_kept(maker, outfit, data_folder):
    add(maker, outfit, pictures=[picture("a.jpg"), picture("b.jpg")])
    photos = LogPhoto.objects.all()
    assert len(photos) == 2
    kept = {file.name for file in (data_folder / "files" / "log").iterdir()}
    assert kept == {f"{photo.stem}-{size}.jpg" for photo in photos for size in (320, 960, 2000)}
    for photo in photos:
        assert not Image.open(open_file(photo.file(960))).getexif()
    assert all((photo.shows_wearer, photo.wearer) == (False, None) for photo in photos)


def test_a_file_that_is_no_picture_is_named_and_the_rest_kept(maker, outfit):
    broken = io.BytesIO(b"<svg onload=alert(1)>")
    broken.name = "x.jpg"
    answer = maker.post(
        f"/outfits/{outfit.pk}/log/add/",
        {"day": TODAY.isoformat(), "pictures": [picture(), broken]},
        follow=True,
    )
    assert "Not kept: x.jpg" in answer.text
    assert LogPhoto.objects.count() == 1


@pytest.mark.parametrize("typed", [{"shows_wearer": "on"}, {"stage": "fitted"}, {"task": "fit"}])
def test_a_photograph_of_the_wearer_or_of_a_fitting_is_personal(maker, client, people, outfit, typed):
    garment = make_garment(outfit, name="stays")
    task = make_task(outfit, garment=garment, leads_to="fitted")
    if "task" in typed:
        typed = {"task": task.pk}
    add(maker, outfit, garment=garment.pk, pictures=[picture()], **typed)
    photo = LogPhoto.objects.get()
    assert (photo.shows_wearer, photo.wearer) == (True, outfit.wearer)
    address = f"/log/photos/{photo.pk}/320/"
    assert maker.get(address).status_code == 200
    assert maker.get(address)["Cache-Control"] == "private, no-store"
    client.force_login(people.reader)
    assert client.get(address).status_code == 403
    assert address not in client.get(f"/outfits/{outfit.pk}/log/").text


def test_a_reader_sees_the_log_and_its_other_photographs(maker, client, people, outfit):
    add(maker, outfit, text="Linen came.", pictures=[picture()])
    photo = LogPhoto.objects.get()
    client.force_login(people.reader)
    page = client.get(f"/outfits/{outfit.pk}/log/").text
    assert "Linen came." in page
    assert f"/log/photos/{photo.pk}/320/" in page
    assert client.get(f"/log/photos/{photo.pk}/320/")["X-Content-Type-Options"] == "nosniff"
    assert client.get(f"/log/photos/{photo.pk}/321/").status_code == 404
    assert client.get(f"/outfits/{outfit.pk}/log/add/").status_code == 403


def test_a_photograph_can_be_found_to_show_the_wearer_later(maker, outfit):
    photo = make_log_photo(make_entry(outfit))
    maker.post(f"/log/photos/{photo.pk}/change/", {"caption": "left side", "shows_wearer": "on"})
    photo.refresh_from_db()
    assert (photo.caption, photo.is_personal, photo.wearer) == ("left side", True, outfit.wearer)


@pytest.mark.django_db(transaction=True)
@pytest.mark.parametrize("gone", ["entry", "photo", "outfit", "wearer"])
def test_no_picture_outlives_what_it_belongs_to(maker, outfit, data_folder, gone):
    add(maker, outfit, text="x", pictures=[picture()], shows_wearer="on")
    photo, folder = LogPhoto.objects.get(), data_folder / "files" / "log"
    assert len(list(folder.iterdir())) == 3
    if gone == "wearer":
        outfit.wearer.delete()
    else:
        rows = {"entry": f"/log/{photo.entry_id}", "photo": f"/log/photos/{photo.pk}"}
        maker.post(f"{rows.get(gone, f'/outfits/{outfit.pk}')}/delete/")
        assert len(list(folder.iterdir())) == 3
        forget_deleted(deleted=DeletedRow.objects.get())
    assert not LogPhoto.objects.exists()
    assert list(folder.iterdir()) == []


def test_an_entry_is_changed_and_keeps_its_photographs_and_its_author(maker, people, outfit):
    entry = make_entry(outfit, by=people.keeper)
    make_log_photo(entry)
    maker.post(f"/log/{entry.pk}/change/", {"day": "2026-11-01", "text": "", "hours": "1"})
    entry.refresh_from_db()
    assert (entry.day, entry.hours, entry.by) == (datetime.date(2026, 11, 1), 1, people.keeper)
    assert entry.photos.count() == 1


@pytest.mark.parametrize("count", [1, 50])
def test_the_page_of_the_log_takes_the_same_queries_for_any_number(
    maker, outfit, django_assert_num_queries, count
):
    garment = make_garment(outfit)
    for _ in range(count):
        make_log_photo(make_entry(outfit, garment=garment, task=make_task(outfit, garment=garment)))
    with django_assert_num_queries(8):
        maker.get(f"/outfits/{outfit.pk}/log/")


def test_the_log_of_one_garment_is_its_own(maker, outfit):
    shift, gown = make_garment(outfit, name="shift"), make_garment(outfit, name="gown")
    make_entry(outfit, garment=shift, text="Gores on.")
    make_entry(outfit, garment=gown, text="Silk came.")
    page = maker.get(f"/outfits/{outfit.pk}/log/?garment={shift.pk}").text
    assert "Gores on." in page
    assert "Silk came." not in page


@pytest.mark.parametrize("garment", ["x", "", "99999999999999999999", "-1"])
def test_a_garment_that_is_none_shows_the_whole_log(maker, outfit, garment):
    make_entry(outfit)
    assert "Eyelets worked." in maker.get(f"/outfits/{outfit.pk}/log/?garment={garment}").text


def test_an_empty_log_says_what_it_is_for(maker, outfit):
    assert "Nothing in the log yet" in maker.get(f"/outfits/{outfit.pk}/log/").text
    assert not LogEntry.objects.exists()


@pytest.mark.parametrize("typed", [{"seam_um": "10 in"}, {"seam_minutes": "20"}])
def test_a_timed_seam_has_both_a_length_and_its_minutes(maker, outfit, typed):
    answer = add(maker, outfit, text="Sampled.", **typed)
    assert "both a length and its minutes" in answer.content.decode()
    assert outfit.log.count() == 0


def test_a_seam_timed_in_the_log_fills_the_sheet_of_sewing_time(maker, outfit):
    """Thirty inches in an hour: the newest of the garment itself, before a newer one of another."""
    stays, shift = make_garment(outfit, name="stays"), make_garment(outfit, name="shift")
    add(maker, outfit, garment=stays.pk, seam_um="30 in", seam_minutes="60")
    add(maker, outfit, garment=shift.pk, seam_um="8 in", seam_minutes="60")
    for garment, wanted in ((stays, "30 in"), (shift, "8 in")):
        sheet = maker.get(f"/garments/{garment.pk}/work/sewing/").context["sheet"]
        assert sheet["sample_mm"].value() == wanted
        assert sheet["minutes"].value() == "60"
        assert "From the log" in sheet.fields["sample_mm"].help_text
    assert "30 in sewn in 60 min" in maker.get(f"/outfits/{outfit.pk}/log/").content.decode()
