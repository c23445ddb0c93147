from django.urls import path

from catalogue.views import people

urlpatterns = [
    # people
    path("sign-in/once/<str:uid>/<str:token>/", people.sign_in_once, name="sign-in-once"),
    path("password/", people.password_set, name="password-set"),
    path("preferences/", people.preferences, name="preferences"),
    path("workroom/", people.workroom_detail, name="workroom-detail"),
    path("workroom/switch/", people.workroom_switch, name="workroom-switch"),
    path("members/add/", people.member_add, name="member-add"),
    path("members/<int:pk>/", people.member_change, name="member-change"),
    path("members/<int:pk>/remove/", people.member_remove, name="member-remove"),
    path("members/<int:pk>/sign-in-address/", people.member_sign_in_address, name="member-sign-in-address"),
    # sources
    # reference garments
    # plates, pieces, readings, seams
    # photographs
]
