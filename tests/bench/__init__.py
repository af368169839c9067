"""Speed as ratios to floors measured in the same run. Nothing here passes or fails by the clock."""
