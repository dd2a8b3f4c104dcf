"""The plate for whoever cuts or prints it: DXF, SVG, and solids as 3MF or STL."""
