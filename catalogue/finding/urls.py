from django.urls import path

from catalogue.finding import views

urlpatterns = [
    path("references/filters/save/", views.filter_save, name="filter-save"),
    path("references/filters/<int:pk>/delete/", views.filter_delete, name="filter-delete"),
]
