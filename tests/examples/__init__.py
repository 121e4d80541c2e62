"""Scripts as a user would write them; tests/cli/script/test_examples.py runs them."""
