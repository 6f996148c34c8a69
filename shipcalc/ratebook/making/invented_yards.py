"""The invented rows of the sheets *Storage* and *Terminals*: yards, terminals and prices are made up."""

STORAGE_FIELDS = "storage yard indoors per amount_minor free_days"
STORAGE = """
Indoor storage at Bellingham | Bellingham | yes | day   | 7   | 14
Indoor storage at Savannah   | Savannah   | yes | day   | 6   | 14
Storage                      |            | no  | month | 150 | 10
"""

TERMINAL_FIELDS = "terminal zip_code discount_minor fee_minor free_days hours"
TERMINALS = """
Spokane terminal     | 99224 | 90 | 40 | 3 | weekdays 8 to 5
Billings terminal    | 59101 | 90 | 40 | 3 | weekdays 8 to 5
Boise terminal       | 83705 | 90 | 40 | 3 | weekdays 8 to 5
Salt Lake terminal   | 84104 | 90 | 45 | 4 | weekdays 7 to 6
Denver terminal      | 80239 | 95 | 45 | 4 | weekdays 7 to 6
Sacramento terminal  | 95828 | 90 | 45 | 3 | weekdays 8 to 5
Phoenix terminal     | 85043 | 90 | 45 | 3 | weekdays 6 to 3
Dallas terminal      | 75212 | 95 | 45 | 4 | weekdays 7 to 6
Kansas City terminal | 64120 | 90 | 40 | 4 | weekdays 8 to 5
Minneapolis terminal | 55421 | 90 | 40 | 4 | weekdays 8 to 5
Chicago terminal     | 60633 | 95 | 50 | 3 | weekdays 7 to 6
Atlanta terminal     | 30336 | 95 | 45 | 4 | weekdays 7 to 6
Orlando terminal     | 32824 | 90 | 40 | 3 | weekdays 8 to 5
Harrisburg terminal  | 17111 | 90 | 40 | 3 | weekdays 8 to 5
Hartford terminal    | 06114 | 90 | 40 | 3 | weekdays 8 to 5
"""
