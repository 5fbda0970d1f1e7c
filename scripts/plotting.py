"""What the plot scripts share: files, labels from the file's own attributes, and one look."""
import sys

import h5py
import matplotlib

matplotlib.use("svg")
import matplotlib.pyplot as plt  # noqa: E402

# Told apart by lightness and by blue against orange.
SERVED, WANTED, ALARM, ROOM, PLAIN = "#0a6173", "#b3610c", "#a12a3f", "#5a4796", "#6d7480"


def text(value):
    return value.decode() if isinstance(value, bytes) else str(value)


def texts(dataset):
    return [text(value) for value in dataset[:]]


def label(file, path, whole=True):
    """A dataset's own name and unit: "fresh fodder served that day [kg]"; money has the file's currency."""
    attributes = file[path].attrs
    name, unit = text(attributes["long_name"]), text(attributes["units"])
    if unit == "1" and ("money" in name or "currency" in name):
        unit = text(file.attrs["currency"])
    elif unit == "kg-1":
        unit = text(file.attrs["currency"]) + "/kg"
    for tail in (", quantiles over replications", ", mean over replications", ", mean", ", currency", " money"):
        name = name.replace(tail, "")
    unit = {"degC": "°C", "1": ""}.get(unit, unit)
    return (name if whole else "") + (f" [{unit}]" if unit and whole else unit)


def title(file, axes):
    n = int(file.attrs["replications_completed"])
    axes.set_title(f"{text(file.attrs['title'])}: {n} replications", loc="left")


def draw(usage, make, kind=None):
    """Runs make(file) -> figure on the file named first and saves the figure under the name given second."""
    if len(sys.argv) != 3:
        sys.exit(usage)
    plt.rcParams.update({"svg.hashsalt": "rackwright", "font.size": 9, "svg.fonttype": "none",
                         "axes.spines.top": False, "axes.spines.right": False, "figure.constrained_layout.use": True})
    with h5py.File(sys.argv[1], "r") as file:
        if text(file.attrs.get("file_type", "")) != "rackwright result":
            sys.exit(f"{sys.argv[1]} is not a result file of rackwright")
        if kind and text(file.attrs["kind"]) != kind:
            sys.exit(f"{sys.argv[1]} is a file of {text(file.attrs['kind'])}; this needs one of {kind}")
        if "daily" not in file:
            sys.exit(f"{sys.argv[1]} holds no replications of a design")
        figure = make(file)
        # PNG and PDF by the name's ending; SVG without a date, so that the same file gives the same picture.
        plain = {"Date": None, "Creator": "rackwright"} if sys.argv[2].endswith(".svg") else None
        figure.savefig(sys.argv[2], metadata=plain, dpi=150)
