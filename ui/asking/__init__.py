"""Fields and forms that ask for what a job document takes."""
