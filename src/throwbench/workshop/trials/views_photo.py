"""Photos: kept from the round, shown to makers, read tonight."""

from django.http import FileResponse, HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import get_object_or_404, redirect, render
from django.views.decorators.http import condition, require_GET, require_http_methods, require_POST

from throwbench.workshop.house.forms import EntryForm
from throwbench.workshop.house.web import done, now_of, who_of
from throwbench.workshop.trials.forms_asked import with_guess
from throwbench.workshop.trials.forms_photo import PhotoForm, ReadForm
from throwbench.workshop.trials.models import Burn, Photo
from throwbench.workshop.trials.selectors.photos import file_of, shown, to_put_out, unread
from throwbench.workshop.trials.services import photos as keeping
from throwbench.workshop.trials.views_burn import written


@require_POST
def add(request: HttpRequest, pk: int) -> HttpResponse:
    """A photo of a burn, taken now."""
    burn = get_object_or_404(Burn.objects.select_related("candle"), pk=pk)
    form = PhotoForm(request.POST, request.FILES)
    if done(form, lambda: _keep(request, burn, form)):
        return redirect("trials:round") if burn.out_at is None else redirect("trials:burn", pk)
    return render(request, "trials/photo_refused.html", {"form": form, "burn": burn})


def _keep(request: HttpRequest, burn: Burn, form: PhotoForm) -> Photo:
    now, entry = now_of(request), form.cleaned_data["entry"]
    told = {"at": now, "who": who_of(request), "now": now, "entry": entry}
    return keeping.keep_photo(burn, picture=form.picture(), **told)


@require_GET
def waiting(request: HttpRequest) -> HttpResponse:
    """Photos that wait for their numbers, the oldest first."""
    return render(request, "trials/photos.html", {"photos": unread()})


@require_http_methods(["GET", "POST"])
def read(request: HttpRequest, pk: int) -> HttpResponse:
    """One photo, large, and what it shows."""
    one = shown(_photo(pk))
    data = with_guess(request.POST) if request.method == "POST" else None
    form = ReadForm(data)
    if data is not None and written(form, lambda: _read(request, one.photo, form)):
        return _after(request, one.photo)
    return render(request, "trials/photo.html", {"one": one, "form": form, "aside": _empty()})


def _read(request: HttpRequest, photo: Photo, form: ReadForm) -> object:
    told = {**form.cleaned_data, "who": who_of(request), "now": now_of(request)}
    return keeping.read_photo(photo, **told)


@require_POST
def aside(request: HttpRequest, pk: int) -> HttpResponse:
    """Nothing can be read from it."""
    photo, form = _photo(pk), EntryForm(request.POST)
    if done(form, lambda: _put_aside(request, photo, form)):
        return _after(request, photo)
    page = {"one": shown(photo), "form": ReadForm(), "aside": form}
    return render(request, "trials/photo.html", page)


def _put_aside(request: HttpRequest, photo: Photo, form: EntryForm) -> Photo:
    entry = form.cleaned_data["entry"]
    return keeping.put_photo_aside(photo, who=who_of(request), now=now_of(request), entry=entry)


def _empty() -> EntryForm:
    """Of the second form on a page: no id of it is on the page twice."""
    return EntryForm(auto_id=False)


def _after(request: HttpRequest, photo: Photo) -> HttpResponse:
    """To what has to be put out; else the next that waits; once none does, the burn."""
    if to_put_out(photo, now_of(request)):
        return redirect("trials:round")
    return redirect("trials:photos") if unread() else redirect("trials:burn", photo.burn_id)


def _digest(request: HttpRequest, pk: int) -> str | None:
    """A picture never changes, so its digest stands for it."""
    found = Photo.objects.filter(pk=pk).first()
    return f'"{found.digest}"' if found and file_of(found).is_file() else None


@require_GET
@condition(etag_func=_digest)
def picture(request: HttpRequest, pk: int) -> HttpResponseBase:
    """The file. A browser may keep it, and asks each time whether it still may show it."""
    photo = _photo(pk)
    try:
        file = file_of(photo).open("rb")
    except FileNotFoundError:
        do = "Put it back from a copy of the folder. What was noted of it stays."
        said = {"what": f"The file of this photo is missing: {file_of(photo).name}.", "do": do}
        return render(request, "said.html", said, status=404)
    return FileResponse(
        file, content_type="image/jpeg", headers={"Cache-Control": "private, no-cache"}
    )


def _photo(pk: int) -> Photo:
    told = Photo.objects.select_related(
        "burn__candle__combination__candidate__trial", "burn__room", "read_as", "who", "aside_by"
    )
    return get_object_or_404(told, pk=pk)
