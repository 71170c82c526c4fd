"""Addresses of the alarm and of the timers."""

from django.urls import path

from throwbench.web.alarm import views, views_put_out, views_timers

app_name = "alarm"
urlpatterns = [
    path("alarm/", views.alarm, name="alarm"),
    path("alarm/heard/", views.heard, name="heard"),
    path("alarm/rang/", views.rang, name="rang"),
    path("alarm/there/", views.there, name="there"),
    path("alarm/ring/", views.ring, name="ring"),
    path("round/put-out.ics", views_put_out.put_out, name="put_out"),
    path("timers/", views_timers.timers, name="timers"),
    path("timers/<int:pk>/done/", views_timers.timer_done, name="timer_done"),
]
