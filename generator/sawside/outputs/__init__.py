"""What is published: pages for the site and sheets for the printer, all made from one view of a machine."""
