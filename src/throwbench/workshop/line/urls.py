from django.urls import URLPattern

app_name = "line"
urlpatterns: list[URLPattern] = []
