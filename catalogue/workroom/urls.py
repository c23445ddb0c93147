from django.urls import path

from catalogue.workroom import views

urlpatterns = [
    path("sign-in/once/<str:uid>/<str:token>/", views.sign_in_once, name="sign-in-once"),
    path("password/", views.password_set, name="password-set"),
    path("preferences/", views.preferences, name="preferences"),
    path("workroom/", views.workroom_detail, name="workroom-detail"),
    path("workroom/switch/", views.workroom_switch, name="workroom-switch"),
    path("members/add/", views.member_add, name="member-add"),
    path("members/<int:pk>/", views.member_change, name="member-change"),
    path("members/<int:pk>/remove/", views.member_remove, name="member-remove"),
    path("members/<int:pk>/sign-in-address/", views.member_sign_in_address, name="member-sign-in-address"),
    path("deleted/", views.deleted_list, name="deleted-list"),
    path("deleted/<int:pk>/restore/", views.deleted_restore, name="deleted-restore"),
    path("deleted/<int:pk>/forget/", views.deleted_forget, name="deleted-forget"),
]
