"""A Quote becomes what people read: workbook, message, terminal page."""
