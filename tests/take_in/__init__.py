"""Take-in: tables and photographs from outside, into a studio's folder."""
