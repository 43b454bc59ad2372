"""The commands that make paper; `cli` puts them together with the others."""
