from django.urls import path

from catalogue.photographs import views
from catalogue.photographs.models import Photo
from catalogue.workroom.views.deletion import row_delete

urlpatterns = [
    path("references/<int:pk>/photos/add/", views.photo_add, name="photo-add"),
    path("references/<int:pk>/photos/", views.photo_list, name="photo-list"),
    path("photos/<int:pk>/", views.photo_detail, name="photo-detail"),
    path("photos/<int:pk>/close/<int:column>/<int:row>/", views.photo_close, name="photo-close"),
    path("photos/<int:pk>/parts/<int:column>/<int:row>/", views.photo_part, name="photo-part"),
    path("photos/<int:pk>/move/", views.photo_move, name="photo-move"),
    path("photos/<int:pk>/change/", views.photo_change, name="photo-change"),
    path("photos/<int:pk>/delete/", row_delete, {"model": Photo}, name="photo-delete"),
    path("photos/<int:pk>/<int:size>/", views.photo_file, name="photo-file"),
]
