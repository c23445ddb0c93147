from django.db import migrations


class Migration(migrations.Migration):
    dependencies = [("catalogue", "0023_drop_what_long_work_says")]
    operations = [
        migrations.RenameModel("Deleted", "DeletedRow"),
        migrations.RenameModel("Unwanted", "UnwantedFile"),
    ]
