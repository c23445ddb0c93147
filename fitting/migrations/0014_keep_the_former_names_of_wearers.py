from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('fitting', '0013_keep_what_a_closed_fitting_said'),
    ]

    operations = [
        migrations.AddField(
            model_name='wearer',
            name='former_names',
            field=models.TextField(blank=True, editable=False),
        ),
    ]
