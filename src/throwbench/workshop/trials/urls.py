from django.urls import URLPattern

app_name = "trials"
urlpatterns: list[URLPattern] = []
