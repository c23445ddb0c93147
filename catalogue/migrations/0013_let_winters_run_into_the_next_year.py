"""A winter was taken for its December alone: the last day of those that end a date moves to February."""

import datetime

from django.db import migrations


def run_on(apps, schema_editor):
    garments = apps.get_model("catalogue", "ReferenceGarment").objects
    for garment in garments.filter(date_edtf__endswith="-24", date_latest__month=12, date_latest__day=31):
        march = datetime.date(garment.date_latest.year + 1, 3, 1)
        garments.filter(pk=garment.pk).update(date_latest=march - datetime.timedelta(days=1))


class Migration(migrations.Migration):
    dependencies = [("catalogue", "0012_say_on_which_page_a_measure_stands")]

    operations = [migrations.RunPython(run_on, migrations.RunPython.noop)]
