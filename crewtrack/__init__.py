"""Crew training and currency for units that fly small uncrewed aircraft from boats."""
