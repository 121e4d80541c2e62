"""How much load the wheel takes: stress analysis of the welded wheel, and the load it allows."""
