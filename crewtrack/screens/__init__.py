"""What a screen or a terminal says, without any toolkit."""
