from django.urls import path

from fitting.bench import views

urlpatterns = [
    path("wearers/<int:pk>/export/", views.wearer_export, name="wearer-export"),
    path("wearers/<int:pk>/photographs/", views.wearer_photographs, name="wearer-photographs"),
    path("wearers/<int:pk>/erase/", views.wearer_erase, name="wearer-erase"),
    path("wearers/<int:pk>/words/", views.wearer_words, name="wearer-words"),
    path("outfits/", views.outfit_list, name="outfit-list"),
    path("outfits/<int:pk>/", views.outfit_detail, name="outfit-detail"),
    path("garments/<int:pk>/", views.garment_detail, name="garment-detail"),
    path("garments/<int:pk>/before-cutting/", views.before_cutting_page, name="before-cutting"),
    path("outfits/<int:pk>/dressing/", views.outfit_dressing, name="outfit-dressing"),
    path("", views.home, name="home"),
]
