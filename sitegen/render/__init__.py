"""Rendering: computed archives to pages, sheets and pictures as bytes. No file is touched."""
