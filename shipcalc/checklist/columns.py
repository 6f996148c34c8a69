"""What the sheets and columns of a checklist are called: the writer writes them, whoever reads the workbook back finds them."""

SHEET = "Checklist"

# Field of an item → header, in the order of the sheet. `when` is a formula that says how the due date stands to today.
HEADERS = {
    "when": "When",
    "state": "State",
    "due": "Due",
    "title": "What is to be done",
    "owner": "Who",
    "critical": "Critical",
    "slack_days": "May slip (days)",
    "wanted": "What shows it",
    "done_on": "Done on",
    "done_by": "Done by",
    "remark": "Your note",
    "note": "Good to know",
    "source": "Source",
    "id": "Id (do not change)",
}
FOR_THE_PROGRAM = ("id",)
ON_SCREEN_ONLY = ("note", "source")

# What the list said when it was last written stands on a sheet of its own, so that what people change can be told.
LAST_VERSION = "Last version"
SHIPMENT, ABOUT, VERSION, WRITTEN_ON = "Shipment", "About", "Version", "Written on"
MOMENT_HEADERS = ("Moment", "First day", "Last day", "Free days")
LINE_HEADERS = {
    "id": "Id",
    "state": "State",
    "due": "Due",
    "done_on": "Done on",
    "done_by": "Done by",
    "remark": "Note",
    "owner": "Who",
    "title": "What is to be done",
    "stage": "Moment",
    "after": "Waits for",
    "critical": "Critical",
    "due_by_hand": "Day set by hand",
    "added": "In columns of your own",
}

# Moments of a shipment, as people call them.
MOMENTS_IN_WORDS = {
    "ready": "Vehicle ready",
    "pickup": "Pickup",
    "port": "Into the terminal",
    "cut-off": "Papers and vehicle due at the terminal",
    "sailing": "Sailing",
    "arrival": "Arrival",
    "release": "Released",
    "delivery": "Delivery",
}
