import django.core.validators
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('fitting', '0011_lengths_fit_within_three_eighths'),
    ]

    operations = [
        migrations.AddField(
            model_name='garment',
            name='arc_percent',
            field=models.PositiveSmallIntegerField(blank=True, help_text='Left empty: half for a pad or an apron, else all of it.', null=True, validators=[django.core.validators.MinValueValidator(1), django.core.validators.MaxValueValidator(100)], verbose_name='covers of the way round, in per cent'),
        ),
        migrations.AddField(
            model_name='garment',
            name='band_at',
            field=models.CharField(blank=True, choices=[('under bust', 'under the bust'), ('waist', 'at the waist'), ('hip', 'at the hip')], help_text='Left empty: as its kind and period have it.', max_length=12, verbose_name='where its band sits'),
        ),
        migrations.AddField(
            model_name='garment',
            name='is_gauged',
            field=models.BooleanField(default=False, verbose_name='gauged or cartridge-pleated: it stands outside its band'),
        ),
        migrations.AddField(
            model_name='garment',
            name='kind',
            field=models.CharField(blank=True, choices=[('shift or shirt', 'shift or shirt'), ('stays or corset', 'stays or corset'), ('drawers', 'drawers'), ('trousers or breeches', 'trousers or breeches'), ('petticoat', 'petticoat'), ('skirt', 'skirt'), ('apron', 'apron'), ('pad or bum roll', 'pad or bum roll'), ('hoop or bustle', 'hoop or bustle'), ('bodice', 'bodice'), ('jacket', 'jacket'), ('waistcoat', 'waistcoat'), ('gown', 'gown'), ('coat', 'coat'), ('kerchief', 'kerchief'), ('neckcloth', 'neckcloth'), ('stockings', 'stockings'), ('head or hands', 'head or hands')], help_text='It says where the garment lies on the body, and what there is to do for it.', max_length=20),
        ),
        migrations.AddField(
            model_name='garment',
            name='lies_at',
            field=models.JSONField(blank=True, default=list, verbose_name='where it lies'),
        ),
        migrations.AddField(
            model_name='garment',
            name='made_said_at',
            field=models.DateTimeField(blank=True, editable=False, null=True),
        ),
        migrations.AddField(
            model_name='measures',
            name='still_good_at',
            field=models.DateTimeField(blank=True, editable=False, null=True),
        ),
    ]
