"""What hands and disks do to the program: each a command of its own, and a test with smaller numbers."""
