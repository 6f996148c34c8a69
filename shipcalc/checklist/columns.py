"""What the columns of the checklist's sheet are called: the writer writes them, whoever reads the sheet back finds them."""

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
