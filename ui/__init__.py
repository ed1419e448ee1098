"""The faces: command line, browser pages and figures; no physics."""
