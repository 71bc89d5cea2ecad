from consult.cli import run

run()
