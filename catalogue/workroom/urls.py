from django.urls import path

from catalogue.workroom.views import deleted, members, sign_in

urlpatterns = [
    path("sign-in/once/<str:uid>/<str:token>/", sign_in.sign_in_once, name="sign-in-once"),
    path("password/", sign_in.password_set, name="password-set"),
    path("preferences/", sign_in.preferences, name="preferences"),
    path("workroom/", members.workroom_detail, name="workroom-detail"),
    path("workroom/switch/", members.workroom_switch, name="workroom-switch"),
    path("members/add/", members.member_add, name="member-add"),
    path("members/<int:pk>/", members.member_change, name="member-change"),
    path("members/<int:pk>/remove/", members.member_remove, name="member-remove"),
    path("members/<int:pk>/sign-in-address/", members.member_sign_in_address, name="member-sign-in-address"),
    path("deleted/", deleted.deleted_list, name="deleted-list"),
    path("deleted/<int:pk>/restore/", deleted.deleted_restore, name="deleted-restore"),
    path("deleted/<int:pk>/forget/", deleted.deleted_forget, name="deleted-forget"),
]
