"""The papers of a shipment, filled in as far as they are known: invoices, instructions, orders, statements, letters.

In: a Quote, the choice that was taken, its references and who is who (`facts.Facts`). Out: a `Paper` each, set as PDF. Every one
is a draft that somebody reads and signs; what is missing stands out, and is listed with where it is filled in.
"""
