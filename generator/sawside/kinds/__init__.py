"""What can be made of a machine, told once: the kinds of page and of sheet, what each prints, and the shape of a view."""
