"""What a job buys, how long it takes, what a wheel costs.

Start at `wheel_cost.py`, which sums `buying.py` and `time_plan.py`.
May import: job, words, schema and below; neither terminal nor papers.
"""
