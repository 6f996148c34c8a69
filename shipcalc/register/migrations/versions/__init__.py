"""The steps, oldest first. A step that was ever released is never changed: a new one is added, and `schema.NEWEST` raised."""
