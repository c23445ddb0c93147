import django.core.validators
from django.db import migrations, models

from catalogue.sources.models import free_key, readable_key


def make_keys(apps, schema_editor):
    taken = {}
    for source in apps.get_model("catalogue", "Source").objects.order_by("pk"):
        keys = taken.setdefault(source.workroom_id, set())
        source.cite_key = free_key(readable_key(source), keys)
        keys.add(source.cite_key)
        source.save(update_fields=["cite_key"])


class Migration(migrations.Migration):

    dependencies = [
        ('catalogue', '0013_let_winters_run_into_the_next_year'),
    ]

    operations = [
        migrations.AddField(
            model_name='source',
            name='cite_key',
            field=models.CharField(blank=True, help_text='What your other writing calls it by. Left empty, it is made from the author and the year.', max_length=80, validators=[django.core.validators.RegexValidator('^[^\\s{}(),\\"\'#%~\\\\=@]{1,80}\\Z', 'No spaces, commas, braces or other marks.')], verbose_name='key for citing'),
        ),
        migrations.RunPython(make_keys, migrations.RunPython.noop),
        migrations.AlterField(
            model_name='source',
            name='identifier',
            field=models.CharField(blank=True, help_text='ISBN, DOI or accession number; several parted by a semicolon.', max_length=300),
        ),
    ]
