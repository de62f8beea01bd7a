"""The print-shop check of finished PDFs: what was printed, judged without the models behind it."""
