from django.urls import URLPattern

app_name = "panel"
urlpatterns: list[URLPattern] = []
