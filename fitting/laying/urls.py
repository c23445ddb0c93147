from django.urls import path

from fitting.laying import views

urlpatterns = [
    path("garments/<int:pk>/lays/add/", views.lay_add, name="lay-add"),
    path("lays/<int:pk>/", views.lay_detail, name="lay-detail"),
    path("lays/<int:pk>/buy/", views.lay_buy, name="lay-buy"),
    path("lays/<int:pk>/delete/", views.lay_delete, name="lay-delete"),
]
