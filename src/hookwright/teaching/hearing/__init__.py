"""What was said against what is written: captions read, words as they were meant, rows found in them, differences weighed and ranked."""
