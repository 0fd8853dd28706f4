"""What is current, what lapses when and what brings it back: pure reckoning over evidence."""
