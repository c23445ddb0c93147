"""Readings that stand by a tracing were copies, which a new calibration left behind.

They are written anew with the index card of their garment, and a card that is missing is written when the
program is served.
"""

from django.db import migrations


def take_cards_away(apps, schema_editor):
    cards = apps.get_model("catalogue", "IndexCard").objects
    cards.filter(reference__plates__pieces__traced_readings__is_used=True).delete()


class Migration(migrations.Migration):
    dependencies = [("catalogue", "0017_invite_members_and_keep_one_time_addresses")]
    operations = [migrations.RunPython(take_cards_away, migrations.RunPython.noop)]
