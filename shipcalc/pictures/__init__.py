"""Pictures made by hand: one scene, drawn as SVG and as PNG."""
