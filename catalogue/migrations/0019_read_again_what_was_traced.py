"""Readings that stand by a tracing were copies, which a new calibration left behind.

They are written anew with the index card of their garment, and a card that is missing is written when the
program is served.
"""

from django.db import migrations


def take_cards_away(apps, schema_editor):
    cards = apps.get_model("catalogue", "IndexCard").objects
    cards.filter(reference__plates__pieces__traced_readings__is_used=True).delete()


class Migration(migrations.Migration):
    dependencies = [("catalogue", "0018_give_workrooms_a_time_zone_and_money")]
    operations = [migrations.RunPython(take_cards_away, migrations.RunPython.noop)]
