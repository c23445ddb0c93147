from django.urls import path

from catalogue.workroom.views.deletion import row_delete
from fitting.laying import views
from fitting.laying.models import Lay

urlpatterns = [
    path("garments/<int:pk>/lays/add/", views.lay_add, name="lay-add"),
    path("lays/<int:pk>/", views.lay_detail, name="lay-detail"),
    path("lays/<int:pk>/buy/", views.lay_buy, name="lay-buy"),
    path("lays/<int:pk>/delete/", row_delete, {"model": Lay}, name="lay-delete"),
]
