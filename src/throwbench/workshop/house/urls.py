"""Addresses of the house and of the way in."""

from django.urls import path

from throwbench.workshop.house import (
    views_address,
    views_begin,
    views_house,
    views_phone,
    views_sign_in,
)

app_name = "house"
urlpatterns = [
    path("sign-in/", views_sign_in.how, name="sign_in"),
    path("sign-in/<str:token>/", views_sign_in.link, name="link"),
    path("sign-in-now/", views_sign_in.enter, name="enter"),
    path("sign-out/", views_sign_in.leave, name="sign_out"),
    path("theme/", views_begin.theme, name="theme"),
    path("begin/", views_begin.begin, name="begin"),
    path("house/", views_house.index, name="index"),
    path("house/people/", views_house.people, name="people"),
    path("house/people/<int:pk>/blank/", views_house.blank, name="blank"),
    path("house/rooms/", views_house.rooms, name="rooms"),
    path("house/rooms/<int:pk>/", views_house.room, name="room"),
    path("house/settings/", views_house.settings, name="settings"),
    path("house/address/", views_address.address, name="address"),
    path("house/address/check/", views_address.check, name="check_address"),
    path("alive/<str:nonce>/", views_address.alive, name="alive"),
    path("house/limits/", views_house.limits, name="limits"),
    path("house/limits/<slug:rule>/", views_house.limit, name="limit"),
    path("house/phone/", views_phone.phone, name="phone"),
]
